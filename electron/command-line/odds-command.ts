import { type Advice, type Advised, adviceOf, nextCheck, type Odds, oddsOf, type Sheet } from '../../reasoner/index.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { atlasOptions, formatOption, sheetOptions } from './option.ts';
import { jsonText, sayTrouble } from './terminal.ts';
import { withSheet } from './with-atlas.ts';

/** `kinplate odds`: what is likely if every entry is right, which entry may be wrong, what to check next, and whether one may stop. For the shop; never for a customer. */
export const oddsCommand = command({
  name: 'odds',
  options: { ...sheetOptions, ...formatOption, ...atlasOptions },
  inPlaceOfWords: 'name the sheet with --sheet',
  help: ['what is likely, which entry may be wrong, what to check next'],
  run: ({ options }, terminal) =>
    withSheet(options, terminal, (atlas, sheet) => {
      if (sheet.kind === 'planned')
        return sayTrouble(terminal, {
          code: 'not-a-found-unit',
          place: 'kind',
          sentence: 'A planned build is chosen, not found: there is nothing to be likely of it.',
        });
      const odds = oddsOf(atlas, sheet);
      if (odds.kind === 'contradiction') {
        terminal.out(
          options.format === 'json'
            ? jsonText({ odds, next: null, stopping: null, advice: null })
            : `Observations contradict each other. Nothing is weighed until they are settled:\n${odds.contradictions.map(({ sentence }) => `  - ${sentence}`).join('\n')}\n`,
        );
        return exitCodes.contradiction;
      }
      const next = nextCheck(atlas, sheet, odds);
      const { advice, stopping } = adviceOf(atlas, sheet) as Advised;
      terminal.out(options.format === 'json' ? jsonText({ odds, next, stopping, advice }) : oddsText(sheet, odds, advice));
      return exitCodes.stands;
    }),
});

/** So many names and entries are written out; JSON has them all. */
const shown = 4;

const oddsText = (sheet: Sheet, odds: Odds, advice: Advice): string => {
  const { ifRight, ifWrong } = odds;
  const rows = (list: readonly { readonly text: string; readonly chance: number }[]) =>
    list.slice(0, shown).map(({ text, chance }) => `  ${percent(chance).padStart(7)}  ${text}`);
  const [then] = ifWrong?.names ?? [];
  return `${[
    `${sheet.title} (sheet ${sheet.id}, atlas ${odds.edition})`,
    '',
    ...(ifRight === null
      ? ['The entries cannot all be right.']
      : [
          `If every entry is right (${percent(ifRight.chance)}), its honest name, were every part known:`,
          `  ${ifRight.among.sentence}`,
          ...rows(ifRight.names),
        ]),
    ...(ifWrong === null
      ? []
      : [
          '',
          `If an entry is wrong (${percent(ifWrong.chance)}), which:`,
          ...rows(ifWrong.entries),
          ...(then === undefined
            ? []
            : [
                `  Then it is most likely: ${then.text} (${percent(then.chance)}).${then.ruledOutNow ? ' The entries as they stand rule that out.' : ''}`,
              ]),
        ]),
    '',
    ...adviceLines(advice),
    '',
    'Odds put suggestions in order. No status rests on them, and they are not for the customer.',
  ].join('\n')}\n`;
};

const adviceLines = (advice: Advice): string[] => {
  const doubt = advice.doubt === null ? [] : [advice.doubt.sentence];
  if (!('check' in advice)) return [advice.sentence, ...doubt];
  const { how, settles, towards, check } = advice;
  const minutes = Math.round((check.minutes + check.openingMinutes) * 10) / 10;
  return [
    `Next check: ${how} (${minutes} min)`,
    `  ${settles}`,
    ...(towards === null || settles.endsWith(towards) ? [] : [`  ${towards}`]),
    ...doubt,
  ];
};

/** No chance is written as none or as certain. */
const percent = (chance: number): string => {
  if (chance < 0.001) return 'under 0.1 %';
  return chance > 0.999 ? 'over 99.9 %' : `${Number((chance * 100).toFixed(chance < 0.1 || chance > 0.99 ? 1 : 0))} %`;
};

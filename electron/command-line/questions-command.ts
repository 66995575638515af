import { type DrillKind, drillKinds, type FamilyId, questionSheetOf, questionSheetText } from '../../reasoner/index.ts';
import { refusal } from '../bridge/reply.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { atlasOptions, formatOption } from './option.ts';
import { jsonText, sayTrouble, sayUsage } from './terminal.ts';
import { withAtlas } from './with-atlas.ts';

/** `kinplate questions`: a sheet of questions with its answers, as Markdown. Families and kinds are typed with commas between. */
export const questionsCommand = command({
  name: 'questions',
  options: {
    number: { kind: 'text', value: '<n>' },
    count: { kind: 'text', value: '<n>' },
    families: { kind: 'text', value: '<id>,<id> …' },
    kinds: { kind: 'text', value: '<kind>,<kind> …' },
    'by-eye': { kind: 'flag' },
    ...formatOption,
    ...atlasOptions,
  },
  inPlaceOfWords: 'name families with --families',
  help: [
    `A sheet of questions with its answers, as Markdown; the same number makes the same sheet again. With --by-eye for beginners. Kinds: ${drillKinds.join(', ')}.`,
  ],
  run: ({ options: asked }, terminal) => {
    const number = wholeNumber(asked.number ?? '1', 0, 2 ** 31 - 1);
    if (number === null) return sayUsage(terminal, `--number is a whole number from 0 to 2147483647, not “${asked.number}”.`);
    const count = wholeNumber(asked.count ?? '10', 1, 100);
    if (count === null) return sayUsage(terminal, `--count is a whole number from 1 to 100, not “${asked.count}”.`);
    const kinds = listIn(asked.kinds);
    const stranger = kinds?.find((kind) => !drillKinds.some((each) => each === kind));
    if (stranger !== undefined) return sayUsage(terminal, `--kinds takes ${drillKinds.join(', ')}; found “${stranger}”.`);
    return withAtlas(asked, terminal, (atlas) => {
      const families = listIn(asked.families) as FamilyId[] | null;
      const missing = families?.find((id) => !atlas.families.has(id));
      if (missing !== undefined)
        return sayTrouble(terminal, refusal('not-found', `family ${missing}`, `The atlas has no family “${missing}”.`).trouble);
      const level = asked['by-eye'] ? 'by eye' : 'measured';
      const sheet = questionSheetOf(atlas, { number, count, families, kinds: kinds as DrillKind[] | null, level });
      terminal.out(asked.format === 'json' ? jsonText(sheet) : questionSheetText(atlas, sheet));
      return exitCodes.stands;
    });
  },
});

const wholeNumber = (text: string, from: number, to: number): number | null => {
  const number = Number(text);
  return /^\d+$/.test(text) && number >= from && number <= to ? number : null;
};

const listIn = (text: string | undefined): string[] | null => {
  const list = text?.split(',').flatMap((each) => each.trim() || []) ?? [];
  return list.length === 0 ? null : [...new Set(list)];
};

import { type DrillKind, drillKinds, type FamilyId, quizOf, quizText } from '../../reasoner/index.ts';
import { refusal } from '../bridge/reply.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { atlasOptions, formatOption } from './option.ts';
import { jsonText, sayTrouble, sayUsage } from './terminal.ts';
import { withAtlas } from './with-atlas.ts';

/** `kinplate quiz`: a paper quiz with its key, as Markdown. Families and kinds are typed with commas between. */
export const quizCommand = command({
  name: 'quiz',
  options: {
    seed: { kind: 'text', value: '<n>' },
    count: { kind: 'text', value: '<n>' },
    families: { kind: 'text', value: '<id>,<id> …' },
    kinds: { kind: 'text', value: '<kind>,<kind> …' },
    ...formatOption,
    ...atlasOptions,
  },
  inPlaceOfWords: 'name families with --families',
  help: [`A paper quiz with its key, as Markdown; the same again from the same seed. Kinds: ${drillKinds.join(', ')}.`],
  run: ({ options: asked }, terminal) => {
    const seed = wholeNumber(asked.seed ?? '1', 0, 2 ** 31 - 1);
    if (seed === null) return sayUsage(terminal, `--seed is a whole number from 0 to 2147483647, not “${asked.seed}”.`);
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
      const quiz = quizOf(atlas, { seed, count, families, kinds: kinds as DrillKind[] | null });
      terminal.out(asked.format === 'json' ? jsonText(quiz) : quizText(atlas, quiz));
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

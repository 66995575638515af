import { type DrillKind, drillKinds, type FamilyId, quizOf, quizText } from '../../reasoner/index.ts';
import { trouble } from '../bridge/reply.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import type { AtlasChoice } from './open-atlas.ts';
import { sayTrouble, sayUsage, type Terminal } from './terminal.ts';
import { withAtlas } from './with-atlas.ts';

export interface QuizCommand extends AtlasChoice {
  readonly format: 'text' | 'json';
  /** As they were typed; families and kinds with commas between. */
  readonly asked: {
    readonly seed: string | undefined;
    readonly count: string | undefined;
    readonly families: string | undefined;
    readonly kinds: string | undefined;
  };
}

/** `kinplate quiz`: a paper quiz with its key, as Markdown. */
export const quizCommand = async ({ asked, format, ...choice }: QuizCommand, terminal: Terminal): Promise<ExitCode> => {
  const seed = wholeNumber(asked.seed ?? '1', 0, 2 ** 31 - 1);
  if (seed === null) return sayUsage(terminal, `--seed is a whole number from 0 to 2147483647, not “${asked.seed}”.`);
  const count = wholeNumber(asked.count ?? '10', 1, 100);
  if (count === null) return sayUsage(terminal, `--count is a whole number from 1 to 100, not “${asked.count}”.`);
  const kinds = listIn(asked.kinds);
  const stranger = kinds?.find((kind) => !drillKinds.some((each) => each === kind));
  if (stranger !== undefined) return sayUsage(terminal, `--kinds takes ${drillKinds.join(', ')}; found “${stranger}”.`);
  return withAtlas(choice, terminal, (atlas) => {
    const families = listIn(asked.families) as FamilyId[] | null;
    const missing = families?.find((id) => !atlas.families.has(id));
    if (missing !== undefined)
      return sayTrouble(terminal, trouble('not-found', `family ${missing}`, `The atlas has no family “${missing}”.`).trouble);
    const quiz = quizOf(atlas, { seed, count, families, kinds: kinds as DrillKind[] | null });
    terminal.out(format === 'json' ? `${JSON.stringify(quiz, null, 2)}\n` : quizText(atlas, quiz));
    return exitCodes.stands;
  });
};

const wholeNumber = (text: string, from: number, to: number): number | null => {
  const number = Number(text);
  return /^\d+$/.test(text) && number >= from && number <= to ? number : null;
};

const listIn = (text: string | undefined): string[] | null => {
  const list = text?.split(',').flatMap((each) => each.trim() || []) ?? [];
  return list.length === 0 ? null : [...new Set(list)];
};

import type { Outcome } from '../../db/index.ts';
import { answer, type CompiledAtlas, explain, type NameAnswer, type Sheet } from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import type { KeptAtlas } from './kept-atlas.ts';
import { answerAtOnce } from './verdict-at-once.ts';

/** What is spent when all conflicts of a name are asked for: some seconds at worst, and whoever asked waits for them. */
const longEffort = { conflicts: 20_000, questions: 20_000 };

/** Verdicts on a sheet as it stands in the window: held against the atlas first, then reasoned over. */
export const verdictCalls = (kept: KeptAtlas): Calls<'verdict'> => {
  const judging = async (given: Sheet): Promise<Outcome<Judged>> => {
    const held = await kept.holding(given);
    if (!held.ok) return held;
    const verdict = answer(held.value.atlas, held.value.sheet, { explain: 'none' });
    return verdict.kind === 'contradiction' ? contradictory : well({ ...held.value, names: verdict.names });
  };
  return {
    'verdict.of': async (asked) => {
      const held = await kept.holding(asked.sheet);
      return held.ok ? well(answerAtOnce(answer(held.value.atlas, held.value.sheet))) : held;
    },
    'verdict.names': async (asked) => {
      const judged = await judging(asked.sheet);
      return judged.ok ? well(judged.value.names) : judged;
    },
    'verdict.explain': async ({ sheet: given, name, all }) => {
      const judged = await judging(given);
      if (!judged.ok) return judged;
      const { atlas, sheet, names } = judged.value;
      return names.some((one) => one.name.id === name)
        ? well(explain(atlas, sheet, name, all === true ? longEffort : undefined))
        : refusal('not-found', 'name', `“${name}” is no name that was judged for this sheet.`);
    },
  };
};

interface Judged {
  readonly atlas: CompiledAtlas;
  readonly sheet: Sheet;
  readonly names: readonly NameAnswer[];
}

const contradictory = refusal('contradiction', null, 'Observations contradict each other; no name is judged until they are settled.');

import { answer, explain } from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** What is spent when all conflicts of a name are asked for: some seconds at worst, and whoever asked waits for them. */
const longEffort = { conflicts: 20_000, questions: 20_000 };

/** Verdicts on a sheet as it stands in the window: held against the atlas first, then reasoned over. */
export const verdictCalls = (kept: KeptAtlas): Calls<'verdict'> => ({
  'verdict.of': async (asked) => {
    const held = await kept.holding(asked.sheet);
    return held.ok ? well(answer(held.value.atlas, held.value.sheet)) : held;
  },
  'verdict.explain': async ({ sheet: given, name, all }) => {
    const held = await kept.holding(given);
    if (!held.ok) return held;
    const { atlas, sheet } = held.value;
    const judged = answer(atlas, sheet, { explain: 'none' });
    switch (judged.kind) {
      case 'contradiction':
        return refusal('contradiction', null, 'Observations contradict each other; no name is judged until they are settled.');
      case 'verdict':
        return judged.names.some((one) => one.name.id === name)
          ? well(explain(atlas, sheet, name, all === true ? longEffort : undefined))
          : refusal('not-found', 'name', `“${name}” is no name that was judged for this sheet.`);
    }
  },
});

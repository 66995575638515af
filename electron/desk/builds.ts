import type { Store } from '../../db/index.ts';
import { buildSheetOf, planBuild, slotOptions } from '../../reasoner/index.ts';
import { trouble, well } from '../bridge/reply.ts';
import type { Calls } from './desk.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** Builds on paper: planned, completed and printed. The sheet is held against the atlas first, as for a verdict. */
export const buildCalls = (store: Store, kept: KeptAtlas): Calls<'build'> => ({
  'build.plan': async ({ sheet, stock }) => {
    const checked = await store.checkSheet(sheet);
    return checked.ok ? well(planBuild(await kept.now(), checked.value, { stock })) : checked;
  },
  'build.options': async ({ sheet, slot }) => {
    const checked = await store.checkSheet(sheet);
    if (!checked.ok) return checked;
    const atlas = await kept.now();
    return atlas.slotNumber.has(slot)
      ? well(slotOptions(atlas, checked.value, slot))
      : trouble('not-found', 'slot', `“${slot}” is no slot of the atlas.`);
  },
  'build.sheet': async ({ sheet, stock }) => {
    const checked = await store.checkSheet(sheet);
    if (!checked.ok) return checked;
    const atlas = await kept.now();
    const plan = planBuild(atlas, checked.value, { stock });
    return plan.kind === 'plan'
      ? well(buildSheetOf(atlas, checked.value, plan))
      : trouble('contradiction', null, 'Observations contradict each other; nothing is planned until they are settled.');
  },
});

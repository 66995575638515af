import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import type { Observation } from '../sheet/sheet.ts';
import { weighable } from './entered.ts';
import { leftByWork } from './left-by-work.ts';
import { tellsOfFixing } from './tells-of-fixing.ts';

/**
 * The entries of one slot that count: what only work has left tells of the work, and how a plate is held on now, of who put it there.
 * @param entered those of the slot that were not told
 */
export const entriesThatCount = (atlas: CompiledAtlas, slot: CompiledSlot, entered: readonly Observation[]): Observation[] => {
  const ofWork = leftByWork(atlas, slot, entered);
  const seen = entered.filter((each) => !ofWork.has(each) && !tellsOfFixing(atlas, slot, each));
  return [...new Set(seen.map(({ feature }) => feature))].flatMap((feature) => [
    ...weighable(
      atlas.features.get(feature) as Feature,
      slot.factsOf(feature),
      seen.filter((each) => each.feature === feature),
    ),
  ]);
};

import type { Part } from '../atlas/atlas.ts';
import type { Chain } from '../atlas/chain.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { InHand } from '../fits/judge-joint.ts';
import type { FactOf } from '../fits/known.ts';
import type { SlotId } from '../ids.ts';

/** The chains whose every length is of a part at hand; the others wait. */
export const chainsAmong = (atlas: CompiledAtlas, partIn: (slot: SlotId) => Part | undefined): readonly Chain[] =>
  (atlas.data.chains ?? []).filter((chain) => slotsOfChain(atlas, chain).every((slot) => partIn(slot) !== undefined));

export const slotsOfChain = (atlas: CompiledAtlas, chain: Chain): readonly SlotId[] => [
  ...new Set(chain.links.flatMap(({ feature }) => atlas.features.get(feature)?.slot ?? [])),
];

/** What is known of any feature of a build: as made or measured, else as the atlas has it. */
export const factsOfBuild =
  (atlas: CompiledAtlas, partIn: (slot: SlotId) => Part | undefined, facts: InHand): FactOf =>
  (feature) => {
    const made = facts.get(feature);
    if (made !== undefined) return made;
    const slot = atlas.features.get(feature)?.slot;
    return slot === undefined ? undefined : partIn(slot)?.facts[feature];
  };

import { describe, expect, it } from 'vitest';
import { DemandSets, meetingBoxes } from '../../../reasoner/odds/boxes.ts';

const [wheel, housing] = [0, 1];

/** Names of so many models, each of which asks for a wheel of its own, and for a housing that ten of them share. */
const ofModels = (count: number) => {
  const sets = new DemandSets(2);
  const own = Array.from({ length: count }, (_, model) =>
    Int32Array.of(sets.numberOf(wheel, Int32Array.of(model)), sets.numberOf(housing, Int32Array.of(Math.floor(model / 10)))),
  );
  return meetingBoxes(own, sets);
};

describe('[Q1] names that ask for the same parts are weighed together', () => {
  it('[Q1] however many names an atlas has, where they share no more parts than those of a small one', () => {
    const { all, single } = ofModels(200_100);
    expect(single).toHaveLength(200_100);
    expect(all).toHaveLength(200_101);
  });

  it('[Q1] a few names that meet in more ways than can be summed over are refused, and it is said in how many', () => {
    const sets = new DemandSets(18);
    // Each asks for one slot alone, so that any of them may be so together: two to the eighteenth ways.
    const own = Array.from({ length: 18 }, (_, slot) => {
      const box = new Int32Array(18).fill(-1);
      box[slot] = sets.numberOf(slot, Int32Array.of(0));
      return box;
    });
    expect(() => meetingBoxes(own, sets)).toThrow('the names of this atlas share their parts in more than 200000 ways');
  });
});

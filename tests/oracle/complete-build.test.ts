import { describe, expect, test } from 'vitest';
import { compileAtlas, completeBuild, type PartId, type SlotId } from '../../reasoner/index.ts';
import { everyBuild, lineOf, undominated } from './every-build.ts';
import { randomBuild, type Wanted } from './random-build.ts';

/** Every build the search lists, with those it says are alike written out. */
const linesOf = (seed: number, wanted: Wanted) => {
  const made = randomBuild(seed, wanted);
  const atlas = compileAtlas(made.atlas);
  const completion = completeBuild(atlas, made.sheet, made.constraints, { limit: 100_000 });
  const lines = completion.builds.flatMap((build) => {
    let chosen: Record<SlotId, PartId>[] = [{ ...build.chosen }];
    for (const { slot, parts } of build.alike)
      chosen = chosen.flatMap((each) => [each, ...parts.map((part) => ({ ...each, [slot]: part }))]);
    return chosen.map((each) => lineOf({ ...build, chosen: each, cost: build.cost ?? 0, works: build.operations }));
  });
  return { made, atlas, completion, lines: [...new Set(lines)].sort() };
};

const kinds: readonly { readonly name: string; readonly wanted: Wanted; readonly from: number; readonly to: number }[] = [
  { name: 'free', wanted: { crossing: false, unpriced: false, constrained: false, most: 150 }, from: 1, to: 60 },
  {
    name: 'works that touch other joints, stacks',
    wanted: { crossing: true, unpriced: false, constrained: false, most: 80 },
    from: 61,
    to: 130,
  },
  { name: 'parts without a price', wanted: { crossing: true, unpriced: true, constrained: false, most: 80 }, from: 131, to: 180 },
  { name: 'constraints', wanted: { crossing: true, unpriced: true, constrained: true, most: 120 }, from: 181, to: 260 },
];

describe('[F4] completing a build finds what trying everything finds', () => {
  test.each(kinds)('[F4] $name', ({ wanted, from, to }) => {
    let [builds, worked] = [0, 0];
    for (let seed = from; seed <= to; seed += 1) {
      const { made, atlas, completion, lines } = linesOf(seed, wanted);
      expect(completion.complete, `seed ${seed}`).toBe(true);
      const every = [...new Set(undominated(everyBuild(atlas, made)).map(lineOf))].sort();
      expect(lines, `seed ${seed}`).toEqual(every);
      builds += every.length;
      worked += completion.builds.filter(({ operations }) => operations > 0).length;
    }
    // Seeds that never build or never work would prove nothing.
    expect(builds).toBeGreaterThan(20);
    expect(worked).toBeGreaterThan(5);
  });
});

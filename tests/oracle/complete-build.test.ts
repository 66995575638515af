import { describe, expect, test } from 'vitest';
import { compileAtlas, completeBuild, type PartId, type SlotId } from '../../reasoner/index.ts';
import { axes, bestByClingo, type Weights } from './ask-clingo-builds.ts';
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

describe('[F4] [A7] a name whose list is open-ended', () => {
  test('[F4] [A7] is no name of a build that holds nothing where the list has something, whatever it may be', () => {
    for (const seed of [1685, 2656, 3402, 3509]) {
      const { made, atlas, lines } = linesOf(seed, { crossing: false, unpriced: false, constrained: false, most: 150 });
      expect(lines, `seed ${seed}`).toEqual([...new Set(undominated(everyBuild(atlas, made)).map(lineOf))].sort());
    }
  });
});

describe('[F4] completing a build finds clingo’s best by every order of the axes', () => {
  const orders = axes.flatMap((first) =>
    axes.filter((axis) => axis !== first).map((second) => [first, second, ...axes.filter((axis) => axis !== first && axis !== second)]),
  );
  test('[F4] on made-up atlases whose works touch one joint each', async () => {
    let [solved, none] = [0, 0];
    for (let seed = 301; seed <= 330; seed += 1) {
      const made = randomBuild(seed, { crossing: false, unpriced: false, constrained: seed % 2 === 0, most: 2000 });
      const { keep: _keep, mayLeave: _mayLeave, ...constraints } = made.constraints;
      const atlas = compileAtlas(made.atlas);
      const { builds, complete } = completeBuild(atlas, made.sheet, constraints, { limit: 100_000 });
      expect(complete).toBe(true);
      for (const order of orders) {
        const best = await bestByClingo(atlas, made.sheet, constraints, order);
        const ours = builds
          .map((build): Weights => ({ hours: build.hours, money: build.cost ?? 0, works: build.operations, rank: build.rank }))
          .sort((a, b) => order.map((axis) => a[axis] - b[axis]).find((less) => Math.abs(less) > 1e-9) ?? 0)[0];
        expect(ours ?? null, `seed ${seed}, by ${order.join(', ')}`).toEqual(best);
        if (best === null) none += 1;
        else solved += 1;
      }
    }
    expect(solved).toBeGreaterThan(60);
    expect(none).toBeGreaterThan(5);
  });
});

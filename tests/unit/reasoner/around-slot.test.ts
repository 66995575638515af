import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { choosableClasses, hasChoice, spaceOf } from '../../../reasoner/algebra/choices.ts';
import { type Classes, pairingOf } from '../../../reasoner/algebra/pairing.ts';

/** Seven slots of which one, of many classes, stands in every ring; joints of one pair of slots may be two, and a piece of the rest may not touch it. */
const rings = fc.record({
  seed: fc.integer({ min: 1, max: 2 ** 31 - 1 }),
  sizes: fc.array(fc.integer({ min: 2, max: 12 }), { minLength: 6, maxLength: 6 }),
  centre: fc.integer({ min: 17, max: 40 }),
  /** Of each slot the one before it in the tree, or none. */
  before: fc.array(fc.nat({ max: 6 }), { minLength: 6, maxLength: 6 }),
  /** Which slots meet the centre, as bits. */
  beside: fc.integer({ min: 0, max: 63 }),
  twice: fc.array(fc.nat({ max: 11 }), { maxLength: 2 }),
  /** Of a hundred pairs of classes, how many meet. */
  meet: fc.integer({ min: 10, max: 35 }),
  leftOut: fc.integer({ min: 0, max: 8 }),
});
type Drawn = typeof rings extends fc.Arbitrary<infer T> ? T : never;

const dice = (seed: number): (() => number) => {
  let at = seed;
  return () => {
    at = (Math.imul(at, 48271) & 0x7fffffff) % 2147483647;
    return at % 100;
  };
};

const spaceIn = ({ seed, sizes, centre, before, beside, twice, meet }: Drawn) => {
  const throws = dice(seed);
  const counts = [...sizes, centre];
  const joints: [number, number][] = [];
  before.forEach((each, slot) => {
    if (slot > 0 && each < slot) joints.push([each, slot]);
  });
  for (let slot = 0; slot < 6; slot += 1) if ((beside >> slot) & 1) joints.push([slot, 6]);
  for (const each of twice) if (joints[each] !== undefined) joints.push(joints[each] as [number, number]);
  const pairings = joints.map(([a, b]) => {
    const [rowsA, rowsB] = [counts[a] as number, counts[b] as number];
    const met = Array.from({ length: rowsA }, () => Array.from({ length: rowsB }, (_, row) => row).filter(() => throws() < meet));
    return pairingOf(
      [a, Int32Array.from({ length: rowsA }, (_, i) => i), rowsA],
      [b, Int32Array.from({ length: rowsB }, (_, i) => i), rowsB],
      (row) => met[row] as number[],
    );
  });
  return spaceOf(counts, pairings);
};

describe('[W2] which classes some choice has, around a slot of many classes', () => {
  it('[W2] is what each class by itself says', () => {
    let [some, lost] = [0, 0];
    fc.assert(
      fc.property(rings, (drawn) => {
        const space = spaceIn(drawn);
        const all = space.counts.map((count, slot): Classes | null =>
          slot === drawn.leftOut ? null : Int32Array.from({ length: count }, (_, i) => i),
        );
        const found = choosableClasses(space, { classes: all });
        const alone = all.map((classes, slot) =>
          classes === null
            ? null
            : [...classes].filter((each) => hasChoice(space, { classes: all.map((own, i) => (i === slot ? Int32Array.of(each) : own)) })),
        );
        expect(found.map((classes) => (classes === null ? null : [...classes]))).toEqual(alone);
        if (alone.some((classes) => (classes?.length ?? 0) > 0)) some += 1;
        if (alone.some((classes, slot) => classes !== null && classes.length > 0 && classes.length < (space.counts[slot] as number)))
          lost += 1;
      }),
      { seed: 20261130, numRuns: 1500 },
    );
    expect([some, lost].every((count) => count > 300)).toBe(true);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { AroundSlot } from '../../../reasoner/algebra/around-slot.ts';
import { type ChoiceSpace, choosableClasses, consistent, hasChoice, spaceOf } from '../../../reasoner/algebra/choices.ts';
import { type Classes, pairingOf } from '../../../reasoner/algebra/pairing.ts';

/** The slot of many classes; the six before it stand in a tree, or in several. */
const centre = 6;

const rings = fc.record({
  seed: fc.integer({ min: 1, max: 2 ** 31 - 2 }),
  sizes: fc.array(fc.integer({ min: 2, max: 12 }), { minLength: centre, maxLength: centre }),
  /** More than are asked about at once. */
  classes: fc.integer({ min: 17, max: 70 }),
  /** Of each slot the one before it in the tree, or none. */
  before: fc.array(fc.nat({ max: 6 }), { minLength: centre, maxLength: centre }),
  /** Which slots meet the centre, as bits. */
  beside: fc.integer({ min: 0, max: 63 }),
  /** Pairs of slots that two joints join. */
  twice: fc.array(fc.nat({ max: 7 }), { maxLength: 3 }),
  /** Of a hundred pairs of classes, how many meet. */
  meet: fc.integer({ min: 10, max: 50 }),
  /** Of a hundred classes, how many are asked about. */
  asked: fc.integer({ min: 50, max: 100 }),
  leftOut: fc.integer({ min: 0, max: 8 }),
});
type Drawn = typeof rings extends fc.Arbitrary<infer T> ? T : never;

const dice = (seed: number): (() => number) => {
  let at = seed;
  return () => {
    at = Number((BigInt(at) * 48271n) % 2147483647n);
    return at % 100;
  };
};

const upTo = (count: number): Int32Array => Int32Array.from({ length: count }, (_, i) => i);

const questionIn = ({ seed, sizes, classes, before, beside, twice, meet, asked, leftOut }: Drawn) => {
  const throws = dice(seed);
  const counts = [...sizes, classes];
  const joints: [number, number][] = [];
  before.forEach((each, slot) => {
    if (slot > 0 && each < slot) joints.push([each, slot]);
  });
  for (let slot = 0; slot < centre; slot += 1) if ((beside >> slot) & 1) joints.push([slot, centre]);
  for (const each of twice) if (joints[each] !== undefined) joints.push(joints[each] as [number, number]);
  const rowsOf = (count: number) => Math.max(1, count - (throws() % 4));
  const pairings = joints.map(([a, b]) => {
    // Some classes read alike there.
    const [rowsA, rowsB] = [rowsOf(counts[a] as number), rowsOf(counts[b] as number)];
    const inRows = (slot: number, rows: number) => upTo(counts[slot] as number).map((each) => each % rows);
    const met = Array.from({ length: rowsA }, () => [...upTo(rowsB)].filter(() => throws() < meet));
    return pairingOf([a, inRows(a, rowsA), rowsA], [b, inRows(b, rowsB), rowsB], (row) => met[row] as number[]);
  });
  const domains = counts.map((count, slot): Classes | null => (slot === leftOut ? null : upTo(count).filter(() => throws() < asked)));
  return { space: spaceOf(counts, pairings), domains };
};

const listed = (all: readonly (Classes | null)[]) => all.map((classes) => (classes === null ? null : [...classes]));

/** Each class asked about by itself. */
const aloneIn = (space: ChoiceSpace, domains: readonly (Classes | null)[]) =>
  domains.map((classes, slot) =>
    classes === null
      ? null
      : [...classes].filter((each) => hasChoice(space, { classes: domains.map((own, i) => (i === slot ? Int32Array.of(each) : own)) })),
  );

describe('[J1] which classes some choice has', () => {
  it('[J1] is what each class by itself says, in one question and around the slot that opens every ring', () => {
    let [some, lost, around] = [0, 0, 0];
    fc.assert(
      fc.property(rings, (drawn) => {
        const { space, domains } = questionIn(drawn);
        const alone = aloneIn(space, domains);
        expect(listed(choosableClasses(space, { classes: domains }))).toEqual(alone);
        if (alone.some((classes) => (classes?.length ?? 0) > 0)) some += 1;
        const left = consistent(space, { classes: domains })?.classes;
        if (left === undefined || left[centre] == null) return;
        if (alone.some((classes, slot) => classes !== null && classes.length < (left[slot]?.length ?? 0))) lost += 1;
        const open = (slot: number) => (left[slot]?.length ?? 0) > 1;
        const pairings = space.pairings.filter(({ a, b }) => open(a) && open(b));
        const holding = (classes: Classes) => left.map((own, slot) => (slot === centre ? classes : own));
        const narrowed = (classes: Classes) => consistent(space, { classes: holding(classes) })?.classes ?? null;
        // However much of what cannot be chosen is left out beforehand.
        for (const leftWith of [holding, narrowed]) {
          const found = left.map((classes, slot) => (classes === null ? null : new Uint8Array(space.counts[slot] as number)));
          new AroundSlot({ counts: space.counts, pairings, left, centre, leftWith }).gather(found);
          expect(found.map((flags) => (flags === null ? null : [...flags.keys()].filter((each) => flags[each] === 1)))).toEqual(alone);
        }
        around += 1;
      }),
      { seed: 20261130, numRuns: 1200 },
    );
    expect(
      [some, lost, around].every((count) => count > 100),
      `${some} ${lost} ${around}`,
    ).toBe(true);
  });

  it('[J1] is so of three rings that one slot of many classes opens, few of which go with any choice of the others', () => {
    let lost = 0;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2 ** 31 - 2 }), fc.integer({ min: 33, max: 70 }), (seed, classes) => {
        const drawn = { seed, sizes: [30, 30, 30, 30, 30, 30], classes, before: [6, 0, 6, 2, 6, 4], beside: 63, twice: [] };
        const { space, domains } = questionIn({ ...drawn, meet: 10, asked: 100, leftOut: 8 });
        const partnered = consistent(space, { classes: domains })?.classes[centre]?.length ?? 0;
        const alone = aloneIn(space, domains);
        expect(listed(choosableClasses(space, { classes: domains }))).toEqual(alone);
        const some = alone[centre]?.length ?? 0;
        if (some > 0 && some < partnered) lost += 1;
      }),
      { seed: 20261201, numRuns: 400 },
    );
    expect(lost).toBeGreaterThan(100);
  });
});

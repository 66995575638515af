import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { asId, type Member, type NameId, type SlotId } from '../../../reasoner/index.ts';
import { independentReasons } from '../../../reasoner/why/independent-reasons.ts';

const entry = (n: number): Member => ({ kind: 'observation', observation: asId(`o${n}`) });
const rule: Member = { kind: 'rule', name: asId<NameId>('n'), slot: asId<SlotId>('s') };
const of = (...sets: number[][]) => sets.map((set) => ({ members: [...set.map(entry), rule] }));

/** Every choice of sets tried. */
const byTrying = (sets: readonly (readonly number[])[]): number => {
  let best = 0;
  for (let choice = 0; choice < 2 ** sets.length; choice += 1) {
    const chosen = sets.filter((_, i) => (choice >> i) & 1);
    const entries = chosen.flat();
    if (new Set(entries).size === entries.length) best = Math.max(best, chosen.length);
  }
  return best;
};

describe('reasons that share no entry', () => {
  test('[K1] two reasons of one entry are one; of two entries, two', () => {
    const count = (...sets: number[][]) => independentReasons(of(...sets)).count;
    expect(count([1], [1])).toBe(1);
    expect(count([1], [2])).toBe(2);
    expect(count([1, 2], [2, 3], [3, 4])).toBe(2);
    expect(count([1, 2], [2, 3], [1, 3])).toBe(1);
    // A long one beside short ones is counted as any other.
    expect(count([3, 5, 6], [4, 5], [1, 4], [2, 7])).toBe(3);
    expect(count()).toBe(0);
  });

  test('[K1] all that is missing is one entry, whatever is missing; a reason without any entry counts once', () => {
    const absent = (slot: string): Member => ({ kind: 'absent', slot: asId<SlotId>(slot) });
    const plate = { members: [absent('plate')] };
    const housing = { members: [absent('housing')] };
    expect(independentReasons([plate, { members: [absent('plate'), rule] }, { members: [entry(1)] }]).count).toBe(2);
    expect(independentReasons([plate, housing]).count).toBe(1);
    expect(independentReasons([plate, housing, { members: [entry(1)] }]).count).toBe(2);
    expect(independentReasons([{ members: [rule] }, { members: [rule, rule] }]).count).toBe(1);
    expect(independentReasons([{ members: [rule] }, plate, { members: [entry(1), rule] }]).count).toBe(3);
  });

  test('[K1] a count that is left before its end is not said to be exact, and is no more than there are', () => {
    // Each entry in two sets, each set of two: a ring of eleven, of which five share none.
    const ring = of(...Array.from({ length: 11 }, (_, i) => [i, (i + 1) % 11]));
    expect(independentReasons(ring)).toEqual({ count: 5, exact: true });
    // The first look at all eleven is more than ten; after it there is one, and more to look at.
    expect([independentReasons(ring, 10), independentReasons(ring, 11)]).toEqual([
      { count: 0, exact: false },
      { count: 1, exact: false },
    ]);
    // Three that share an entry each with the next: three looks at the beginning, and four in all.
    const three = of([1, 2], [2, 3], [3, 1]);
    expect([3, 4].map((looks) => independentReasons(three, looks))).toEqual([
      { count: 1, exact: false },
      { count: 1, exact: true },
    ]);
    const left = independentReasons(ring, 20);
    expect(left.exact).toBe(false);
    expect(left.count).toBeGreaterThan(0);
    expect(left.count).toBeLessThanOrEqual(5);
  });

  test('[K1] what cannot better the best there is is not looked at: rings, triples and pairs of nine entries are counted in a few hundred looks', () => {
    const nine = Array.from({ length: 9 }, (_, i) => i);
    const pairs = nine.flatMap((a) => nine.slice(a + 1).map((b) => [a, b]));
    const triples = pairs.flatMap(([a, b]) => nine.slice((b as number) + 1).map((c) => [a as number, b as number, c]));
    const ring = Array.from({ length: 31 }, (_, i) => [i, (i + 1) % 31]);
    expect(independentReasons(of(...pairs), 400)).toEqual({ count: 4, exact: true });
    expect(independentReasons(of(...triples), 800)).toEqual({ count: 3, exact: true });
    expect(independentReasons(of(...ring), 600)).toEqual({ count: 15, exact: true });
  });

  test('[K1] as many as trying every choice finds', () => {
    const sets = fc.array(fc.uniqueArray(fc.integer({ min: 0, max: 8 }), { minLength: 1, maxLength: 4 }), { maxLength: 10 });
    fc.assert(
      fc.property(sets, (given) => {
        expect(independentReasons(of(...given))).toEqual({ count: byTrying(given), exact: true });
      }),
      { seed: 20261125, numRuns: 400 },
    );
  });
});

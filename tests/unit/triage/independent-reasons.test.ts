import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { answer, asId, type Member, type NameId, type SlotId } from '../../../reasoner/index.ts';
import { independentReasons } from '../../../reasoner/triage/independent-reasons.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

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
    expect(independentReasons(of([1], [1]))).toBe(1);
    expect(independentReasons(of([1], [2]))).toBe(2);
    expect(independentReasons(of([1, 2], [2, 3], [3, 4]))).toBe(2);
    expect(independentReasons(of([1, 2], [2, 3], [1, 3]))).toBe(1);
    expect(independentReasons([])).toBe(0);
  });

  test('[K1] an absence is an entry like another; a reason without any entry counts once', () => {
    const absent: Member = { kind: 'absent', slot: asId<SlotId>('plate') };
    expect(independentReasons([{ members: [absent] }, { members: [absent, rule] }, { members: [entry(1)] }])).toBe(2);
    expect(independentReasons([{ members: [rule] }, { members: [rule, rule] }])).toBe(1);
  });

  test('[K1] as many as trying every choice finds', () => {
    const sets = fc.array(fc.uniqueArray(fc.integer({ min: 0, max: 8 }), { minLength: 1, maxLength: 4 }), { maxLength: 10 });
    fc.assert(
      fc.property(sets, (given) => {
        expect(independentReasons(of(...given))).toBe(byTrying(given));
      }),
      { seed: 20261125, numRuns: 400 },
    );
  });

  test('[K1] no more than there are entries, over every sample with a claim ruled out', () => {
    for (const sheet of demoPack.sheets) {
      if (sheet.kind !== 'found') continue;
      const verdict = answer(demo, sheet);
      if (verdict.kind !== 'verdict') continue;
      const conflicts = verdict.names.find(({ name }) => name.id === verdict.claim?.name)?.conflicts?.found ?? [];
      const reasons = independentReasons(conflicts);
      expect(reasons).toBeLessThanOrEqual(sheet.observations.length + sheet.absent.length);
      expect(reasons > 0).toBe(conflicts.length > 0);
    }
  });
});

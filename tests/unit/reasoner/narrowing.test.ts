import fc from 'fast-check';
import { expect, it } from 'vitest';
import { remembersNarrowing } from '../../../reasoner/algebra/narrow.ts';
import { type Classes, meet, type Pairing, pairingOf } from '../../../reasoner/algebra/pairing.ts';

const many = 100;

/** Of two slots of a hundred classes each, numbered by what they meet: a class goes with those that are up to so much higher. */
const pairing = (reach: number, turned: boolean): Pairing => {
  const own = Int32Array.from({ length: many }, (_, each) => each);
  const met = (row: number) => {
    const from = turned ? many - 1 - row : row;
    return Array.from(own).filter((other) => other >= from && other <= from + reach);
  };
  return pairingOf([0, own, many], [1, own, many], met);
};

const lists = fc
  .array(fc.uniqueArray(fc.nat(many - 1), { minLength: 40, maxLength: 90, size: 'max' }), { minLength: 2, maxLength: 4 })
  .map((all) => [...all.map((each) => Int32Array.from(each)), Int32Array.from({ length: many }, (_, each) => each)]);

const questions = fc.array(fc.record({ pairing: fc.nat(2), slot: fc.nat(1), own: fc.nat(), others: fc.nat() }), {
  minLength: 8,
  maxLength: 60,
});

it('[J1] a narrowing remembered is that of the same joint, the same side and the same lists', () => {
  const pairings = [pairing(0, false), pairing(2, false), pairing(2, true)];
  let again = 0;
  fc.assert(
    fc.property(lists, questions, (all, asked) => {
      const revise = remembersNarrowing();
      const answers = new Map<string, Classes>();
      for (const { pairing: which, slot, own: one, others: other } of asked) {
        const across = pairings[which] as Pairing;
        const [own, others] = [all[one % all.length] as Classes, all[other % all.length] as Classes];
        const found = revise(across, slot, own, others);
        const goes = (each: number) => others.some((far) => (slot === 0 ? meet(across, each, far) : meet(across, far, each)));
        expect([...found].sort((a, b) => a - b)).toEqual([...own].filter(goes).sort((a, b) => a - b));
        const key = [which, slot, one % all.length, other % all.length].join();
        const before = answers.get(key);
        if (before !== undefined && own.length + others.length >= 128) {
          expect(found).toBe(before);
          again += 1;
        }
        answers.set(key, found);
      }
    }),
    { seed: 20261130, numRuns: 300 },
  );
  expect(again).toBeGreaterThan(100);
});

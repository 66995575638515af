import { describe, expect, it } from 'vitest';
import { answer, type Observation } from '../../../reasoner/index.ts';
import { measured, promising, saw, sheetOf } from './little-atlas.ts';

/** Whether a unit of which this was seen keeps what the name “Cod 4” promises. */
const kept = (promise: unknown, seen: Observation) => {
  const found = answer(promising('size', promise), sheetOf([seen], { claimed: 'Cod 4' }));
  if (found.kind !== 'verdict') throw new Error('the sheet contradicts itself');
  return { truth: found.claim?.reading.tokens[1]?.promises[0]?.truth, claim: found.claim?.status };
};
const kept4 = { truth: 'holds', claim: 'open' };
const broken = { truth: 'fails', claim: 'ruled out' };

describe('how wide a promise is (A4, N6)', () => {
  it('[N6] a number that is a measure: so much either way, ends included, and no more', () => {
    const promise = { kind: 'number', feature: 'wheel.tip', within: 0.4 };
    const at = (value: number) => kept(promise, measured('wheel.tip', value, 0));
    for (const value of [3.6, 4, 4.4]) expect(at(value), `${value} mm`).toEqual(kept4);
    for (const value of [3.59, 4.41, 3.2, 4.8]) expect(at(value), `${value} mm`).toEqual(broken);
  });

  it('[N6] a number that is a count: so many either way, ends included, and no more', () => {
    const promise = { kind: 'number', feature: 'wheel.blades', within: 1 };
    const at = (n: number) => kept(promise, saw('wheel.blades', { kind: 'count', from: n, to: n }));
    for (const n of [3, 4, 5]) expect(at(n), `${n} blades`).toEqual(kept4);
    for (const n of [2, 6]) expect(at(n), `${n} blades`).toEqual(broken);
  });

  it('[N6] a promise of no leeway is kept by the number itself alone', () => {
    const measure = { kind: 'number', feature: 'wheel.tip', within: 0 };
    expect(kept(measure, measured('wheel.tip', 4, 0))).toEqual(kept4);
    expect(kept(measure, measured('wheel.tip', 4.01, 0))).toEqual(broken);
    const count = { kind: 'number', feature: 'wheel.blades', within: 0 };
    expect(kept(count, saw('wheel.blades', { kind: 'count', from: 4, to: 4 }))).toEqual(kept4);
    expect(kept(count, saw('wheel.blades', { kind: 'count', from: 5, to: 5 }))).toEqual(broken);
  });
});

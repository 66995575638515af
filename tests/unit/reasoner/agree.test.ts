import { describe, expect, it } from 'vitest';
import { agrees, compatible } from '../../../reasoner/atlas/agree.ts';
import type { Fact, Feature, Observation, Seen, Sure } from '../../../reasoner/index.ts';
import { sameMark } from '../../../reasoner/plain/letters.ts';
import { choice, count, feature, letters, mm, noLetters } from './little-atlas.ts';

type Read = Pick<Observation, 'value' | 'sure'>;
const seen: Sure = { kind: 'seen' };
const read = (value: Seen, sure: Sure = seen): Read => ({ value, sure });
const blades = (from: number, to = from): Read => read({ kind: 'count', from, to });
const measure = (value: number, u = 0): Read => read({ kind: 'measure', value }, { kind: 'measured', u });
const there = (present: boolean): Read => read({ kind: 'presence', present });
const chose = (option: string): Read => read({ kind: 'choice', option } as Seen);
const mark = (text: string | null): Read => read({ kind: 'mark', text });
const of = (kind: Feature['kind'], rest: Partial<Feature> = {}): Feature => feature(`wheel.${kind}`, kind, rest);
const presence = (present: boolean): Fact => ({ kind: 'presence', present });

describe('whether a reading agrees with a part (O2)', () => {
  it('[O2] whole-number ranges agree when they meet, ends included', () => {
    const at = (read: Read) => agrees(of('count'), { kind: 'count', from: 6, to: 7 }, read);
    expect([at(blades(5)), at(blades(6)), at(blades(7)), at(blades(8))]).toEqual(['fails', 'holds', 'holds', 'fails']);
    expect([at(blades(4, 5)), at(blades(4, 6)), at(blades(7, 9)), at(blades(8, 9))]).toEqual(['fails', 'holds', 'holds', 'fails']);
  });

  it('[O2] a measure agrees from its lower limit less the wear below to its upper limit and the wear above, ±2u, ends included', () => {
    const worn = of('measure', { wear: { below: 0.25, above: 0.5 } });
    // Limits of 39.5 and 40.25; figures that are whole in binary, so that an end is met exactly.
    const fact: Fact = { kind: 'measure', nominal: 40, lower: -0.5, upper: 0.25 };
    const at = (value: number, u = 0) => agrees(worn, fact, measure(value, u));
    expect([at(39.25), at(39.2), at(40.75), at(40.8)]).toEqual(['holds', 'fails', 'holds', 'fails']);
    expect([at(39, 0.125), at(38.99, 0.125), at(41, 0.125), at(41.01, 0.125)]).toEqual(['holds', 'fails', 'holds', 'fails']);
    const good = (value: number) => agrees(of('measure'), fact, measure(value));
    expect([good(39.5), good(39.49), good(40.25), good(40.26)]).toEqual(['holds', 'fails', 'holds', 'fails']);
    // 0.1 + 0.2 is not 0.3 in binary: a limit is met when it is met on paper.
    expect(agrees(of('measure'), { kind: 'measure', nominal: 0.1, lower: 0, upper: 0.2 }, measure(0.3))).toBe('holds');
    expect(agrees(of('measure'), { kind: 'measure', nominal: 0.3, lower: -0.2, upper: 0 }, measure(0.1))).toBe('holds');
  });

  it('[O2] a choice among those found on good examples, a presence as it is, a mark by its letters', () => {
    expect(agrees(of('choice'), choice('6', '7'), chose('7'))).toBe('holds');
    expect(agrees(of('choice'), choice('6', '7'), chose('8'))).toBe('fails');
    for (const [is, saw, truth] of [
      [true, true, 'holds'],
      [false, false, 'holds'],
      [true, false, 'fails'],
      [false, true, 'fails'],
    ] as const)
      expect(agrees(of('presence'), presence(is), there(saw)), `${is}, seen ${saw}`).toBe(truth);
    expect(agrees(of('mark'), letters('QUAY AIR', 'QUAYSIDE'), mark('quay-air'))).toBe('holds');
    expect(agrees(of('mark'), letters('QUAYSIDE'), mark(null))).toBe('fails');
    expect(agrees(of('mark'), noLetters, mark(null))).toBe('holds');
    expect(agrees(of('mark'), noLetters, mark('QUAYSIDE'))).toBe('fails');
  });

  it('[O3] what is not known neither agrees nor disagrees', () => {
    expect(agrees(of('count'), { kind: 'not known' }, blades(7))).toBe('not known');
  });

  it('[T1] a reading of another kind than its feature, or a fact of another, is a bug past the door', () => {
    expect(() => agrees(of('count'), count(6), measure(6))).toThrow('wheel.count is a count; seen a measure, the atlas has a count');
    expect(() => agrees(of('count'), mm(6), blades(6))).toThrow('wheel.count is a count; seen a count, the atlas has a measure');
  });
});

describe('whether two readings could both be true (O6)', () => {
  const both = (a: Read, b: Read): boolean => {
    expect(compatible(b, a), 'either way round').toBe(compatible(a, b));
    return compatible(a, b);
  };

  it('[O6] counts that meet, ends included', () => {
    expect([both(blades(6, 7), blades(7, 8)), both(blades(6, 7), blades(8, 9)), both(blades(7), blades(7))]).toEqual([true, false, true]);
  });

  it('[O6] measures no farther apart than twice what both are uncertain by, ends included', () => {
    expect([both(measure(40, 0.125), measure(40.5, 0.125)), both(measure(40, 0.125), measure(40.51, 0.125))]).toEqual([true, false]);
    expect([both(measure(40), measure(40)), both(measure(40), measure(40.001))]).toEqual([true, false]);
    expect(both(measure(0.1, 0.1), measure(0.3, 0)), '0.3 − 0.1 is a little more than 0.2 in binary').toBe(true);
    expect(both(measure(0.3, 24.9), measure(50.1)), 'as far off as the larger of the two is rounded').toBe(true);
  });

  it('[O6] choices and presences that are the same, marks that read alike, no letters with no letters', () => {
    expect([both(chose('6'), chose('6')), both(chose('6'), chose('7'))]).toEqual([true, false]);
    expect([both(there(true), there(true)), both(there(true), there(false)), both(there(false), there(false))]).toEqual([
      true,
      false,
      true,
    ]);
    expect([both(mark('Quay Air'), mark('QUAY-AIR')), both(mark('Quay Air'), mark('Quayside'))]).toEqual([true, false]);
    expect([both(mark(null), mark(null)), both(mark(null), mark('Quayside'))]).toEqual([true, false]);
  });

  it('[O6] readings of two kinds are never of one feature', () => {
    const kinds = [blades(6), measure(6), chose('6'), there(true), mark('6')];
    for (const [i, one] of kinds.entries()) for (const other of kinds.slice(i + 1)) expect(both(one, other)).toBe(false);
  });
});

describe('letters as read (O2)', () => {
  it('[O2] case, spaces and signs between letters do not count; signs alone are compared as signs', () => {
    expect([sameMark('N-1/a', 'n1A'), sameMark('N1', 'N2'), sameMark('– –', '--'), sameMark('--', '++')]).toEqual([
      true,
      false,
      true,
      false,
    ]);
  });
});

import { describe, expect, test } from 'vitest';
import type { Feature } from '../../../reasoner/index.ts';
import { seenPhrase } from '../../../reasoner/words/phrases.ts';
import { draftOf, entryOf } from '../../../renderer/sheet/draft.ts';
import { readMeasure, readUncertainty, startingUncertainty } from '../../../renderer/values/readSeen.ts';
import { saySure } from '../../../renderer/values/sayings.ts';

const refusal = (read: { readonly ok: boolean; readonly sentence?: string }) => (read.ok ? null : read.sentence);

describe('fractions of an inch, as they are typed', () => {
  // One inch is 25.4 mm exactly (international inch, 1959); the millimetres here are written out from the fraction by hand.
  test.each([
    ['13/16 in', 20.6375],
    ['13/16"', 20.6375],
    ['11/2 in', 139.7],
    ['1 3/16 in', 30.1625],
    ['1-3/16 in', 30.1625],
    ['1–3/16 in', 30.1625],
    ['1 3/16"', 30.1625],
    ['1  3 / 16 in', 30.1625],
    ['3/16in', 4.7625],
    ['10 1/2 in', 266.7],
    ['101/2 in', 1282.7],
    ['-1 3/16 in', -30.1625],
    ['+1/2 in', 12.7],
    ['½ in', 12.7],
    ['2½ in', 63.5],
    ['2 ⅜ in', 60.325],
    ['1⁄4 in', 6.35],
    ['2,25 in', 57.15],
    ['.5 in', 12.7],
    [',5 in', 12.7],
  ])('[O1] “%s” is %d mm', (typed, mm) => {
    const read = readMeasure(typed, 'mm', 'mm');
    expect(refusal(read)).toBeNull();
    expect(read.ok && read.value).toBeCloseTo(mm, 9);
  });

  test('[O1] the unit chosen holds for a fraction without one, and a millimetre may have a fraction too', () => {
    expect(readMeasure('13/16', 'mm', 'inch')).toEqual({ ok: true, value: 20.6375 });
    expect(readMeasure('1/2 mm', 'mm', 'inch')).toEqual({ ok: true, value: 0.5 });
  });

  test.each([
    '1 13/8 in',
    '1 16/16 in',
    '1-0/16 in',
    '1/0 in',
    '1 1/0 in',
    '2.5 1/4 in',
    '1 - 3/16 in',
    '1/2/4 in',
    '½½ in',
    '1 3 16 in',
    `${'9'.repeat(400)} mm`,
  ])('[O1] “%s” is no measure, and nothing is guessed', (typed) => {
    expect(refusal(readMeasure(typed, 'mm', 'mm'))).toMatch(/is no measure/);
  });

  test('[O1] a fraction that is not less than one beside a whole number is refused with how a mixed number is written', () => {
    expect(refusal(readMeasure('1 13/8 in', 'mm', 'mm'))).toMatch(/1 3\/16/);
  });
});

describe('± everywhere is twice the standard uncertainty', () => {
  const length = {
    id: 'exducer',
    slot: 'wheel',
    name: 'exducer diameter',
    kind: 'measure',
    unit: 'mm',
    resolution: 0.05,
  } as unknown as Feature;

  test('[O2] what is typed as ± is twice u, so that it is the interval agreement is judged by', () => {
    expect(readUncertainty('0.05', 'mm', 'mm')).toEqual({ ok: true, value: 0.025 });
    expect(readUncertainty('0.001 in', 'mm', 'mm')).toEqual({ ok: true, value: 0.0127 });
  });

  test('[O1] a ± that is nothing, negative or no number is refused', () => {
    for (const typed of ['', '0', '-0.02', 'NaN', '1/0', '0.0', '±']) expect(readUncertainty(typed, 'mm', 'mm').ok, typed).toBe(false);
    expect(refusal(readUncertainty('', 'mm', 'mm'))).toMatch(/How far off may it be/);
    expect(refusal(readUncertainty('-0.02', 'mm', 'mm'))).toMatch(/greater than zero/);
  });

  test('[O2] the field, the row and the reasons show one and the same ±', () => {
    const draft = { ...draftOf(length, null, 'mm', []), text: '57.1' };
    const read = entryOf(length, draft, 'mm');
    if (!read.ok || read.value.sure.kind !== 'measured') throw new Error('a measure was typed');
    const { value, sure } = read.value;
    expect(sure.u).toBe(startingUncertainty(0.05));
    expect(draft.within).toBe('0.058');
    expect(saySure(length, sure, 'mm')).toBe('±0.058');
    expect(seenPhrase(length, { value, sure })).toBe('exducer diameter 57.1 mm (±0.058)');
    expect(draftOf(length, { id: 'o', slot: 'wheel', feature: 'exducer', value, sure } as never, 'mm', []).within).toBe('0.058');
  });

  test('[O2] a ± too fine for three decimals is not shown as none', () => {
    const sure = { kind: 'measured', u: 0.0002 } as const;
    expect(seenPhrase(length, { value: { kind: 'measure', value: 57.1 }, sure })).toBe('exducer diameter 57.1 mm (±0.0004)');
    expect(saySure(length, sure, 'mm')).toBe('±0.0004');
  });

  test('[A5] a step that is no number starts no uncertainty', () => {
    for (const step of [Number.NaN, Number.POSITIVE_INFINITY, -0.02, 0]) expect(startingUncertainty(step)).toBeNull();
  });
});

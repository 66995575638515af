import { describe, expect, test } from 'vitest';
import { readCount, readMeasure, readUncertainty, startingUncertainty } from '../../../renderer/values/readSeen.ts';

const refusal = (read: { ok: boolean; sentence?: string }) => (read.ok ? null : read.sentence);

describe('what is typed at the counter', () => {
  test.each([
    ['10', 10, 10],
    [' 10 or 11 ', 10, 11],
    ['11 or 10', 10, 11],
    ['9 to 11', 9, 11],
    ['9-11', 9, 11],
    ['9–11', 9, 11],
    ['1992 to 2009', 1992, 2009],
    ['0', 0, 0],
  ])('[O1] the count “%s” runs from %i to %i', (typed, from, to) => {
    expect(readCount(typed)).toEqual({ ok: true, value: { from, to } });
  });

  test('[O1] “10 or 12” is not stretched to 11 behind the counter’s back', () => {
    expect(refusal(readCount('10 or 12'))).toMatch(/10 to 12/);
  });

  test.each(['', 'ten', '10.5', '-3', '10 or', '10 or 11 or 12'])('[O1] “%s” is refused as a count, with what is wanted', (typed) => {
    expect(refusal(readCount(typed))).toMatch(/10 or 11/);
  });

  test.each([
    ['57.12', 'mm', 57.12],
    ['57,12', 'mm', 57.12],
    ['57.12 mm', 'inch', 57.12],
    ['2.25', 'inch', 57.15],
    ['2.25 in', 'mm', 57.15],
    ['2 1/4 in', 'mm', 57.15],
    ['1/4"', 'mm', 6.35],
    ['2 1/4"', 'mm', 57.15],
    ['2 1/4 ”', 'mm', 57.15],
    ['2,25″', 'mm', 57.15],
    ["2.25''", 'mm', 57.15],
    ['2½ in.', 'mm', 63.5],
    ['2,25 inches', 'mm', 57.15],
    ['57,15mm', 'inch', 57.15],
    ['57,15 millimetres', 'inch', 57.15],
    ['ø 57,2', 'mm', 57.2],
    ['Ø57.2 mm', 'inch', 57.2],
    [',5', 'mm', 0.5],
    ['-0.05', 'mm', -0.05],
  ] as const)('[O2] the measure “%s” with %s chosen is %d mm; one inch is 25.4 mm exactly', (typed, chosen, mm) => {
    const read = readMeasure(typed, 'mm', chosen);
    expect(read.ok && read.value).toBeCloseTo(mm, 10);
  });

  test('[O2] an angle is never read as a length, nor a length as an angle', () => {
    expect(readMeasure('12.5°', 'deg', 'mm')).toEqual({ ok: true, value: 12.5 });
    expect(readMeasure('12.5', 'deg', 'inch')).toEqual({ ok: true, value: 12.5 });
    expect(readMeasure('12,5 degrees', 'deg', 'inch')).toEqual({ ok: true, value: 12.5 });
    expect(refusal(readMeasure('12.5 mm', 'deg', 'mm'))).toMatch(/angle/);
    expect(refusal(readMeasure('12.5°', 'mm', 'mm'))).toMatch(/length/);
  });

  test.each([
    '',
    'abc',
    '5 7',
    '1/0',
    '2.5 1/4',
    '5..2',
    'NaN',
    '1e3',
    '57,2,1',
    '1.234,5',
    '57.2 m',
    'ø -5',
    "2'",
    '12 in deg',
    '57.2..',
    '57.',
  ])('[O2] “%s” is no measure', (typed) => {
    expect(readMeasure(typed, 'mm', 'mm').ok).toBe(false);
  });

  test('[O1] a measure has an uncertainty greater than zero, or it is refused', () => {
    expect(readUncertainty('0.02', 'mm', 'mm')).toEqual({ ok: true, value: 0.01 });
    expect(refusal(readUncertainty('', 'mm', 'mm'))).toMatch(/needs its ±/);
    expect(refusal(readUncertainty('0', 'mm', 'mm'))).toMatch(/greater than zero/);
    expect(refusal(readUncertainty('-1', 'mm', 'mm'))).toMatch(/greater than zero/);
  });

  // JCGM 100:2008 (GUM) 4.3.7, from memory (M): u² = a²/3 for a rectangular distribution of half-width a.
  // The variance is recomputed (V) by summing over the interval, which shares no formula with the code.
  test('[O1] the starting uncertainty is that of one step of the instrument either way, all of it equally likely', () => {
    const step = 0.02;
    const cells = 20_000;
    let variance = 0;
    for (let cell = 0; cell < cells; cell += 1) variance += (step * ((2 * (cell + 0.5)) / cells - 1)) ** 2 / cells;
    expect(startingUncertainty(step)).toBeCloseTo(Math.sqrt(variance), 3);
    expect(startingUncertainty(step)).toBe(0.012);
  });

  test('[A5] where the atlas names no instrument, no uncertainty is made up', () => {
    expect(startingUncertainty(undefined)).toBeNull();
    expect(startingUncertainty(0)).toBeNull();
  });
});

import { describe, expect, test } from 'vitest';
import { readEntry } from '../../../db/sheets/read-entry.ts';
import type { Feature, FeatureId, SlotId, StageId } from '../../../reasoner/index.ts';

const feature = (of: Partial<Feature> & Pick<Feature, 'kind'>): Feature => ({
  id: 'f' as FeatureId,
  slot: 's' as SlotId,
  name: 'feature',
  stage: 'outside' as StageId,
  minutes: 1,
  ...of,
});
const count = feature({ kind: 'count' });
const length = feature({ kind: 'measure', unit: 'mm' });
const angle = feature({ kind: 'measure', unit: 'deg' });
const thread = feature({
  kind: 'choice',
  options: [
    { id: 'right', name: 'Right hand' },
    { id: 'left', name: 'Left hand' },
  ],
});

const read = (of: Feature, value: string, how = '', u = '') => readEntry({ value, how, u }, of);
const measured = (value: number, u: number) => ({
  ok: true,
  value: { kind: 'measure', value },
  sure: { kind: 'measured', u },
  confirmed: false,
});

describe('one entry of a table', () => {
  test.each([
    [angle, '24.5', '0.1', 24.5, 0.1],
    [angle, '24.5 deg', '0.1 deg', 24.5, 0.1],
    [angle, '24.5°', '0.1°', 24.5, 0.1],
    [length, '57.2', '0.02', 57.2, 0.02],
    [length, '57.2 mm', '0.02 mm', 57.2, 0.02],
    [length, '2.25 in', '0.001', 57.15, 0.0254],
    [length, '2.25"', '0.02 mm', 57.15, 0.02],
    [length, '57.15', '0.001 in', 57.15, 0.0254],
    [length, '1000000', '1', 1_000_000, 1],
    [length, '-3', '1', -3, 1],
  ])('[O1] the %# measure is read in its unit, and its uncertainty in its own or else the value’s', (of, value, u, size, sure) => {
    expect(read(of, value, 'measured', u)).toMatchObject(measured(size, sure));
  });

  test.each([
    [angle, '24.5 mm', 'value', 'a number of degrees'],
    [angle, '24.5 in', 'value', 'a number of degrees'],
    [length, '24.5°', 'value', 'a number of millimetres'],
    [length, '24.5 deg', 'value', 'a number of millimetres'],
    [length, '1000001', 'value', 'a number of millimetres'],
    [length, '-1000001', 'value', 'a number of millimetres'],
    [length, 'x57', 'value', 'a number of millimetres'],
    [length, '57x', 'value', 'a number of millimetres'],
  ])('[T1] %#: a measure in another unit, too large, or with more around it is refused', (of, value, column, expected) => {
    const answer = read(of, value, 'measured', '0.1');
    expect(answer).toMatchObject({ ok: false, column, found: `"${value}"` });
    expect(answer.ok ? '' : answer.expected).toContain(expected);
  });

  test('[T1] an uncertainty of nothing, or in another unit than the value’s kind, is refused', () => {
    expect(read(length, '57', 'measured', '0')).toMatchObject({ ok: false, column: 'u', found: '"0"' });
    expect(read(angle, '24', 'measured', '0.1 mm')).toMatchObject({ ok: false, column: 'u' });
    expect(read(length, '57', 'measured')).toMatchObject({ ok: false, column: 'u', found: 'nothing' });
  });

  test('[O1] what was told has its size and no uncertainty', () => {
    expect(read(length, '2.25 in', 'told')).toEqual({
      ok: true,
      kind: 'seen',
      value: { kind: 'measure', value: 57.15 },
      sure: { kind: 'told' },
      confirmed: false,
    });
    expect(read(length, '57', 'told', '0.1')).toMatchObject({ ok: false, column: 'u' });
  });

  test('[O1] a choice is read by its id, or by its name however it is written', () => {
    for (const text of ['left', 'Left hand', 'LEFT HAND', 'left hand'])
      expect(read(thread, text, 'seen')).toMatchObject({ ok: true, value: { kind: 'choice', option: 'left' } });
    expect(read(thread, 'upside down', 'seen')).toMatchObject({ ok: false, column: 'value', expected: 'right or left' });
    expect(read(thread, 'left', 'seen', '1')).toMatchObject({ ok: false, column: 'u', expected: 'nothing, for a choice' });
  });

  test.each(['x11', '11x', '1..', '..2', '11 ', '2..1', '1234567890', '-1'])('[T1] "%s" is no count', (text) => {
    expect(read(count, text, 'seen')).toMatchObject({ ok: false, column: 'value' });
  });

  test('[O1] a count is a number or a range, its ends included', () => {
    expect(read(count, '10..10', 'seen')).toMatchObject({ ok: true, value: { kind: 'count', from: 10, to: 10 } });
    expect(read(count, '123456789', 'told')).toMatchObject({ ok: true, value: { from: 123_456_789, to: 123_456_789 } });
  });

  test('[O7] confirmed is a word of its own at the end, and what could not be seen or read is not confirmed', () => {
    expect(read(count, '11', 'seen confirmed')).toMatchObject({ ok: true, kind: 'seen', sure: { kind: 'seen' }, confirmed: true });
    for (const how of ['seen confirmed not', 'confirmed', 'seenconfirmed'])
      expect(read(count, '11', how)).toMatchObject({ ok: false, column: 'how', found: `"${how}"` });
    expect(read(count, '?')).toEqual({ ok: true, kind: 'unseen' });
    expect(read(length, '57', 'told')).toMatchObject({ ok: true, confirmed: false });
    expect(read(count, '?', '', '1')).toMatchObject({ ok: false, column: 'u', expected: 'nothing beside ?' });
    expect(read(count, 'x', 'seen confirmed')).not.toHaveProperty('confirmed');
  });

  test.each([
    [length, '57', 'seen confirmed', '', 'measured or told, for a measure'],
    [count, '11', 'measured  confirmed', '', 'seen or told, for a count'],
    [count, '11', 'told confirmed by phone confirmed', '', 'seen or told, for a count'],
    [count, '?', 'seen confirmed', '', 'nothing beside ?'],
  ])('[O7] %#: what is refused is told as it stands in its cell, the confirmation with it', (of, value, how, u, expected) => {
    expect(read(of, value, how, u)).toEqual({ ok: false, column: 'how', found: `"${how}"`, expected });
  });
});

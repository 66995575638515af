import { expect, test } from 'vitest';
import { lookOf } from '../../../reasoner/apart/look.ts';
import { agrees, compatible } from '../../../reasoner/atlas/agree.ts';
import type { Fact, Feature, Observation } from '../../../reasoner/index.ts';
import { sameMark } from '../../../reasoner/plain/letters.ts';

const letters = { id: 'wheel.mark', slot: 'wheel', name: 'letters on the nose', kind: 'mark' } as unknown as Feature;
const seen = (text: string | null): Pick<Observation, 'value' | 'sure'> => ({ value: { kind: 'mark', text }, sure: { kind: 'seen' } });
const bears = (text: string): Fact => ({ kind: 'mark', anyOf: [text], blank: false });

test('[O2] letters are compared without case, spaces and signs between them', () => {
  expect(sameMark('KN-44 b', 'kn 44B')).toBe(true);
  expect(sameMark('KN-44', 'KN-45')).toBe(false);
});

test('[O2] a mark of signs alone is the same only as the same signs, however wide the dash was written', () => {
  expect(sameMark('--', '++')).toBe(false);
  expect(sameMark('- -', '--')).toBe(true);
  expect(sameMark('–−', '--')).toBe(true);
  expect(sameMark('--', '-')).toBe(false);
  expect(sameMark('--', 'A')).toBe(false);
});

test('[O2] signs seen where the part bears others rule it out, and two of them contradict each other', () => {
  expect(agrees(letters, bears('++'), seen('--'))).toBe('fails');
  expect(agrees(letters, bears('++'), seen('+ +'))).toBe('holds');
  expect(compatible(seen('--'), seen('++'))).toBe(false);
  expect(compatible(seen('--'), seen(null))).toBe(false);
});

test('[D1] signs are no blank: a part that bears none and one that bears two dashes could not be read alike', () => {
  expect(lookOf(letters, bears('--'))).toEqual({ kind: 'one of', values: ['--'] });
  expect(lookOf(letters, { kind: 'mark', anyOf: [], blank: true })).toEqual({ kind: 'one of', values: [''] });
});

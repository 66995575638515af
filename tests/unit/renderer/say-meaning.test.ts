import { expect, test } from 'vitest';
import { numberSoFar } from '../../../reasoner/index.ts';
import { sayMeaning, sayWhen } from '../../../renderer/plate/sayMeaning.ts';
import { demo } from '../seed/demo-atlas.ts';

const words = {
  makerName: (id: string | null) => demo.data.makers.find((maker) => maker.id === id)?.name ?? '',
  slotName: (id: string) => id,
} as Parameters<typeof sayMeaning>[2];
const said = (text: string, says: 'part number' | 'serial number' = 'part number') =>
  sayMeaning(numberSoFar(demo, text, { says, entry: null }), says, words);

test.each([
  ['FLAG 767', 'Merrowby, part number: nameplate. Still to come: running number, 2 more figures; issue of the drawing, 1 figure.'],
  ['FLAG 76X', 'Merrowby, part number: nameplate. From sign 8 on, “X” cannot be so: running number, wanted 5 figures.'],
  ['FLAG 76736/1', 'Merrowby, part number: nameplate. nameplate Petrel 13 Cartridge, Merrowby Rotating Machines.'],
  ['FLAG 76736/9', 'Merrowby, part number: nameplate. Not listed.'],
  ['ROPE 31160/1', 'Merrowby, part number: bearing set. Merrowby ball-bearing cartridge, issue a, superseded by ROPE 31160/2.'],
  ['Ж', 'No maker of the atlas begins a part number so.'],
])('[O5] what “%s” means is said aloud in a sentence or two', (text, sentence) => {
  expect(said(text)).toBe(sentence);
});

test('[O5] a serial number is said with when it was stamped, and a wrong check digit with what it should be', () => {
  expect(said('R 0307 41377 2', 'serial number')).toBe('Merrowby, serial number since 1992: 2003, July.');
  expect(said('R 0307 41377 3', 'serial number')).toMatch(/From sign 14 on, “3” cannot be so: check digit, wanted 2\.$/);
});

test.each([
  [{ from: 2003, to: 2003 }, 7, 'July 2003'],
  [{ from: 2003, to: 2003 }, null, '2003'],
  [{ from: 1974, to: 1992 }, null, '1974 to 1992'],
  [{ from: 1992, to: null }, null, 'since 1992'],
  [{ from: null, to: 1974 }, null, 'until 1974'],
  [null, 12, 'December'],
  [null, null, null],
])('[O5] %j in month %j is said as %j', (made, month, sentence) => {
  expect(sayWhen(made, month)).toBe(sentence);
});

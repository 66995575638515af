import { expect, test } from 'vitest';
import { sheetIn } from '../../../../db/mend/sheet-in.ts';
import { sheetOf } from './small-file.ts';

const sheet = sheetOf('own-1');
const body = JSON.stringify(sheet);

test('[P3] the sheet of a text is read as it was saved', () => {
  expect(sheetIn(body)).toEqual(sheet);
});

test.each([
  ['bytes', Buffer.from(body)],
  ['nothing', null],
  ['what cannot be read', undefined],
  ['a number', 7],
  ['JSON cut off', body.slice(0, -1)],
  ['an empty text', ''],
  ['JSON of another shape', '{}'],
  ['a sheet with a field none has', JSON.stringify({ ...sheet, colour: 'grey' })],
  ['a sheet without a title', JSON.stringify({ ...sheet, title: undefined })],
])('[P3] %s is no sheet', (_, value) => {
  expect(sheetIn(value)).toBe(null);
});

import { expect, test } from 'vitest';
import { readListing } from '../../../reasoner/index.ts';
import { demo } from '../seed/demo-atlas.ts';

/** What is read of a text's turbine wheel: the piece found, and its measure in mm. */
const measures = (size: string): readonly (readonly [string, number])[] =>
  readListing(demo, `Turbine wheel, exducer diameter ${size}.`).finds.flatMap(({ text, becomes: [first] }) =>
    first.kind === 'told' && first.value.kind === 'measure' ? [[text, first.value.value] as const] : [],
  );

test.each([
  ['13/16 in', '13/16 in', 20.6375],
  ['11/2 in', '11/2 in', 139.7],
  ['2 1/4 in', '2 1/4 in', 57.15],
  ['2-1/4 in', '2-1/4 in', 57.15],
  ['2½ in', '2½ in', 63.5],
  ['½ inch', '½ inch', 12.7],
  ['2 ¼"', '2 ¼"', 57.15],
])('[O1] “%s” in a listing is the fraction that is written', (size, text, mm) => {
  expect(measures(size)).toEqual([[text, mm]]);
});

test.each(['1 13/8 in', '2.5 1/4 in', '1/0 in', '2-0/4 in', '1 8/8 in', '½½ in'])(
  '[O1] “%s” in a listing is no measure, nor is a piece of it',
  (size) => {
    expect(measures(size)).toEqual([]);
  },
);

test('[O1] a number that goes on is not read as its first figures', () => {
  const ratio = (text: string) =>
    readListing(demo, `Turbine housing A/R ${text}`).finds.filter(
      ({ becomes: [first] }) => first.kind === 'told' && first.value.kind === 'measure',
    );
  expect(ratio('14')).toHaveLength(1);
  for (const text of ['14½', '14-3/16', '14–16', '14/16']) expect(ratio(text), text).toEqual([]);
});

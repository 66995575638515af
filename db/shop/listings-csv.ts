import type { Listings, ListingsRow } from '../../reasoner/index.ts';
import { csvOf } from './csv.ts';

const columns: readonly (readonly [heading: string, of: (row: ListingsRow, index: number) => string | number])[] = [
  ['place', (_, index) => index + 1],
  ['standing', ({ standing }) => standing],
  ['title', ({ title }) => title],
  ['claimed', ({ claimed }) => claimed ?? ''],
  ['first reason rests on', ({ plainness }) => plainness?.restsOn ?? ''],
  ['things held against each other', ({ plainness }) => plainness?.members ?? ''],
  ['minutes of strip-down', ({ plainness }) => plainness?.minutes ?? ''],
  ['independent reasons', ({ plainness }) => plainness?.reasons.count ?? ''],
  ['there may be more', ({ plainness }) => (plainness === null ? '' : plainness.reasons.exact ? 'no' : 'yes')],
  ['why', ({ sentences }) => sentences.join(' ')],
  ['where to look first', ({ lookFirst }) => lookFirst ?? ''],
  ['may be described as', ({ may }) => may ?? ''],
  ['price asked', ({ offer }) => offer?.price ?? ''],
  ['link', ({ offer }) => offer?.link ?? ''],
  ['source', ({ source }) => source],
];

/** Listings that were judged, as CSV: what became of each, the columns of their own tables that nothing was made of, and the cautions as rows of their own at the end. */
export const listingsCsv = ({ rows, cautions }: Listings): string => {
  const carried = [...new Set(rows.flatMap(({ offer }) => (offer?.carried ?? []).map(({ heading }) => heading)))];
  const blank = carried.map(() => '');
  return csvOf(
    [...columns.map(([heading]) => heading), ...carried],
    [
      ...rows.map((row, index) => [...columns.map(([, of]) => of(row, index)), ...carried.map((heading) => carriedIn(row, heading))]),
      ...cautions.map((caution) => [
        ...columns.map(([heading]) => (heading === 'standing' ? 'caution' : heading === 'why' ? caution : '')),
        ...blank,
      ]),
    ],
  );
};

/** Two columns of one heading in a table come together in one cell. */
const carriedIn = ({ offer }: ListingsRow, heading: string): string =>
  (offer?.carried ?? [])
    .filter((one) => one.heading === heading)
    .map(({ text }) => text)
    .join(' · ');

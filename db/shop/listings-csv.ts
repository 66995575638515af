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
  ['may be described as', ({ may }) => may ?? ''],
  ['source', ({ source }) => source],
];

/** Listings that were judged, as CSV, the cautions as rows of their own at the end. */
export const listingsCsv = ({ rows, cautions }: Listings): string =>
  csvOf(
    columns.map(([heading]) => heading),
    [
      ...rows.map((row, index) => columns.map(([, of]) => of(row, index))),
      ...cautions.map((caution) => columns.map(([heading]) => (heading === 'standing' ? 'caution' : heading === 'why' ? caution : ''))),
    ],
  );

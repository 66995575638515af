import { shopWordHeading } from '../../reasoner/plain/shop-word.ts';
import type { CaseSummary, UnitNumber } from './case.ts';
import { csvOf } from './csv.ts';

const columns: readonly (readonly [heading: string, of: (one: CaseSummary) => string | number])[] = [
  ['number', (one) => one.number],
  ['opened on', (one) => one.openedOn],
  ['last saved', (one) => one.savedAt],
  ['title', (one) => one.title],
  ['kind', (one) => (one.kind === 'found' ? 'found unit' : 'planned build')],
  ['serial number', (one) => numbersOf(one, 'serial number')],
  ['part number on the plate', (one) => numbersOf(one, 'part number')],
  ['customer', (one) => one.customer],
  ['looked by', (one) => one.lookedBy],
  ['claimed name', (one) => one.claimed ?? ''],
  ['status of the claim', (one) => one.status ?? ''],
  ['honest names', (one) => one.honest.join('; ')],
  ['open names', (one) => one.open.join('; ')],
  ['atlas', (one) => one.edition ?? ''],
  ['entries', (one) => one.observations],
  ['photographs', (one) => one.photos],
  ['notes', (one) => one.notes],
  ['decided beside the verdict', (one) => (one.word === null ? '' : shopWordHeading(one.word))],
  ['decided by, or told by', (one) => one.word?.person ?? ''],
  ['decided on', (one) => one.word?.day ?? ''],
  ['decision', (one) => one.word?.decision ?? ''],
  ['ground', (one) => one.word?.ground ?? ''],
];

const numbersOf = ({ numbers }: CaseSummary, says: UnitNumber['says']): string =>
  numbers.flatMap((one) => (one.says === says ? [one.text] : [])).join('; ');

/** Cases as CSV, a row for each. */
export const casesCsv = (cases: readonly CaseSummary[]): string =>
  csvOf(
    columns.map(([heading]) => heading),
    cases.map((one) => columns.map(([, of]) => of(one))),
  );

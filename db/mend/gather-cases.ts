import { groupBy } from '../plain/group-by.ts';
import type { SalvagedRow } from '../salvage/salvage.ts';
import { type CaseCount, dayOf, ofEveryLetter } from '../shop/case-number.ts';
import type { GatheredSheets } from './gather-sheets.ts';
import { caseRowTables, type Gathering, origin, text } from './gathering.ts';
import { photosIndex, yearCounts } from './layouts.ts';
import { numberedIn } from './numbered.ts';
import type { Source } from './source.ts';

export interface GatheredCases {
  /** Rows of `cases`, by their sheet. */
  readonly heads: ReadonlyMap<string, SalvagedRow>;
  /** Sheets of cases whose number could not be read anywhere, or is another’s. */
  readonly numberless: readonly string[];
}

export const numberOf = (row: SalvagedRow): string => `${row.letter} ${row.year} ${row.number}`;
const inYear = (row: SalvagedRow): string => `${row.year} ${row.number} ${row.sheet}`;
/** An index speaks of this case, as far as it says the letter. */
const speaksOf = (indexed: SalvagedRow, row: SalvagedRow): boolean =>
  inYear(indexed) === inYear(row) && (indexed.letter === null || indexed.letter === row.letter);

/** Heads of the cases of these sheets: their own rows, what the index of numbers says, a backup. */
export const gatherCases = ({ damaged, from, lost, put, complete, others }: Gathering, { sheets }: GatheredSheets): GatheredCases => {
  const heads = new Map<string, SalvagedRow>();
  const numbers = new Set<string>();
  const takeHead = (id: string, row: SalvagedRow): boolean => {
    if (heads.has(id) || numbers.has(numberOf(row))) return false;
    heads.set(id, row);
    numbers.add(numberOf(row));
    return true;
  };
  const numbered = numberedIn(damaged);
  const inIndex = groupBy(numbered.rows, inYear);
  const isInIndex = (row: SalvagedRow): boolean => (inIndex.get(inYear(row)) ?? []).some((indexed) => speaksOf(indexed, row));
  const ownHeads = [...damaged.table('cases').rows.values()].sort((a, b) => Number(a.loose) - Number(b.loose));
  for (const { row, loose } of ownHeads) {
    const ofRemoved = loose && numbered.complete && !isInIndex(row);
    if (sheets.has(text(row.sheet)) && !ofRemoved) takeHead(text(row.sheet), row);
  }
  const backups = others('cases');
  if (!complete('cases')) {
    for (const indexed of numbered.rows) {
      const { year, number, sheet } = indexed;
      const id = text(sheet);
      const saved = sheets.get(id)?.saved_at;
      if (saved === undefined || heads.has(id)) continue;
      const copies = backups.map((backup) => backup.table('cases').rows.get(JSON.stringify([id]))?.row);
      const copy = copies.find((row) => row !== undefined && speaksOf(indexed, row));
      const opened = copy?.opened_on ?? firstDay(damaged, id) ?? (saved === '' ? `${year}-01-01` : dayOf(new Date(text(saved))));
      const letter = indexed.letter ?? copy?.letter ?? '';
      if (takeHead(id, { sheet: id, year, number, opened_on: opened, letter }))
        from.push({ what: 'case number', of: id, source: 'index', saved: null });
    }
    for (const backup of backups)
      for (const { row } of backup.table('cases').rows.values()) {
        const id = text(row.sheet);
        if (sheets.has(id) && takeHead(id, row)) from.push({ what: 'case number', of: id, source: origin(backup), saved: null });
      }
  }
  for (const row of heads.values()) put('cases', row);
  const spokenOf = new Set<unknown>(damaged.index(photosIndex).map(({ sheet }) => sheet));
  for (const { name } of caseRowTables) {
    const { rows, torn } = damaged.table(name);
    for (const row of torn) spokenOf.add(row.sheet);
    for (const all of [rows, ...backups.map((backup) => backup.table(name).rows)])
      for (const { row } of all.values()) spokenOf.add(row.sheet);
  }
  const numberless = [...sheets.keys()].filter((id) => !heads.has(id) && spokenOf.has(id));
  for (const id of numberless) lost.push({ what: 'case number', id, known: '' });
  return { heads, numberless };
};

/** The day, by the clock of this computer, anything was first written of a case; null where nothing can be read of it. */
const firstDay = (source: Source, sheet: string): string | null => {
  const times = ['case_details', 'case_entries'].flatMap((table) =>
    [...source.table(table).rows.values()].filter(({ row }) => row.sheet === sheet).map(({ row }) => text(row.at)),
  );
  const first = times.sort()[0];
  return first === undefined ? null : dayOf(new Date(first));
};

/** The last number given under each letter in each year, whatever source knows of it, so that none is given twice (P1). */
export const gatherNumbers = ({ damaged, sources, put, others }: Gathering): void => {
  const last = new Map<string, CaseCount>();
  const count = (letter: unknown, ofYear: unknown, number: unknown): void => {
    const key = `${letter} ${ofYear}`;
    last.set(key, { letter: text(letter), year: Number(ofYear), last: Math.max(last.get(key)?.last ?? 0, Number(number)) });
  };
  const countForAll = (ofYear: unknown, number: unknown): void => {
    for (const one of ofEveryLetter(Number(ofYear), Number(number))) count(one.letter, one.year, one.last);
  };
  /** Whether it says all that there was of them. */
  const countAll = (source: Source): boolean => {
    const counts = source.table('case_counts');
    for (const { row } of counts.rows.values()) count(row.letter, row.year, row.last);
    for (const { row } of source.table('cases').rows.values()) count(row.letter, row.year, row.number);
    if (counts.rows.size > 0) return counts.complete;
    for (const row of source.index(yearCounts)) countForAll(row.year, row.last);
    return counts.complete && source.isComplete(yearCounts);
  };
  for (const source of countAll(damaged) ? others('cases') : sources.backups()) countAll(source);
  for (const { letter, year, number } of numberedIn(damaged).rows)
    if (letter === null) countForAll(year, number);
    else count(letter, year, number);
  for (const one of last.values()) put('case_counts', { ...one });
};

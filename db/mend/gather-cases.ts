import type { SalvagedRow } from '../salvage/salvage.ts';
import type { GatheredSheets } from './gather-sheets.ts';
import { type Gathering, origin, text } from './gathering.ts';
import { numbersIndex } from './layouts.ts';
import type { Source } from './source.ts';

export interface GatheredCases {
  /** Rows of `cases`, by their sheet. */
  readonly heads: ReadonlyMap<string, SalvagedRow>;
  /** Sheets of cases whose number could not be read anywhere. */
  readonly numberless: readonly string[];
}

export const numberOf = (row: SalvagedRow): string => `${row.year} ${row.number}`;

/** Heads of the cases of these sheets: their own rows, what the index of numbers says, a backup. */
export const gatherCases = (
  { damaged, from, lost, put, complete, others }: Gathering,
  { sheets, isNamed }: GatheredSheets,
): GatheredCases => {
  const heads = new Map<string, SalvagedRow>();
  const numbers = new Set<string>();
  const takeHead = (id: string, row: SalvagedRow): boolean => {
    if (heads.has(id) || numbers.has(numberOf(row))) return false;
    heads.set(id, row);
    numbers.add(numberOf(row));
    return true;
  };
  const ownHeads = [...damaged.table('cases').rows.values()].sort((a, b) => Number(a.loose) - Number(b.loose));
  for (const { row } of ownHeads) if (sheets.has(text(row.sheet))) takeHead(text(row.sheet), row);
  if (!complete('cases')) {
    for (const { year, number, sheet } of damaged.index(numbersIndex)) {
      const id = text(sheet);
      if (!sheets.has(id) || heads.has(id)) continue;
      const opened = openedOn(damaged, id) ?? text(sheets.get(id)?.saved_at).slice(0, 10);
      if (takeHead(id, { sheet: id, year, number, opened_on: opened }))
        from.push({ what: 'case number', of: id, source: 'index', saved: null });
    }
    for (const backup of others('sheets', 'cases', 'case_details', 'case_entries', 'case_photos'))
      for (const { row } of backup.table('cases').rows.values()) {
        const id = text(row.sheet);
        if (sheets.has(id) && takeHead(id, row)) from.push({ what: 'case number', of: id, source: origin(backup), saved: null });
      }
  }
  for (const row of heads.values()) put('cases', row);
  const numberless = [...sheets.keys()].filter(
    (id) => !heads.has(id) && (['cases', 'case_details', 'case_entries', 'case_photos'] as const).some((table) => isNamed(table, id)),
  );
  for (const id of numberless) lost.push({ what: 'case number', id, known: '' });
  return { heads, numberless };
};

const openedOn = (source: Source, sheet: string): string | null => {
  const times = ['case_details', 'case_entries'].flatMap((table) =>
    [...source.table(table).rows.values()].filter(({ row }) => row.sheet === sheet).map(({ row }) => text(row.at)),
  );
  return times.sort()[0]?.slice(0, 10) ?? null;
};

/** The last number given in each year, whatever source knows of it, so that none is given twice (P1). */
export const gatherNumbers = ({ damaged, put, others }: Gathering): void => {
  const last = new Map<number, number>();
  const count = (year: unknown, number: unknown): void => {
    if (typeof year === 'number' && typeof number === 'number') last.set(year, Math.max(last.get(year) ?? 0, number));
  };
  for (const source of [damaged, ...others('case_numbers', 'cases')]) {
    for (const { row } of source.table('case_numbers').rows.values()) count(row.year, row.last);
    for (const { row } of source.table('cases').rows.values()) count(row.year, row.number);
  }
  for (const { year, number } of damaged.index(numbersIndex)) count(year, number);
  for (const [year, number] of last) put('case_numbers', { year, last: number });
};

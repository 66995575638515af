import type { SalvagedRow } from '../salvage/salvage.ts';
import { type GatheredCases, numberOf } from './gather-cases.ts';
import type { GatheredSheets } from './gather-sheets.ts';
import { caseRowTables, type Gathering, origin, text, whats } from './gathering.ts';
import { photosIndex } from './layouts.ts';
import { keyOfRow } from './shop-tables.ts';
import type { Source } from './source.ts';

/** A row of a sheet of which no state could be read. */
export interface StrayRow {
  readonly table: string;
  readonly row: SalvagedRow;
}

/** What stands beside the sheets, row by row. */
export const gatherBeside = (
  { damaged, from, lost, put, complete, others }: Gathering,
  { sheets }: GatheredSheets,
  { heads, numberless }: GatheredCases,
): readonly StrayRow[] => {
  const strayRows: StrayRow[] = [];
  const cased = new Set([...heads.keys(), ...numberless]);
  /** The backup's case of a sheet is the same one, not one of a sheet of this id that was removed. */
  const sameCase = (backup: Source, id: string): boolean => {
    const [mine, theirs] = [heads.get(id), backup.table('cases').rows.get(JSON.stringify([id]))?.row];
    return mine === undefined || theirs === undefined || numberOf(mine) === numberOf(theirs);
  };

  // Which photographs a case shows is said twice, in the table and in its index.
  const shown = damaged.index(photosIndex);
  const indexComplete = damaged.isComplete(photosIndex);
  const shownKeys = new Set(shown.map(({ sheet, photo }) => JSON.stringify([sheet, photo])));

  for (const table of caseRowTables.filter(({ name }) => name !== 'cases')) {
    const { name } = table;
    const what = whats[name] ?? 'row';
    const taken = new Set<string>();
    const take = (row: SalvagedRow): void => {
      taken.add(keyOfRow(table, row));
      put(name, row);
    };
    for (const { row, loose } of damaged.table(name).rows.values()) {
      if (loose && name === 'case_photos' && indexComplete && !shownKeys.has(keyOfRow(table, row))) continue;
      // Whatever speaks of a sheet says that it has a case.
      if (sheets.has(text(row.sheet))) take(row);
      else strayRows.push({ table: name, row });
    }
    if (complete(name)) continue;
    for (const backup of others(name))
      for (const [key, { row }] of backup.table(name).rows) {
        const id = text(row.sheet);
        if (!cased.has(id) || taken.has(key) || !sameCase(backup, id)) continue;
        if (name === 'case_photos' && indexComplete && !shownKeys.has(key)) continue;
        take(row);
        from.push({ what, of: id, source: origin(backup), saved: table.at === null ? null : text(row[table.at]) });
      }
    if (name === 'case_photos')
      for (const { photo, sheet } of shown) {
        const id = text(sheet);
        const added = `${text(heads.get(id)?.opened_on ?? text(sheets.get(id)?.saved_at).slice(0, 10))}T00:00:00.000Z`;
        const row = { sheet, photo, added_at: added, caption: '', about_slot: null, about_observation: null };
        if (!cased.has(id) || taken.has(keyOfRow(table, row))) continue;
        take(row);
        from.push({ what, of: id, source: 'index', saved: null });
        lost.push({ what: 'place of a photograph', id: text(photo), known: `its caption, in the case of sheet ${id}` });
      }
    if (name === 'case_details') {
      const torn = damaged.table(name).torn.filter((row) => !taken.has(keyOfRow(table, row)));
      for (const id of sheets.keys())
        if (torn.some((row) => row.sheet === id)) lost.push({ what: 'words', id, known: 'some of what was written on the case' });
    }
  }
  return strayRows;
};

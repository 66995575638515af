import { groupBy } from '../plain/group-by.ts';
import type { SalvagedRow } from '../salvage/salvage.ts';
import { type CaseNumber, numberText } from '../shop/case-number.ts';
import { caseTables, type Gathering, origin, tableOf, text } from './gathering.ts';
import { numberedIn } from './numbered.ts';
import type { Recovered } from './report.ts';
import type { Source } from './source.ts';

export interface GatheredSheets {
  readonly sheets: ReadonlyMap<string, SalvagedRow>;
}

/** The newest state any source has of each of the shop's own sheets, but of those the damaged file says were removed. */
export const gatherSheets = ({ sources, damaged, from, lost, complete, others }: Gathering): GatheredSheets => {
  const { rows, complete: numbersComplete } = numberedIn(damaged);
  const numbered = new Set(rows.map(({ sheet }) => text(sheet)));
  /**
   * The damaged file says that a sheet was removed which no row in its place speaks of: a table that is whole would hold something of it. Every case has
   * words and a number from the first; entries it has since they are kept.
   */
  const removed = (id: string, hasCase: boolean, hasEntries: boolean): boolean =>
    complete('sheets') ||
    (hasCase && (complete('cases') || complete('case_details') || (numbersComplete && !numbered.has(id)))) ||
    (hasEntries && complete('case_entries'));
  /** An atlas from before there were cases has none; in any other every sheet of the shop has one. */
  const hasCases = damaged.table('cases').rows.size > 0;
  const sheets = new Map<string, SalvagedRow>();
  const ids = new Set<string>();
  for (const table of caseTables) {
    const column = tableOf(table).whose?.column ?? '';
    for (const { row, loose } of damaged.table(table).rows.values()) {
      const id = text(row[column]);
      if (!loose || !removed(id, table !== 'sheets' || hasCases, false)) ids.add(id);
    }
    for (const row of damaged.table(table).torn) if (typeof row[column] === 'string') ids.add(row[column]);
  }
  for (const id of numbered) if (!removed(id, true, false)) ids.add(id);
  const backups = others('sheets', 'cases', 'case_details', 'case_entries', 'case_photos');
  for (const backup of backups) {
    const held = [...backup.table('sheets').rows.values()].map(({ row }) => text(row.id));
    // A copy may be damaged too, and have of a sheet only what its case tells.
    const told = backup.table('sheets').complete ? [] : entriesOf(backup).keys();
    for (const id of [...held, ...told])
      if (!removed(id, backup.table('cases').rows.has(JSON.stringify([id])), lastEntry(backup, id) !== null)) ids.add(id);
  }
  const files = complete('sheets') ? [] : sources.sheetFiles();
  for (const { id } of files) if (!removed(id, true, true)) ids.add(id);

  for (const id of [...ids].sort()) {
    const own = damaged.table('sheets').rows.get(JSON.stringify([id, 'own']));
    if (own !== undefined && !own.loose) {
      sheets.set(id, own.row);
      continue;
    }
    const states: { readonly row: SalvagedRow; readonly source: Recovered['source'] | null }[] = [];
    if (own !== undefined) states.push({ row: own.row, source: null });
    const history = lastEntry(damaged, id);
    if (history !== null) states.push({ row: sheetRow(id, text(history.body), text(history.at)), source: 'history' });
    for (const backup of backups) {
      const row = backup.table('sheets').rows.get(JSON.stringify([id, 'own']))?.row;
      const entry = row === undefined ? lastEntry(backup, id) : null;
      if (row !== undefined) states.push({ row, source: origin(backup) });
      if (entry !== null) states.push({ row: sheetRow(id, text(entry.body), text(entry.at)), source: origin(backup) });
    }
    for (const file of files)
      if (file.id === id && !states.some(({ row }) => row.body === file.body))
        states.push({ row: sheetRow(id, file.body, file.at ?? ''), source: { file: file.file, at: file.at } });
    // The first of those of one time: its own row, which says its turn too, then what else the damaged file has, then a copy.
    const best = states.reduce<(typeof states)[number] | null>(
      (last, state) => (last === null || text(state.row.saved_at) > text(last.row.saved_at) ? state : last),
      null,
    );
    if (best === null) {
      lost.push({ what: 'sheet', id, known: knownOfSheet(damaged, id) });
      continue;
    }
    sheets.set(id, best.row);
    if (best.source !== null) from.push({ what: 'sheet', of: id, source: best.source, saved: text(best.row.saved_at) });
  }
  return { sheets };
};

/** The last entry of a case; null where it has none. */
const lastEntry = (source: Source, sheet: string): SalvagedRow | null => {
  let last: SalvagedRow | null = null;
  for (const row of entriesOf(source).get(sheet) ?? []) if (last === null || Number(row.n) > Number(last.n)) last = row;
  return last;
};

const entriesBySource = new WeakMap<Source, ReadonlyMap<string, readonly SalvagedRow[]>>();
const entriesOf = (source: Source): ReadonlyMap<string, readonly SalvagedRow[]> => {
  const known = entriesBySource.get(source);
  if (known !== undefined) return known;
  const rows = [...source.table('case_entries').rows.values()].map(({ row }) => row);
  const found = groupBy(rows, ({ sheet }) => text(sheet));
  entriesBySource.set(source, found);
  return found;
};

/** A row of `sheets` made of a sheet as JSON. */
const sheetRow = (id: string, body: string, savedAt: string): SalvagedRow => {
  const sheet = JSON.parse(body) as { title: string; kind: string; claimed: string | null; observations: readonly unknown[] };
  return {
    id,
    origin: 'own',
    pack: null,
    position: 0,
    title: sheet.title,
    kind: sheet.kind,
    claimed: sheet.claimed,
    observations: sheet.observations.length,
    body,
    saved_at: savedAt,
  };
};

const knownOfSheet = (source: Source, id: string): string => {
  const torn = source.table('sheets').torn.find((row) => row.id === id);
  const head = source.table('cases').rows.get(JSON.stringify([id]))?.row;
  const words = [...source.table('case_details').rows.values()].filter(({ row }) => row.sheet === id).at(-1)?.row;
  return [
    typeof torn?.title === 'string' ? torn.title : null,
    head === undefined ? null : `case ${numberText(head as unknown as CaseNumber)}`,
    typeof words?.customer === 'string' && words.customer !== '' ? `for ${words.customer}` : null,
  ]
    .filter((word) => word !== null)
    .join(', ');
};

import type { SalvagedRow } from '../salvage/salvage.ts';
import { numbersIndex, photosIndex } from './layouts.ts';
import type { Lost, Recovered } from './report.ts';
import { keyOfRow, type ShopTable, shopTables } from './shop-tables.ts';
import type { KeptPhoto, Source } from './source.ts';

/** A sheet that was written into a file by itself. */
export interface SheetFile {
  readonly file: string;
  /** ISO time of the folder it stands in. */
  readonly at: string | null;
  readonly id: string;
  readonly body: string;
}

/** Everything that may hold a copy, the damaged file first. */
export interface Sources {
  readonly damaged: Source;
  /** Newest first. Asked for only where the damaged file does not give all. */
  readonly backups: () => readonly Source[];
  /** Newest first. */
  readonly sheetFiles: () => readonly SheetFile[];
  /** A picture that was written into a file by itself, by its hash. */
  readonly photoFile: (id: string) => KeptPhoto | null;
}

/** What goes into the new atlas, with what is said of it. */
export interface Gathered {
  readonly sheets: ReadonlyMap<string, SalvagedRow>;
  /** Rows of every other table but photographs and sheets, by table. */
  readonly rows: ReadonlyMap<string, readonly SalvagedRow[]>;
  /** Photographs that cases show. */
  readonly photos: ReadonlyMap<string, KeptPhoto>;
  /** Cases whose number could not be read anywhere. */
  readonly numberless: readonly string[];
  /** Photographs of which nothing says whose they are. */
  readonly strayPhotos: readonly KeptPhoto[];
  /** Rows of sheets of which no state could be read. */
  readonly strayRows: readonly { readonly table: string; readonly row: SalvagedRow }[];
  readonly from: readonly Recovered[];
  readonly lost: readonly Lost[];
  readonly incomplete: readonly string[];
}

const tableOf = (name: string): ShopTable => {
  const table = shopTables.find((one) => one.name === name);
  if (table === undefined) throw new Error(`no table ${name}`);
  return table;
};
const text = (value: unknown): string => String(value);

const whats: Readonly<Record<string, Recovered['what']>> = {
  case_details: 'words',
  case_entries: 'entry',
  case_photos: 'place of a photograph',
  case_words: 'decision',
  courses: 'course',
  learners: 'learner',
  drill_cards: 'card',
  drill_answers: 'answer',
};

/** What is taken of every source: all the damaged file holds, and of the others what it does not say is gone. */
export const gather = (sources: Sources): Gathered => {
  const { damaged } = sources;
  const from: Recovered[] = [];
  const lost: Lost[] = [];
  const origin = ({ file, at }: Source) => ({ file, at });
  const complete = (name: string): boolean => damaged.table(name).complete;
  const caseTables = ['sheets', 'cases', 'case_details', 'case_entries', 'case_photos'] as const;
  const others = (...names: readonly string[]): readonly Source[] => (names.every(complete) ? [] : sources.backups());

  /** Ids of sheets that rows of a table speak of. */
  const namedIn = (source: Source, table: string): Set<string> => {
    const column = tableOf(table).whose?.column ?? '';
    const { rows, torn } = source.table(table);
    return new Set(
      [...[...rows.values()].map(({ row }) => row[column]), ...torn.map((row) => row[column])].filter((id) => typeof id === 'string'),
    );
  };
  const named = new Map(caseTables.map((table) => [table, namedIn(damaged, table)]));
  const numbered = new Set(damaged.index(numbersIndex).map(({ sheet }) => text(sheet)));
  /** The damaged file says that the sheet was removed: a table that is whole, and would hold something of it, does not. */
  const removed = (id: string, hasCase: boolean, hasEntries: boolean): boolean => {
    const absent = (table: (typeof caseTables)[number]): boolean => complete(table) && named.get(table)?.has(id) !== true;
    const numberless = damaged.isComplete(numbersIndex) && !numbered.has(id);
    // A case has words from the first.
    return (
      absent('sheets') || (hasCase && (absent('cases') || absent('case_details') || numberless)) || (hasEntries && absent('case_entries'))
    );
  };

  // Sheets: the newest state any source has.
  const sheets = new Map<string, SalvagedRow>();
  const ids = new Set<string>();
  for (const table of caseTables) {
    const column = tableOf(table).whose?.column ?? '';
    for (const { row, loose } of damaged.table(table).rows.values()) {
      const id = text(row[column]);
      if (!loose || !removed(id, table !== 'sheets', table === 'case_entries')) ids.add(id);
    }
    for (const row of damaged.table(table).torn) if (typeof row[column] === 'string') ids.add(row[column]);
  }
  for (const row of damaged.index(numbersIndex)) if (!complete('sheets')) ids.add(text(row.sheet));
  const backups = others('sheets', 'cases', 'case_details', 'case_entries', 'case_photos');
  for (const backup of backups)
    for (const { row } of backup.table('sheets').rows.values()) {
      const id = text(row.id);
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
    const history = lastEntry(damaged, id);
    if (history !== null) states.push({ row: sheetRow(id, text(history.body), text(history.at)), source: 'history' });
    if (own !== undefined) states.push({ row: own.row, source: null });
    for (const backup of backups) {
      const row = backup.table('sheets').rows.get(JSON.stringify([id, 'own']))?.row;
      const entry = row === undefined ? lastEntry(backup, id) : null;
      if (row !== undefined) states.push({ row, source: origin(backup) });
      if (entry !== null) states.push({ row: sheetRow(id, text(entry.body), text(entry.at)), source: origin(backup) });
    }
    for (const file of files)
      if (file.id === id && !states.some(({ row }) => row.body === file.body))
        states.push({ row: sheetRow(id, file.body, file.at ?? ''), source: { file: file.file, at: file.at } });
    // The first of those of one time: what stands in the damaged file goes before a copy of it.
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

  // What stands beside the sheets, row by row.
  const rows = new Map<string, SalvagedRow[]>();
  const strayRows: { table: string; row: SalvagedRow }[] = [];
  const put = (table: string, row: SalvagedRow): void => {
    const list = rows.get(table);
    if (list === undefined) rows.set(table, [row]);
    else list.push(row);
  };
  const keptSheets = new Set(sheets.keys());

  // Case heads: their own rows, what the index of numbers says, a backup.
  const heads = new Map<string, SalvagedRow>();
  const numbers = new Set<string>();
  const numberOf = (row: SalvagedRow): string => `${row.year} ${row.number}`;
  const takeHead = (id: string, row: SalvagedRow): boolean => {
    if (heads.has(id) || numbers.has(numberOf(row))) return false;
    heads.set(id, row);
    numbers.add(numberOf(row));
    return true;
  };
  const ownHeads = [...damaged.table('cases').rows.values()].sort((a, b) => Number(a.loose) - Number(b.loose));
  for (const { row } of ownHeads) if (keptSheets.has(text(row.sheet))) takeHead(text(row.sheet), row);
  if (!complete('cases')) {
    for (const { year, number, sheet } of damaged.index(numbersIndex)) {
      const id = text(sheet);
      if (!keptSheets.has(id) || heads.has(id)) continue;
      const opened = openedOn(damaged, id) ?? text(sheets.get(id)?.saved_at).slice(0, 10);
      if (takeHead(id, { sheet: id, year, number, opened_on: opened }))
        from.push({ what: 'case number', of: id, source: 'index', saved: null });
    }
    for (const backup of backups)
      for (const { row } of backup.table('cases').rows.values()) {
        const id = text(row.sheet);
        if (keptSheets.has(id) && takeHead(id, row)) from.push({ what: 'case number', of: id, source: origin(backup), saved: null });
      }
  }
  for (const row of heads.values()) put('cases', row);
  const numberless = [...keptSheets].filter(
    (id) =>
      !heads.has(id) && (['cases', 'case_details', 'case_entries', 'case_photos'] as const).some((table) => named.get(table)?.has(id)),
  );
  for (const id of numberless) lost.push({ what: 'case number', id, known: '' });

  /** The backup's case of a sheet is the same one, not one of a sheet of this id that was removed. */
  const sameCase = (backup: Source, id: string): boolean => {
    const [mine, theirs] = [heads.get(id), backup.table('cases').rows.get(JSON.stringify([id]))?.row];
    return mine === undefined || theirs === undefined || numberOf(mine) === numberOf(theirs);
  };

  // Which photographs a case shows is said twice, in the table and in its index.
  const shown = damaged.index(photosIndex);
  const indexComplete = damaged.isComplete(photosIndex);
  const shownKeys = new Set(shown.map(({ sheet, photo }) => JSON.stringify([sheet, photo])));

  for (const table of shopTables.filter(({ whose, name }) => whose?.table === 'sheets' && name !== 'sheets' && name !== 'cases')) {
    const { name } = table;
    const what = whats[name] ?? 'row';
    const taken = new Set<string>();
    const take = (row: SalvagedRow): boolean => {
      const key = keyOfRow(table, row);
      if (taken.has(key)) return false;
      const id = text(row.sheet);
      if (!keptSheets.has(id) || (!heads.has(id) && !numberless.includes(id))) {
        strayRows.push({ table: name, row });
        return false;
      }
      taken.add(key);
      put(name, row);
      return true;
    };
    for (const { row, loose } of damaged.table(name).rows.values())
      if (!(loose && name === 'case_photos' && indexComplete && !shownKeys.has(keyOfRow(table, row)))) take(row);
    if (complete(name)) continue;
    for (const backup of backups)
      for (const [key, { row }] of backup.table(name).rows) {
        const id = text(row.sheet);
        if (!keptSheets.has(id) || taken.has(key) || !sameCase(backup, id)) continue;
        if (name === 'case_photos' && indexComplete && !shownKeys.has(key)) continue;
        if (take(row)) from.push({ what, of: id, source: origin(backup), saved: table.at === null ? null : text(row[table.at]) });
      }
    if (name === 'case_photos')
      for (const { photo, sheet } of shown) {
        const id = text(sheet);
        const added = `${text(heads.get(id)?.opened_on ?? text(sheets.get(id)?.saved_at).slice(0, 10))}T00:00:00.000Z`;
        const row = { sheet, photo, added_at: added, caption: '', about_slot: null, about_observation: null };
        if (keptSheets.has(id) && !taken.has(keyOfRow(table, row)) && take(row)) {
          from.push({ what, of: id, source: 'index', saved: null });
          lost.push({ what: 'place of a photograph', id: text(photo), known: `its caption, in the case of sheet ${id}` });
        }
      }
  }
  for (const id of keptSheets)
    if (damaged.table('case_details').torn.some((row) => row.sheet === id))
      lost.push({ what: 'words', id, known: 'some of what was written on the case' });

  // Photographs that cases show, from wherever their bytes are whole.
  const photos = new Map<string, KeptPhoto>();
  const gone = new Set<string>();
  for (const row of rows.get('case_photos') ?? []) {
    const id = text(row.photo);
    if (photos.has(id) || gone.has(id)) continue;
    const mine = damaged.photos.get(id);
    const copy = mine?.small === true ? undefined : newestWith(sources.backups(), id, mine === undefined);
    const found = copy?.photos.get(id) ?? mine ?? sources.photoFile(id);
    if (found === null) {
      gone.add(id);
      lost.push({
        what: 'photograph',
        id,
        known: [text(row.caption), `in the case of sheet ${text(row.sheet)}`].filter((word) => word !== '').join(', '),
      });
      continue;
    }
    photos.set(id, found);
    if (copy !== undefined) from.push({ what: 'photograph', of: id, source: origin(copy), saved: null });
    else if (found.from !== undefined) from.push({ what: 'photograph', of: id, source: found.from, saved: null });
    if (!found.small) lost.push({ what: 'small picture', id, known: text(row.caption) });
  }
  rows.set(
    'case_photos',
    (rows.get('case_photos') ?? []).filter(({ photo }) => photos.has(text(photo))),
  );
  const strayPhotos = complete('case_photos') ? [] : [...damaged.photos.values()].filter(({ id }) => !photos.has(id));

  // Numbers: none is given twice, whatever source knows of it.
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

  // What was learnt, and whatever else stands by itself.
  for (const table of shopTables) {
    if (table.whose?.table === 'sheets' || table.name === 'case_numbers' || table.name === 'photos') continue;
    const taken = new Set<string>();
    for (const [key, { row }] of damaged.table(table.name).rows) {
      taken.add(key);
      put(table.name, row);
    }
    const without = (row: SalvagedRow): boolean =>
      table.whose !== null && complete('learners') && !damaged.table('learners').rows.has(JSON.stringify([row[table.whose.column]]));
    for (const backup of others(table.name))
      for (const [key, { row }] of backup.table(table.name).rows) {
        if (taken.has(key) || without(row)) continue;
        taken.add(key);
        put(table.name, row);
        from.push({
          what: whats[table.name] ?? 'row',
          of: text(row[table.whose?.column ?? table.keys[0] ?? '']),
          source: origin(backup),
          saved: table.at === null ? null : text(row[table.at]),
        });
      }
  }

  return {
    sheets,
    rows,
    photos,
    numberless,
    strayPhotos,
    strayRows,
    from,
    lost,
    incomplete: shopTables.filter(({ name }) => !complete(name)).map(({ name }) => name),
  };
};

/**
 * The newest backup that has a photograph with its small picture; or, where that will do, without. Backups are gone through one by one, because all the
 * photographs of each have to be read.
 */
const newestWith = (backups: readonly Source[], id: string, withoutSmall: boolean): Source | undefined => {
  let without: Source | undefined;
  for (const backup of backups) {
    const photo = backup.photos.get(id);
    if (photo?.small === true) return backup;
    if (photo !== undefined && withoutSmall) without ??= backup;
  }
  return without;
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
  const found = new Map<string, SalvagedRow[]>();
  for (const { row } of source.table('case_entries').rows.values())
    found.set(text(row.sheet), [...(found.get(text(row.sheet)) ?? []), row]);
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

const openedOn = (source: Source, sheet: string): string | null => {
  const times = ['case_details', 'case_entries'].flatMap((table) =>
    [...source.table(table).rows.values()].filter(({ row }) => row.sheet === sheet).map(({ row }) => text(row.at)),
  );
  return times.sort()[0]?.slice(0, 10) ?? null;
};

const knownOfSheet = (source: Source, id: string): string => {
  const torn = source.table('sheets').torn.find((row) => row.id === id);
  const head = source.table('cases').rows.get(JSON.stringify([id]))?.row;
  const words = [...source.table('case_details').rows.values()].filter(({ row }) => row.sheet === id).at(-1)?.row;
  return [
    typeof torn?.title === 'string' ? torn.title : null,
    head === undefined ? null : `case ${head.year}-${text(head.number).padStart(4, '0')}`,
    typeof words?.customer === 'string' && words.customer !== '' ? `for ${words.customer}` : null,
  ]
    .filter((word) => word !== null)
    .join(', ');
};

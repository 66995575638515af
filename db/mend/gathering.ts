import type { SalvagedRow } from '../salvage/salvage.ts';
import type { Lost, Recovered } from './report.ts';
import { type ShopTable, shopTables } from './shop-tables.ts';
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

/** A damaged file being gone through: what was taken of it and of its copies so far, and what is said of that. */
export interface Gathering {
  readonly sources: Sources;
  readonly damaged: Source;
  readonly from: Recovered[];
  readonly lost: Lost[];
  /** Rows for the new atlas, by table; sheets and photographs are gathered apart. */
  readonly rows: ReadonlyMap<string, readonly SalvagedRow[]>;
  put(table: string, row: SalvagedRow): void;
  /** Whether the damaged file says all that there was of a table. */
  complete(table: string): boolean;
  /** Backups, newest first, where it does not say all of these. */
  others(...tables: readonly string[]): readonly Source[];
}

export const newGathering = (sources: Sources): Gathering => {
  const { damaged } = sources;
  const rows = new Map<string, SalvagedRow[]>();
  const complete = (table: string): boolean => damaged.table(table).complete;
  return {
    sources,
    damaged,
    from: [],
    lost: [],
    rows,
    put: (table, row) => {
      const list = rows.get(table);
      if (list === undefined) rows.set(table, [row]);
      else list.push(row);
    },
    complete,
    others: (...tables) => (tables.every(complete) ? [] : sources.backups()),
  };
};

export const origin = ({ file, at }: Source) => ({ file, at });
export const text = (value: unknown): string => String(value);

export const tableOf = (name: string): ShopTable => {
  const table = shopTables.find((one) => one.name === name);
  if (table === undefined) throw new Error(`no table ${name}`);
  return table;
};

/** Tables that speak of a sheet with a case. */
export const caseTables = ['sheets', 'cases', 'case_details', 'case_entries', 'case_photos'] as const;

/** Tables of rows that are of a case, its number among them. */
export const caseRowTables: readonly ShopTable[] = shopTables.filter(({ whose, name }) => whose?.table === 'sheets' && name !== 'sheets');

/** What a row of a table is called; any other is a row. */
export const whats: Readonly<Record<string, Recovered['what']>> = {
  case_details: 'words',
  case_entries: 'entry',
  case_photos: 'place of a photograph',
  case_words: 'decision',
  shop_settings: 'setting',
  kept_files: 'file',
  documents: 'paper',
  stock: 'line of stock',
  shop_prices: 'price',
  samples: 'sample',
  courses: 'course',
  learners: 'learner',
  drill_cards: 'card',
  drill_answers: 'answer',
  keyring: 'trusted key',
  table_templates: 'way of reading a table',
};

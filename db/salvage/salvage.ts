import { type Entry, entryAt, type TreePage, treePageAt } from './btree.ts';
import type { Pages } from './pages.ts';
import type { Value } from './record.ts';

/** How the rows of a table, or of an index, are stored. */
export interface Layout {
  readonly name: string;
  /** `table`: by row id; `index`: an index, or a table without row ids. */
  readonly kind: TreePage['kind'];
  /** In the order they are stored in; columns that a migration added later come last. */
  readonly columns: readonly string[];
  /** The column that is the row id under another name. */
  readonly rowid: string | null;
  /** What stands in a column that was added later, in rows from before; nothing where left out. SQLite does not write those anew. */
  readonly defaults?: Readonly<Record<string, Value>>;
}

export type SalvagedRow = Readonly<Record<string, Value>>;

/** Where a row stands, so that a large one can be read again. */
export interface Place {
  readonly page: number;
  readonly cell: number;
}

export interface Found {
  readonly row: SalvagedRow;
  readonly whole: boolean;
  readonly place: Place;
  /** It stands on a page that no tree leads to any more: it is its table's by what it looks like, and may have been deleted before. */
  readonly loose: boolean;
}

export interface Salvage {
  /** Rows of a table, those its tree leads to first. */
  rowsOf(name: string): Generator<Found>;
  /** Whether every page of its tree could be read, and every row on them. Asked after its rows have been read once. */
  isComplete(name: string): boolean;
  /** A row again, as far as it can be read. */
  at(name: string, place: Place): SalvagedRow | null;
}

/**
 * Rows out of the pages of a file that may be damaged anywhere, without SQLite: each tree is walked from its root, past what cannot be read; and where a
 * tree is not whole, pages that no tree leads to and that are not free are looked through for its rows. A row is given only as what stands on its pages;
 * whether that makes sense is for who asks.
 * @param looksLike for each layout, whether a row can only be one of it; a loose page's rows are taken by that
 */
export const salvage = (pages: Pages, layouts: readonly Layout[], looksLike: (name: string, row: SalvagedRow) => boolean): Salvage => {
  const byName = new Map(layouts.map((layout) => [layout.name, layout]));
  const { roots, complete: schemaComplete } = schemaOf(pages);
  const broken = new Set<string>();
  for (const { name } of layouts) if (!roots.has(name) && !schemaComplete) broken.add(name);

  let loose: readonly number[] | null = null;
  const loosePages = (): readonly number[] => {
    if (loose !== null) return loose;
    const taken = freePages(pages);
    for (const root of [1, ...roots.values()]) for (const { number } of walk(pages, root, () => undefined)) taken.add(number);
    const found: number[] = [];
    for (let number = 2; number <= pages.count; number += 1)
      if (!taken.has(number) && treePageAt(pages, number) !== null) found.push(number);
    loose = found;
    return found;
  };

  const rowOf = (layout: Layout, entry: Entry): SalvagedRow | null => {
    if (entry.values.length > layout.columns.length) return null;
    const row: Record<string, Value> = {};
    for (const [index, column] of layout.columns.entries())
      row[column] =
        column === layout.rowid ? entry.rowid : index < entry.values.length ? entry.values[index] : (layout.defaults?.[column] ?? null);
    return row;
  };

  return {
    *rowsOf(name) {
      const layout = byName.get(name);
      if (layout === undefined) throw new Error(`no layout of ${name}`);
      const root = roots.get(name);
      if (root !== undefined)
        for (const { page, number } of walk(pages, root, () => broken.add(name))) {
          if (page.kind !== layout.kind) {
            broken.add(name);
            continue;
          }
          for (const cell of page.cells) {
            const entry = entryAt(pages, page, cell);
            const row = entry === null ? null : rowOf(layout, entry);
            if (entry === null || row === null || !entry.whole) broken.add(name);
            if (entry !== null && row !== null) yield { row, whole: entry.whole, place: { page: number, cell }, loose: false };
          }
        }
      if (!broken.has(name)) return;
      for (const number of loosePages()) {
        const page = treePageAt(pages, number);
        if (page?.kind !== layout.kind) continue;
        for (const cell of page.cells) {
          const entry = entryAt(pages, page, cell);
          // Only a record of just these columns, but for those that have a default; with fewer it cannot be told from another table's.
          if (entry === null || !entry.whole || entry.values.length < fewest(layout)) continue;
          const row = rowOf(layout, entry);
          if (row !== null && looksLike(name, row)) yield { row, whole: true, place: { page: number, cell }, loose: true };
        }
      }
    },
    isComplete: (name) => !broken.has(name),
    at: (name, { page: number, cell }) => {
      const layout = byName.get(name);
      const page = treePageAt(pages, number);
      const entry = page === null ? null : entryAt(pages, page, cell);
      return layout === undefined || entry === null ? null : rowOf(layout, entry);
    },
  };
};

/** How many columns a record has at least: all but the last ones that were added with a default. */
const fewest = ({ columns, defaults = {} }: Layout): number => {
  let many = columns.length;
  while (many > 1 && (defaults[columns[many - 1] ?? ''] ?? null) !== null) many -= 1;
  return many;
};

/** Every page of a tree that can be read, in order; `missed` is called for each that cannot, or is not whole. */
function* walk(pages: Pages, root: number, missed: () => void): Generator<{ readonly page: TreePage; readonly number: number }> {
  const seen = new Set<number>();
  const waiting = [root];
  for (let number = waiting.pop(); number !== undefined; number = waiting.pop()) {
    const page = seen.has(number) ? null : treePageAt(pages, number);
    seen.add(number);
    if (page === null || !page.whole) missed();
    if (page === null) continue;
    yield { page, number };
    for (const below of [...page.below].reverse()) waiting.push(below);
  }
}

const schemaTypes = new Set<Value>(['table', 'index', 'view', 'trigger']);

/**
 * The root page of every table and index (§2.6), by name. Where the tree of the schema is not whole, its rows are looked for on every page of the file:
 * five columns of this sort are nothing else's.
 */
const schemaOf = (pages: Pages): { readonly roots: ReadonlyMap<string, number>; readonly complete: boolean } => {
  const roots = new Map<string, number>();
  let complete = pages.headed;
  const take = (page: TreePage): void => {
    for (const cell of page.kind === 'table' ? page.cells : []) {
      const entry = entryAt(pages, page, cell);
      const [type, name, , root] = entry?.values.length === 5 ? entry.values : [];
      if (!schemaTypes.has(type) || typeof name !== 'string' || typeof root !== 'number') complete = false;
      // The name and the root stand before the statement: they are good where that is cut off.
      else if (root >= 2 && root <= pages.count && !roots.has(name)) roots.set(name, root);
    }
  };
  for (const { page } of walk(pages, 1, () => {
    complete = false;
  }))
    take(page);
  if (complete) return { roots, complete };
  for (let number = 2; number <= pages.count; number += 1) {
    const page = treePageAt(pages, number);
    if (page?.leaf && page.kind === 'table' && isOfSchema(pages, page)) take(page);
  }
  return { roots, complete: false };
};

const isOfSchema = (pages: Pages, page: TreePage): boolean =>
  page.cells.some((cell) => {
    const entry = entryAt(pages, page, cell);
    return entry?.values.length === 5 && schemaTypes.has(entry.values[0]) && typeof entry.values[3] === 'number';
  });

/** Pages that are free to be used again (§1.5), as far as the list of them can be followed: a page of the list that was spoilt must not name live ones. */
const freePages = (pages: Pages): Set<number> => {
  const free = new Set<number>();
  const header = pages.headed ? pages.page(1) : null;
  for (let trunk = header?.readUInt32BE(32) ?? 0; trunk >= 2 && !free.has(trunk); ) {
    const page = pages.page(trunk);
    const many = page?.readUInt32BE(4) ?? Number.POSITIVE_INFINITY;
    if (page === null || many > Math.floor(pages.usable / 4) - 2) break;
    const named = Array.from({ length: many }, (_, n) => page.readUInt32BE(8 + 4 * n));
    if (named.some((number) => number < 2 || number > pages.count || free.has(number)) || new Set(named).size < many) break;
    for (const number of [trunk, ...named]) free.add(number);
    trunk = page.readUInt32BE(0);
  }
  return free;
};

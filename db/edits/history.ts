import { and, desc, eq, inArray, isNull, lt, or } from 'drizzle-orm';
import { type CellKey, stepsOf } from '../atlas/cell.ts';
import type { Effect } from '../changes/change.ts';
import { countsOf } from '../changes/counts.ts';
import { effectOf } from '../changes/journal.ts';
import type { Reader } from '../driver/driver.ts';
import * as t from '../schema.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { alteredIn, calledIn } from './called-in.ts';
import { carriedBy } from './carry/carried-record.ts';
import { packOfOrigin } from './ground.ts';
import type { ChangeEntry, ChangeKind, ChangeWhole, EditedList } from './seen.ts';
import { alteredSeen, mostShown } from './seen-cells.ts';

type JournalRow = typeof t.journal.$inferSelect;
type Rows = readonly [JournalRow, ...JournalRow[]];

/** The entries of one change, in the order they were made. Throws `not-found`. */
export const entriesOf = async ({ orm }: Reader, change: number): Promise<Rows> => {
  const [first, ...more] = await orm
    .select()
    .from(t.journal)
    .where(or(and(eq(t.journal.n, change), isNull(t.journal.together)), eq(t.journal.together, change)))
    .orderBy(t.journal.n);
  if (first === undefined) throw new TroubleError(trouble('not-found', `change ${change}`, `The history has no change ${change}.`));
  return [first, ...more];
};

/** A change of more cells than this is told by how many there are; its entries are not read for a list. */
const mostRead = 400;
const mostNamed = 3;

/** What each entry of a change altered. */
const effectsOf = async (reader: Reader, rows: Rows): Promise<readonly Effect[]> => {
  const effects: Effect[] = [];
  for (const { n } of rows) effects.push(await effectOf(reader, n));
  return effects;
};

/** @param read what it altered, where that was read already */
const asOne = async (reader: Reader, rows: Rows, read: readonly Effect[] | null): Promise<ChangeEntry> => {
  const [first] = rows;
  const [undoing] = await reader.orm
    .select({ n: t.journal.n })
    .from(t.journal)
    .where(and(eq(t.journal.undoes, first.n), isNull(t.journal.together)))
    .orderBy(desc(t.journal.n))
    .limit(1);
  const cells = rows.reduce((sum, row) => sum + row.cells, 0);
  const named = cells <= mostRead && (first.kind === 'edited' || first.kind === 'undone');
  return {
    change: first.n,
    at: first.at,
    kind: first.kind as ChangeKind,
    packs: [...new Set(rows.map(({ origin }) => packOfOrigin(origin)))],
    who: first.who,
    why: first.why,
    source: first.source,
    cells,
    ...alteredIn(named ? (read ?? (await effectsOf(reader, rows))) : [], mostNamed),
    undoes: first.undoes,
    undoneBy: undoing?.n ?? null,
  };
};

/** Changes, the newest first; those before one where it is given, and of one entry where it is named. */
export const changesIn = async (
  reader: Reader,
  before: number | null,
  limit: number,
  of: { readonly list: EditedList; readonly id: string } | null,
): Promise<readonly ChangeEntry[]> => {
  const found: ChangeEntry[] = [];
  let from = before;
  for (;;) {
    const firsts = await reader.orm
      .select()
      .from(t.journal)
      .where(and(isNull(t.journal.together), from === null ? undefined : lt(t.journal.n, from)))
      .orderBy(desc(t.journal.n))
      .limit(limit);
    if (firsts.length === 0) return found;
    const more = await reader.orm
      .select()
      .from(t.journal)
      .where(
        inArray(
          t.journal.together,
          firsts.map(({ n }) => n),
        ),
      )
      .orderBy(t.journal.n);
    for (const first of firsts) {
      const rows = [first, ...more.filter(({ together }) => together === first.n)] as const;
      const effects = of === null ? null : await effectsOf(reader, rows);
      if (of === null || effects?.some((effect) => touches(effect, of))) found.push(await asOne(reader, rows, effects));
      if (found.length === limit) return found;
    }
    from = firsts.at(-1)?.n ?? 0;
  }
};

const touches = (effect: Effect, { list, id }: { readonly list: EditedList; readonly id: string }): boolean =>
  [...effect.keys()].some((key) => isOf(key, list, id));

/** Whether a cell speaks of an entry: it is one of its own, or says where a part may sit, or what may sit in a model. */
const isOf = (key: CellKey, list: EditedList, id: string): boolean => {
  const [of, first, second] = stepsOf(key);
  if (of === 'allowed') return (list === 'models' && first === id) || (list === 'parts' && second === id);
  return of === list && first === id;
};

export const wholeChange = async (reader: Reader, change: number): Promise<ChangeWhole> => {
  const rows = await entriesOf(reader, change);
  const own = new Set(
    (await reader.orm.select({ id: t.packs.id, own: t.packs.own }).from(t.packs)).flatMap((row) => (row.own ? [row.id] : [])),
  );
  const effects = await effectsOf(reader, rows);
  const packs = rows.map(({ origin }) => packOfOrigin(origin));
  const altered = effects
    .flatMap((effect, at) => alteredSeen(packs[at] as string, own.has(packs[at] as string), effect, () => null))
    .map(({ said: _said, ...cell }) => cell);
  const shown = altered.slice(0, mostShown);
  return {
    ...(await asOne(reader, rows, effects)),
    counts: countsOf(new Map(effects.flatMap((effect) => [...effect]))),
    altered: shown,
    alteredInAll: altered.length,
    carried: (await carriedBy(reader, change)).map(({ seen }) => seen),
    called: calledIn(effects, shown),
  };
};

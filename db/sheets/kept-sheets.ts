import { and, eq, getTableColumns, inArray } from 'drizzle-orm';
import type { Sheet, SheetId } from '../../reasoner/index.ts';
import type { SheetSummary } from '../answers.ts';
import { lists } from '../atlas/lists.ts';
import { entryOfRow } from '../atlas/read-lists.ts';
import type { Connection } from '../driver/connection.ts';
import type { Reader } from '../driver/driver.ts';
import * as t from '../schema.ts';
import { TroubleError, trouble } from '../trouble.ts';
import type { KnownToAtlas } from './check-sheet.ts';
import { parseSheet } from './read-sheet.ts';
import { ownRow } from './rows.ts';

type Row = typeof t.sheets.$inferSelect;

/** Own sheets, last saved first; then samples as their packs have them. An own copy stands in for its sample. */
export const listSheets = async (connection: Reader): Promise<SheetSummary[]> => {
  const { body: _body, ...columns } = getTableColumns(t.sheets);
  const rows = await connection.orm.select(columns).from(t.sheets).orderBy(t.sheets.pack, t.sheets.position);
  const own = rows
    .filter((row) => row.origin === 'own')
    .sort((a, b) => (a.savedAt === b.savedAt ? (a.id < b.id ? -1 : 1) : (a.savedAt ?? '') < (b.savedAt ?? '') ? 1 : -1));
  const copied = new Set(own.map(({ id }) => id));
  return [...own, ...rows.filter((row) => row.origin === 'sample' && !copied.has(row.id))].map(summaryOf);
};

/** The own sheet of this id, or the sample. Throws `not-found`. */
export const openSheet = async (connection: Reader, id: SheetId): Promise<Sheet> => {
  const rows = await connection.orm.select().from(t.sheets).where(eq(t.sheets.id, id)).orderBy(t.sheets.origin);
  const [row] = rows; // 'own' comes before 'sample'
  if (row === undefined) throw new TroubleError(noSuchSheet(id));
  const parsed = parseSheet(row.body, `sheet ${id}`);
  if (!parsed.ok) throw new TroubleError(parsed.trouble);
  return parsed.value.sheet;
};

/** Saves the sheet as the shop's own, new or not. `savedAt` is an ISO time. */
export const saveSheet = async (connection: Connection, sheet: Sheet, savedAt: string): Promise<SheetSummary> => {
  const row = ownRow(sheet, savedAt);
  const [saved] = await connection.orm
    .insert(t.sheets)
    .values(row)
    .onConflictDoUpdate({ target: [t.sheets.id, t.sheets.origin], set: row })
    .returning();
  if (saved === undefined) throw new Error('a saved sheet came back as nothing');
  return summaryOf(saved);
};

/** Removes an own sheet; a sample it was copied from shows again. Throws `not-found`, or `sheet-is-sample` for a sample. */
export const removeSheet = async (connection: Connection, id: SheetId): Promise<void> => {
  const gone = await connection.orm
    .delete(t.sheets)
    .where(and(eq(t.sheets.id, id), eq(t.sheets.origin, 'own')))
    .returning({ id: t.sheets.id });
  if (gone.length > 0) return;
  const [sample] = await connection.orm.select({ pack: t.sheets.pack }).from(t.sheets).where(eq(t.sheets.id, id));
  if (sample === undefined) throw new TroubleError(noSuchSheet(id));
  throw new TroubleError(
    trouble(
      'sheet-is-sample',
      `sheet ${id}`,
      `The sheet "${id}" is a sample of the pack "${sample.pack}" and stays with it. Only your own sheets can be removed.`,
    ),
  );
};

/** What the atlas knows of everything one sheet speaks of. */
export const knownTo = async (connection: Reader, sheet: Sheet): Promise<KnownToAtlas> => {
  const { orm } = connection;
  const features = await orm
    .select()
    .from(t.features)
    .where(inArray(t.features.id, unique([...sheet.observations, ...(sheet.unseen ?? [])].map(({ feature }) => feature))));
  const parts = await orm
    .select({ id: t.parts.id, slot: t.parts.slot })
    .from(t.parts)
    .where(inArray(t.parts.id, unique(Object.values(sheet.chosen))));
  const slots = await orm.select({ id: t.slots.id, name: t.slots.name }).from(t.slots);
  const makers = await orm.select({ id: t.makers.id }).from(t.makers);
  const byId = <T extends { readonly id: string }>(rows: readonly T[]) => new Map<string, T>(rows.map((row) => [row.id, row]));
  const [slot, feature, part, maker] = [
    byId(slots),
    byId(features.map((row) => entryOfRow(lists.features, row))),
    byId(parts),
    byId(makers),
  ];
  return { slot: (id) => slot.get(id), feature: (id) => feature.get(id), part: (id) => part.get(id), maker: (id) => maker.get(id) };
};

const summaryOf = (row: Omit<Row, 'body'>): SheetSummary => ({
  id: row.id,
  title: row.title,
  kind: row.kind,
  claimed: row.claimed,
  observations: row.observations,
  origin: row.origin,
  savedAt: row.savedAt,
});

const noSuchSheet = (id: SheetId) => trouble('not-found', `sheet ${id}`, `There is no sheet "${id}".`);

const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];

import { and, eq, getTableColumns, inArray } from 'drizzle-orm';
import type { Sheet, SheetId } from '../../reasoner/index.ts';
import type { SheetSummary } from '../answers.ts';
import { lists } from '../atlas/lists.ts';
import { entryOfRow } from '../atlas/read-lists.ts';
import type { Guard, Reader, Statement } from '../driver/driver.ts';
import { build, statementOf } from '../driver/statements.ts';
import * as t from '../schema.ts';
import type { KnownToAtlas } from '../sheets/check-sheet.ts';
import { parseSheet } from '../sheets/read-sheet.ts';
import { ownRow } from '../sheets/rows.ts';
import { TroubleError, trouble } from '../trouble.ts';

type Row = typeof t.sheets.$inferSelect;

/** Own sheets, last saved first; then samples as their packs have them. An own copy stands in for its sample. */
export const listSheets = async (reader: Reader): Promise<SheetSummary[]> => {
  const { body: _body, ...columns } = getTableColumns(t.sheets);
  const rows = await reader.orm.select(columns).from(t.sheets).orderBy(t.sheets.pack, t.sheets.position);
  // By the turn they were saved in, not by the time: a clock may have been set back in between.
  const own = rows.filter((row) => row.origin === 'own').sort((a, b) => b.position - a.position || (a.id < b.id ? -1 : 1));
  const copied = new Set(own.map(({ id }) => id));
  return [...own, ...rows.filter((row) => row.origin === 'sample' && !copied.has(row.id))].map(summaryOf);
};

/** The own sheet of this id, or the sample. Throws `not-found`. */
export const openSheet = async (reader: Reader, id: SheetId): Promise<Sheet> => {
  const rows = await reader.orm.select().from(t.sheets).where(eq(t.sheets.id, id)).orderBy(t.sheets.origin);
  const [row] = rows; // 'own' comes before 'sample'
  if (row === undefined) throw new TroubleError(noSuchSheet(id));
  const parsed = parseSheet(row.body, `sheet ${id}`);
  if (!parsed.ok) throw new TroubleError(parsed.trouble);
  return parsed.value.sheet;
};

/** What is there under a sheet's id: the body of the shop's own, and what opening it would give. */
export interface HeldSheet {
  readonly own: string | null;
  readonly sheet: Sheet | null;
}

export const heldSheet = async (reader: Reader, id: SheetId): Promise<HeldSheet> => {
  const rows = await reader.orm.select({ origin: t.sheets.origin }).from(t.sheets).where(eq(t.sheets.id, id)).limit(1);
  if (rows.length === 0) return { own: null, sheet: null };
  const [own] = await reader.orm.select({ body: t.sheets.body }).from(t.sheets).where(ownOf(id));
  return { own: own?.body ?? null, sheet: await openSheet(reader, id) };
};

export const ownOf = (id: SheetId) => and(eq(t.sheets.id, id), eq(t.sheets.origin, 'own'));

/** That the shop's own sheet is still as it was read. */
export const ownStands = (id: SheetId, own: string | null): Guard => ({
  sql: `select (select body from sheets where id = ? and origin = 'own') is ?`,
  params: [id, own],
  refusal: trouble(
    'changed-since',
    `sheet ${id}`,
    `The sheet "${id}" was being saved elsewhere at the same time. Nothing was changed. Try again.`,
  ),
});

/** Saves a sheet as the shop's own, new or not. `savedAt` is an ISO time. */
export const sheetSaved = (sheet: Sheet, savedAt: string): { readonly statement: Statement; readonly summary: SheetSummary } => {
  const row = ownRow(sheet, savedAt);
  return {
    statement: statementOf(
      build
        .insert(t.sheets)
        .values(row)
        .onConflictDoUpdate({ target: [t.sheets.id, t.sheets.origin], set: row }),
    ),
    summary: summaryOf({ ...row, claimed: row.claimed ?? null, pack: row.pack ?? null, savedAt }),
  };
};

/** What the atlas knows of everything one sheet speaks of. */
export const knownTo = async (reader: Reader, sheet: Sheet): Promise<KnownToAtlas> => {
  const { orm } = reader;
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

export const noSuchSheet = (id: SheetId) => trouble('not-found', `sheet ${id}`, `There is no sheet "${id}".`);

const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];

import { eq, getTableName } from 'drizzle-orm';
import { everyList, partList } from '../atlas/lists.ts';
import type { Connection } from '../driver/connection.ts';
import * as t from '../schema.ts';

/** The numbers that parts, models and features had, so that an edition that has them still keeps them. */
export interface Kept {
  readonly parts: ReadonlyMap<string, number>;
  readonly models: ReadonlyMap<string, number>;
  readonly features: ReadonlyMap<string, number>;
}

/**
 * Takes out everything one pack brought, but for the row of `packs` itself: terms only where no other pack holds them.
 * Own sheets stay. Foreign keys must be deferred.
 */
export const removeRows = async (connection: Connection, pack: string): Promise<Kept> => {
  const { orm } = connection;
  const numbered = (rows: readonly { readonly id: string; readonly n: number }[]) => new Map(rows.map(({ id, n }) => [id, n]));
  const kept: Kept = {
    parts: numbered(await orm.select({ id: t.parts.id, n: t.parts.n }).from(t.parts).where(eq(t.parts.pack, pack))),
    models: numbered(await orm.select({ id: t.models.id, n: t.models.n }).from(t.models).where(eq(t.models.pack, pack))),
    features: numbered(await orm.select({ id: t.features.id, n: t.features.n }).from(t.features)),
  };
  for (const table of [t.searchTerms, t.sits, t.sheets] as const) await orm.delete(table).where(eq(table.pack, pack));
  // What refers to something goes before it, as far as lists do so in their order.
  const lists = [...everyList].reverse();
  for (const { table } of [partList, ...lists.filter(({ shared }) => !shared)])
    await connection.run(`delete from ${getTableName(table)} where pack = ?`, [pack]);
  await orm.delete(t.packTerms).where(eq(t.packTerms.pack, pack));
  for (const { table, one } of lists.filter(({ shared }) => shared)) {
    const name = getTableName(table);
    await connection.run(`delete from ${name} where not exists (select 1 from pack_terms h where h.kind = ? and h.id = ${name}.id)`, [one]);
  }
  return kept;
};

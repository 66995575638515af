import { ne } from 'drizzle-orm';
import type { Atlas, Model } from '../../reasoner/index.ts';
import { withAllowed } from '../atlas/pack.ts';
import { readLists, type View } from '../atlas/read-lists.ts';
import type { Reader } from '../driver/driver.ts';
import { type Version, versionOf } from '../driver/version.ts';
import { groupBy } from '../plain/group-by.ts';
import * as t from '../schema.ts';

/**
 * The whole atlas, or the atlas without one pack, as the reasoner wants it. Everything stands in the order of its pack,
 * packs by id; a model's parts by slot, then as the parts stand. Run it in a transaction where others may write. `page` is how many rows
 * are read at once.
 */
export const readAtlas = async (connection: Reader, without: string | null = null, page?: number): Promise<Atlas> => {
  const view: View = without === null ? { of: 'all' } : { of: 'others', pack: without };
  const { lists, parts } = await readLists(connection, page === undefined ? { view } : { view, page });
  const allowedIn = await readAllowed(connection, without, lists.slots);
  return {
    edition: await editionOf(connection, without),
    ...lists,
    models: lists.models.map((model) => withAllowed(model, allowedIn.get(model.id) ?? [])),
    parts,
  };
};

/** By model; references lead into the pack left out, too. */
const readAllowed = async (
  { orm }: Reader,
  without: string | null,
  slots: Atlas['slots'],
): Promise<ReadonlyMap<string, Model['allowed']>> => {
  const modelIds = new Map((await orm.select({ n: t.models.n, id: t.models.id }).from(t.models)).map(({ n, id }) => [n, id]));
  const parts = await orm
    .select({ n: t.parts.n, id: t.parts.id, slot: t.parts.slot })
    .from(t.parts)
    .orderBy(t.parts.pack, t.parts.position);
  const partOf = new Map(parts.map(({ n, id, slot }, rank) => [n, { id, slot, rank }]));
  const slotRank = new Map(slots.map(({ id }, rank) => [id, rank]));
  const sits = await orm
    .select()
    .from(t.sits)
    .where(without === null ? undefined : ne(t.sits.pack, without));
  return new Map(
    [...groupBy(sits, ({ model }) => model)].map(([model, rows]) => {
      const allowed = rows.flatMap(({ part, role }) => {
        const found = partOf.get(part);
        return found === undefined ? [] : [{ ...found, role }];
      });
      allowed.sort((a, b) => (slotRank.get(a.slot) ?? 0) - (slotRank.get(b.slot) ?? 0) || a.rank - b.rank);
      return [modelIds.get(model) ?? '', allowed.map(({ slot, id, role }) => ({ slot, part: id, role }))];
    }),
  );
};

/** Which state the atlas is in. */
export interface AtlasState {
  /** What people call it: every pack with its edition. */
  readonly edition: string;
  /** Of what is reasoned over (H5): while it stands, nothing that was made of the atlas is made anew. */
  readonly version: Version;
}

/** Every pack counts by the version of its content, or of its whole text where it was loaded before that was kept. */
export const stateOf = async (reader: Pick<Reader, 'all'>): Promise<AtlasState> => {
  const packs = await reader.all<{ id: string; edition: string; content: string }>(
    'select id, edition, coalesce(content, hash) as content from packs order by id',
  );
  return {
    edition: packs.map(({ id, edition }) => `${id} ${edition}`).join(' + '),
    version: versionOf(packs.map(({ id, content }) => [id, content])),
  };
};

/** Which state of the data the atlas is in: every pack with its edition. */
export const editionOf = async (connection: Reader, without: string | null = null): Promise<string> => {
  const rows = await connection.orm
    .select()
    .from(t.packs)
    .where(without === null ? undefined : ne(t.packs.id, without))
    .orderBy(t.packs.id);
  return rows.map(({ id, edition }) => `${id} ${edition}`).join(' + ');
};

import { ne } from 'drizzle-orm';
import type { Atlas, Model, ModelId, Role, SlotId } from '../../reasoner/index.ts';
import { columnsOf } from '../atlas/columns.ts';
import type { Ids } from '../atlas/list.ts';
import { withAllowed } from '../atlas/pack.ts';
import { packedPages } from '../atlas/packed-rows.ts';
import { readLists, type View } from '../atlas/read-lists.ts';
import type { Reader } from '../driver/driver.ts';
import { type Version, versionOf } from '../driver/version.ts';
import * as t from '../schema.ts';

/**
 * The whole atlas, or the atlas without one pack, as the reasoner wants it. Everything stands in the order of its pack,
 * packs by id; a model's parts by slot, then as the parts stand. Run it in a transaction where others may write. `page` is how many rows
 * are read at once.
 */
export const readAtlas = async (connection: Reader, without: string | null = null, page?: number): Promise<Atlas> => {
  const view: View = without === null ? { of: 'all' } : { of: 'others', pack: without };
  const { lists, parts, ids } = await readLists(connection, page === undefined ? { view } : { view, page });
  const allowedIn = await readAllowed(connection, without, lists.slots, ids, page);
  return {
    edition: await editionOf(connection, without),
    ...lists,
    models: lists.models.map((model) => withAllowed(model, allowedIn.get(model.id) ?? [])),
    parts,
  };
};

/** By model; references lead into the pack left out, too. */
const readAllowed = async (
  reader: Reader,
  without: string | null,
  slots: Atlas['slots'],
  { models, parts }: Ids,
  page: number | undefined,
): Promise<ReadonlyMap<ModelId, Model['allowed']>> => {
  const ranked = await rankedParts(reader, slots, page);
  const allowed = new Map<ModelId, Model['allowed']>();
  // A part stands in the lists of several models, mostly in one role.
  const entries = new Map<string, Map<number, Allowed>>();
  let [model, waiting]: [unknown, { readonly slotRank: number; readonly rank: number; readonly entry: Allowed }[]] = [null, []];
  const finish = (): void => {
    const id = models.get(model as number);
    waiting.sort((a, b) => a.slotRank - b.slotRank || a.rank - b.rank);
    if (id !== undefined)
      allowed.set(
        id,
        waiting.map(({ entry }) => entry),
      );
    waiting = [];
  };
  const [where, values] = without === null ? ['true', []] : ['pack <> ?', [without]];
  for await (const { rows, of } of packedPages(reader, columnsOf(t.sits), where, values, page, ['model', 'part', 'role'])) {
    const [inModel, sitting, roles] = [of('model'), of('part') as readonly number[], of('role') as readonly Role[]];
    for (let row = 0; row < rows; row += 1) {
      if (inModel[row] !== model) {
        finish();
        model = inModel[row];
      }
      const [n, role] = [sitting[row] as number, roles[row] as Role];
      const [found, part] = [ranked.get(n), parts.get(n)];
      if (found === undefined || part === undefined) continue;
      const inRole = entries.get(role) ?? new Map<number, Allowed>();
      entries.set(role, inRole);
      const entry = inRole.get(n) ?? { slot: found.slot, part, role };
      inRole.set(n, entry);
      waiting.push({ slotRank: found.slotRank, rank: found.rank, entry });
    }
  }
  finish();
  return allowed;
};

type Allowed = Model['allowed'][number];

/** By number: a part's slot, with the place of that, and the place of the part among all. */
const rankedParts = async (reader: Reader, slots: Atlas['slots'], page: number | undefined) => {
  const slotRank = new Map(slots.map(({ id }, rank) => [id, { slot: id, slotRank: rank }]));
  const found: {
    readonly n: number;
    readonly slot: SlotId;
    readonly slotRank: number;
    readonly pack: string;
    readonly position: number;
  }[] = [];
  for await (const { rows, of } of packedPages(reader, columnsOf(t.parts), 'true', [], page, ['slot', 'pack', 'position'])) {
    const [n, slot, pack, position] = [of('n'), of('slot'), of('pack'), of('position')];
    for (let row = 0; row < rows; row += 1) {
      const at = slotRank.get(slot[row] as SlotId) ?? { slot: slot[row] as SlotId, slotRank: 0 };
      found.push({ n: n[row] as number, ...at, pack: pack[row] as string, position: position[row] as number });
    }
  }
  found.sort((a, b) => (a.pack === b.pack ? a.position - b.position : a.pack < b.pack ? -1 : 1));
  return new Map(found.map(({ n, slot, slotRank: of }, rank) => [n, { slot, slotRank: of, rank }]));
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

import type { Pack } from '../atlas/pack.ts';
import type { Reader } from '../driver/driver.ts';
import { openScratch } from '../driver/scratch.ts';
import { openAsItIs } from '../driver/sqlite-driver.ts';
import { canonicalText, hashOfPack } from '../packs/canonical.ts';
import { signedPackFrom } from '../packs/export.ts';
import type { Held } from '../packs/held.ts';
import type { Layout } from '../salvage/salvage.ts';
import { yearCounts } from './layouts.ts';
import type { MendedPack } from './report.ts';
import { canBePut, rowInserted } from './rows.ts';
import { shopTables } from './shop-tables.ts';
import type { Source } from './source.ts';

/** A pack the damaged atlas held. */
export interface GatheredPack {
  readonly id: string;
  readonly edition: string | null;
  /** Null where no source gives it whole. */
  readonly pack: Pack | null;
  /** The text of its signature.json; null where it has none. */
  readonly signature: string | null;
  readonly from: MendedPack['from'];
}

/** Made of others, or of packs; read of no damaged file. */
const derived = /^(search_|matings$|mates$|fits$|judged_joints$|journal|meta$|migrations$)/;

/**
 * The packs a damaged atlas held, each whole or not at all: out of its own tables where what they give is what was loaded, by the hash that is kept of it;
 * else out of the newest backup that has it.
 */
export const gatherPacks = async (
  damaged: Source,
  backups: () => readonly Source[],
  layouts: readonly Layout[],
): Promise<{ readonly packs: readonly GatheredPack[]; readonly complete: boolean; readonly own: string | null }> => {
  const held = headsIn(damaged);
  const complete = damaged.isComplete('packs');
  const own = await packsIn(damaged, [...held.keys()], layouts);
  const ids = new Set(held.keys());
  if (!complete) for (const backup of backups()) for (const id of headsIn(backup).keys()) ids.add(id);
  const packs: GatheredPack[] = [];
  for (const id of ids) {
    const found = own.get(id);
    if (found !== undefined) {
      packs.push({ id, edition: found.pack.head.edition, ...found, from: 'damaged file' });
      continue;
    }
    const nothing = { id, edition: held.get(id)?.edition ?? null, pack: null, signature: null, from: null };
    packs.push((await packInBackups(id, backups(), layouts)) ?? nothing);
  }
  return { packs, complete, own: ownIn([damaged, ...(complete ? [] : backups())]) };
};

type Whole = Pick<Held, 'pack' | 'signature'>;

const packInBackups = async (id: string, backups: readonly Source[], layouts: readonly Layout[]): Promise<GatheredPack | null> => {
  for (const backup of backups) {
    if (!headsIn(backup).has(id)) continue;
    const found = (await packsIn(backup, [id], layouts)).get(id);
    if (found !== undefined) return { id, edition: found.pack.head.edition, ...found, from: { file: backup.file, at: backup.at } };
  }
  return null;
};

/** The pack of the shop's own entries. */
const ownIn = (sources: readonly Source[]): string | null => {
  for (const source of sources) for (const { id, own } of source.rowsOf('packs')) if (own === 1 && typeof id === 'string') return id;
  return null;
};

const headsIn = (source: Source): ReadonlyMap<string, { readonly edition: string; readonly hash: string }> => {
  const heads = new Map<string, { edition: string; hash: string }>();
  for (const { id, edition, hash } of source.rowsOf('packs'))
    if (typeof id === 'string' && typeof edition === 'string' && typeof hash === 'string') heads.set(id, { edition, hash });
  return heads;
};

/** Those packs of a file that are whole: through SQLite where it can still read them, else of what stands on their pages. */
const packsIn = async (source: Source, ids: readonly string[], layouts: readonly Layout[]): Promise<ReadonlyMap<string, Whole>> => {
  const heads = headsIn(source);
  const found = new Map<string, Whole>();
  const wanting = (): string[] => ids.filter((id) => !found.has(id));
  const readFrom = async (reader: Reader): Promise<void> => {
    for (const id of wanting()) {
      const whole = await packIn(reader, id, heads.get(id)?.hash);
      if (whole !== null) found.set(id, whole);
    }
  };
  if (ids.length === 0) return found;
  const opened = await openAsItIs(source.file).catch(() => null);
  if (opened !== null)
    try {
      await readFrom(opened.reader);
    } finally {
      await opened.close().catch(() => undefined);
    }
  if (wanting().length === 0) return found;
  const scratch = await openScratch();
  try {
    const shop = new Set([...shopTables.map(({ name }) => name), yearCounts]);
    const statements = function* () {
      for (const { name } of layouts) {
        if (derived.test(name) || /^sqlite_|_by_/.test(name) || (shop.has(name) && name !== 'sheets' && name !== 'own_words')) continue;
        for (const row of source.rowsOf(name)) if (canBePut(row)) yield rowInserted(name, row, 'or ignore');
      }
    };
    await scratch.write({ statements: statements() });
    await scratch.read(readFrom);
  } finally {
    await scratch.close();
  }
  return found;
};

/** Null where it is another than was loaded, or anything of it cannot be read: what is damaged may read as anything, so any failure is one of reading. */
const packIn = async (reader: Reader, id: string, hash: string | undefined): Promise<Whole | null> => {
  try {
    const { pack, signature } = await signedPackFrom(reader, id);
    return hashOfPack(canonicalText(pack)) === hash ? { pack, signature } : null;
  } catch {
    return null;
  }
};

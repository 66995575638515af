import { isDeepStrictEqual } from 'node:util';
import { eq } from 'drizzle-orm';
import type { Atlas } from '../../reasoner/index.ts';
import { everyList } from '../atlas/lists.ts';
import type { Connection } from '../driver/connection.ts';
import * as t from '../schema.ts';
import { readAtlas } from '../store/read-atlas.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { canonicalText, hashOfPack } from './canonical.ts';
import type { LoadStep } from './load-step.ts';
import { type Asked, compareEditions, emptyAtlas, fileOf, type Pack } from './pack.ts';
import { inspectPack } from './read.ts';
import { removeRows } from './remove-rows.ts';
import type { Warning } from './warnings.ts';
import { writeRows } from './write-rows.ts';

export interface LoadOptions extends Asked {
  /** Puts the pack in even where the atlas holds a newer edition of it, or another pack of the same edition. */
  readonly anyEdition?: boolean;
  /** Told of each step as it begins. */
  readonly onProgress?: (step: LoadStep) => void;
}

export interface Loaded {
  readonly pack: string;
  readonly edition: string;
  /** False when the atlas held exactly this pack already. */
  readonly changed: boolean;
  /** The edition it took the place of. */
  readonly replaced: string | null;
  readonly counts: { readonly models: number; readonly parts: number; readonly facts: number; readonly sheets: number };
  /** What the pack should know of itself; it was loaded all the same. */
  readonly warnings: readonly Warning[];
}

/**
 * Loads a pack from its folder in one transaction: all of it or nothing. The same pack again changes nothing; a newer
 * edition takes the place of the one before. Own sheets are never touched. Run it inside a transaction.
 * Throws TroubleErrors: those of `readPack`, `pack-older`, `pack-same-edition`, `pack-clash` with another pack, and
 * `pack-needed` when another pack speaks of what this edition no longer has.
 */
export const loadPack = async (connection: Connection, folder: string, options: LoadOptions, loadedAt: string): Promise<Loaded> => {
  const step = options.onProgress ?? (() => undefined);
  step('reading');
  const others = await connection.orm.select().from(t.packs);
  let beside = emptyAtlas;
  const read = await inspectPack(folder, {
    ...options,
    beside: async (pack) => {
      if (others.some(({ id }) => id !== pack)) beside = await readAtlas(connection, pack);
      return beside;
    },
  });
  if (!read.ok) throw new TroubleError(read.trouble);
  const { pack, warnings } = read.value;
  const hash = hashOfPack(canonicalText(pack));
  const before = others.find(({ id }) => id === pack.head.id);
  const counts = {
    models: pack.models.length,
    parts: pack.parts.length,
    facts: pack.parts.reduce((sum, part) => sum + Object.keys(part.facts).length, 0),
    sheets: pack.sheets.length,
  };
  const outcome = { pack: pack.head.id, edition: pack.head.edition, counts, warnings };
  if (before?.hash === hash) return { ...outcome, changed: false, replaced: null };
  if (before !== undefined && options.anyEdition !== true) refuseOlder(folder, pack, before.edition);
  await refuseClashes(connection, folder, pack, beside);

  // References may dangle while the old rows make room for the new; they must all hold at the end.
  await connection.run('pragma defer_foreign_keys = on');
  step('removing the edition before');
  const kept = await removeRows(connection, pack.head.id);
  const { format: _format, version: _version, leansOn = null, ...words } = pack.head;
  const head = { ...words, leansOn };
  await connection.orm
    .insert(t.packs)
    .values({ ...head, hash, loadedAt })
    .onConflictDoUpdate({ target: t.packs.id, set: { ...head, hash, loadedAt } });
  await writeRows(connection, pack, kept, step);
  step('checking');
  await refuseDangling(connection, folder, pack);
  step('loaded');
  return { ...outcome, changed: true, replaced: before?.edition ?? null };
};

const refuseOlder = (folder: string, pack: Pack, held: string): void => {
  const { id, edition } = pack.head;
  const order = compareEditions(edition, held);
  if (order < 0) {
    throw new TroubleError(
      trouble(
        'pack-older',
        `${folder}/pack.json`,
        `The atlas holds a newer edition of the pack "${id}" (${held}; this one is ${edition}). Nothing was changed.`,
      ),
    );
  }
  if (order === 0) {
    throw new TroubleError(
      trouble(
        'pack-same-edition',
        `${folder}/pack.json`,
        `The atlas holds the pack "${id}" in this same edition (${held}), but with other contents. Nothing was changed. Give the changed pack a new edition.`,
      ),
    );
  }
};

/** Terms may be shared by packs that agree on them; everything else belongs to one pack. */
const refuseClashes = async (connection: Connection, folder: string, pack: Pack, beside: Atlas): Promise<void> => {
  const clash = (file: string, what: string, how: string): never => {
    throw new TroubleError(trouble('pack-clash', `${folder}/${file}`, `The pack was not loaded: ${what} ${how}. Nothing was changed.`));
  };
  const shared = everyList.filter((list) => list.shared);
  const owned = everyList.filter((list) => !list.shared);
  for (const { name, shared: is } of [...shared, ...owned, { name: 'parts', shared: false } as const]) {
    const known = new Map<string, unknown>((beside[name] ?? []).map((entry) => [entry.id, entry]));
    for (const entry of pack[name]) {
      const other = known.get(entry.id);
      if (other === undefined || (is && isDeepStrictEqual(other, entry))) continue;
      clash(
        fileOf(name),
        `"${entry.id}"`,
        is
          ? 'is written otherwise in another pack of the atlas; packs that share a term must agree on it'
          : 'belongs to another pack of the atlas already',
      );
    }
  }
  const sitting = new Set(
    (
      await connection.all<{ model: string; part: string }>(
        'select m.id as model, p.id as part from sits s join models m on m.n = s.model join parts p on p.n = s.part where s.pack <> ?',
        [pack.head.id],
      )
    ).map(({ model, part }) => `${model} ${part}`),
  );
  for (const { model, part } of pack.allowed) {
    if (sitting.has(`${model} ${part}`)) clash('allowed.csv', `"${part}" in "${model}"`, 'is listed by another pack of the atlas already');
  }
  const samples = await connection.orm.select({ id: t.sheets.id, pack: t.sheets.pack }).from(t.sheets).where(eq(t.sheets.origin, 'sample'));
  const taken = new Set<string>(samples.filter((sheet) => sheet.pack !== pack.head.id).map(({ id }) => id));
  for (const { id } of pack.sheets)
    if (taken.has(id)) clash(`sheets/${id}.json`, `the sheet "${id}"`, 'belongs to another pack of the atlas already');
};

/** What other packs refer to and this edition no longer has; the commit would only say that some key failed. */
const refuseDangling = async (connection: Connection, folder: string, pack: Pack): Promise<void> => {
  const dangling = await connection.all<{ table: string; parent: string }>('pragma foreign_key_check');
  const first = dangling[0];
  if (first === undefined) return;
  throw new TroubleError(
    trouble(
      'pack-needed',
      `${folder}/pack.json`,
      `The pack "${pack.head.id}" was not loaded: another pack of the atlas refers to ${first.parent} that this edition no longer has (${dangling.length} places, the first in ${first.table}). Nothing was changed.`,
    ),
  );
};

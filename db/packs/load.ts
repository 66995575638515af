import { cellsOf, hadIn } from '../changes/cells-of.ts';
import { type Count, countsOf } from '../changes/counts.ts';
import type { Driver, Reader } from '../driver/driver.ts';
import { type Plan, writePlanned } from '../driver/write-planned.ts';
import * as t from '../schema.ts';
import { readAtlas } from '../store/read-atlas.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { atlasWith } from './atlas-with.ts';
import { canonicalText, contentOfPack, hashOfPack } from './canonical.ts';
import { readHeld } from './held.ts';
import type { LoadStep } from './load-step.ts';
import { type Asked, emptyAtlas } from './pack.ts';
import { type Alongside, planPackChange } from './plan-change.ts';
import { inspectPack } from './read.ts';
import { refuseClashes, refuseOlder } from './refuse.ts';
import type { Warning } from './warnings.ts';

export interface LoadOptions extends Asked {
  /** Puts the pack in even where the atlas holds a newer edition of it, or another pack of the same edition. */
  readonly anyEdition?: boolean;
  /** Told of each step as it begins; again, where the atlas changed meanwhile and it is all done anew. */
  readonly onProgress?: (step: LoadStep) => void;
  readonly alongside?: Alongside;
}

export interface Loaded {
  readonly pack: string;
  readonly edition: string;
  /** False when the atlas held exactly this pack already. */
  readonly changed: boolean;
  /** The edition it took the place of. */
  readonly replaced: string | null;
  readonly counts: { readonly models: number; readonly parts: number; readonly facts: number; readonly sheets: number };
  /** What it adds, alters and removes, sort by sort. */
  readonly change: readonly Count[];
  /** What the pack should know of itself; it was loaded all the same. */
  readonly warnings: readonly Warning[];
}

/** A load as it would be: what it comes to, and the batch that makes it; nothing is written yet. */
export type LoadPlan = Plan<Loaded>;

/**
 * Loads a pack from its folder: what it says is held against what the atlas holds of it, and what differs is written as one batch, all of it or
 * nothing, on the journal's last entry. The same pack again changes nothing; a newer edition takes the place of the one before, and only the rows
 * that differ are written. Own sheets are never touched.
 * Throws TroubleErrors: those of `readPack`, `pack-older`, `pack-same-edition`, `pack-clash` with another pack, `pack-needed` when another pack
 * speaks of what this edition no longer has, and `atlas-changed` when others keep changing the atlas.
 */
export const loadPack = (driver: Driver, folder: string, options: LoadOptions, loadedAt: string): Promise<Loaded> =>
  writePlanned(driver, (reader) => planLoad(reader, folder, options, loadedAt));

export const planLoad = async (reader: Reader, folder: string, options: LoadOptions, loadedAt: string): Promise<LoadPlan> => {
  const step = options.onProgress ?? (() => undefined);
  step('reading');
  const others = await reader.orm.select().from(t.packs);
  let beside = emptyAtlas;
  const read = await inspectPack(folder, {
    ...options,
    beside: async (pack) => {
      if (others.some(({ id }) => id !== pack)) beside = await readAtlas(reader, pack);
      return beside;
    },
  });
  if (!read.ok) throw new TroubleError(read.trouble);
  const { pack, warnings } = read.value;
  const { id, edition } = pack.head;
  const files = canonicalText(pack);
  const hash = hashOfPack(files);
  const before = others.find((each) => each.id === id);
  const counts = {
    models: pack.models.length,
    parts: pack.parts.length,
    facts: pack.parts.reduce((sum, part) => sum + Object.keys(part.facts).length, 0),
    sheets: pack.sheets.length,
  };
  const outcome = { pack: id, edition, counts, warnings };
  if (before?.hash === hash) return { batch: null, value: { ...outcome, changed: false, replaced: null, change: [] } };
  if (before !== undefined && options.anyEdition !== true) refuseOlder(folder, pack, before.edition);
  await refuseClashes(reader, folder, pack, beside);

  step('checking');
  const held = await readHeld(reader, id);
  const cells = cellsOf(pack, held === null ? undefined : hadIn(held.cells));
  const { format: _format, version: _version, leansOn = null, ...head } = pack.head;
  const planned = await planPackChange(reader, {
    pack: id,
    before: held,
    after: { pack, cells, row: { ...head, leansOn, hash, content: contentOfPack(files), loadedAt } },
    entry: {
      at: loadedAt,
      kind: 'pack loaded',
      origin: `pack ${id}`,
      who: null,
      why: null,
      source: `${head.title}, edition ${edition}`,
    },
    needed: ({ parent, many, table }) =>
      trouble(
        'pack-needed',
        `${folder}/pack.json`,
        `The pack "${id}" was not loaded: another pack of the atlas refers to ${parent} that this edition no longer has (${many} places, the first in ${table}). Nothing was changed.`,
      ),
    step,
    alongside: options.alongside ?? null,
    atlas: async () => ({
      edition: [...others.filter((each) => each.id !== id), pack.head]
        .sort((a, b) => (a.id < b.id ? -1 : 1))
        .map((each) => `${each.id} ${each.edition}`)
        .join(' + '),
      ...(await atlasWith(reader, beside, pack)),
    }),
  });
  return {
    batch: planned.batch,
    value: { ...outcome, changed: true, replaced: before?.edition ?? null, change: countsOf(planned.effect) },
  };
};

import type { Pack } from '../atlas/pack.ts';
import { cellsOf, hadIn } from '../changes/cells-of.ts';
import { type Count, countsOf } from '../changes/counts.ts';
import type { Driver, Reader } from '../driver/driver.ts';
import { type Plan, writePlanned } from '../driver/write-planned.ts';
import type { Asked } from '../read/asked.ts';
import { Faults } from '../read/faults.ts';
import * as t from '../schema.ts';
import type { Signer } from '../signing/keyring.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { atlasOfPacks } from './atlas-of-packs.ts';
import { canonicalText, hashOfPack } from './canonical.ts';
import { contentOfPack } from './content.ts';
import { readHeld, stateOfHeld } from './held.ts';
import { headIn } from './leaning.ts';
import type { LoadStep } from './load-step.ts';
import type { MappedWord, SaidWord } from './mapped-word.ts';
import { isMappedAnew, mappingOf } from './mapping/mapping-of.ts';
import { inspectMapped, textsAsBrought } from './mapping/read-mapped.ts';
import { troubleOf } from './mapping/read-mapping.ts';
import { type Alongside, batchOf, nothingAhead, type PlannedChange, planPackChange } from './plan-change.ts';
import { leftUnnamed, refuseClashes, refuseOlder, refuseUnnamed } from './refuse.ts';
import { rowOfPack } from './row-of-pack.ts';
import { admittedSigner, type SignerOptions, signedAnew, unsigned, whose } from './signed.ts';
import { standingOf } from './standing.ts';
import { takingOver } from './taking-over.ts';
import type { Warning } from './warnings.ts';
import { type Disputing, type WordDispute, withWords } from './with-words.ts';

export interface LoadOptions extends Asked, SignerOptions, Disputing {
  /** Puts the pack in even where the atlas holds a newer edition of it, or another pack of the same edition. */
  readonly anyEdition?: boolean;
  /** Told of each step as it begins; again, where the atlas changed meanwhile and it is all done anew. */
  readonly onProgress?: (step: LoadStep) => void;
  readonly alongside?: Alongside;
  /** What is said of the words of the packs (P16). */
  readonly words?: readonly SaidWord[];
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
  /** Where the shop said otherwise than the edition before, and this one says a third thing. */
  readonly disputes: readonly WordDispute[];
  /** What the pack should know of itself; it was loaded all the same. */
  readonly warnings: readonly Warning[];
  /** Who signed the folder that was loaded; null where nobody did. */
  readonly signer: Signer | null;
  /** What of its words stands under an id of the atlas: what is held is then the pack as mapped, and not what was signed. */
  readonly mapped: readonly MappedWord[];
}

/**
 * Loads a pack from its folder: what it says is held against what the atlas holds of it, and what differs is written as one batch, all of it or
 * nothing, on the journal's last entry. The same pack again changes nothing; a newer edition takes the place of the one before, and only the rows
 * that differ are written. Own sheets are never touched.
 * Throws TroubleErrors: those of `readPack`, `pack-signature`, `pack-signer`, `pack-older`, `pack-same-edition`, `pack-clash` with another pack, `pack-disputed` where nobody
 * said whose word is to hold, `pack-needed` when another pack
 * speaks of what this edition no longer has, and `atlas-changed` when others keep changing the atlas.
 */
export const loadPack = (driver: Driver, folder: string, options: LoadOptions, loadedAt: string): Promise<Loaded> =>
  writePlanned(driver, async (reader) => {
    const { batch, value } = await planLoads(reader, [folder], options, loadedAt);
    return { batch, value: value[0] as Loaded };
  });

/**
 * Several packs as one batch, each leaning on those before it and on what the atlas holds. What the atlas holds of those that come later in it is on its way
 * out, and no pack is held against it. Throws as `loadPack` does.
 */
export const planLoads = async (
  reader: Reader,
  folders: readonly string[],
  options: LoadOptions,
  loadedAt: string,
): Promise<Plan<readonly Loaded[]>> => {
  const step = options.onProgress ?? (() => undefined);
  const rows = await reader.orm.select().from(t.packs);
  const standing = standingOf(reader, rows);
  const planned: PlannedChange[] = [];
  const loaded: Loaded[] = [];
  let ahead = await nothingAhead(reader);
  const ids = await Promise.all(folders.map(async (folder) => (await headIn(folder))?.id));
  for (const [index, folder] of folders.entries()) {
    const later = new Set(ids.slice(index + 1));
    const standingBut = async (pack: string) => (await standing.but(pack)).filter(({ head }) => !later.has(head.id));
    step('reading');
    const comes = await headIn(folder);
    const before = rows.find((each) => each.id === comes?.id);
    const beside = async (pack: string) => atlasOfPacks(await standingBut(pack));
    const mappedBy = async (words: readonly MappedWord[]) => {
      const others = comes === null ? [] : await standingBut(comes.id);
      const mapping = mappingOf(comes, words, before?.mapped ?? [], others);
      return inspectMapped(folder, { ...options, beside, mapping }, others);
    };
    const read = await mappedBy(options.words ?? []);
    if (!read.ok) throw new TroubleError(read.trouble);
    const { pack, warnings, mapped } = read.value;
    const { id, edition } = pack.head;
    const files = canonicalText(pack);
    const hash = hashOfPack(files);
    const same = before?.hash === hash;
    const { signer, columns } = await admittedSigner(
      reader,
      {
        folder,
        head: pack.head,
        texts: mapped.length === 0 ? files : await textsAsBrought(folder, pack.head, { ...options, beside }),
        held: before ?? null,
        same,
      },
      options,
    );
    const outcome = { pack: id, edition, counts: countsIn(pack), warnings, signer, mapped };
    if (before !== undefined && same) {
      if (columns !== null) planned.push({ effect: new Map(), statements: () => [signedAnew(id, columns)], ahead });
      loaded.push({ ...outcome, changed: false, replaced: null, change: [], disputes: [] });
      continue;
    }
    const asBefore = async () => {
      const again = await mappedBy([]);
      return again.ok ? again.value.pack : null;
    };
    if (before !== undefined && options.anyEdition !== true && !(await isMappedAnew(pack, before, asBefore)))
      refuseOlder(folder, pack, before.edition);
    const others = await standingBut(id);
    refuseClashes(folder, pack, later.size === 0 ? await standing.saidBut(id) : others);

    step('checking');
    const held = before === undefined ? null : await readHeld(reader, id);
    const was = held === null ? null : stateOfHeld(held);
    const said = cellsOf(pack, was === null ? undefined : hadIn(was.cells));
    const next = await withWords(pack, said, was, await standing.wordsBut(id), others, options);
    const change = await planPackChange(reader, ahead, {
      pack: id,
      before: was,
      after: {
        ...next,
        row: rowOfPack({ head: pack.head, hash }, contentOfPack(next.pack), {
          ...(columns ?? unsigned),
          loadedAt,
          own: before?.own ?? false,
        }),
      },
      others,
      entry: {
        at: loadedAt,
        kind: 'pack loaded',
        origin: `pack ${id}`,
        who: null,
        why: null,
        source: `${pack.head.title}, edition ${edition}${signer === null ? '' : `, signed by ${whose(signer)}`}${mapped.length === 0 ? '' : `${signer === null ? ', ' : ' as it was brought, '}mapped onto the words of the atlas`}`,
      },
      needed: ({ parent, many }) =>
        trouble(
          'pack-needed',
          `${folder}/pack.json`,
          `The pack "${id}" was not loaded: another pack of the atlas speaks of ${parent} that this edition no longer has, in ${many === 1 ? '1 place' : `${many} places`}. Nothing was changed.`,
        ),
      step,
    });
    const outgoing = (await standing.but(id)).filter(({ head: other }) => later.has(other.id));
    if (outgoing.length > 0) planned.push({ effect: new Map(), statements: () => takingOver(pack, outgoing), ahead: change.ahead });
    planned.push(change);
    ahead = change.ahead;
    standing.add(next.pack, pack);
    loaded.push({ ...outcome, changed: true, replaced: before?.edition ?? null, change: countsOf(change.effect), disputes: next.disputes });
  }
  refuseUnmet(options.words ?? [], loaded);
  if (planned.length > 0)
    refuseUnnamed(await standing.but(null), (pack, model) => {
      const where = `${folders.at(-1)}/pack.json`;
      return trouble('pack-needed', where, `The pack "${ids.at(-1)}" was not loaded: ${leftUnnamed(pack, model)} Nothing was changed.`);
    });
  const also = async () => (options.alongside === undefined ? [] : await options.alongside(reader, atlasOfPacks(await standing.but(null))));
  return { batch: planned.length === 0 ? null : batchOf(planned, await also(), step), value: loaded };
};

/** Throws `pack-invalid` for what is said of words none of the packs brings or has from what it leans on. */
const refuseUnmet = (words: readonly SaidWord[], loaded: readonly Loaded[]): void => {
  const met = new Set(loaded.flatMap(({ mapped }) => mapped.map(({ list, id }) => `${list} ${id}`)));
  const faults = new Faults(200);
  for (const { list, id, to, as, at } of words)
    if ((to !== undefined || as !== undefined) && !met.has(`${list} ${id}`))
      faults.add(at ?? { file: 'mapping' }, `${JSON.stringify(id)} of ${list}`, 'an entry the pack brings, or has from a pack it leans on');
  if (faults.count > 0) throw new TroubleError(troubleOf(faults));
};

const countsIn = (pack: Pack): Loaded['counts'] => ({
  models: pack.models.length,
  parts: pack.parts.length,
  facts: pack.parts.reduce((sum, part) => sum + Object.keys(part.facts).length, 0),
  sheets: pack.sheets.length,
});

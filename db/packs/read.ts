import { stat } from 'node:fs/promises';
import { z } from 'zod';
import type { Atlas, Part, Sheet } from '../../reasoner/index.ts';
import { type Entries, everyList, type ListName } from '../atlas/lists.ts';
import { type Allowance, emptyAtlas, fileOf, type Pack, type PackHead } from '../atlas/pack.ts';
import { headSchema } from '../atlas/schemas.ts';
import type { Asked, ExpandCode } from '../read/asked.ts';
import { Faults, type Place } from '../read/faults.ts';
import type { JsonPlaces } from '../read/json-places.ts';
import { done, failed, type Outcome, trouble } from '../trouble.ts';
import { atlasOfPacks } from './atlas-of-packs.ts';
import { checkListedNames } from './check-listed-names.ts';
import { allowedIn, checkNamingSlots, type Lists, warningsOf } from './check-models.ts';
import { crossCheckFiles } from './cross-check.ts';
import { foldersFor, headOf } from './leaning.ts';
import { lookupsFor, type PlaceOf, placeIn } from './lookups.ts';
import type { MappedWord } from './mapped-word.ts';
import { checkMapped } from './mapping/check-mapped.ts';
import { mappedLists } from './mapping/map-entries.ts';
import { MappedIds, type Mapping } from './mapping/mapped-ids.ts';
import { readAllowed } from './read-allowed.ts';
import { readFacts } from './read-facts.ts';
import { filesIn, type PackFiles, type ReadJson, readJson, reasonOf } from './read-files.ts';
import { readParts } from './read-parts.ts';
import { readSheets } from './read-sheets.ts';
import type { Warning } from './warnings.ts';

export interface ReadOptions extends Asked {
  /**
   * The atlas without the pack of this id: references may lead into it; null where what belongs beside the pack could not be found out. Without it, what the
   * pack leans on is read from beside it.
   */
  readonly beside?: (pack: string) => Promise<Atlas | null>;
  /** What the packs beside it list, for its models too; without it what they list for their own is known. Asked after `beside`. */
  readonly allowedBeside?: (pack: string) => Promise<readonly Allowance[]>;
  /** Whether a model may rest on what another pack lists: of the atlas as it is reasoned over, and not of what a pack says itself. */
  readonly namedByOthers?: boolean;
  /** What is said of the pack's words (P16): it is read as it is to stand here. */
  readonly mapping?: Mapping | null;
  /** How many faults are listed before only counting goes on. */
  readonly limit?: number;
}

/**
 * Reads a pack from its folder: every file parsed, shaped and cross-referenced. Nothing is written.
 * One reading finds all faults up to the limit; each names file, row, column, what was found and what was expected.
 * Troubles: `pack-unreadable` when there is no such folder, `pack-invalid` with the faults in `all`.
 */
export const readPack = async (folder: string, options: ReadOptions = {}): Promise<Outcome<Pack>> => {
  const inspected = await inspectPack(folder, options);
  return inspected.ok ? done(inspected.value.pack) : inspected;
};

/** A pack that was read, and what a sound pack should know of itself. */
export interface Inspected {
  readonly pack: Pack;
  readonly warnings: readonly Warning[];
  /** What of its words is mapped. */
  readonly mapped: readonly MappedWord[];
}

/** `readPack`, with its warnings. */
export const inspectPack = async (folder: string, options: ReadOptions = {}): Promise<Outcome<Inspected>> => {
  const read = await readFolder(folder, options);
  return read.ok ? inspected(read.value, folder) : read;
};

type Leaning = (head: ReadJson<PackHead>, faults: Faults) => Promise<Atlas | null>;

/** What was read, where it is sound. */
export const inspected = ({ head, faults, lists, parts, sheets, placeOf, mapped }: FilesRead, name: string): Outcome<Inspected> => {
  if (faults.count > 0 || head === null) return failed(faults.asTrouble(name));
  const pack: Pack = { head, ...lists.files, parts, allowed: lists.allowed, sheets };
  return done({ pack, warnings: warningsOf(lists, placeOf), mapped });
};

/** All that could be read of the files of a pack, whether or not it is sound. */
export interface FilesRead {
  /** Null where it could not be read. */
  readonly head: PackHead | null;
  /** The id of the pack, as far as anything says one. */
  readonly id: string | null;
  readonly faults: Faults;
  /** Whether it could be found out what stands beside it. */
  readonly besideKnown: boolean;
  /** Files that could not be read whole; a list of such a file is empty, a table of it lacks rows. */
  readonly unread: ReadonlySet<string>;
  readonly lists: Lists;
  readonly parts: readonly Part[];
  readonly sheets: readonly Sheet[];
  readonly placeOf: PlaceOf;
  readonly headPlaceOf: (path: readonly PropertyKey[]) => Place;
  /** The rows of the tables. */
  readonly rows: RowsOf;
  /** What of its words is mapped: it is read as it is to stand here. */
  readonly mapped: readonly MappedWord[];
}

export interface RowsOf {
  part(id: string): number | null;
  fact(part: string, feature: string): number | null;
  allowed(model: string, part: string): number | null;
}

/** A folder as `readFiles` reads it. Troubles: `pack-unreadable` alone; every fault is among the `faults`. */
export const readFolder = async (folder: string, options: ReadOptions = {}): Promise<Outcome<FilesRead>> => {
  const notAFolder = await folderFault(folder);
  if (notAFolder !== null) return failed(trouble('pack-unreadable', folder, `The pack cannot be read: ${notAFolder}: ${folder}`));
  return done(await readFiles(filesIn(folder), options, (head, faults) => leanedOn(folder, head, options, faults)));
};

/**
 * Reads all files of a pack and holds them against each other and against what is beside. What cannot be read hides nothing of what does not rest on it:
 * where it is the head, or what the pack leans on, ids that lead out of the pack are taken to lead somewhere.
 */
export const readFiles = async (from: PackFiles, options: ReadOptions, leaning: Leaning): Promise<FilesRead> => {
  const expand: ExpandCode = options.expandCode ?? (() => ({ error: 'codes are not expanded here' }));
  const faults = new Faults(options.limit ?? 200);
  const head = await readJson(from, 'pack.json', headSchema, faults);
  const id =
    head?.value.id ??
    (await from.read('pack.json').then(
      (bytes) => headOf(bytes.toString('utf8')).id,
      () => '',
    ));
  const known = id === '' ? null : await (options.beside?.(id) ?? (head === null ? null : leaning(head, faults)));
  const beside = known ?? emptyAtlas;
  const { files: brought, places } = await readLists(from, faults);
  const ids = options.mapping == null ? null : new MappedIds(brought, options.mapping);
  const { files, stood } = ids === null ? { files: brought, stood: null } : mappedLists(brought, ids);
  const find = lookupsFor(files, beside, faults, known === null);
  const broughtPlaceOf: PlaceOf = (list, path) => placeIn(fileOf(list), path, places[list]);
  const placeOf: PlaceOf =
    stood === null
      ? broughtPlaceOf
      : (list, [index, ...path]) =>
          broughtPlaceOf(list, [typeof index === 'number' ? (stood[list][index] ?? index) : (index ?? 0), ...path]);
  if (ids !== null && known !== null) checkMapped(brought, ids, beside, broughtPlaceOf, faults);
  crossCheckFiles(files, beside, find, placeOf, faults);
  if (options.faultOfName !== undefined) checkListedNames(files, beside, find, options.faultOfName, placeOf, faults);

  const reading = { from, find, faults, ids };
  const parts = await readParts(reading, known);
  files.rates.forEach((rates, i) => {
    rates.parts.forEach(({ part }, k) => {
      parts.find(part, placeOf('rates', [i, 'parts', k, 'part']));
    });
  });
  const { facts, rowOf } = await readFacts(reading, parts, expand, options.slipOf);
  const whole = parts.read.map(({ part }) => ({ ...part, ...(facts.get(part.id) ?? { facts: {} }) }));
  const { allowed, rowsOf: allowedRows } = await readAllowed(reading, parts);
  const allowedBeside = (await options.allowedBeside?.(id)) ?? allowedIn(beside);
  const lists = { files, allowed, beside, allowedBeside, find };
  checkNamingSlots(lists, options.namedByOthers === true ? [...allowed, ...allowedBeside] : allowed, placeOf, faults);
  const sheets = await readSheets(reading, parts, options.slipOf);
  const partRows = new Map<string, number>(parts.read.map(({ row, part }) => [part.id, row]));
  return {
    head: head?.value ?? null,
    id: id === '' ? null : id,
    faults,
    besideKnown: known !== null,
    unread: faults.unread,
    lists,
    parts: whole,
    sheets,
    placeOf,
    headPlaceOf: (path) => placeIn('pack.json', path, head?.places),
    rows: {
      part: (part) => partRows.get(part) ?? null,
      fact: rowOf,
      allowed: (model, part) => allowedRows.get(`${model} ${part}`) ?? null,
    },
    mapped: ids?.applied ?? [],
  };
};

/** What a pack that is read alone leans on, from beside it; null, with a fault, where it is not there or not sound. */
const leanedOn = async (folder: string, head: ReadJson<PackHead>, options: ReadOptions, faults: Faults): Promise<Atlas | null> => {
  const { leansOn = [] } = head.value;
  if (leansOn.length === 0) return emptyAtlas;
  const folders = await foldersFor(folder, () => false);
  if (!folders.ok) {
    faults.addAll(folders.trouble);
    return null;
  }
  const packs: Pack[] = [];
  for (const each of folders.value.slice(0, -1)) {
    const read = await inspectPack(each, { ...options, beside: async () => atlasOfPacks(packs) });
    if (!read.ok) {
      const place = placeIn('pack.json', ['leansOn'], head.places);
      faults.add(place, `a pack that is not sound in ${each}`, 'packs that are sound');
      return null;
    }
    packs.push(read.value.pack);
  }
  return atlasOfPacks(packs);
};

const folderFault = async (folder: string): Promise<string | null> => {
  try {
    return (await stat(folder)).isDirectory() ? null : 'this is a file, not a folder';
  } catch (error) {
    const reason = reasonOf(error);
    return reason === 'no such file' ? 'there is no such folder' : reason;
  }
};

const readLists = async (
  from: PackFiles,
  faults: Faults,
): Promise<{ files: Entries; places: { readonly [N in ListName]?: JsonPlaces } }> => {
  const files: Record<string, readonly unknown[]> = {};
  const places: { [N in ListName]?: JsonPlaces } = {};
  for (const { name, optional, schema } of everyList) {
    const there = !optional || (await from.has(fileOf(name)));
    const read = there ? await readJson(from, fileOf(name), z.array(schema), faults) : null;
    files[name] = read?.value ?? [];
    if (read !== null) places[name] = read.places;
  }
  return { files: files as unknown as Entries, places };
};

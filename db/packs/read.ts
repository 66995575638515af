import { stat } from 'node:fs/promises';
import { z } from 'zod';
import type { Atlas, Fact, FeatureId, Part, PartId, Sheet, SourceId } from '../../reasoner/index.ts';
import { sameValue } from '../../reasoner/plain/same-value.ts';
import { type Entries, everyList, type ListName } from '../atlas/lists.ts';
import { type Allowance, type CsvRow, emptyAtlas, fileOf, type Pack, type PackHead } from '../atlas/pack.ts';
import { headSchema } from '../atlas/schemas.ts';
import type { Asked, ExpandCode, SlipOf } from '../read/asked.ts';
import { Faults, type Place } from '../read/faults.ts';
import type { JsonPlaces } from '../read/json-places.ts';
import { isPlain, plainText } from '../read/plain-text.ts';
import { faultsOfSheet } from '../sheets/check-sheet.ts';
import { sheetSchema } from '../sheets/schema.ts';
import { done, failed, type Outcome, trouble } from '../trouble.ts';
import { atlasOfPacks } from './atlas-of-packs.ts';
import { checkListedNames } from './check-listed-names.ts';
import { allowedIn, checkNamingSlots, type Lists, warningsOf } from './check-models.ts';
import { crossCheckFiles } from './cross-check.ts';
import { readFact } from './facts.ts';
import { findCycle } from './find-cycle.ts';
import { foldersFor, headOf } from './leaning.ts';
import { idsOnce, type Lookups, lookupsFor, type PlaceOf, placeIn } from './lookups.ts';
import type { MappedWord } from './mapped-word.ts';
import { checkMapped } from './mapping/check-mapped.ts';
import { mappedLists, mappedSheet } from './mapping/map-entries.ts';
import { MappedIds, type Mapping } from './mapping/mapped-ids.ts';
import { filesIn, type PackFiles, type ReadJson, readCsv, readJson, reasonOf, sheetFiles } from './read-files.ts';
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
  if (notAFolder !== null) return failed(trouble('pack-unreadable', folder, `The pack cannot be read: ${folder} is ${notAFolder}.`));
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

  const parts = await readParts(from, find, beside, faults, known === null, ids);
  files.rates.forEach((rates, i) => {
    rates.parts.forEach(({ part }, k) => {
      parts.find(part, placeOf('rates', [i, 'parts', k, 'part']));
    });
  });
  const { facts, rowsOf: factRows } = await readFacts(from, parts, find, expand, options.slipOf, faults, ids);
  const whole = parts.read.map(({ part }) => ({ ...part, ...(facts.get(part.id) ?? { facts: {} }) }));
  const { allowed, rowsOf: allowedRows } = await readAllowed(from, find, parts, faults, ids);
  const allowedBeside = (await options.allowedBeside?.(id)) ?? allowedIn(beside);
  const lists = { files, allowed, beside, allowedBeside, find };
  checkNamingSlots(lists, options.namedByOthers === true ? [...allowed, ...allowedBeside] : allowed, placeOf, faults);
  const sheets = await readSheets(from, find, parts, options.slipOf, faults, ids);
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
      fact: (part, feature) => factRows.get(`${part} ${feature}`) ?? null,
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
    return (await stat(folder)).isDirectory() ? null : 'a file, not a folder';
  } catch (error) {
    const reason = reasonOf(error);
    return reason === 'no such file' ? 'no such folder' : reason;
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

interface ReadParts {
  readonly read: readonly { readonly row: number; readonly part: Omit<Part, 'facts' | 'factSources'> }[];
  find(id: string, place: Place): Pick<Part, 'id' | 'slot' | 'source'> | undefined;
  get(id: string): Pick<Part, 'id' | 'slot' | 'source'> | undefined;
}

const readParts = async (
  from: PackFiles,
  find: Lookups,
  beside: Atlas,
  faults: Faults,
  besideUnknown: boolean,
  ids: MappedIds | null,
): Promise<ReadParts> => {
  const rows = (await readCsv(from, 'parts.csv', faults)).map((one) => mappedRow(one, ['slot', 'source'], ids));
  const silent = besideUnknown || faults.isBroken('parts.csv');
  const at = (row: number, column: string): Place => ({ file: 'parts.csv', row, column });
  const read = rows.map(({ row, cells }) => ({ row, part: partOf(cells, (column) => at(row, column), find, faults) }));
  idsOnce(
    read.map(({ part }) => part),
    (index) => at(read[index]?.row ?? 0, 'id'),
    faults,
  );

  const byId = new Map<string, Pick<Part, 'id' | 'slot' | 'source'>>(beside.parts.map((part) => [part.id, part]));
  for (const { part } of read) byId.set(part.id, part);
  const parts: ReadParts = {
    read,
    get: (id) => byId.get(id),
    find: (id, place) => {
      const found = byId.get(id);
      if (found === undefined && !silent) faults.add(place, JSON.stringify(id), 'the id of a part in this pack or the atlas');
      return found;
    },
  };

  for (const { row, part } of read) {
    for (const [field, column] of [
      ['patternOf', 'pattern_of'],
      ['supersedes', 'supersedes'],
    ] as const) {
      const id = part[field];
      const other = id === undefined ? undefined : parts.find(id, at(row, column));
      if (other !== undefined && other.slot !== part.slot) faults.add(at(row, column), `a part of ${other.slot}`, `a part of ${part.slot}`);
    }
  }
  for (const [field, column] of [
    ['patternOf', 'pattern_of'],
    ['supersedes', 'supersedes'],
  ] as const) {
    const cycle = findCycle<Pick<Part, 'id' | 'patternOf' | 'supersedes'>>(
      read.map(({ part }) => part),
      beside.parts,
      (part) => (part[field] === undefined ? [] : [part[field]]),
    );
    if (cycle !== null) faults.add(at(read[cycle.index]?.row ?? 0, column), `a circle: ${cycle.ids.join(' → ')}`, 'a line without circles');
  }
  return parts;
};

const partOf = (cells: CsvRow<'parts.csv'>, at: (column: string) => Place, find: Lookups, faults: Faults): Omit<Part, 'facts'> => {
  if (!/^[\p{L}\p{N}][\p{L}\p{N}._:+-]{0,99}$/u.test(cells.id))
    faults.add(at('id'), JSON.stringify(cells.id), 'an id of letters, digits and . _ : + -');
  if (cells.name === '' || !isPlain(cells.name)) faults.add(at('name'), JSON.stringify(cells.name), plainText);
  const slot = find.slot.find(cells.slot, at('slot'), faults);
  if (cells.maker !== '') find.maker.find(cells.maker, at('maker'), faults);
  if (cells.maker !== '' && cells.pattern_of !== '') {
    faults.add(at('maker'), JSON.stringify(cells.maker), "nothing: a pattern part bears no maker's name");
  }
  const numbers = cells.numbers === '' ? [] : cells.numbers.split(';');
  if (numbers.some((number) => number === '' || !isPlain(number)))
    faults.add(at('numbers'), JSON.stringify(cells.numbers), `numbers with ; between them, each ${plainText}`);
  if (new Set(numbers).size !== numbers.length) faults.add(at('numbers'), JSON.stringify(cells.numbers), 'every number once');
  find.source.find(cells.source, at('source'), faults);
  return {
    id: cells.id as PartId,
    slot: slot?.id ?? (cells.slot as Part['slot']),
    name: cells.name,
    maker: cells.maker === '' ? null : (cells.maker as NonNullable<Part['maker']>),
    numbers,
    ...(cells.pattern_of === '' ? {} : { patternOf: cells.pattern_of as PartId }),
    ...(cells.supersedes === '' ? {} : { supersedes: cells.supersedes as PartId }),
    source: cells.source as SourceId,
  };
};

type PartFacts = { readonly facts: Part['facts']; readonly factSources?: NonNullable<Part['factSources']> };

const readFacts = async (
  from: PackFiles,
  parts: ReadParts,
  find: Lookups,
  expand: ExpandCode,
  slipOf: SlipOf | undefined,
  faults: Faults,
  ids: MappedIds | null,
): Promise<{ readonly facts: ReadonlyMap<PartId, PartFacts>; readonly rowsOf: ReadonlyMap<string, number> }> => {
  /** The feature each fact was brought under, where it is called otherwise here. */
  const broughtAs = new Map<string, string>();
  const rowsOf = new Map<string, number>();
  const byPart = new Map<PartId, { facts: Record<FeatureId, Fact>; sources: Record<FeatureId, SourceId> }>();
  const own = new Set<string>(parts.read.map(({ part }) => part.id));
  for (const { row, cells: brought } of await readCsv(from, 'facts.csv', faults)) {
    const at = (column: string): Place => ({ file: 'facts.csv', row, column });
    const { cells } = mappedRow({ row, cells: brought }, ['feature', 'source'], ids);
    const part = parts.find(cells.part, at('part'));
    const feature = find.feature.find(cells.feature, at('feature'), faults);
    if (cells.source !== '') find.source.find(cells.source, at('source'), faults);
    if (part === undefined || feature === undefined) continue;
    if (!own.has(part.id)) faults.add(at('part'), JSON.stringify(part.id), 'a part of this pack: facts stand in the pack of their part');
    if (feature.slot !== part.slot) {
      faults.add(at('feature'), `a feature of ${feature.slot}`, `a feature of ${part.slot}, where ${part.id} sits`);
      continue;
    }
    const options = feature.kind === 'choice' && ids !== null ? mappedOptions(cells.value, brought.feature, ids) : null;
    if (options?.none !== undefined) {
      faults.add(
        at('value'),
        `the option "${options.none}" of "${brought.feature}", which is mapped onto "${feature.id}"`,
        `an option that is mapped onto one of "${feature.id}": ${feature.options?.map(({ id }) => id).join(', ')}`,
      );
      continue;
    }
    const read = readFact(options === null ? cells : { ...cells, value: options.value }, feature, expand, slipOf);
    if (!read.ok) {
      faults.add(at(read.column), read.found, read.expected);
      continue;
    }
    const of = byPart.get(part.id) ?? { facts: {}, sources: {} };
    byPart.set(part.id, of);
    if (Object.hasOwn(of.facts, feature.id)) {
      const key = `${part.id} ${feature.id}`;
      const before = broughtAs.get(key) ?? feature.id;
      // Two features that are one here may both say it, as long as they say the same.
      if (before !== brought.feature && sameValue(of.facts[feature.id], read.fact)) continue;
      if (before === brought.feature)
        faults.add(at('feature'), `${feature.id} of ${part.id} a second time`, 'every feature of a part once');
      else
        faults.add(
          at('feature'),
          `"${brought.feature}", which is one with "${before}" here and says otherwise of ${part.id} (row ${rowsOf.get(key)})`,
          'features of one part that are mapped onto one to say the same',
        );
      continue;
    }
    if (brought.feature !== feature.id) broughtAs.set(`${part.id} ${feature.id}`, brought.feature);
    of.facts[feature.id] = read.fact;
    rowsOf.set(`${part.id} ${feature.id}`, row);
    if (cells.source !== '' && cells.source !== part.source) of.sources[feature.id] = cells.source as SourceId;
  }
  const facts = new Map<PartId, PartFacts>();
  for (const [id, { facts: of, sources }] of byPart)
    facts.set(id, Object.keys(sources).length === 0 ? { facts: of } : { facts: of, factSources: sources });
  return { facts, rowsOf };
};

const readAllowed = async (
  from: PackFiles,
  find: Lookups,
  parts: ReadParts,
  faults: Faults,
  ids: MappedIds | null,
): Promise<{ readonly allowed: readonly Allowance[]; readonly rowsOf: ReadonlyMap<string, number> }> => {
  const seen = new Map<string, number>();
  const allowed: Allowance[] = [];
  for (const brought of await readCsv(from, 'allowed.csv', faults)) {
    const { row, cells } = mappedRow(brought, ['slot'], ids);
    const at = (column: string): Place => ({ file: 'allowed.csv', row, column });
    find.model.find(cells.model, at('model'), faults);
    find.slot.find(cells.slot, at('slot'), faults);
    const part = parts.find(cells.part, at('part'));
    if (part !== undefined && part.slot !== cells.slot)
      faults.add(at('slot'), JSON.stringify(cells.slot), `${part.slot}, where ${part.id} sits`);
    if (cells.role !== 'names' && cells.role !== 'option' && cells.role !== 'service')
      faults.add(at('role'), JSON.stringify(cells.role), 'names, option or service');
    const key = `${cells.model} ${cells.part}`;
    const before = seen.get(key);
    if (before !== undefined)
      faults.add(at('part'), `${cells.part} in ${cells.model} a second time`, `every part of a model once (row ${before} has it)`);
    seen.set(key, row);
    allowed.push(cells as unknown as Allowance);
  }
  return { allowed, rowsOf: seen };
};

/** A row with its ids as they are called here. Each column is called as what its ids lead to. */
const mappedRow = <Cells extends Readonly<Record<string, string>>>(
  { row, cells }: { readonly row: number; readonly cells: Cells },
  columns: readonly (keyof Cells & string)[],
  ids: MappedIds | null,
): { readonly row: number; readonly cells: Cells } => {
  if (ids === null) return { row, cells };
  const called = columns.map((column) => [column, ids.idOf(column, cells[column] as string)] as const);
  return { row, cells: { ...cells, ...Object.fromEntries(called) } };
};

/** The options of a fact as they are called here; the first that has none like it. */
const mappedOptions = (value: string, feature: string, ids: MappedIds): { readonly value: string; readonly none?: string } => {
  if (value === '?' || value === '') return { value };
  const options = value.split('|');
  const none = options.find((option) => ids.optionOf(feature, option) === null);
  if (none !== undefined) return { value, none };
  const called = options.map((option) => ids.optionOf(feature, option) as string);
  // Two that are one here are said once; one that was written twice stays so, and is refused.
  const twice = new Set(options).size < options.length;
  return { value: (twice ? called : [...new Set(called)]).join('|') };
};

const readSheets = async (
  from: PackFiles,
  find: Lookups,
  parts: ReadParts,
  slipOf: SlipOf | undefined,
  faults: Faults,
  ids: MappedIds | null,
): Promise<Sheet[]> => {
  const sheets: Sheet[] = [];
  // Where the atlas itself could not be read whole, a sheet cannot be held against it.
  const whole = faults.count === 0;
  for (const file of await sheetFiles(from, faults)) {
    const read = await readJson(from, file, sheetSchema, faults);
    if (read === null) continue;
    if (`sheets/${read.value.id}.json` !== file)
      faults.add(placeIn(file, ['id'], read.places), JSON.stringify(read.value.id), 'the name of its file without .json');
    const known = {
      slot: (id: string) => find.slot.get(id),
      feature: (id: string) => find.feature.get(id),
      part: (id: string) => parts.get(id),
      maker: (id: string) => find.maker.get(id),
      ...(slipOf === undefined ? {} : { slipOf }),
    };
    const { sheet, both } = ids === null ? { sheet: read.value, both: [] } : mappedSheet(read.value, ids);
    for (const slot of both)
      faults.add(placeIn(file, ['chosen', slot], read.places), `another part in "${slot}"`, 'one part in slots that are mapped onto one');
    if (whole) {
      for (const fault of faultsOfSheet(sheet, known))
        faults.add(placeIn(file, fault.path, read.places), JSON.stringify(fault.found), fault.expected);
    }
    sheets.push(sheet);
  }
  return sheets;
};

import type { Atlas } from '../../reasoner/index.ts';
import { list } from '../../reasoner/plain/text.ts';
import type { PackChecked } from '../answers.ts';
import type { Named } from '../atlas/list.ts';
import { listsAndParts } from '../atlas/lists.ts';
import { compareEditions, fileOf, type Pack } from '../atlas/pack.ts';
import { cellsOf, hadIn } from '../changes/cells-of.ts';
import type { Reader } from '../driver/driver.ts';
import { groupBy } from '../plain/group-by.ts';
import { visible } from '../plain/visible.ts';
import type { Asked } from '../read/asked.ts';
import { type Fault, faultAt, type Place } from '../read/faults.ts';
import * as t from '../schema.ts';
import { signatureFile } from '../signing/signature.ts';
import { done, type Outcome, type Trouble, TroubleError } from '../trouble.ts';
import { atlasOfPacks } from './atlas-of-packs.ts';
import { canonicalText, hashOfPack } from './canonical.ts';
import { type Going, neededOf } from './dangling.ts';
import { faultsOnce, warningsOnce } from './each-once.ts';
import { warningsIn } from './findings/table.ts';
import { heldIn, readNumbering } from './ground.ts';
import { type Held, readHeld, stateOfHeld } from './held.ts';
import { foldersFor, headIn } from './leaning.ts';
import { planLoads } from './load.ts';
import type { MappedWord } from './mapped-word.ts';
import { asMapped, isMappedAnew, mappingOf } from './mapping/mapping-of.ts';
import { inspectMapped, textsAsBrought } from './mapping/read-mapped.ts';
import { type FilesRead, readFiles, readFolder } from './read.ts';
import type { PackFiles } from './read-files.ts';
import { clashesOf } from './refuse.ts';
import { admittedSigner } from './signed.ts';
import { standingOf } from './standing.ts';
import { withWords } from './with-words.ts';

/** So many faults are gathered before only counting goes on; told are those of one cause once. */
const gathered = 20_000;

/** A folder read by itself, with what it leans on from beside it. Trouble: `pack-unreadable` where there is no such folder. */
export const checkAlone = async (folder: string, asked: Asked): Promise<Outcome<PackChecked>> => {
  const read = await readFolder(folder, { ...asked, limit: gathered });
  return read.ok ? done(checked(read.value, [], { into: null, held: null }, asked)) : read;
};

/** Files wherever they are, held against an atlas that stands in memory. */
export const checkFiles = async (from: PackFiles, beside: Atlas, asked: Asked): Promise<PackChecked> =>
  checked(
    await readFiles(from, { ...asked, limit: gathered, beside: async () => beside }, async () => beside),
    [],
    { into: null, held: null },
    asked,
  );

/**
 * A folder held against the atlas as loading would hold it, but all at once and with nothing written: what loading would refuse is among the faults, and so is what it
 * asks a decision of (who signed, whose word holds). Of several packs that would be loaded together it is this one that is checked; one it leans on that could not be
 * loaded is a fault of its head. Throws `pack-unreadable`.
 * @param shipped a folder of packs that come with the program: what is not beside the pack may be in it
 * @param words what is said of the words of the packs (P16)
 */
export const checkInto = async (
  reader: Reader,
  folder: string,
  asked: Asked,
  shipped: string | null = null,
  words: readonly MappedWord[] = [],
): Promise<PackChecked> => {
  const rows = await reader.orm.select().from(t.packs).orderBy(t.packs.id);
  const standing = standingOf(reader, rows);
  const folders = await foldersFor(folder, (id) => rows.some((row) => row.id === id), shipped);
  let others: readonly Pack[] = [];
  let leaning: Leaning = { packs: [], wrong: [] };
  const beside = async (id: string): Promise<Atlas | null> => {
    const held = await standing.but(id);
    leaning = folders.ok
      ? await leanedOn(folders.value.slice(0, -1), held, asked, words)
      : { packs: [], wrong: wrongWith(folders.trouble, folder) };
    others = [...held, ...leaning.packs];
    return leaning.wrong.length > 0 ? null : atlasOfPacks(others);
  };
  const allowedBeside = async () => others.flatMap(({ allowed }) => allowed);
  const comes = await headIn(folder);
  const before = rows.find((row) => row.id === comes?.id);
  /** Under what is said of its words; with nothing said, under what is kept. */
  const mappedBy = async (said: readonly MappedWord[]): Promise<Outcome<FilesRead>> => {
    // What is said of the packs it leans on is known once those were read.
    const known = comes === null ? null : await beside(comes.id);
    const once = async (id: string) => (id === comes?.id ? known : beside(id));
    return readFolder(folder, {
      ...asked,
      limit: gathered,
      beside: once,
      allowedBeside,
      mapping: mappingOf(comes, said, before?.mapped ?? [], others),
    });
  };
  const read = await mappedBy(words);
  if (!read.ok) throw new TroubleError(read.trouble);
  const { head, headPlaceOf, faults, mapped } = read.value;
  const partlyRead = partly(read.value);
  const pack = partlyRead === null ? null : asMapped(partlyRead, mapped, others);
  const found = leaning.wrong.map(({ place = headPlaceOf(['leansOn']), found: was, expected }) =>
    faultIn(read.value, place, was, expected),
  );
  let same = false;
  if (pack !== null) {
    const whole = faults.count === 0 && found.length === 0;
    const texts = canonicalText(pack);
    same = whole && before?.hash === hashOfPack(texts);
    if (whole)
      found.push(
        ...(await refusedBy(read.value, async () => {
          const brought = mapped.length === 0 ? texts : await textsAsBrought(folder, pack.head, { ...asked, beside });
          return admittedSigner(reader, { folder, head: pack.head, texts: brought, held: before ?? null, same }, {});
        })),
      );
    if (!same) {
      if (before !== undefined && !(await isMappedAnew(pack, before, async () => packIn(await mappedBy([]), others))))
        found.push(...editionFaults(read.value, pack, before.edition));
      found.push(...clashFaults(read.value, pack, [...(await standing.saidBut(pack.head.id)), ...leaning.packs]));
      const held = before === undefined ? null : await readHeld(reader, pack.head.id);
      let next = pack;
      if (whole) {
        const was = held === null ? null : stateOfHeld(held);
        const said = cellsOf(pack, was === null ? undefined : hadIn(was.cells));
        const words = await standing.wordsBut(pack.head.id);
        const refused = await refusedBy(read.value, async () => {
          next = (await withWords(pack, said, was, words, others, asked)).pack;
        });
        found.push(...refused);
      }
      if (held !== null) found.push(...(await neededFaults(reader, read.value, next, held, others)));
      // Whatever else loading may have against it, it says itself; what is said already is let pass.
      if (whole && found.every(({ code }) => passing.has(code)) && folders.ok) {
        const pass = { anyEdition: true, strangerIsFine: true, otherSignerIsFine: true, holds: 'shop' } as const;
        const load = () => planLoads(reader, folders.value, { ...asked, onlyTold: true, words, ...pass }, '');
        found.push(...(await refusedBy(read.value, load)));
      }
    }
  }
  const into = rows.map(({ id: each, edition }) => ({ id: each, edition }));
  return checked(
    read.value,
    found,
    { into, held: before === undefined || head === null ? null : { edition: before.edition, same } },
    asked,
  );
};

/** What keeps a pack out whatever else is in it, so that the rest is looked for all the same. */
const passing: ReadonlySet<string> = new Set(['pack-older', 'pack-same-edition', 'pack-signer', 'pack-disputed']);

/** What a step of loading refuses a pack for, as faults of its head. */
const refusedBy = async (read: FilesRead, step: () => Promise<unknown>): Promise<readonly Fault[]> => {
  try {
    await step();
    return [];
  } catch (error) {
    if (!(error instanceof TroubleError)) throw error;
    const { code, sentence, all } = error.trouble;
    const place = code === 'pack-signature' || code === 'pack-signer' ? { file: signatureFile } : read.headPlaceOf([]);
    return (all ?? [error.trouble]).map((each) => {
      const said = visible(all === undefined ? sentence : each.sentence).replace(/ Nothing was changed\.$/, '');
      return { ...faultAt(place, read.faults.whereIs(place), '', '', code), ...{ sentence: said, found: said, expected: wanted(code) } };
    });
  }
};

const wanted = (code: string): string => {
  switch (code) {
    case 'pack-signature':
      return 'a signature that holds, or none';
    case 'pack-signer':
      return 'a signer the shop takes this pack from, or to be told that this one is fine';
    case 'pack-disputed':
      return 'to be told whose word holds there';
    default:
      return 'a pack the atlas can take';
  }
};

const checked = (read: FilesRead, more: readonly Fault[], at: Pick<PackChecked, 'into' | 'held'>, asked: Asked): PackChecked => {
  const { head, faults, lists, parts, sheets } = read;
  const found = faultsOnce([...faults.found, ...more]);
  const sound = found.length === 0;
  const { makers, families, models } = lists.files;
  const counts = {
    makers: makers.length,
    families: families.length,
    models: models.length,
    parts: parts.length,
    sheets: sheets.length,
  };
  const much = Object.entries(counts).map(([what, count]) => `${count} ${what}`);
  const called = head === null ? 'The pack' : `${head.title} (${head.id}, edition ${head.edition})`;
  const many = found.length === 1 ? 'one fault' : `${found.length} faults`;
  return {
    sound,
    sentence: sound
      ? `${called} is sound: ${much.join(', ')}.`
      : `${called} has ${many}${found.length < faults.count + more.length ? `, in ${faults.count + more.length} places` : ''}. It would not be loaded.`,
    pack: head === null ? null : { id: head.id, title: head.title, edition: head.edition, invented: head.invented, note: head.note },
    counts,
    faults: found,
    warnings: warningsOnce(warningsIn(read, asked), faults),
    ...at,
  };
};

interface Leaning {
  /** The packs that would be loaded with it. */
  readonly packs: readonly Pack[];
  /** Why it would not be, with the place in the head where one is meant. */
  readonly wrong: readonly { readonly place?: Place; readonly found: string; readonly expected: string }[];
}

const wrongWith = ({ all, ...trouble }: Trouble, folder: string): Leaning['wrong'] => {
  const own = trouble.place?.startsWith(`${folder}/pack.json`) === true;
  return ((all ?? [trouble]) as readonly Fault[]).map(({ file, row, column, character, found, expected }) =>
    own ? { place: { file, row, column, character }, found, expected } : { found: `${found} in a pack it leans on`, expected },
  );
};

/** @param folders of the packs it leans on and the atlas does not hold, each after those it leans on itself */
const leanedOn = async (
  folders: readonly string[],
  held: readonly Pack[],
  asked: Asked,
  words: readonly MappedWord[],
): Promise<Leaning> => {
  const packs: Pack[] = [];
  for (const each of folders) {
    const before = [...held, ...packs];
    const mapping = mappingOf(await headIn(each), words, [], before);
    const read = await inspectMapped(each, { ...asked, beside: async () => atlasOfPacks(before), mapping }, before);
    if (!read.ok) return { packs, wrong: [{ found: `a pack that is not sound in ${each}`, expected: 'packs that are sound' }] };
    const [clash] = clashesOf(read.value.pack, before);
    if (clash !== undefined)
      return {
        packs,
        wrong: [{ found: `${clash.what} of the pack in ${each}, which ${clash.how}`, expected: 'packs that go together' }],
      };
    packs.push(read.value.pack);
  }
  return { packs, wrong: [] };
};

const faultIn = (read: FilesRead, place: Place, found: string, expected: string, code = 'pack-invalid'): Fault =>
  faultAt(place, read.faults.whereIs(place), found, expected, code);

/** What was read as a pack, with nothing in the lists that could not be; null without a head. */
const partly = ({ head, lists, parts, sheets }: FilesRead): Pack | null =>
  head === null ? null : { head, ...lists.files, parts, allowed: lists.allowed, sheets };

/** The pack of a folder that was read without a fault. */
const packIn = (read: Outcome<FilesRead>, others: readonly Pack[]): Pack | null => {
  const pack = read.ok && read.value.faults.count === 0 ? partly(read.value) : null;
  return read.ok && pack !== null ? asMapped(pack, read.value.mapped, others) : null;
};

const editionFaults = (read: FilesRead, { head }: Pack, held: string): readonly Fault[] => {
  const order = compareEditions(head.edition, held);
  if (order > 0) return [];
  // What a file that cannot be read would say may be what is held.
  if (order === 0 && read.unread.size > 0) return [];
  const place = read.headPlaceOf(['edition']);
  return order < 0
    ? [faultIn(read, place, `the edition ${head.edition}`, `one newer than ${held}, which the atlas holds`, 'pack-older')]
    : [
        faultIn(
          read,
          place,
          `the edition ${head.edition}, which the atlas holds with other contents`,
          'a new edition where the contents have changed',
          'pack-same-edition',
        ),
      ];
};

/** Those of one list are one fault, at the first. */
function* clashFaults(read: FilesRead, pack: Pack, others: readonly Pack[]): Generator<Fault> {
  const by = groupBy([...clashesOf(pack, others)], (clash) => clash.list);
  for (const [name, clashes] of by) {
    const [first, ...rest] = clashes;
    if (first === undefined) continue;
    const place = ((): Place => {
      if (name === 'parts') return { file: first.file, row: read.rows.part(pack.parts[first.index]?.id ?? ''), column: 'id' };
      if (name === 'sheets') return { file: first.file, row: 1, column: 'id' };
      const line = pack.allowed[first.index];
      if (name === 'allowed') return { file: first.file, row: read.rows.allowed(line?.model ?? '', line?.part ?? ''), column: 'part' };
      return read.placeOf(first.list as Parameters<FilesRead['placeOf']>[0], [first.index, 'id']);
    })();
    const more = rest.length === 0 ? '' : `; and so with ${named(rest.map(({ what }) => what))}`;
    yield faultIn(read, place, `${first.what}, which ${first.how}${more}`, first.otherwise, 'pack-clash');
  }
}

/** What this edition no longer has and other packs speak of: the parts that go are one fault, and so of every list. */
async function neededFaults(reader: Reader, read: FilesRead, pack: Pack, held: Held, others: readonly Pack[]): Promise<readonly Fault[]> {
  const { edition } = held.pack.head;
  const heldByOthers = heldIn(others);
  const numbering = await readNumbering(reader);
  const faults: Fault[] = [];
  for (const { name, one, shared, table, numbered } of listsAndParts) {
    // Of a list that could not be read it is not known what goes.
    if (read.unread.has(fileOf(name))) continue;
    const is = new Set<string>((pack[name] as readonly Named[]).map(({ id }) => id));
    const gone = (held.pack[name] as readonly Named[])
      .map(({ id }) => id)
      .filter((id) => !is.has(id) && !(shared && heldByOthers.has(`${one} ${id}`)));
    if (gone.length === 0) continue;
    const keys = new Map<string | number, string>(
      gone.map((id) => [numbered === null ? id : (numbering.get(numbered)?.get(id) ?? id), id]),
    );
    const going: Going = { table, keys: [...keys.keys()] };
    const needed = await neededOf(reader, pack.head.id, [going]);
    if (needed.length === 0) continue;
    const ids = [...new Set(needed.map(({ key }) => keys.get(key) ?? String(key)))];
    const many = needed.reduce((sum, each) => sum + each.many, 0);
    const who = others.filter((other) => speaksOf(other, new Set(ids))).map(({ head }) => `"${head.id}"`);
    const by =
      who.length === 0
        ? 'other packs of the atlas speak'
        : `${who.length === 1 ? 'the pack' : 'the packs'} ${list(who)} ${who.length === 1 ? 'speaks' : 'speak'}`;
    faults.push(
      faultIn(
        read,
        { file: fileOf(name) },
        `no ${one} ${named(ids.map((id) => JSON.stringify(id)))}, which the edition ${edition} in the atlas has`,
        `${ids.length === 1 ? 'it' : 'them'} to be kept, for ${by} of ${ids.length === 1 ? 'it' : 'them'} in ${many === 1 ? 'one place' : `${many} places`}`,
        'pack-needed',
      ),
    );
  }
  return faults;
}

/** Whether an entry of a pack says one of these ids, wherever it does. */
const speaksOf = (pack: Pack, ids: ReadonlySet<string>): boolean => {
  const says = (value: unknown): boolean =>
    typeof value === 'string'
      ? ids.has(value)
      : typeof value === 'object' &&
        value !== null &&
        Object.entries(value).some(([key, held]) => key !== 'id' && (ids.has(key) || says(held)));
  return [...listsAndParts.map(({ name }) => pack[name] as readonly unknown[]), pack.allowed].some((entries) => entries.some(says));
};

/** The first few, and how many more. */
const named = (names: readonly string[]): string =>
  names.length > 5 ? list([...names.slice(0, 5), `${names.length - 5} more`]) : list(names);

import { chmod, mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Sheet } from '../../reasoner/index.ts';
import { whileNobodySaves } from '../driver/copies.ts';
import type { Statement } from '../driver/driver.ts';
import { mendedBeside, openSqlite } from '../driver/open-sqlite.ts';
import { openScratch } from '../driver/scratch.ts';
import { troubleOf } from '../driver/trouble-of.ts';
import type { KeptWord } from '../edits/put-back-words.ts';
import { asideName, isThere, likeNow, namesIn, removeAtlas, stampOf, syncFile, syncFolder } from '../plain/files.ts';
import type { Layout, SalvagedRow } from '../salvage/salvage.ts';
import { dayOf } from '../shop/case-number.ts';
import type { Card } from '../shop/learning.ts';
import { unitNumbersKept } from '../shop/unit-numbers.ts';
import type { Store } from '../store/store.ts';
import { done, failed, type Outcome, TroubleError, trouble } from '../trouble.ts';
import { checkAtlas } from './check-atlas.ts';
import { type Gathered, gather } from './gather.ts';
import { gatherPacks } from './gather-packs.ts';
import { layoutsOf } from './layouts.ts';
import { learningOf, learningPutBack } from './learning-put-back.ts';
import { packFolders } from './pack-folders.ts';
import { gatheredPutBack } from './put-back.ts';
import type { MendedPack, MendReport } from './report.ts';
import { moveSideFiles, setAsideBefore } from './set-aside.ts';
import { sheetIn } from './sheet-in.ts';
import { openSources } from './sources.ts';
import { verifyMended } from './verify-mended.ts';
import { writeAside } from './write-aside.ts';

/** Steps of mending, said as each is done: whoever is stopped after any of them goes on from there the next time. */
export type MendStep = 'checked' | 'read' | 'made' | 'put back' | 'verified' | 'written' | 'ready' | 'set aside' | 'in place' | 'done';

/** What mending asks of those above the store. */
export interface MendSetting {
  readonly now: Date;
  /** The folder of the packs that come with the program. */
  readonly shipped: string;
  /** Makes an atlas file of these packs, and opens it. What cannot be loaded is told, and the rest is. */
  makeAtlas(
    file: string,
    packs: readonly string[],
  ): Promise<Outcome<{ readonly store: Store; readonly refused: readonly { readonly folder: string; readonly sentence: string }[] }>>;
  /** Judges a sheet and saves it with its verdict. */
  keep(store: Store, sheet: Sheet): Promise<Outcome<unknown>>;
  /** The card after an answer. */
  schedule(card: Card | null, right: boolean, at: Date): Card;
  readonly onStep?: (step: MendStep) => void | Promise<void>;
}

/** Which file goes where once the new atlas is whole, and what is then said. */
interface Plan {
  readonly aside: string;
  readonly report: MendReport;
}

const nothing: Omit<MendReport, 'state' | 'faults'> = {
  aside: null,
  folder: null,
  back: { sheets: 0, cases: 0, entries: 0, photographs: 0, learners: 0, answers: 0 },
  from: [],
  lost: [],
  incomplete: [],
  packs: [],
  learning: null,
  remarks: [],
};

/**
 * Mends the atlas file of a data folder: a new one is made beside it of all that can be read, of it and of what else holds a copy, verified, and only then
 * put in its place; the damaged file is set aside as it is. A sound one is left alone. It may be stopped anywhere, the power cut included: until the new
 * atlas is whole nothing has happened to the old one, and from then on the next call finishes it.
 * Troubles as of `openStore`.
 */
export const mendAtlas = async (file: string, setting: MendSetting): Promise<Outcome<MendReport>> => {
  try {
    return done(await mended(file, setting));
  } catch (error) {
    const found = troubleOf(error, file);
    if (found === null) throw error;
    return failed(found);
  }
};

const mended = async (file: string, setting: MendSetting): Promise<MendReport> => {
  const step = async (at: MendStep): Promise<void> => setting.onStep?.(at);
  const begun = await finishBegun(file, step);
  if (begun !== null) return begun;
  const { damaged, faults } = await whatIsDamaged(file);
  await step('checked');
  if (damaged === null) return { state: 'sound', faults, ...nothing };
  const asRead = await atlasLikeNow(file);
  const plan = await buildBeside(file, damaged, faults, setting, step);
  await putAside(file, plan.aside, asRead);
  await putInPlace(file, plan, step);
  return plan.report;
};

const planFile = (file: string): string => `${mendedBeside(file)}.json`;
const unfinished = (file: string): string => `${file}.mending`;

/** Finishes what an earlier call had ready; null where there was nothing, and whatever was half made is gone. */
const finishBegun = async (file: string, step: (at: MendStep) => Promise<void>): Promise<MendReport | null> => {
  const ready = await isThere(mendedBeside(file));
  const plan = await planIn(file);
  if (ready && !(await isThere(file))) {
    const aside = plan?.aside ?? (await setAsideBefore(file))[0] ?? `${file}.damaged-before`;
    const report = plan?.report ?? { state: 'finished', faults: [], ...nothing };
    await putInPlace(file, { aside, report }, step);
    return { ...report, state: 'finished' };
  }
  // With the old file in its place still, the new one may be older than it: a large atlas opens though it is damaged.
  await removeAtlas(mendedBeside(file));
  await removeAtlas(unfinished(file));
  for (const name of await namesIn(dirname(file)))
    if (name.startsWith('recovered-') && name.endsWith('.part')) await rm(join(dirname(file), name), { recursive: true, force: true });
  await rm(planFile(file), { force: true });
  return !ready && plan !== null && (await isThere(file)) && (await isThere(plan.aside)) ? { ...plan.report, state: 'finished' } : null;
};

const planIn = async (file: string): Promise<Plan | null> => {
  const text = await readFile(planFile(file), 'utf8').catch(() => null);
  if (text === null) return null;
  try {
    return JSON.parse(text) as Plan;
  } catch {
    // Written whole before anything is moved: half of one means that nothing was.
    return null;
  }
};

/** The file to take things out of: the atlas, where it is damaged, or one that was set aside and never followed by another. Null where the atlas is sound. */
const whatIsDamaged = async (file: string): Promise<{ readonly damaged: string | null; readonly faults: readonly string[] }> => {
  if (!(await isThere(file))) {
    const [last] = await setAsideBefore(file);
    if (last !== undefined) {
      await moveSideFiles(file, last);
      return { damaged: last, faults: ['the atlas was set aside before, and none was put in its place'] };
    }
  }
  const faults = await checkAtlas(file);
  if (!faults.ok) throw new TroubleError(faults.trouble);
  return { damaged: faults.value.length === 0 ? null : file, faults: faults.value.slice(0, 20) };
};

let layouts: Promise<readonly Layout[]> | null = null;
/** How this version stores its rows; asked of a store in memory once. */
const ownLayouts = (): Promise<readonly Layout[]> => {
  layouts ??= (async () => {
    const scratch = await openScratch();
    try {
      return await layoutsOf(scratch);
    } finally {
      await scratch.close();
    }
  })();
  return layouts;
};

const buildBeside = async (
  file: string,
  damaged: string,
  faults: readonly string[],
  setting: MendSetting,
  step: (at: MendStep) => Promise<void>,
): Promise<Plan> => {
  const folder = dirname(file);
  const building = unfinished(file);
  const sources = await openSources(folder, damaged, await ownLayouts());
  const written = join(folder, `recovered-${stampOf(setting.now)}`);
  const part = `${written}.part`;
  try {
    const gathered = gather(sources);
    const found = await gatherPacks(sources.damaged, sources.backups, await ownLayouts());
    await mkdir(part, { recursive: true, mode: 0o700 });
    const packs = await packFolders(found, join(part, 'packs'), setting.shipped);
    await step('read');

    const made = await setting.makeAtlas(
      building,
      packs.map((pack) => pack.folder).filter((one) => one !== null),
    );
    if (!made.ok) throw new TroubleError(made.trouble);
    const remarks = made.value.refused.map(({ sentence }) => sentence);
    if (!found.complete)
      remarks.push('The list of packs could not be read whole: a pack of your own that is not named here must be loaded again.');
    const refused = new Set(made.value.refused.map((one) => one.folder));
    const words = (gathered.rows.get('own_words') ?? []) as readonly SalvagedRow[] as unknown as readonly KeptWord[];
    const unsaid = await made.value.store.changes.putBack(found.own, words);
    if (!unsaid.ok) throw new TroubleError(unsaid.trouble);
    remarks.push(...unsaid.value);
    await made.value.store.close();
    await step('made');

    const learnt = await putRowsBack(building, gathered, setting);
    const judged = await judgeAnew(building, gathered, setting);
    await step('put back');

    const packsMended = packs.map(({ folder: from, ships: _, ...pack }): MendedPack => {
      const lost = from === null || refused.has(from);
      return lost ? { ...pack, from: null } : pack;
    });
    for (const { folder: from, ships } of packs) if (ships && from?.startsWith(part)) await rm(from, { recursive: true });
    await verifyMended(building, gathered);
    await step('verified');

    const wrote = await writeAside(part, gathered);
    const aside = damaged === file ? asideName(file, setting.now) : damaged;
    const report: MendReport = {
      state: 'mended',
      faults,
      aside,
      folder: wrote ? written : null,
      back: {
        sheets: gathered.sheets.size,
        cases: (gathered.rows.get('cases') ?? []).length + gathered.numberless.length,
        entries: (gathered.rows.get('case_entries') ?? []).length,
        photographs: (gathered.rows.get('case_photos') ?? []).length,
        learners: learnt?.learners ?? 0,
        answers: learnt?.answers ?? 0,
      },
      from: gathered.from,
      lost: [
        ...gathered.lost,
        ...packsMended.filter(({ from }) => from === null).map(({ id, edition }) => ({ what: 'pack' as const, id, known: edition ?? '' })),
      ],
      incomplete: gathered.incomplete,
      packs: packsMended,
      learning: learnt,
      remarks: [...remarks, ...judged],
    };
    if (!wrote) await rm(part, { recursive: true, force: true });
    await step('written');

    await chmod(building, 0o600);
    await syncFile(building);
    const plan = { aside, report };
    await writeFile(planFile(file), JSON.stringify(plan), { flush: true, mode: 0o600 });
    await rename(building, mendedBeside(file));
    await syncFolder(folder);
    await step('ready');
    return plan;
  } finally {
    sources.close();
  }
};

/**
 * Moves the old file out of its place, where there is one, unless something was saved to it since it was read: the new atlas would be without it.
 * What a program that still has it open saves from then on is refused by its driver.
 */
const putAside = async (file: string, aside: string, asRead: string): Promise<void> => {
  if (!(await isThere(file))) return;
  await whileNobodySaves(file, async () => {
    if ((await atlasLikeNow(file)) !== asRead) throw new TroubleError(savedMeanwhile(file));
    await rename(file, aside);
  });
};

/** The same for an atlas as long as nothing is saved to it: what is saved goes into the journal first. */
const atlasLikeNow = async (file: string): Promise<string> => [await likeNow(file), await likeNow(`${file}-wal`)].join(', ');

const savedMeanwhile = (file: string) =>
  trouble(
    'changed-since',
    file,
    `Somebody saved to the damaged atlas while it was being mended. It is still in its place with what was saved. Close every window of Kinplate that has it open, and run kinplate mend again: ${file}`,
  );

/** From here on the new atlas is whole beside the old one, and each step can be told from the one before it. */
const putInPlace = async (file: string, { aside, report }: Plan, step: (at: MendStep) => Promise<void>): Promise<void> => {
  // The old file went first: side files without it are seen to be its own, and it without them would lose what they hold.
  await syncFolder(dirname(file));
  await step('set aside');
  await moveSideFiles(file, aside);
  await syncFolder(dirname(file));
  // Called so only now: until here a run that begins again would take them for copies of an earlier one.
  if (report.folder !== null && (await isThere(`${report.folder}.part`))) await rename(`${report.folder}.part`, report.folder);
  await rename(mendedBeside(file), file);
  await syncFolder(dirname(file));
  await step('in place');
  await rm(planFile(file), { force: true });
  await step('done');
};

const putRowsBack = async (file: string, gathered: Gathered, { now, schedule }: MendSetting) => {
  const { driver } = await openSqlite(file, { busyMs: 5000, readOnly: false });
  try {
    const put = await driver.write({ statements: gatheredPutBack(gathered, dayOf(now)) });
    if (!put.ok) throw new TroubleError(put.trouble);
    const numbered = await driver.write({ statements: unitNumbersAnew(gathered, await driver.all('select id, says from features')) });
    if (!numbered.ok) throw new TroubleError(numbered.trouble);
    const { batch, value } = learningPutBack(learningOf(gathered.rows), schedule);
    if (batch !== null) {
      const learnt = await driver.write(batch);
      if (!learnt.ok) throw new TroubleError(learnt.trouble);
    }
    return value.learners + value.courses === 0 ? null : value;
  } finally {
    await driver.close();
  }
};

/** The numbers of a unit are read off its sheet; those that were recovered stay where the atlas does not know what the sheet speaks of. */
function* unitNumbersAnew(
  { sheets, rows, numberless }: Gathered,
  features: readonly { id: string; says: string | null }[],
): Generator<Statement> {
  const says = new Map(features.map((feature) => [feature.id, feature.says ?? undefined]));
  const cased = new Set<unknown>([...(rows.get('cases') ?? []).map(({ sheet }) => sheet), ...numberless]);
  for (const [id, { body }] of sheets) {
    const sheet = sheetIn(body);
    if (sheet !== null && cased.has(id) && sheet.observations.every(({ feature }) => says.has(feature)))
      yield* unitNumbersKept(sheet, (feature) => says.get(feature));
  }
}

/** No case is without a verdict: sheets whose last state has none of its own are judged, by the atlas there now. What that cannot be told of is said. */
const judgeAnew = async (file: string, { sheets, rows }: Gathered, setting: MendSetting): Promise<readonly string[]> => {
  const last = new Map<unknown, SalvagedRow>();
  for (const row of rows.get('case_entries') ?? []) if (Number(row.n) > Number(last.get(row.sheet)?.n ?? 0)) last.set(row.sheet, row);
  const wanting = [...sheets.values()].filter(({ id, body }) => last.get(id)?.body !== body);
  if (wanting.length === 0) return [];
  const opened = await setting.makeAtlas(file, []);
  if (!opened.ok) throw new TroubleError(opened.trouble);
  const { store } = opened.value;
  try {
    const remarks: string[] = [];
    for (const { id, body } of wanting) {
      const sheet = sheetIn(body);
      const kept = sheet === null ? null : await setting.keep(store, sheet);
      if (kept?.ok === false)
        remarks.push(`The sheet ${id} is on the shelf, and its last state has no verdict yet: ${kept.trouble.sentence}`);
    }
    return remarks;
  } finally {
    await store.close();
  }
};

import { constants } from 'node:fs';
import { chmod, copyFile, rename, stat } from 'node:fs/promises';
import path from 'node:path';
import type { GivenElsewhere } from '../../reasoner/plain/shared-letter.ts';
import { foldAlone, lookInto, lookIntoCopy, putIn } from '../driver/copies.ts';
import type { Driver } from '../driver/driver.ts';
import { openSqlite } from '../driver/open-sqlite.ts';
import { readDamaged } from '../driver/read-damaged.ts';
import type { Version } from '../driver/version.ts';
import { migrations } from '../migrations/index.ts';
import { asideName, likeNow, moveIfThere, removeAtlas, sideFiles, syncFile, syncFolder } from '../plain/files.ts';
import { type CaseCount, numberText, ofEveryLetter } from '../shop/case-number.ts';
import { isGivenElsewhere } from '../shop/given-elsewhere.ts';
import { TroubleError, trouble } from '../trouble.ts';
import type { Backup, Restored, RestorePreview } from './backup.ts';
import { differencesBetween } from './differences.ts';
import { clearUnfinished, makeFolder, namedIn, stateOf } from './folder.ts';
import { type Holdings, holdingsOf } from './held.ts';
import { type BackupPlace, makeBackup, makeBackupWith } from './make-backup.ts';
import { readBackupName, unfinishedName } from './names.ts';

/** A backup that can be read, wherever it lies. */
interface Chosen extends Backup {
  readonly file: string;
}

/**
 * The backup somebody names: `newest`, for the newest that is sound; the name of one in the folder; or, where `elsewhere` may be looked, the path of a copy of one. It is looked through whole.
 * Throws `not-found` and `backup-unreadable`.
 */
export const chosenBackup = async ({ folder }: BackupPlace, named: string, elsewhere: boolean): Promise<Chosen> => {
  if (named === 'newest') {
    for (const { name } of await namedIn(folder)) {
      const one = await chosenAt(path.join(folder, name));
      if (one?.state.kind === 'sound') return one;
    }
    throw new TroubleError(trouble('not-found', folder, `There is no sound backup in ${folder}. Nothing was changed.`));
  }
  const own = readBackupName(named) === null ? null : await chosenAt(path.join(folder, named));
  const one = own ?? (elsewhere ? await chosenAt(path.resolve(named)) : null);
  if (one === null) throw new TroubleError(trouble('not-found', named, `There is no such backup: ${named}. Nothing was changed.`));
  if (one.state.kind === 'unreadable')
    throw new TroubleError(
      trouble('backup-unreadable', one.file, `This backup cannot be used. ${one.state.why} Nothing was changed: ${one.file}`),
    );
  return one;
};

const chosenAt = async (file: string): Promise<Chosen | null> => {
  const found = await stat(file).catch(() => null);
  if (found === null || !found.isFile()) return null;
  const name = path.basename(file);
  const said = readBackupName(name) ?? { at: found.mtime.toISOString(), reason: 'asked' as const };
  return { file, name, ...said, bytes: found.size, state: await stateOf(file, true) };
};

/**
 * What restoring a backup would come to, against the atlas as it is now, or against nothing where there is none that can be read. Changes nothing.
 * @param live false where the atlas is known to be missing, empty or damaged
 */
export const previewRestore = async (place: BackupPlace, chosen: Chosen, live: boolean): Promise<RestorePreview> => {
  const { file, ...backup } = chosen;
  const now = live ? await lookInto(place.file, holdingsOf) : null;
  const migrates = schemaOf(chosen) < migrations.length;
  const then = migrates
    ? await asCopy(place, chosen, (driver) => driver.read(holdingsOf))
    : (await lookIntoCopy(file, 'nothing', holdingsOf)).read;
  const differences = differencesBetween(now, then);
  return {
    backup,
    madeAgainst: now?.version ?? null,
    same: now !== null && differences.every(({ comesBack, goes, differs }) => comesBack.count + goes.count + differs.count === 0),
    migrates,
    differences,
    elsewhere: now === null ? null : elsewhereIn(now, then),
  };
};

/** Cases of a backup whose numbers this counter would have given, and did not. */
const elsewhereIn = (now: Holdings, then: Holdings): GivenElsewhere | null => {
  const last = new Map(now.numbers.map((count) => [`${count.letter} ${count.year}`, count.last]));
  const sheetOf = new Map([...now.cases].map(([sheet, number]) => [numberText(number), sheet]));
  const numbers = [...then.cases]
    .filter(([sheet, number]) =>
      isGivenElsewhere(number, sheet, {
        letter: now.letter,
        last: last.get(`${number.letter} ${number.year}`) ?? 0,
        sheet: sheetOf.get(numberText(number)) ?? null,
      }),
    )
    .map(([, number]) => number)
    .sort((a, b) => a.year - b.year || a.number - b.number);
  const [first] = numbers;
  return first === undefined ? null : { first: numberText(first), many: numbers.length };
};

const schemaOf = ({ state }: Backup): number => (state.kind === 'sound' ? state.schema : 0);

/**
 * Puts a backup in the place of what the atlas holds, in one step, while others have it open; what there was goes into a backup first. A backup of an older schema is brought
 * up to this one before. The last number given under each letter in each year stays the higher of both, so that no case's number is given twice (P1).
 * Throws `changed-since` where the atlas is no longer the one of the preview, and `backup-failed`; nothing is changed then.
 */
export const restoreBackup = async (place: BackupPlace, chosen: Chosen, madeAgainst: Version): Promise<Restored> => {
  const seen = await lookInto(place.file, holdingsOf);
  if (seen.version !== madeAgainst) throw new TroubleError(changedSince(place.file));
  // The copy first: a new backup may be the end of an old one.
  const copy = await copied(place, chosen);
  try {
    const { backup: before, looked } = await makeBackupWith(place, 'before-restore', holdingsOf);
    if (looked.version !== madeAgainst) throw new TroubleError(changedSince(place.file));
    await worked(copy, (driver) => keepNumbers(driver, looked.numbers));
    const still = await putIn(place.file, copy, async (reader) => (await holdingsOf(reader)).version === madeAgainst);
    if (!still) throw new TroubleError(changedSince(place.file));
    return { from: chosen.name, before: before.name, aside: null };
  } finally {
    await gone(copy);
  }
};

/** The same where the atlas is missing, empty or damaged and nobody can have it open: whatever stands in its place is moved aside, nothing is deleted. */
export const restoreInPlaceOf = async (place: BackupPlace, chosen: Chosen): Promise<Restored> => {
  const copy = await copied(place, chosen);
  try {
    const numbers = await numbersLeftIn(place.file);
    await worked(copy, (driver) => keepNumbers(driver, numbers));
    return { from: chosen.name, before: null, aside: await movedInto(place, copy) };
  } finally {
    await gone(copy);
  }
};

/**
 * Puts a backup's file in the place of the atlas byte for byte, whatever schema it is of: for the older program it was made by. What there was goes into a backup first. Nobody may have the atlas open.
 * Numbers of cases given since the backup may then be given again: the older file does not know of them.
 * @param live false where the atlas is known to be missing, empty or damaged
 */
export const putBackAsItIs = async (place: BackupPlace, chosen: Chosen, live: boolean): Promise<Restored> => {
  const part = unfinishedBeside(place.file);
  try {
    await copyBytes(chosen.file, part);
    if (!live) return { from: chosen.name, before: null, aside: await movedInto(place, part) };
    await foldAlone(place.file);
    const folded = await likeNow(place.file);
    const before = await makeBackup(place, 'before-restore');
    if ((await likeNow(place.file)) !== folded) throw new TroubleError(changedSince(place.file));
    await rename(part, place.file);
    await syncFolder(path.dirname(place.file));
    return { from: chosen.name, before: before.name, aside: null };
  } finally {
    await gone(part);
  }
};

const changedSince = (file: string) =>
  trouble(
    'changed-since',
    file,
    'The atlas has been changed since what restoring would come to was shown. Nothing was restored; look again at what it comes to now.',
  );

let copies = 0;
/** A place of our own beside the atlas: on the same disk, so that it can take the atlas's name in one step. */
const unfinishedBeside = (file: string): string => {
  copies += 1;
  return path.join(path.dirname(file), unfinishedName(`restore-${copies}`, process.pid));
};

const copyBytes = async (from: string, to: string): Promise<void> => {
  await makeFolder(path.dirname(to));
  await clearUnfinished(path.dirname(to));
  await copyFile(from, to, constants.COPYFILE_EXCL);
  await chmod(to, 0o600);
  await syncFile(to);
};

/** A copy of the backup, of this program's schema, that may be written to; its file. */
const copied = async (place: BackupPlace, chosen: Chosen): Promise<string> => {
  const part = unfinishedBeside(place.file);
  try {
    await copyBytes(chosen.file, part);
    await worked(part, async () => undefined);
    return part;
  } catch (error) {
    await gone(part);
    throw error;
  }
};

/** Opens a copy, which brings it up to this program's schema, and closes it, which leaves one file. */
const worked = async <T>(copy: string, work: (driver: Driver) => Promise<T>): Promise<T> => {
  const { driver } = await openSqlite(copy, { busyMs: 0, readOnly: false });
  try {
    return await work(driver);
  } finally {
    await driver.close();
  }
};

const asCopy = async <T>(place: BackupPlace, chosen: Chosen, work: (driver: Driver) => Promise<T>): Promise<T> => {
  const copy = await copied(place, chosen);
  try {
    return await worked(copy, work);
  } finally {
    await gone(copy);
  }
};

const gone = (part: string): Promise<void> => removeAtlas(part).catch(() => undefined);

const keepNumbers = async (driver: Driver, numbers: Holdings['numbers']): Promise<void> => {
  const written = await driver.write({
    statements: numbers.map(({ letter, year, last }) => ({
      sql: 'insert into case_counts (letter, year, last) values (?, ?, ?) on conflict (letter, year) do update set last = max(last, excluded.last)',
      params: [letter, year, last],
    })),
  });
  if (!written.ok) throw new TroubleError(written.trouble);
};

/** The numbers a damaged file still tells; of one that cannot be read at all, none. */
const numbersLeftIn = async (file: string): Promise<Holdings['numbers']> => {
  if ((await stat(file).catch(() => null)) === null) return [];
  const read = await readDamaged(file, async ({ all }) => {
    const tables = await all<{ name: string }>(`select name from sqlite_master where name in ('case_counts', 'case_numbers')`);
    if (tables.some(({ name }) => name === 'case_counts')) return await all<CaseCount>('select letter, year, last from case_counts');
    // Of before letters counted by themselves.
    const years = tables.length === 0 ? [] : await all<{ year: number; last: number }>('select year, last from case_numbers');
    return years.flatMap(({ year, last }) => ofEveryLetter(year, last));
  });
  return read.ok ? read.value : [];
};

/** Moves what stands in the atlas's place aside, side files and all, and the copy into it; where what was there stands now. */
const movedInto = async ({ file, now }: BackupPlace, copy: string): Promise<string | null> => {
  await syncFile(copy);
  const aside = await movedAside(file, now());
  await rename(copy, file);
  await syncFolder(path.dirname(file));
  return aside;
};

/**
 * Moves an atlas that cannot be used out of the way, its side files with it: a journal left lying would be taken for the next file's. Gives the new name, or null where there was nothing.
 */
export const movedAside = async (file: string, now: Date): Promise<string | null> => {
  const aside = asideName(file, now);
  let moved = false;
  for (const suffix of ['', ...sideFiles]) {
    const there = await moveIfThere(file + suffix, aside + suffix);
    moved ||= there;
  }
  return moved ? aside : null;
};

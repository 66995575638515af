import { createHash, randomBytes } from 'node:crypto';
import { open, readFile, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import type { Atlas } from '../../reasoner/index.ts';
import { listsAndParts } from '../atlas/lists.ts';
import { hasRoom } from '../driver/reserve.ts';
import { versionOf } from '../driver/version.ts';
import { migrations } from '../migrations/index.ts';
import { namesIn, sizeOf, syncFolder } from '../plain/files.ts';
import { isRunning } from '../plain/is-running.ts';
import type { Version } from '../plain/version.ts';
import { atlasOfBytes, bytesOfAtlas } from './atlas-bytes.ts';

/*
 * The atlas as it was read last, kept beside the atlas file so that the next program need not read it row by row. It is no record of anything: a file
 * that is missing, damaged, of another atlas or of another program is made anew, one that cannot be written is gone without, and nobody is told.
 *
 * A line of JSON that says what it is, then the bytes of the atlas. The line is the same, to the letter, for the same bytes: it is made again and compared.
 */

/** Raised when the same atlas would be written otherwise. */
const format = 2;
const begins = 'kept-reading-';
const ends = '.being-written';
/** So much stays free on the disk for what the shop keeps. */
const leftFree = 128 * 2 ** 20;

/** What this program makes of the tables: any other may read other things out of them. */
const madeBy = versionOf([
  format,
  process.versions.v8,
  migrations.map(({ number, name }) => [number, name]),
  listsAndParts.map(({ name, fields }) => [name, fields]),
]);

const fileFor = (folder: string, version: Version): string => path.join(folder, `${begins}${version}`);

const headOf = (version: Version, body: Uint8Array): Buffer => {
  const head = { kinplate: 'an atlas as it was read; it may be deleted at any time', madeBy, atlas: version, bytes: body.length };
  const hash = createHash('sha256').update(JSON.stringify(head)).update(body).digest('hex');
  return Buffer.from(`${JSON.stringify({ ...head, hash })}\n`);
};

/** The atlas of this version as it was kept in the folder; null where it was not, or what is there is not all of it. */
export const keptReading = async (folder: string, version: Version): Promise<Atlas | null> => {
  const file = fileFor(folder, version);
  const bytes = await readFile(file).catch(() => null);
  if (bytes === null) return null;
  const body = bytes.subarray(bytes.indexOf('\n') + 1);
  if (headOf(version, body).equals(bytes.subarray(0, bytes.length - body.length))) {
    try {
      return atlasOfBytes(body);
    } catch {
      // Its bytes are all there, and it is none of ours.
    }
  }
  await rm(file, { force: true }).catch(() => undefined);
  return null;
};

/**
 * Keeps the atlas of this version in the folder, in the place of any other; whether it did. What cannot be written is left.
 * @param pause awaited now and then while it is made ready, so that nothing else waits; what it throws ends it
 * @param stands asked last: whether the atlas is still in this version
 */
export const keepReading = async (
  folder: string,
  version: Version,
  atlas: Atlas,
  pause: () => Promise<unknown>,
  stands: () => Promise<boolean>,
): Promise<boolean> => {
  const file = fileFor(folder, version);
  const writing = `${file}.${process.pid}-${randomBytes(4).toString('hex')}${ends}`;
  try {
    if ((await sizeOf(file)) === null) {
      const body = await bytesOfAtlas(atlas, pause);
      if (!hasRoom(file, body.length + leftFree)) return false;
      await writeNew(writing, [headOf(version, body), body]);
      if (!(await stands())) throw new Error('another version by now');
      await rename(writing, file);
      await syncFolder(folder);
    }
    await removeOthers(folder, path.basename(file));
    return true;
  } catch {
    await rm(writing, { force: true }).catch(() => undefined);
    return false;
  }
};

const writeNew = async (file: string, pieces: readonly Uint8Array[]): Promise<void> => {
  const handle = await open(file, 'wx', 0o600);
  try {
    await handle.writev([...pieces]);
    await handle.sync();
  } finally {
    await handle.close();
  }
};

/** Those of other versions, and what a program left that ended while it wrote. */
const removeOthers = async (folder: string, own: string): Promise<void> => {
  for (const name of await namesIn(folder)) {
    if (!name.startsWith(begins) || name === own) continue;
    const [, writer] = /\.(\d+)-[0-9a-f]+\.being-written$/.exec(name) ?? [];
    if (writer !== undefined && isRunning(Number(writer))) continue;
    await rm(path.join(folder, name), { force: true });
  }
};

import { randomUUID } from 'node:crypto';
import { rmSync } from 'node:fs';
import { appendFile, mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { isPackFile, isRunning, type Outcome, packIn, TroubleError, unzip, type ZipFor } from '../../db/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { refusal, well } from '../bridge/reply.ts';

/** Where packs on their way in stand in a data folder, each in a folder named by the program that holds it and its token. */
export const broughtFolder = 'brought-packs';

/** A pack that was handed in, as a folder it can be read from. */
export interface Brought {
  readonly folder: string;
  /** What was handed in and is no file of a pack. */
  readonly leftAlone: readonly string[];
}

interface Coming {
  readonly paths: Set<string>;
  bytes: number;
}

/** A pack that comes as a ZIP. */
const zipOfPack: ZipFor = {
  most: { bytes: limits.packBytes, files: limits.packFiles, unpacked: limits.packBytes },
  codes: { unreadable: 'pack-unreadable', tooLarge: 'pack-too-large', invalid: 'pack-unreadable' },
  words: { as: 'as a pack', nothing: 'Nothing was brought in.', names: 'the files of one pack' },
};

/** What came as it was handed in, and what was unpacked of a ZIP. */
const [handed, unpacked] = ['handed', 'unpacked'];
/** Folders within folders. */
const deepest = 6;

/**
 * Packs on their way in: what a window hands over is written into a folder of its own, since a pack is read from one, and removed once it was brought in or is not wanted. Few are
 * held, and the oldest goes for a new one. Looking at one needs nothing but what is on the disk, so that whoever looks need not be who was handed it.
 */
export class BroughtPacks {
  readonly #home: string;
  readonly #keep: number;
  readonly #coming = new Map<string, Coming>();

  /** @param data the data folder */
  constructor(data: string, keep = 2) {
    this.#home = path.join(data, broughtFolder);
    this.#keep = keep;
  }

  /** Adds bytes to the file of this path, in a pack that is coming or a new one; gives how many bytes there are of all its files. */
  async add(known: string | null, name: string, bytes: Buffer): Promise<Outcome<{ readonly token: string; readonly bytes: number }>> {
    const steps = stepsOf(name);
    if (steps === null) return refusal('pack-unreadable', name, `“${name}” is no name a file of a pack may have. Nothing was brought in.`);
    const token = known ?? (await this.#begin());
    const coming = this.#coming.get(token);
    if (coming === undefined) return notHeld;
    coming.paths.add(name);
    coming.bytes += bytes.length;
    const most =
      coming.bytes > limits.packBytes
        ? `${limits.packBytes / 1024 / 1024} MiB`
        : coming.paths.size > limits.packFiles
          ? `${limits.packFiles} files`
          : null;
    if (most !== null) {
      await this.drop(token);
      return refusal('pack-too-large', name, `What was chosen is too large for a pack: the most is ${most}. Nothing was brought in.`);
    }
    const file = path.join(this.#folderOf(token), handed, ...steps);
    await mkdir(path.dirname(file), { recursive: true, mode: 0o700 });
    await appendFile(file, bytes, { mode: 0o600 });
    return well({ token, bytes: coming.bytes });
  }

  /** What was handed in as the folder of one pack. Troubles: `not-found`, and `pack-unreadable` where there is no pack in it, or more than one. */
  async pack(token: string): Promise<Outcome<Brought>> {
    const from = path.join(this.#folderOf(token), handed);
    const names = await filesIn(from);
    if (names.length === 0) return notHeld;
    const [only] = names;
    if (names.length === 1 && only !== undefined && /\.zip$/i.test(only)) return this.#unpack(token, path.join(from, only), only);
    const where = packIn(names);
    if ('found' in where) return noOnePack(where.found);
    return well({ folder: path.join(from, ...where.root.split('/')), leftAlone: aside(names, where.root) });
  }

  async drop(token: string): Promise<void> {
    this.#coming.delete(token);
    const folder = this.#folderOf(token);
    ours.delete(folder);
    await rm(folder, { recursive: true, force: true });
  }

  async #begin(): Promise<string> {
    const token = randomUUID();
    const folder = this.#folderOf(token);
    await mkdir(folder, { recursive: true, mode: 0o700 });
    goesAtExit(folder);
    this.#coming.set(token, { paths: new Set(), bytes: 0 });
    for (const old of [...this.#coming.keys()].slice(0, -this.#keep)) await this.drop(old);
    return token;
  }

  async #unpack(token: string, zip: string, name: string): Promise<Outcome<Brought>> {
    const opened = unzip(await readFile(zip), name, () => limits.packBytes, zipOfPack);
    if (!opened.ok) return opened;
    const names = [...opened.value.keys()];
    const where = packIn(names);
    if ('found' in where) return noOnePack(where.found);
    const { root } = where;
    const folder = path.join(this.#folderOf(token), `${unpacked}-${randomUUID()}`);
    try {
      for (const [inside, file] of opened.value) {
        if (!isOfPack(inside, root)) continue;
        const at = path.join(folder, ...inside.slice(root.length).split('/'));
        await mkdir(path.dirname(at), { recursive: true, mode: 0o700 });
        await writeFile(at, file.bytes(), { mode: 0o600 });
      }
    } catch (error) {
      if (error instanceof TroubleError) return { ok: false, trouble: error.trouble };
      throw error;
    }
    return well({ folder, leftAlone: aside(names, root) });
  }

  #folderOf(token: string): string {
    return path.join(this.#home, `${process.pid}-${token}`);
  }
}

/** Removes what programs that are gone left there; called before anybody can hand something in. */
export const sweepBrought = async (data: string): Promise<void> => {
  const home = path.join(data, broughtFolder);
  for (const name of await readdir(home).catch(() => [])) {
    const [, pid] = /^(\d+)-/.exec(name) ?? [];
    if (pid === undefined || (Number(pid) !== process.pid && isRunning(Number(pid)))) continue;
    await rm(path.join(home, name), { recursive: true, force: true }).catch(() => undefined);
  }
};

/** The steps of a path as it came from a window; null for one that leads out of its folder, or that some system could not have. */
const stepsOf = (name: string): readonly string[] | null => {
  const steps = name.split('/');
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what no name may have.
  const sound = steps.every((step) => /^[^\\:*?"<>|\x00-\x1f]{1,150}$/.test(step) && !/^\.+$/.test(step));
  return sound && steps.length <= deepest ? steps : null;
};

const isOfPack = (name: string, root: string): boolean => name.startsWith(root) && isPackFile(name.slice(root.length));

/** What is left alone, with no more names than somebody reads. */
const aside = (names: readonly string[], root: string): readonly string[] => names.filter((name) => !isOfPack(name, root)).slice(0, 50);

const noOnePack = (found: readonly string[]) =>
  found.length === 0
    ? refusal(
        'pack-unreadable',
        'pack.json',
        'There is no pack in what was chosen: found no pack.json, expected a folder or a ZIP with one in it.',
      )
    : refusal(
        'pack-unreadable',
        'pack.json',
        `There are ${found.length} packs in what was chosen: ${found
          .slice(0, 5)
          .map((root) => (root === '' ? 'one at its top' : `one in ${root.slice(0, -1)}`))
          .join(', ')}. Choose the folder of one.`,
      );

/** Paths of the files in a folder, from it, with strokes; none where it is not there. */
const filesIn = async (folder: string): Promise<readonly string[]> => {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true }).catch(() => []);
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(folder, path.join(entry.parentPath, entry.name)).split(path.sep).join('/'))
    .sort();
};

const notHeld = refusal('not-found', 'token', 'That pack is no longer held: it was brought in, or others came after it. Choose it again.');

/** Folders of this program, gone with it when it ends in order; after a kill the next start removes them. */
const ours = new Set<string>();
let listening = false;
const goesAtExit = (folder: string): void => {
  ours.add(folder);
  if (listening) return;
  listening = true;
  process.once('exit', () => {
    for (const one of ours) rmSync(one, { recursive: true, force: true });
  });
};

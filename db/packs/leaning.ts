import { readdir, readFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { isDeeper } from '../../reasoner/plain/json-depth.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { headSchema } from '../atlas/schemas.ts';
import { Faults } from '../read/faults.ts';
import { done, failed, type Outcome } from '../trouble.ts';
import { filesIn, readJson } from './read-files.ts';

/**
 * The folders to load for a pack, in order: what it leans on and the atlas does not hold, each from the folder of its id beside it, and then the pack.
 * Only heads are read; a pack whose own head cannot be read stands alone, and loading it says what is wrong with it.
 * Troubles: `pack-invalid` where what a pack leans on is neither held nor beside it, or packs lean on each other in a circle.
 * @param holds whether the atlas holds the pack of this id
 * @param shipped a folder of packs that come with the program: what is not beside the pack may be in it
 */
export const foldersFor = async (
  folder: string,
  holds: (pack: string) => boolean,
  shipped: string | null = null,
): Promise<Outcome<readonly string[]>> => {
  const folders: string[] = [];
  const settled = new Set<string>();
  const settle = async (at: string, above: readonly string[]): Promise<Outcome<null>> => {
    const head = await readJson(filesIn(at), 'pack.json', headSchema, new Faults(1));
    const faults = new Faults(200);
    const id = head?.value.id ?? '';
    for (const [index, leaned] of (head?.value.leansOn ?? []).entries()) {
      const path = ['leansOn', index];
      const place = {
        file: 'pack.json',
        row: head?.places.rowOf(path) ?? null,
        column: `leansOn.${index}`,
        character: head?.places.characterOf(path) ?? null,
      };
      const circle = [...above, id].indexOf(leaned);
      if (circle !== -1) {
        faults.add(place, `a circle: ${[...above.slice(circle), id, leaned].join(' → ')}`, 'an order without circles');
        continue;
      }
      if (holds(leaned) || settled.has(leaned)) continue;
      const there = (await folderBeside(at, leaned)) ?? (shipped === null ? null : await folderIn(shipped, leaned));
      if (there === null) {
        const elsewhere = shipped === null ? `of one beside this in ${dirname(resolve(at))}` : 'of one that comes with the program';
        faults.add(place, JSON.stringify(leaned), `the id of a pack the atlas holds, or ${elsewhere}`);
        continue;
      }
      const below = await settle(there, [...above, id]);
      if (!below.ok) return below;
    }
    if (faults.count > 0) return failed(faults.asTrouble(at));
    settled.add(id);
    folders.push(at);
    return done(null);
  };
  const whole = await settle(folder, []);
  return whole.ok ? done(folders) : whole;
};

/** The folder in the same parent folder that holds the pack of this id. */
const folderBeside = (folder: string, id: string): Promise<string | null> => folderIn(dirname(resolve(folder)), id);

const folderIn = async (parent: string, id: string): Promise<string | null> => {
  const entries = await readdir(parent, { withFileTypes: true }).catch(() => []);
  for (const { name } of entries.filter((entry) => !entry.isFile()).sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const head = await headIn(join(parent, name));
    if (head?.id === id) return join(parent, name);
  }
  return null;
};

/** What a pack says of itself, as far as it can be read without judging it. */
export interface HeadRead {
  readonly id: string;
  readonly edition: string;
  readonly title: string;
  readonly invented: boolean;
  readonly note: string;
  readonly leansOn: readonly string[];
  /** Whether it says that it was mapped onto the words of an atlas. */
  readonly mapped: boolean;
}

/** The head in a folder's `pack.json`; null where there is none. */
export const headIn = async (folder: string): Promise<HeadRead | null> => {
  const text = await readFile(join(folder, 'pack.json'), 'utf8').catch(() => null);
  return text === null ? null : headOf(text);
};

/** The text of a `pack.json`, as far as it can be read without judging it. */
export const headOf = (text: string): HeadRead => {
  const said = (head: Readonly<Record<string, unknown>>): HeadRead => {
    const { id = '', edition = '', title = id, invented, note = '', leansOn, mapped } = head;
    return {
      id: String(id),
      edition: String(edition),
      title: String(title),
      invented: invented === true,
      note: String(note),
      leansOn: Array.isArray(leansOn) ? leansOn.map(String) : [],
      mapped: Array.isArray(mapped),
    };
  };
  try {
    const head: unknown = isDeeper(text, limits.jsonDepth) ? null : JSON.parse(text);
    return said(typeof head === 'object' && head !== null ? (head as Record<string, unknown>) : {});
  } catch {
    // Loading it says what is wrong with it.
    return said({});
  }
};

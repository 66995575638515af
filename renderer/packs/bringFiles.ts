import type { Trouble } from '../../electron/bridge/contract.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { desk } from '../bridge/desk.ts';
import { handInParts } from '../bridge/handInParts.ts';

type Done<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly trouble: Trouble };

/** A pack that is at the desk, by its token. */
export interface HandedPack {
  readonly token: string;
  /** The folder or file it came as. */
  readonly name: string;
  /** Files that were not handed over, being none a pack has. */
  readonly leftAlone: readonly string[];
}

/** The files of a pack are known by their endings; what else lies in a folder stays there. */
const mayBelong = (path: string): boolean => /\.(json|csv)$/i.test(path);

/** Hands over a folder file by file, or a ZIP, a part at a time. */
export const handInPack = async (chosen: readonly File[], onPart: (share: number) => void): Promise<Done<HandedPack>> => {
  const all = chosen.map((file) => ({ file, path: file.webkitRelativePath === '' ? file.name : file.webkitRelativePath }));
  const [first] = all;
  if (first === undefined) return refused('no-file', 'There is no file in what was chosen.');
  const zip = all.length === 1 && /\.zip$/i.test(first.path);
  const files = zip ? all : all.filter(({ path }) => mayBelong(path));
  const name = zip ? first.path : (first.path.split('/')[0] ?? first.path);
  if (files.length === 0)
    return refused('no-pack', `There is no pack in ${name}: found no pack.json, expected a folder or a ZIP with one in it.`);
  const bytes = files.reduce((sum, { file }) => sum + file.size, 0);
  if (bytes > limits.packBytes)
    return refused(
      'pack-too-large',
      `${name} is ${Math.ceil(bytes / 1024 / 1024)} MiB; the most is ${limits.packBytes / 1024 / 1024} MiB.`,
    );
  let token: string | null = null;
  let done = 0;
  for (const { file, path } of files) {
    const handed = await handInParts(
      file,
      (held, data) => desk.ask('packs.handIn', { token: held, path, data }),
      token,
      (size) => {
        done += size;
        onPart(bytes === 0 ? 1 : done / bytes);
      },
    );
    if (!handed.ok) return handed;
    token = handed.value;
  }
  if (token === null) throw new Error('a pack without files');
  const handed = new Set(files.map(({ path }) => path));
  return { ok: true, value: { token, name, leftAlone: all.map(({ path }) => path).filter((path) => !handed.has(path)) } };
};

const refused = (code: string, sentence: string): Done<never> => ({ ok: false, trouble: { code, place: null, sentence } });

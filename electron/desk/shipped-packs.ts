import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import { headIn, type Outcome, type Store } from '../../db/index.ts';
import type { Beginning } from '../bridge/pack-calls.ts';
import { refusal, well } from '../bridge/reply.ts';

/** A pack that comes with the program, as far as its head can be read. */
export type Shipped = { readonly folder: string } & NonNullable<Awaited<ReturnType<typeof headIn>>>;

/** The folders with a readable `pack.json`, what others lean on before them; what is wrong inside one, loading it says. */
export const shippedIn = async (folder: string): Promise<readonly Shipped[]> => {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  const found: Shipped[] = [];
  for (const entry of entries.filter((one) => one.isDirectory())) {
    const head = await headIn(path.join(folder, entry.name));
    if (head !== null) found.push({ folder: path.join(folder, entry.name), ...head });
  }
  const inOrder = new Set<Shipped>();
  const put = (one: Shipped, above: readonly Shipped[]): void => {
    if (above.includes(one)) return;
    for (const id of one.leansOn) for (const below of found.filter((other) => other.id === id)) put(below, [...above, one]);
    inOrder.add(one);
  };
  for (const one of found) put(one, []);
  return [...inOrder];
};

/**
 * Puts the packs an atlas begins with into one that holds none: the words of the trade, which name no maker, or these and the invented world that leans on them. What leans on
 * another comes with it as one change. Gives their titles.
 * Troubles: `already-begun`, `no-packs`, and those of loading.
 */
export const beginAtlas = async (
  store: Store,
  folder: string,
  beginning: Beginning,
  tell: (line: string) => void = () => undefined,
): Promise<Outcome<readonly string[]>> => {
  const held = await store.packs.list();
  if (!held.ok) return held;
  if (held.value.length > 0)
    return refusal(
      'already-begun',
      store.file,
      `The atlas holds packs already: ${held.value.map(({ title }) => title).join(', ')}. It was left as it is.`,
    );
  const shipped = await shippedIn(folder);
  const wanted: Shipped[] = [];
  for (const one of shipped) if (beginning === 'invented' || (await namesNoMaker(one))) wanted.push(one);
  // What others lean on comes with them.
  const last = wanted.filter(({ id }) => !wanted.some(({ leansOn }) => leansOn.includes(id)));
  if (last.length === 0)
    return refusal('no-packs', folder, `The packs an atlas begins with are not where they should be: ${folder}. Nothing was changed.`);
  for (const one of last) {
    tell(`Filling the atlas from ${path.basename(one.folder)} …`);
    const loaded = await store.packs.load(one.folder, { filling: true });
    if (!loaded.ok) return loaded;
  }
  const now = await store.packs.list();
  return now.ok ? well(now.value.map(({ title }) => title)) : now;
};

const namesNoMaker = async ({ folder }: Shipped): Promise<boolean> => {
  const text = await readFile(path.join(folder, 'makers.json'), 'utf8').catch(() => '');
  return /^\s*\[\s*\]\s*$/.test(text);
};

import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { writePack } from '../packs/export.ts';
import { headIn } from '../packs/leaning.ts';
import { namesIn } from '../plain/files.ts';
import type { gatherPacks } from './gather-packs.ts';
import type { MendedPack } from './report.ts';

export interface PackFolder extends MendedPack {
  /** It comes with the program, and need not be kept as files. */
  readonly ships: boolean;
  /** Null where there is nothing to load. */
  readonly folder: string | null;
}

/** Each pack as a folder to load it from, what others lean on first: as it was recovered, or the one that comes with the program. */
export const packFolders = async (
  { packs, complete }: Awaited<ReturnType<typeof gatherPacks>>,
  folder: string,
  shipped: string,
): Promise<readonly PackFolder[]> => {
  const ships = new Map<string, { readonly folder: string; readonly edition: string }>();
  for (const name of (await namesIn(shipped)).sort()) {
    const head = await headIn(join(shipped, name));
    if (head !== null) ships.set(head.id, { folder: join(shipped, name), edition: head.edition });
  }
  const found: PackFolder[] = [];
  await mkdir(folder, { recursive: true, mode: 0o700 });
  for (const [index, { id, edition, pack, signature, from }] of packs.entries()) {
    const ship = ships.get(id);
    if (pack !== null) {
      const to = join(folder, `pack-${String(index + 1).padStart(2, '0')}`);
      await writePack(pack, to, signature);
      found.push({ id, edition, from, folder: to, ships: ship !== undefined });
    } else if (ship !== undefined) found.push({ id, edition: ship.edition, from: 'shipped', folder: ship.folder, ships: true });
    else found.push({ id, edition, from: null, folder: null, ships: false });
  }
  // An atlas without packs is of no use; one that had packs of its own keeps to them. None of those without a folder comes with the program.
  if (found.length === 0 || (!complete && found.every((one) => one.folder === null)))
    for (const [id, { folder: from, edition }] of ships) found.push({ id, edition, from: 'shipped', folder: from, ships: true });
  const inOrder: PackFolder[] = [];
  const put = async (one: PackFolder, above: readonly PackFolder[]): Promise<void> => {
    if (inOrder.includes(one) || above.includes(one)) return;
    for (const leaned of one.folder === null ? [] : ((await headIn(one.folder))?.leansOn ?? []))
      for (const below of found) if (below.id === leaned) await put(below, [...above, one]);
    inOrder.push(one);
  };
  for (const one of found) await put(one, []);
  return inOrder;
};

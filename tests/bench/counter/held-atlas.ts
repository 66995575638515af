import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir, rename, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { migrations } from '../../../db/migrations/index.ts';
import { atlasFile } from '../../../electron/desk/data-folder.ts';
import { type Atlas, fitsEdition } from '../../../reasoner/index.ts';
import { largerAtlas } from '../larger-atlas.ts';
import { storeWith } from '../store-with.ts';

/** Where atlases that were loaded once are kept for the next run. */
const shelf = process.env.KINPLATE_BENCH_ATLASES ?? path.join(tmpdir(), 'kinplate-bench-atlases');

/**
 * A data folder that holds an atlas so many times as large, loaded the first time it is asked for and taken as it stands afterwards: loading a hundredfold takes a minute or two. Its name
 * is of what it was made of. It appears whole or not at all.
 */
export const heldAtlas = async (atlas: Atlas, times: number): Promise<string> => {
  const larger = largerAtlas(atlas, times);
  const madeOf = createHash('sha256')
    .update(JSON.stringify([larger, fitsEdition, migrations.length]))
    .digest('hex');
  const folder = path.join(shelf, `${times}x-${madeOf.slice(0, 12)}`);
  if (existsSync(atlasFile(folder))) return folder;
  const beside = `${folder}.${process.pid}`;
  await rm(beside, { recursive: true, force: true });
  await mkdir(beside, { recursive: true });
  const pack = path.join(beside, 'pack');
  const store = await storeWith(larger, atlasFile(beside), pack);
  await store.close();
  await rm(pack, { recursive: true });
  await rename(beside, folder);
  return folder;
};

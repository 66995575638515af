import { fileURLToPath } from 'node:url';
import { emptyAtlas, type Pack } from '../../../db/atlas/pack.ts';
import { atlasOfPacks } from '../../../db/packs/atlas-of-packs.ts';
import { readPack } from '../../../db/packs/read.ts';
import type { Asked } from '../../../db/read/asked.ts';
import { type Atlas, compileAtlas, expandCode } from '../../../reasoner/index.ts';

const folderOf = (name: string): string => fileURLToPath(new URL(`../../../seed-data/${name}`, import.meta.url));
export const demoFolder = folderOf('demo-pack');
export const vocabularyFolder = folderOf('vocabulary');

const expandForPacks: NonNullable<Asked['expandCode']> = (nominal, code) => {
  const expanded = expandCode(nominal, code);
  return expanded.ok ? { lower: expanded.value.lower, upper: expanded.value.upper } : { error: expanded.sentence };
};

const read = async (folder: string, beside: Atlas): Promise<Pack> => {
  const outcome = await readPack(folder, { expandCode: expandForPacks, beside: async () => beside });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.trouble, null, 2));
  return outcome.value;
};

/** The committed packs, read as the store reads them: the vocabulary, and the demo world that leans on it. Throw with every fault when they cannot be. */
export const vocabularyPack = await read(vocabularyFolder, emptyAtlas);
export const demoWorld = await read(demoFolder, atlasOfPacks([vocabularyPack]));

/** Both together, as the atlas has them. */
export const demoAtlas: Atlas = atlasOfPacks([vocabularyPack, demoWorld]);
/** The same as one pack: the lists of both, under the head of the demo world. */
export const demoPack: Pack = {
  ...(demoAtlas as unknown as Pack),
  head: demoWorld.head,
  models: demoWorld.models,
  allowed: demoWorld.allowed,
  sheets: demoWorld.sheets,
};
export const demo = compileAtlas(demoAtlas);

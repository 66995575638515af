import { fileURLToPath } from 'node:url';
import type { Pack } from '../../../db/packs/pack.ts';
import { readPack } from '../../../db/packs/read.ts';
import { type Atlas, compileAtlas, expandCode } from '../../../reasoner/index.ts';

export const demoFolder = fileURLToPath(new URL('../../../seed-data/demo-pack', import.meta.url));

const expandForPacks = (nominal: number, code: string) => {
  const expanded = expandCode(nominal, code);
  return expanded.ok ? { lower: expanded.value.lower, upper: expanded.value.upper } : { error: expanded.sentence };
};

/** The committed demo pack, read as the store reads it. Throws with every fault when it cannot be. */
export const readDemoPack = async (): Promise<Pack> => {
  const read = await readPack(demoFolder, { expandCode: expandForPacks });
  if (!read.ok) throw new Error(JSON.stringify(read.trouble, null, 2));
  return read.value;
};

export const atlasOf = (pack: Pack): Atlas => ({
  edition: pack.head.edition,
  sources: pack.sources,
  stages: pack.stages,
  slots: pack.slots,
  ports: pack.ports,
  features: pack.features,
  joints: pack.joints,
  makers: pack.makers,
  families: pack.families,
  generations: pack.generations,
  models: pack.models.map((model) => ({
    ...model,
    allowed: pack.allowed.filter((each) => each.model === model.id).map(({ slot, part, role }) => ({ slot, part, role })),
  })),
  parts: pack.parts,
  metals: pack.metals,
  operations: pack.operations,
  chains: pack.chains,
  warmth: pack.warmth,
  rates: pack.rates,
  instruments: pack.instruments,
  drawings: pack.drawings,
});

export const demoPack = await readDemoPack();
export const demoAtlas = atlasOf(demoPack);
export const demo = compileAtlas(demoAtlas);

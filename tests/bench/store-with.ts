import { everyList } from '../../db/atlas/lists.ts';
import type { Pack, Store } from '../../db/index.ts';
import { writePack } from '../../db/packs/export.ts';
import { openAtlas } from '../../electron/desk/open-house.ts';
import type { Atlas } from '../../reasoner/index.ts';
import { answered } from './demo-desk.ts';

/** The atlas in a file, loaded as one pack: with its fits, as every change of an atlas keeps them. */
export const storeWith = async (atlas: Atlas, file: string, folder: string): Promise<Store> => {
  const head = {
    format: 'kinplate atlas pack',
    version: 1,
    id: 'larger',
    title: 'Larger',
    edition: '2026-01-01',
    invented: true,
    note: 'Copies of an invented world.',
  } as const;
  const entries = Object.fromEntries(everyList.map(({ name }) => [name, atlas[name as keyof Atlas] ?? []]));
  // Copies of a model have its name, which a pack may give but once; their makers' grammars could not read another.
  const models = atlas.models.map(({ allowed: _allowed, ...model }, n) => ({ ...model, name: `${model.name} no. ${n}` }));
  const makers = atlas.makers.map((maker) => ({ ...maker, grammar: null }));
  const allowed = atlas.models.flatMap(({ id, allowed: parts }) => parts.map((part) => ({ model: id, ...part })));
  await writePack({ ...entries, makers, models, head, parts: atlas.parts, allowed, sheets: [] } as unknown as Pack, folder);
  const store = answered(await openAtlas(file));
  answered(await store.packs.load(folder));
  return store;
};

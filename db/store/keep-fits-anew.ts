import type { Guard, Reader } from '../driver/driver.ts';
import { type Outcome, trouble } from '../trouble.ts';
import type { Door } from './door.ts';
import { type FitEngine, fitStatements, fitsAreKept, type KeptFits, readHeldFits } from './keep-fits.ts';
import { readAtlas } from './read-atlas.ts';

/** Keeps the fits of the atlas as it is, where a change of it did not: an atlas from before they were kept, or changed without the engine. */
export const keepFits = ({ write }: Pick<Door, 'write'>, engine: FitEngine): Promise<Outcome<KeptFits>> =>
  write(async (reader) => {
    if (await fitsAreKept(reader, engine)) return { batch: null, value: { judged: 0, kept: 0 } };
    const value = { judged: 0, kept: 0 };
    const statements = fitStatements(await readHeldFits(reader), await readAtlas(reader), engine, (kept) => Object.assign(value, kept));
    return { batch: { guards: await asRead(reader), statements }, value };
  });

/** That neither the atlas nor its fits have changed since they were read. */
const asRead = async (reader: Reader): Promise<Guard[]> => {
  const state = `select json_array((select json_group_array(json_array(id, hash, loaded_at)) from (select * from packs order by id)),
    (select max(n) from journal), (select max(n) from matings), (select value from meta where key = 'fits'))`;
  const [found] = await reader.all<{ state: string }>(`select (${state}) as state`);
  const refusal = trouble('atlas-changed', null, 'The atlas changed while its fits were judged. Ask again.');
  return [{ sql: `select (${state}) = ?`, params: [found?.state], refusal }];
};

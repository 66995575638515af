import type { Door } from '../driver/door.ts';
import { type Outcome, trouble } from '../trouble.ts';
import { atlasStands } from './atlas-guard.ts';
import { type FitEngine, fitStatements, fitsAreKept, type KeptFits, readHeldFits } from './keep-fits.ts';
import { readAtlas } from './read-atlas.ts';

/** Keeps the fits of the atlas as it is, where a change of it did not: an atlas from before they were kept, or changed without the engine. */
export const keepFits = ({ write }: Pick<Door, 'write'>, engine: FitEngine): Promise<Outcome<KeptFits>> =>
  write(async (reader) => {
    const value = { judged: 0, kept: 0 };
    if (await fitsAreKept(reader, engine)) return { batch: null, value };
    const refusal = trouble('atlas-changed', null, 'The atlas changed while its fits were judged. Ask again.');
    const held = await readHeldFits(reader);
    const last = held.classes.reduce((most, { n }) => Math.max(most, n), 0);
    const [mark] = await reader.all<{ value: string }>(`select value from meta where key = 'fits'`);
    const guards = [
      await atlasStands(reader, refusal),
      {
        sql: `select (select coalesce(max(n), 0) from matings) = ? and (select value from meta where key = 'fits') is ?`,
        params: [last, mark?.value ?? null],
        refusal,
      },
    ];
    return {
      batch: { guards, statements: fitStatements(held, await readAtlas(reader), engine, (kept) => Object.assign(value, kept)) },
      value,
    };
  });

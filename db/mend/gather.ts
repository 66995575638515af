import type { SalvagedRow } from '../salvage/salvage.ts';
import { gatherBeside, type StrayRow } from './gather-beside.ts';
import { gatherCases, gatherNumbers } from './gather-cases.ts';
import { gatherOthers } from './gather-others.ts';
import { gatherPhotos } from './gather-photos.ts';
import { gatherSheets } from './gather-sheets.ts';
import { newGathering, type Sources, text } from './gathering.ts';
import type { Lost, Recovered } from './report.ts';
import { shopTables } from './shop-tables.ts';
import type { KeptPhoto } from './source.ts';

/** What goes into the new atlas, with what is said of it. */
export interface Gathered {
  readonly sheets: ReadonlyMap<string, SalvagedRow>;
  /** Rows of every other table but photographs and sheets, by table. */
  readonly rows: ReadonlyMap<string, readonly SalvagedRow[]>;
  /** Photographs that cases show. */
  readonly photos: ReadonlyMap<string, KeptPhoto>;
  /** Cases whose number could not be read anywhere. */
  readonly numberless: readonly string[];
  /** Photographs of which nothing says whose they are, or that were of a sheet of which no state could be read. */
  readonly strayPhotos: readonly KeptPhoto[];
  /** Rows of sheets of which no state could be read. */
  readonly strayRows: readonly StrayRow[];
  readonly from: readonly Recovered[];
  readonly lost: readonly Lost[];
  readonly incomplete: readonly string[];
}

/** What is taken of every source: all the damaged file holds, and of the others what it does not say is gone. */
export const gather = (sources: Sources): Gathered => {
  const gathering = newGathering(sources);
  const { damaged, complete, from, lost } = gathering;
  const sheets = gatherSheets(gathering);
  const cases = gatherCases(gathering, sheets);
  const strayRows = gatherBeside(gathering, sheets, cases);
  const photos = gatherPhotos(gathering);
  gatherNumbers(gathering);
  gatherOthers(gathering);
  const strayed = new Set(strayRows.map(({ row }) => row.photo));
  const shown = (gathering.rows.get('case_photos') ?? []).filter(({ photo }) => photos.has(text(photo)));
  return {
    sheets: sheets.sheets,
    rows: new Map(gathering.rows).set('case_photos', shown),
    photos,
    numberless: cases.numberless,
    strayPhotos: [...damaged.photos.values()].filter(({ id }) => !photos.has(id) && (!complete('case_photos') || strayed.has(id))),
    strayRows,
    from,
    lost,
    incomplete: shopTables.filter(({ name }) => !complete(name)).map(({ name }) => name),
  };
};

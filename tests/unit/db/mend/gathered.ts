import type { Gathered } from '../../../../db/mend/gather.ts';
import type { KeptPhoto } from '../../../../db/mend/source.ts';
import type { SalvagedRow } from '../../../../db/salvage/salvage.ts';

/** What was gathered of a file that held only this. */
export const gathered = (some: Partial<Gathered> = {}): Gathered => ({
  sheets: new Map(),
  rows: new Map(),
  photos: new Map(),
  numberless: [],
  strayPhotos: [],
  strayRows: [],
  from: [],
  lost: [],
  incomplete: [],
  ...some,
});

/** A photograph that is read as this row; null stands for one that changed while it was read. */
export const keptPhoto = (id: string, row: SalvagedRow | null): KeptPhoto => ({ id, small: false, read: () => row });

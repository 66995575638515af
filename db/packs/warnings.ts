import { type Place, placeText } from '../read/faults.ts';
import type { Trouble } from '../trouble.ts';

/** Something a sound pack should know of itself: it is no fault, and what it means is said. */
export interface Warning extends Trouble {
  readonly file: string;
  readonly row: number | null;
  readonly column: string | null;
  readonly found: string;
  /** What follows from it, as a whole sentence. */
  readonly means: string;
}

export const warning = (place: Place, found: string, means: string): Warning => {
  const at = placeText(place);
  return {
    code: 'pack-warning',
    place: at,
    sentence: `${at}: ${found}. ${means}`,
    file: place.file,
    row: place.row ?? null,
    column: place.column ?? null,
    found,
    means,
  };
};

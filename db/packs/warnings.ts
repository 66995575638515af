import { visible } from '../plain/visible.ts';
import { type Place, placeText } from '../read/faults.ts';
import type { Trouble } from '../trouble.ts';

/** Something a sound pack should know of itself: it is no fault, and what it means is said. */
export interface Warning extends Trouble {
  readonly file: string;
  readonly row: number | null;
  readonly column: string | null;
  /** Of JSON; of a CSV it is looked up when a check tells it. */
  readonly character: number | null;
  readonly found: string;
  /** What follows from it, as a whole sentence. */
  readonly means: string;
  /** What may have been meant, as a whole sentence. */
  readonly likely: string | null;
  /** What is the same of all warnings with one cause, which are told once, and what of it this one is of; null where there is no other like it. */
  readonly alike: { readonly cause: string; readonly name: string } | null;
}

export const warning = (
  place: Place,
  found: string,
  means: string,
  { likely = null, alike = null }: { readonly likely?: string | null; readonly alike?: Warning['alike'] } = {},
): Warning => {
  const at = placeText(place);
  return {
    code: 'pack-warning',
    place: at,
    sentence: visible(`${at}: ${found}. ${means}${likely === null ? '' : ` ${likely}`}`),
    file: place.file,
    row: place.row ?? null,
    column: place.column ?? null,
    character: place.character ?? null,
    found: visible(found),
    means: visible(means),
    likely: likely === null ? null : visible(likely),
    alike,
  };
};

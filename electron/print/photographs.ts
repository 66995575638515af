import { limits } from '../../reasoner/plain/limits.ts';
import { pixelsTakenApart } from './picture-cost.ts';

/** A photograph's own bytes, as they are kept. */
export interface PhotoFile {
  readonly type: 'image/jpeg' | 'image/png' | 'image/webp';
  readonly data: Uint8Array;
}

/** The bytes of a photograph, or of its small picture; null where they are not there any more. */
export type PhotoOf = (hash: string, which: 'whole' | 'thumbnail') => Promise<PhotoFile | null>;

/** What is printed of a photograph. */
export interface Printed {
  /** Null where it is not there any more. */
  readonly file: PhotoFile | null;
  /** Why the small picture stands in its place; null where it does not. */
  readonly small: string | null;
}

/**
 * The photographs as they are printed, by their hash, in the order they come in the report: whole as long as what must be taken apart, and what they weigh, stays within the
 * limits; else their small pictures, each with the reason to be printed beside it.
 */
export const printedOf = async (hashes: readonly string[], photo: PhotoOf): Promise<ReadonlyMap<string, Printed>> => {
  const printed = new Map<string, Printed>();
  let [pixels, bytes] = [0, 0];
  for (const hash of hashes) {
    if (printed.has(hash)) continue;
    const file = await photo(hash, 'whole');
    const cost = file === null ? 0 : pixelsTakenApart(file.data);
    const size = file?.data.length ?? 0;
    const small =
      pixels + cost > limits.printedPixels
        ? 'Printed from its small picture: taken apart for the paper it would be too many pixels.'
        : bytes + size > limits.printedBytes
          ? `Printed from its small picture: with the others it would be more than ${limits.printedBytes / 1_048_576} MiB.`
          : null;
    if (small === null) [pixels, bytes] = [pixels + cost, bytes + size];
    printed.set(hash, { file: small === null ? file : await photo(hash, 'thumbnail'), small });
  }
  return printed;
};

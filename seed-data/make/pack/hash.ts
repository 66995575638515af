/**
 * A tiny fixed hash of a text (FNV-1a, 32 bit: Fowler, Noll and Vo), so that sizes and numbers vary from part to
 * part and yet come out the same on every run. Not for anything that needs a real hash.
 */
const fnv1a = (text: string): number => {
  let hash = 0x811c9dc5;
  for (const sign of text) {
    hash ^= sign.codePointAt(0) ?? 0;
    hash = Math.imul(hash, 0x01000193) >>> 0;
  }
  return hash >>> 0;
};

/** A whole number from 0 to `below` − 1 that belongs to the text. */
export const numberFor = (text: string, below: number): number => fnv1a(text) % below;

/** One of the list, always the same for the same text. */
export const pickFor = <T>(text: string, list: readonly [T, ...T[]]): T => list[numberFor(text, list.length)] ?? list[0];

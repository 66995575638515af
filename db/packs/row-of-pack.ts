import type { PackHead } from '../atlas/pack.ts';
import type { Version } from '../driver/version.ts';
import type * as t from '../schema.ts';

export type PackRow = typeof t.packs.$inferInsert;

/**
 * The row of a pack.
 * @param head what it says of itself, with the hash of its canonical text
 * @param content of what is reasoned over of it: what it says itself, or that with the shop's words over it
 */
export const rowOfPack = (
  { head: said, hash }: { readonly head: PackHead; readonly hash: Version },
  content: Version,
  rest: Pick<PackRow, 'signer' | 'signature' | 'loadedAt' | 'own'>,
): PackRow => {
  const { format: _format, version: _version, leansOn = null, mapped = null, licence = null, by = null, ...head } = said;
  return { ...head, licence, by, leansOn, mapped, ...rest, hash, content };
};

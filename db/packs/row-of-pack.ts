import type { Pack } from '../atlas/pack.ts';
import type { Version } from '../driver/version.ts';
import type * as t from '../schema.ts';
import { canonicalText, contentOfPack } from './canonical.ts';

export type PackRow = typeof t.packs.$inferInsert;

/**
 * The row of a pack.
 * @param said what it says itself, with its canonical text and the hash of that
 * @param pack what is reasoned over of it: the same, or with the shop's words over it
 */
export const rowOfPack = (
  { said, texts, hash }: { readonly said: Pack; readonly texts: ReadonlyMap<string, string>; readonly hash: Version },
  pack: Pack,
  rest: Pick<PackRow, 'signer' | 'signature' | 'loadedAt' | 'own'>,
): PackRow => {
  const { format: _format, version: _version, leansOn = null, mapped = null, licence = null, by = null, ...head } = said.head;
  return { ...head, licence, by, leansOn, mapped, ...rest, hash, content: contentOfPack(pack === said ? texts : canonicalText(pack)) };
};

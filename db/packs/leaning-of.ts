import type { Pack } from '../atlas/pack.ts';
import { namesIn, referencesOf } from './references.ts';

/**
 * The packs that the shop's own cannot be without: those it names already where it still needs them, and of what several share, the one without makers, which is the words of
 * the trade.
 */
export const leaningOf = (own: Pack, others: readonly Pack[]): readonly string[] => {
  const wanted = new Set(referencesOf(own));
  const before = new Set(own.head.leansOn ?? []);
  const order = [...others].sort(
    (a, b) =>
      Number(before.has(b.head.id)) - Number(before.has(a.head.id)) ||
      Number(a.makers.length > 0) - Number(b.makers.length > 0) ||
      (a.head.id < b.head.id ? -1 : 1),
  );
  const leaning: string[] = [];
  for (const pack of order) {
    const many = wanted.size;
    for (const name of namesIn(pack)) wanted.delete(name);
    if (wanted.size < many) leaning.push(pack.head.id);
  }
  return leaning.sort();
};

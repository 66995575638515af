import type { Part } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../atlas/compile.ts';
import { bare, sameMark } from '../unit/agree.ts';
import type { Becomes, Find } from './listing.ts';
import type { Word } from './words.ts';

/** No part number of an atlas is taken apart into more words than this. */
const mostWords = 6;

/** Part numbers the atlas knows, however they are spaced. Where the part bears its number as a mark, the number is that mark. */
export const findNumbers = (atlas: CompiledAtlas, text: string, words: readonly Word[]): Find[] => {
  const known = partsByNumber(atlas);
  const finds: Find[] = [];
  for (let at = 0; at < words.length; at += 1) {
    for (let count = Math.min(mostWords, words.length - at); count > 0; count -= 1) {
      const [from, to] = [(words[at] as Word).from, (words[at + count - 1] as Word).to];
      const number = text.slice(from, to);
      const parts = known.get(bare(number));
      if (parts === undefined || !standsAlone(text, from, to)) continue;
      const marks = marksOf(atlas, number, parts);
      const named: Becomes = { kind: 'part number', number, parts: parts.map(({ id, name }) => ({ id, name })) };
      const [first = named, ...more] = marks.length === 0 ? [] : [...marks, named];
      finds.push({ from, to, text: number, becomes: [first, ...more], settled: marks.length < 2 });
      at += count - 1;
      break;
    }
  }
  return finds;
};

const standsAlone = (text: string, from: number, to: number): boolean =>
  !/[\p{L}\p{N}]$/u.test(text.slice(0, from)) && !/^[\p{L}\p{N}]/u.test(text.slice(to));

const marksOf = (atlas: CompiledAtlas, number: string, parts: readonly Part[]): Becomes[] => {
  const found = new Map<string, Becomes>();
  for (const { slot, facts } of parts) {
    for (const [id, fact] of Object.entries(facts)) {
      const feature = atlas.features.get(id as Parameters<typeof atlas.features.get>[0]);
      if (feature === undefined || fact.kind !== 'mark' || !fact.anyOf.some((letters) => sameMark(letters, number))) continue;
      found.set(id, { kind: 'told', slot, feature: feature.id, value: { kind: 'mark', text: number } });
    }
  }
  return [...found.values()];
};

const kept = new WeakMap<CompiledAtlas, ReadonlyMap<string, readonly Part[]>>();

/** Parts by their numbers without case, spaces and signs. Numbers too short to be told from a size are left out. */
export const partsByNumber = (atlas: CompiledAtlas): ReadonlyMap<string, readonly Part[]> => {
  const made = kept.get(atlas);
  if (made !== undefined) return made;
  const parts = new Map<string, Part[]>();
  for (const part of atlas.atlas.parts) {
    for (const number of new Set(part.numbers.map(bare))) {
      if (number.length < 4 || number.replace(/\D/g, '').length < 3) continue;
      const others = parts.get(number);
      if (others === undefined) parts.set(number, [part]);
      else others.push(part);
    }
  }
  kept.set(atlas, parts);
  return parts;
};

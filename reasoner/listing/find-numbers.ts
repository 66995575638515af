import type { Part } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { bare, sameMark } from '../plain/letters.ts';
import { partsNumbered } from '../plate/part-index.ts';
import type { Becomes, Find } from './listing.ts';
import type { Word } from './words.ts';

/** No part number of an atlas is taken apart into more words than this. */
const mostWords = 6;

/** Part numbers the atlas knows, however they are spaced. Where the part bears its number as a mark, the number is that mark. */
export const findNumbers = (atlas: CompiledAtlas, text: string, words: readonly Word[]): Find[] => {
  const finds: Find[] = [];
  for (let at = 0; at < words.length; at += 1) {
    for (let count = Math.min(mostWords, words.length - at); count > 0; count -= 1) {
      const [from, to] = [(words[at] as Word).from, (words[at + count - 1] as Word).to];
      const number = text.slice(from, to);
      const parts = isLongEnough(number) ? partsNumbered(atlas, number) : [];
      if (parts.length === 0 || !standsAlone(text, from, to)) continue;
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

/** A number too short could as well be a size or a count. */
const isLongEnough = (number: string): boolean => {
  const signs = bare(number);
  return signs.length >= 4 && signs.replace(/\D/g, '').length >= 3;
};

/** A sign beside it may take two places of the text. */
const standsAlone = (text: string, from: number, to: number): boolean =>
  !/[\p{L}\p{N}]$/u.test(text.slice(Math.max(0, from - 2), from)) && !/^[\p{L}\p{N}]/u.test(text.slice(to, to + 2));

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

import type { CompiledAtlas } from '../compile/compiled.ts';
import { bare } from '../plain/letters.ts';
import { readNumber } from '../plate/read-number.ts';
import type { Becomes, Find } from './listing.ts';
import type { Word } from './words.ts';

/** What stands before a serial number: `S/N`, `s.n.`, `SN:`, `serial`, `serial no.`, `serial number is`, `ser. nr`. */
const lead =
  /(?<![\p{L}\p{N}])(?:s\s?\/\s?n|s\.\s?n\.?|sn(?=[\s.:#])|ser(?:ial)?\.?(?:\s*(?:numbers?|num|no|nr|n°|№)\b\.?)?)\s*(?:[:#=.]|is\b)?\s*/giu;
/** One run of letters, figures and the signs that join them, with a figure in it: `K-123/4`. */
const run = /^[\p{L}\p{N}]+(?:[-./][\p{L}\p{N}]+)*/u;
/** Letters that stand apart before the figures they belong to: `BD 123456-7`. */
const apart = /^[\p{Lu}]{1,3}\s+(?=\d)/u;
/** No maker's pattern is taken apart into more words than this. */
const mostWords = 6;
/** Fewer signs are no serial number: `serial 1` counts something. */
const fewest = 3;

/**
 * Serial numbers, where the offer says that it is one: as long as a maker of the atlas makes them, else one run of letters and figures, with capitals that
 * stand apart before it. The sheet's own number, or what is stamped on the plate: which, the reader says. Without a figure it is none: `serial number unreadable`.
 */
export const findSerials = (atlas: CompiledAtlas, text: string, words: readonly Word[]): Find[] =>
  [...text.matchAll(lead)].flatMap((found): Find[] => {
    const from = found.index + found[0].length;
    const to = from + lengthOf(atlas, text.slice(from), words.filter((word) => word.from >= from).slice(0, mostWords), from);
    const number = text.slice(from, to);
    if (bare(number).length < fewest || !/\d/.test(number)) return [];
    const stamped = atlas.data.features.flatMap(({ id, slot, says, kind }): Becomes[] =>
      says === 'serial number' && kind === 'mark' ? [{ kind: 'told', slot, feature: id, value: { kind: 'mark', text: number } }] : [],
    );
    return [{ from: found.index, to, text: text.slice(found.index, to), becomes: [{ kind: 'serial', number }, ...stamped], settled: true }];
  });

/** How far a serial number reaches from the beginning of a text, in UTF-16 units. */
const lengthOf = (atlas: CompiledAtlas, rest: string, words: readonly Word[], from: number): number => {
  if (words[0]?.from !== from) return 0;
  const patterns = atlas.data.makers.flatMap(({ numbering = [] }) => numbering.filter(({ says }) => says === 'serial number'));
  for (const { to } of [...words].reverse()) {
    const piece = rest.slice(0, to - from);
    if (/[\n\r,;]/.test(piece) || /^[\p{L}\p{N}]/u.test(rest.slice(to - from))) continue;
    if (patterns.some((pattern) => readNumber(pattern, piece).length > 0)) return piece.length;
  }
  const before = apart.exec(rest)?.[0].length ?? 0;
  const piece = run.exec(rest.slice(before))?.[0] ?? '';
  return piece === '' ? 0 : before + piece.length;
};

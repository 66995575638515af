import type { CompiledAtlas } from '../compile/compiled.ts';
import { findCounts } from './find-counts.ts';
import { findLooks, findMarks } from './find-looks.ts';
import { findMeasures } from './find-measures.ts';
import { findNames } from './find-names.ts';
import { findNumbers } from './find-numbers.ts';
import { findSerials } from './find-serials.ts';
import type { Find, Listing } from './listing.ts';
import { spokenIn } from './spoken.ts';
import { Taken } from './taken.ts';
import { termsOf } from './terms.ts';
import { wordsOf } from './words.ts';

/**
 * Picks out of the text of an offer what it claims: names, makers, part numbers the atlas knows, its serial number, letters in quotes, counts, measures
 * (mm and inch; kept in mm), looks. Each with its place and what it could become: a claimed name, or an observation that is only told.
 * Nothing of it is evidence (O1), and nothing is read into the text that its words do not say.
 */
export const readListing = (atlas: CompiledAtlas, text: string): Listing => {
  const words = wordsOf(text);
  const terms = termsOf(atlas);
  const round = spokenIn(terms, words);
  const names = findNames(atlas, text, words);
  const taken = new Taken(text.length);
  const found: Find[] = [];
  // What is surest takes its place in the text first.
  for (const finds of [
    findSerials(atlas, text, words),
    findNumbers(atlas, text, words),
    names.filter(({ becomes }) => becomes[0].kind === 'claim'),
    findMarks(atlas, terms, text, words, round),
    findMeasures(atlas, terms, text, words, round),
    findCounts(atlas, terms, text, words, round),
    findLooks(terms, text, words, round),
    names.filter(({ becomes }) => becomes[0].kind === 'maker'),
  ]) {
    for (const find of [...finds].sort((a, b) => b.to - b.from - (a.to - a.from))) {
      if (taken.take(find)) found.push(find);
    }
  }
  return { finds: found.sort((a, b) => a.from - b.from) };
};

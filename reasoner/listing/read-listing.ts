import type { CompiledAtlas } from '../compile/compiled.ts';
import { findCounts } from './find-counts.ts';
import { findLooks, findMarks } from './find-looks.ts';
import { findMeasures } from './find-measures.ts';
import { findNames } from './find-names.ts';
import { findNumbers } from './find-numbers.ts';
import type { Find, Listing } from './listing.ts';
import { termsOf } from './terms.ts';
import { wordsOf } from './words.ts';

/**
 * Picks out of the text of an offer what it claims: names, makers, part numbers the atlas knows, letters in quotes, counts, measures
 * (mm and inch; kept in mm), looks. Each with its place and what it could become: a claimed name, or an observation that is only told.
 * Nothing of it is evidence (O1), and nothing is read into the text that its words do not say.
 */
export const readListing = (atlas: CompiledAtlas, text: string): Listing => {
  const words = wordsOf(text);
  const terms = termsOf(atlas);
  const taken: Find[] = [];
  // What is surest takes its place in the text first.
  for (const finds of [
    findNumbers(atlas, text, words),
    findNames(atlas, text, words).filter(({ becomes }) => becomes[0].kind === 'claim'),
    findMarks(atlas, terms, text, words),
    findMeasures(atlas, terms, text, words),
    findCounts(atlas, terms, text, words),
    findLooks(terms, text, words),
    findNames(atlas, text, words).filter(({ becomes }) => becomes[0].kind === 'maker'),
  ]) {
    for (const find of [...finds].sort((a, b) => b.to - b.from - (a.to - a.from))) {
      if (taken.every(({ from, to }) => find.to <= from || to <= find.from)) taken.push(find);
    }
  }
  return { finds: taken.sort((a, b) => a.from - b.from) };
};

import { describe, expect, test } from 'vitest';
import { isWithinName, type Option, type Typed, typedAt } from '../../../renderer/sheet/typeAhead.ts';
import { features } from './vocabulary-files.ts';

const named = (...texts: readonly string[]): readonly Option[] => texts.map((text) => ({ value: text, text }));
/** Signs typed one after another, `apart` ms from each to the next: what is picked after them, and what found nothing. */
const type = (options: readonly Option[], picked: string | null, signs: string, apart = 90) => {
  let now = { picked, typed: null as Typed | null, unknown: null as string | null };
  [...signs].forEach((sign, i) => {
    if (sign === ' ' && !isWithinName(options, now.typed, i * apart)) return;
    now = typedAt(options, now.picked, now.typed, sign, i * apart);
  });
  return [now.picked, now.unknown];
};

const there = named('there', 'not there');
const sizes = named('M6', 'M8', 'M10', '1/4 in');
const entry = named('single entry', 'twin entry', 'twin entry, offset');

describe('[A1] signs typed at a choice', () => {
  test('[A1] a letter picks what begins so, in either case', () => {
    expect(type(there, null, 'n')).toEqual(['not there', null]);
    expect(type(there, 'not there', 'T')).toEqual(['there', null]);
  });

  test('[A1] letters typed on pick what begins with all of them; after a pause they begin anew', () => {
    expect(type(named('steel', 'stamped', 'sand cast'), null, 'sta')).toEqual(['stamped', null]);
    expect(type(named('rounded triangle', 'round'), null, 'roun')).toEqual(['rounded triangle', null]);
    expect(type(named('rounded triangle', 'round'), null, 'round')).toEqual(['round', null]);
    expect(type(named('steel', 'titanium'), null, 'st')).toEqual(['steel', null]);
    expect(type(named('steel', 'titanium'), null, 'st', 1000)).toEqual(['titanium', null]);
    expect(type(named('steel', 'titanium'), null, 'st', 999)).toEqual(['steel', null]);
  });

  test('[A1] the same letter again goes on to the next, and round', () => {
    expect(type(entry, null, 't')).toEqual(['twin entry', null]);
    expect(type(entry, null, 'tt')).toEqual(['twin entry, offset', null]);
    expect(type(entry, null, 'ttt')).toEqual(['twin entry', null]);
    expect(type(entry, 'twin entry', 't')).toEqual(['twin entry, offset', null]);
  });

  test('[A1] a figure picks what begins with it, else what has such a figure in it', () => {
    expect(type(sizes, null, '1')).toEqual(['1/4 in', null]);
    expect(type(sizes, null, '8')).toEqual(['M8', null]);
    expect(type(sizes, null, '10')).toEqual(['M10', null]);
  });

  test('[A1] what finds nothing is told, and nothing stays picked by half a word', () => {
    expect(type(there, null, '7')).toEqual([null, '7']);
    expect(type(there, 'there', '7')).toEqual(['there', '7']);
    expect(type(entry, null, 'tx')).toEqual([null, 'tx']);
    expect(type(entry, 'single entry', 'tx')).toEqual(['single entry', 'tx']);
    // The next sign begins a word of its own.
    expect(type(entry, null, 'txs')).toEqual(['single entry', null]);
  });

  test('[A1] every option of every choice in the vocabulary of the trade is found by its first word', () => {
    for (const { name, options = [] } of features) {
      const all = options.map((one) => ({ value: one.name, text: one.name }));
      for (const { text } of all) {
        const word = text.split(' ')[0] as string;
        const [picked, unknown] = type(all, null, word);
        expect([unknown, picked?.startsWith(word)], `${name}: ${text}`).toEqual([null, true]);
        expect(type(all, null, text), `${name}, typed whole`).toEqual([text, null]);
      }
    }
  });

  test('[A1] a space within a name is of that name; any other is the key that picks', () => {
    const kinds = named('journal set', 'ball-bearing cartridge');
    const typed = (text: string): Typed => ({ text, before: null, at: 0 });
    expect(isWithinName(kinds, typed('journal'), 999)).toBe(true);
    expect(isWithinName(kinds, typed('journal'), 1000)).toBe(false);
    expect([null, typed('jour'), typed('set')].map((each) => isWithinName(kinds, each, 90))).toEqual([false, false, false]);
    expect(type(kinds, null, 'journal set')).toEqual(['journal set', null]);
  });
});

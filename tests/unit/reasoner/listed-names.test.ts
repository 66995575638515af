import { expect, test } from 'vitest';
import { asId, faultOfListedName, type Grammar, type Maker } from '../../../reasoner/index.ts';

/** A maker whose names are a colour, a size in Roman numerals and, where the colour asks for it, a letter. */
const grammar: Grammar = {
  tokens: [
    { id: asId('colour'), name: 'colour', before: '', optional: false, reads: { kind: 'word', words: ['Ochre', 'Umber'] }, promises: [] },
    { id: asId('size'), name: 'size', before: ' ', optional: false, reads: { kind: 'roman numeral', from: 1, to: 9 }, promises: [] },
    { id: asId('turn'), name: 'turn', before: '-', optional: true, reads: { kind: 'letters', length: 1 }, promises: [] },
  ],
  demands: [
    {
      when: { token: asId('colour'), is: ['Umber'] },
      // biome-ignore lint/suspicious/noThenProperty: the word of the grammar; the value is an object, never a function.
      then: { token: asId('turn'), present: true },
      because: 'every Umber says which way it turns',
    },
  ],
};
const maker = { id: asId('dyer'), name: 'Dyer', tradeNames: [], plateRule: false, grammar, source: asId('s') } as Maker;

test.each(['Ochre IV', 'Ochre IV-Q', 'Umber IX-Q'])('[A4] %s is read, and would be written just so', (name) => {
  expect(faultOfListedName(maker, name)).toBeNull();
});

test.each([
  ['Sienna IV', /“Sienna IV” stands where a colour \(Ochre, Umber\) should/],
  ['Ochre', /breaks off where a size/],
  ['Ochre X', /“X” stands where a size/],
  ['Ochre IV-Q-Q', /stands where/],
  ['Umber IV', /every Umber says which way it turns/],
])('[A4] %s is no name the grammar can read, and it is said where it stops', (name, why) => {
  const fault = faultOfListedName(maker, name);
  expect(fault?.found).toBe(`the name ${JSON.stringify(name)}`);
  expect(fault?.expected).toMatch(/^a name the grammar of Dyer can read: /);
  expect(fault?.expected).toMatch(why);
});

test.each([
  ['ochre IV', 'Ochre IV'],
  ['Ochre  IV', 'Ochre IV'],
  ['Ochre IV‑Q', 'Ochre IV-Q'],
  ['Dyer Ochre IV', 'Ochre IV'],
])('[A4] %s is read, but the grammar writes it otherwise', (name, written) => {
  expect(faultOfListedName(maker, name)?.expected).toBe(`"${written}", which is how the grammar of Dyer writes it`);
});

test('[A4] words and signs a grammar is made of stand for themselves, whatever they are', () => {
  for (const word of ['Burnt-Umber', 'C++', 'A/B', 'a.b', '[x]', '(y)', '\\d', '^$', '{2}', '|']) {
    const odd: Grammar = {
      tokens: [
        { id: asId('colour'), name: 'colour', before: '', optional: false, reads: { kind: 'word', words: [word] }, promises: [] },
        {
          id: asId('turn'),
          name: 'turn',
          before: ` ${word} `,
          optional: false,
          reads: { kind: 'sign', sign: word, from: 1, to: 3 },
          promises: [],
        },
      ],
      demands: [],
    };
    expect(faultOfListedName({ ...maker, grammar: odd }, `${word} ${word} ${word}${word}`), word).toBeNull();
    expect(faultOfListedName({ ...maker, grammar: odd }, 'ab 2 d'), word).not.toBeNull();
  }
});

test('[A4] without a grammar every listed name is a name', () => {
  expect(faultOfListedName({ ...maker, grammar: null }, 'anything')).toBeNull();
});

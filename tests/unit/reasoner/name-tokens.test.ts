import { describe, expect, test } from 'vitest';
import { readBy, withoutTradeName } from '../../../reasoner/grammar/read-name.ts';
import { asId, type Grammar, type GrammarToken, type Maker } from '../../../reasoner/index.ts';

const token = (name: string, reads: GrammarToken['reads'], before = '', optional = false): GrammarToken => ({
  id: asId(name),
  name,
  before,
  optional,
  reads,
  promises: [],
});
const dyer = {
  id: asId('dyer'),
  name: 'Dyer',
  tradeNames: [{ name: 'Dyer & Fuller', from: 1950, to: 1960 }],
  plateRule: false,
} as unknown as Maker;
const read = (tokens: readonly GrammarToken[], text: string, demands: Grammar['demands'] = []) => readBy(dyer, { tokens, demands }, text);
/** The tokens of a whole name as they would be written, or null where the grammar does not read all of it. */
const texts = (tokens: readonly GrammarToken[], text: string) => {
  const { whole, tokens: found } = read(tokens, text);
  return whole ? found.map((each) => each.text) : null;
};

const colour = token('colour', { kind: 'word', words: ['Umber', 'Ochre', 'Ochre Red'] });
const size = token('size', { kind: 'whole number', from: 2, to: 40 }, ' ');

describe('one token of a name (N6)', () => {
  test('[N6] a word is the longest of the maker’s that stands there, whole, in any case', () => {
    expect([texts([colour], 'ochre'), texts([colour], 'OCHRE RED'), texts([colour], 'Umber')]).toEqual([
      ['Ochre'],
      ['Ochre Red'],
      ['Umber'],
    ]);
    for (const wrong of ['Ochres', 'Ochré', 'Och', ' Ochre', 'Sienna']) expect(texts([colour], wrong), wrong).toBeNull();
    // A figure may follow at once, where the maker writes it so.
    expect(texts([colour, token('issue', { kind: 'whole number', from: 1, to: 9 })], 'Ochre4')).toEqual(['Ochre', '4']);
    expect(texts([colour, token('issue', { kind: 'whole number', from: 1, to: 9 })], 'Ochre 4')).toBeNull();
    expect(texts([token('mark', { kind: 'word', words: ['B.1', 'A+'] })], 'bx1')).toBeNull();
    expect(texts([token('mark', { kind: 'word', words: ['B.1', 'A+'] })], 'a+')).toEqual(['A+']);
  });

  test('[N6] a whole number lies within its bounds, both included, and has no zero before it', () => {
    expect(['Ochre 2', 'Ochre 17', 'Ochre  40'].map((text) => texts([colour, size], text)?.[1])).toEqual(['2', '17', '40']);
    for (const wrong of ['Ochre 1', 'Ochre 41', 'Ochre 02', 'Ochre 400', 'Ochre 4a', 'Ochre', 'Ochre2'])
      expect(texts([colour, size], wrong), wrong).toBeNull();
    const fromNought = token('size', { kind: 'whole number', from: 0, to: 5 });
    expect([texts([fromNought], '0'), texts([fromNought], '05')]).toEqual([['0'], null]);
    expect(read([colour, size], 'Ochre 17').tokens[1]?.number).toBe(17);
  });

  test('[N6] a Roman numeral is written the usual way, within its bounds, and is given large', () => {
    const step = [colour, token('step', { kind: 'roman numeral', from: 2, to: 9 }, ' ')];
    expect(['Ochre II', 'Ochre iv', 'Ochre IX'].map((text) => texts(step, text)?.[1])).toEqual(['II', 'IV', 'IX']);
    for (const wrong of ['Ochre I', 'Ochre X', 'Ochre IIII', 'Ochre IVa', 'Ochre 4']) expect(texts(step, wrong), wrong).toBeNull();
    expect(read(step, 'Ochre iv').tokens[1]?.number).toBe(4);
  });

  test('[N6] letters are so many and no more, and are given large', () => {
    const trim = [colour, token('trim', { kind: 'letters', length: 2 }, '-')];
    expect(['Ochre-qd', 'Ochre - QD', 'Ochre–QD'].map((text) => texts(trim, text)?.[1])).toEqual(['QD', 'QD', 'QD']);
    for (const wrong of ['Ochre-Q', 'Ochre-QDE', 'Ochre-Q1', 'Ochre QD', 'OchreQD']) expect(texts(trim, wrong), wrong).toBeNull();
    expect(texts([...trim, token('issue', { kind: 'whole number', from: 1, to: 9 })], 'Ochre-QD7')).toEqual(['Ochre', 'QD', '7']);
  });

  test('[N6] a sign stands so many times; a prime may be typed as an apostrophe', () => {
    const primes = [colour, token('generation', { kind: 'sign', sign: '′', from: 1, to: 2 })];
    expect(["Ochre'", 'Ochre’’', 'Ochre′'].map((text) => texts(primes, text)?.[1])).toEqual(['′', '′′', '′']);
    for (const wrong of ['Ochre', 'Ochre′′′', 'Ochre″']) expect(texts(primes, wrong), wrong).toBeNull();
    expect(read(primes, 'Ochre′′').tokens[1]?.number).toBe(2);
    expect(texts([...primes, size], 'Ochre’ 4')).toEqual(['Ochre', '′', '4']);
    expect(read([...primes, size], 'Ochre’ 4').tokens[1]?.number).toBe(1);
    const pairs = [colour, token('grade', { kind: 'sign', sign: '+-', from: 0, to: 2 })];
    expect(['Ochre+-', 'Ochre+-+-'].map((text) => texts(pairs, text)?.[1])).toEqual(['+-', '+-+-']);
    for (const wrong of ['Ochre', 'Ochre+', 'Ochre+-+-+-']) expect(texts(pairs, wrong), wrong).toBeNull();
  });

  test('[N6] what stands between tokens is as the maker writes it, but for spaces about it', () => {
    const slashed = [colour, token('turn', { kind: 'letters', length: 1 }, ' / ')];
    expect(['Ochre/Q', 'Ochre / Q', 'Ochre /Q'].map((text) => texts(slashed, text)?.[1])).toEqual(['Q', 'Q', 'Q']);
    expect(texts(slashed, 'Ochre Q')).toBeNull();
    const dotted = [colour, token('turn', { kind: 'letters', length: 1 }, '.')];
    expect([texts(dotted, 'Ochre.Q'), texts(dotted, 'Ochre-Q')]).toEqual([['Ochre', 'Q'], null]);
    // Before the first token of a name nothing stands, and nothing is written.
    const first = [token('colour', colour.reads, '-'), size];
    expect([texts(first, 'Ochre 4'), read(first, 'ochre 4').canonical]).toEqual([['Ochre', '4'], 'Ochre 4']);
    const wide = [colour, token('size', size.reads, '  ')];
    expect([texts(wide, 'Ochre 4'), texts(wide, 'Ochre4')]).toEqual([['Ochre', '4'], null]);
  });
});

describe('a whole name (N6)', () => {
  const turn = token('turn', { kind: 'letters', length: 1 }, '-', true);
  const water = token('water', { kind: 'word', words: ['Wet'] }, ' ', true);

  test('[N6] a token that may be left out may be left out, and what follows it stands in its place', () => {
    expect(
      ['Ochre 4', 'Ochre 4-Q', 'Ochre 4 Wet', 'Ochre 4-Q Wet'].map((text) => texts([colour, size, turn, water], text)?.length),
    ).toEqual([2, 3, 3, 4]);
    expect(texts([colour, size, turn, water], 'Ochre 4 Wet-Q')).toBeNull();
  });

  test('[N6] where a name can be read in two ways, the reading of more tokens is taken', () => {
    const word = (text: string, before = '') => token(text, { kind: 'word', words: [text] }, before, true);
    const [together, first, second] = [word('Ochre Red'), word('Ochre'), word('Red', ' ')];
    for (const tokens of [
      [together, first, second],
      [first, second, together],
    ])
      expect(texts(tokens, 'ochre red')).toEqual(['Ochre', 'Red']);
    expect(texts([together, first], 'ochre red')).toEqual(['Ochre Red']);
    // Of two as long the one the maker's tokens come to first.
    const any = token('any', { kind: 'letters', length: 3 }, ' ', true);
    expect(read([first, any, second], 'Ochre Red').tokens.map((each) => String(each.token.id))).toEqual(['Ochre', 'any']);
  });

  test('[N6] where the reading stops is said: what stands there, and what should', () => {
    const fault = (text: string, tokens = [colour, size]) => read(tokens, text).faults;
    expect(fault('Ochre 99')).toEqual(['“99” stands where a size (a whole number from 2 to 40) should, or the name should end']);
    expect(fault('Ochre')).toEqual(['the name breaks off where a size (a whole number from 2 to 40) should follow']);
    expect(fault('Sienna 4')).toEqual(['“Sienna 4” stands where a colour (Umber, Ochre, Ochre Red) should, or the name should end']);
    expect(fault('Ochre', [colour, token('angle', { kind: 'roman numeral', from: 1, to: 4 }, ' ')])).toEqual([
      'the name breaks off where an angle (a Roman numeral from I to IV) should follow',
    ]);
    expect(fault('Ochre', [colour, token('trim', { kind: 'letters', length: 2 }, '-')])).toEqual([
      'the name breaks off where a trim (2 letters) should follow',
    ]);
    expect(fault('Ochre', [colour, token('generation', { kind: 'sign', sign: '′', from: 1, to: 3 })])).toEqual([
      'the name breaks off where a generation (“′”, 1 to 3 times) should follow',
    ]);
  });

  test('[N6] no sign of the text is passed over to get at the next', () => {
    const issue = token('issue', { kind: 'whole number', from: 1, to: 9 });
    expect(texts([colour, size, water], 'Ochre-4 Wet')).toBeNull();
    expect(texts([colour, size, issue], 'Ochre x4')).toBeNull();
    const step = token('step', { kind: 'roman numeral', from: 1, to: 9 }, ' ');
    expect(texts([colour, step, token('turn', { kind: 'letters', length: 1 })], 'Ochre 4V')).toBeNull();
    const prime = (name: string) => token(name, { kind: 'sign', sign: '′', from: 1, to: 2 });
    expect(texts([colour, prime('generation'), prime('grade')], 'Ochre4′')).toBeNull();
  });

  test('[N6] with how far it got, what was read till then, and whether it broke off', () => {
    expect(read([colour, size], 'Ochre 99')).toMatchObject({ maker: dyer, reached: 5, whole: false, brokeOff: false, canonical: null });
    expect(read([colour, size], 'Ochre 99').tokens.map((each) => each.text)).toEqual(['Ochre']);
    expect(read([colour, size], 'Ochre')).toMatchObject({ maker: dyer, reached: 5, whole: false, brokeOff: true });
    expect(read([colour, size], 'Sienna 4')).toMatchObject({ maker: null, reached: 0, whole: false, brokeOff: false, tokens: [] });
    expect(read([colour, size], '')).toMatchObject({ reached: 0, whole: false, brokeOff: true });
    expect(read([colour, size], 'ochre  4')).toMatchObject({
      reached: 8,
      whole: true,
      brokeOff: false,
      canonical: 'Ochre 4',
      unread: false,
    });
  });

  test('[N6] of two ways to go on, the one that gets further says where it stops', () => {
    const long = [colour, turn, size];
    expect(read(long, 'Ochre-Q 99').faults[0]).toMatch(/^“99” stands where a size/);
    expect(read(long, 'Ochre 99').faults[0]).toMatch(/^“99” stands where a turn/);
  });

  test('[N6] a demand asks for a token, or that there is none, where a word stands', () => {
    const demand = (word: string, present: boolean) => [
      {
        when: { token: asId<GrammarToken['id']>('colour'), is: [word] },
        // biome-ignore lint/suspicious/noThenProperty: a demand's `then` is data, never called
        then: { token: asId<GrammarToken['id']>('turn'), present },
        because: 'so it is',
      },
    ];
    const faults = (text: string, word: string, present: boolean) => read([colour, size, turn], text, demand(word, present)).faults;
    expect([faults('Ochre 4', 'OCHRE', true), faults('Ochre 4-Q', 'Ochre', true)]).toEqual([['so it is'], []]);
    expect([faults('Ochre 4', 'Ochre', false), faults('Ochre 4-Q', 'ochre', false)]).toEqual([[], ['so it is']]);
    expect(faults('Umber 4', 'Ochre', true)).toEqual([]);
    const ofEither = [
      { ...demand('', true)[0], when: { token: asId<GrammarToken['id']>('colour'), is: ['Umber', 'Ochre'] } },
    ] as Grammar['demands'];
    expect(read([colour, size, turn], 'Ochre 4', ofEither).faults).toEqual(['so it is']);
    // Of a token that is not there nothing is asked.
    const ofTurn = [{ ...demand('', true)[0], when: { token: asId<GrammarToken['id']>('turn'), is: ['Q'] } }] as Grammar['demands'];
    expect(read([colour, size, turn], 'Ochre 4', ofTurn).faults).toEqual([]);
    const ofSize = [
      // biome-ignore lint/suspicious/noThenProperty: a demand's `then` is data, never called
      { when: { token: asId('size'), is: ['4'] }, then: { token: asId('turn'), present: true }, because: 'every 4 turns' },
    ] as unknown as Grammar['demands'];
    expect(['Ochre 4', 'Ochre 5', 'Ochre 4-Q'].map((text) => read([colour, size, turn], text, ofSize).faults.length)).toEqual([1, 0, 0]);
  });
});

describe('the maker before the name (N6)', () => {
  test('[N6] by any name it traded under, the longest that stands there, in any case and spacing', () => {
    expect(withoutTradeName(dyer, ' dyer  &  fuller  Ochre 4 ')).toEqual({ rest: 'Ochre 4', named: true });
    expect(withoutTradeName(dyer, 'DYER Ochre 4')).toEqual({ rest: 'Ochre 4', named: true });
    expect(
      withoutTradeName({ ...dyer, name: 'Dyer & Fuller', tradeNames: [{ name: 'Dyer', from: 1950, to: null }] }, 'Dyer & Fuller Ochre'),
    ).toEqual({
      rest: 'Ochre',
      named: true,
    });
  });

  test('[N6] not where nothing follows it, or it is only the beginning of a word', () => {
    for (const text of ['Dyer', 'Dyers Ochre', 'Ochre Dyer']) expect(withoutTradeName(dyer, text)).toEqual({ rest: text, named: false });
  });
});

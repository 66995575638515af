import { describe, expect, test } from 'vitest';
import { modelsClaimed, nameKey, readTexts } from '../../../reasoner/grammar/read-name.ts';
import { type Atlas, asId, compileAtlas, type Grammar, type Maker, type MakerId, readName, readNames } from '../../../reasoner/index.ts';
import { twoMakers } from './two-makers.ts';

const [quay, works] = twoMakers.makers as readonly [Maker, Maker];
const harbour = asId<MakerId>('harbour');

/** Harbour’s names as a grammar: a bird, a size, and a letter. */
const birds = (...words: string[]): Grammar => ({
  tokens: [
    { id: asId('bird'), name: 'bird', before: '', optional: false, reads: { kind: 'word', words }, promises: [] },
    { id: asId('step'), name: 'step', before: ' ', optional: false, reads: { kind: 'whole number', from: 1, to: 99 }, promises: [] },
    { id: asId('hand'), name: 'hand', before: '-', optional: false, reads: { kind: 'letters', length: 1 }, promises: [] },
  ],
  demands: [],
});
const withGrammar = (grammar: Grammar | null, more: Partial<Atlas> = {}) =>
  compileAtlas({ ...twoMakers, makers: [quay, { ...works, grammar }], ...more });

describe('which maker’s rule speaks of a text nobody lists', () => {
  // Quayside's grammar reads a fish and a size; Harbour's a bird or a Cod, a size, a dash and a letter.
  const atlas = withGrammar(birds('Cod', 'Tern'));

  test('[N6] the one that gets furthest', () => {
    expect(readName(atlas, 'Cod 40-')).toMatchObject({ maker: 'harbour', verdict: 'no name of this maker' });
    expect(readName(atlas, 'Ling 3 Cart')).toMatchObject({ maker: 'quayside', verdict: 'no name of this maker' });
    expect(readName(atlas, 'Tern 5-Q')).toMatchObject({ maker: 'harbour', verdict: 'well formed, not in the atlas' });
  });

  test('[N6] but first one that reads it without a fault, and before that one whose trade name stands there', () => {
    // Both read “Cod 5”; Harbour’s name then breaks off, and is no better for standing first.
    const harbourFirst = compileAtlas({ ...twoMakers, makers: [{ ...works, grammar: birds('Cod') }, quay] });
    expect(readName(harbourFirst, 'Cod 5')).toMatchObject({ maker: 'quayside', verdict: 'well formed, not in the atlas' });
    expect(readName(atlas, 'Cod 5')).toMatchObject({ maker: 'quayside', verdict: 'well formed, not in the atlas' });
    expect(readName(atlas, 'Harbour Cod 5')).toMatchObject({ maker: 'harbour', verdict: 'no name of this maker' });
    expect(readName(atlas, 'Quay Air Tern 5-Q')).toMatchObject({ maker: null, verdict: 'no maker’s name' });
    expect(readName(atlas, 'Harbour Works Tern 5-Q')).toMatchObject({ maker: 'harbour', verdict: 'well formed, not in the atlas' });
  });

  test('[N6] and of two that get equally far the first of the atlas', () => {
    expect(readName(withGrammar(birds('Cod')), 'Cod four')).toMatchObject({ maker: 'quayside' });
  });

  test('[N6] none, where none begins to read it', () => {
    expect(readName(atlas, 'Herring 1')).toMatchObject({
      maker: null,
      verdict: 'no maker’s name',
      faults: ['“Herring 1” stands where a fish (Cod, Ling) should, or the name should end'],
    });
    expect(readName(compileAtlas({ ...twoMakers, makers: [], models: [], families: [], parts: [] } as Atlas), 'Cod 1')).toMatchObject({
      verdict: 'no maker’s name',
      faults: ['no maker of the atlas makes names like this'],
    });
  });

  test('[N6] under a maker, that one’s alone: its own fault, and who does list such a name', () => {
    const reading = readName(atlas, 'Ling 3 Cartridge', harbour);
    expect(reading).toMatchObject({ maker: 'harbour', model: null, verdict: 'no name of this maker' });
    expect(reading.faults).toEqual([
      '“Ling 3 Cartridge” stands where a bird (Cod, Tern) should, or the name should end',
      'Quayside lists a model named Ling 3 Cartridge',
    ]);
    expect(readName(atlas, 'Herring 1', harbour).faults).toHaveLength(1);
    // What it reads a part of is its own fault alone.
    expect(readName(atlas, 'Cod 1', asId('quayside')).model).toBe('cod-1');
  });

  test('[N6] a maker without a rule is asked only where it is named', () => {
    const ruleless = compileAtlas(twoMakers);
    expect(readName(ruleless, 'Cod 5')).toMatchObject({ maker: 'quayside', verdict: 'well formed, not in the atlas' });
    expect(readName(ruleless, 'Harbour Cod 5')).toMatchObject({
      maker: 'harbour',
      verdict: 'no rule to read it by',
      faults: [],
      tokens: [],
    });
    const [unread] = readTexts(ruleless, 'Harbour Cod 5', null);
    expect(unread).toMatchObject({ unread: true, whole: false, brokeOff: false, model: null, reached: 0 });
    expect(readName(ruleless, 'Ling 3 Cartridge', harbour)).toMatchObject({
      verdict: 'no rule to read it by',
      faults: ['Quayside lists a model named Ling 3 Cartridge'],
    });
    expect(readName(ruleless, 'Cod 5', asId('quayside'))).toMatchObject({ maker: 'quayside', verdict: 'well formed, not in the atlas' });
  });
});

describe('a listed name (A4)', () => {
  test('[A4] is compared whatever the case, the width of spaces and dashes, and the shape of a prime', () => {
    const same = [' Basalt – qd′ ', "basalt-QD'", 'BASALT‑QD’', 'basalt \u2010 qd′'];
    expect(same.map(nameKey)).toEqual(same.map(() => 'basalt-qd′'));
    expect(nameKey('Rowan   IV')).toBe('rowan iv');
    expect(nameKey('Rowan\u00a0IV')).toBe('rowan iv');
    expect(nameKey('Rowan IV')).not.toBe(nameKey('RowanIV'));
    expect(nameKey('Zoe\u0308 3')).toBe(nameKey('Zo\u00eb 3'));
  });

  test('[A4] of a group without a maker’s name is no name to claim', () => {
    expect(readNames(compileAtlas(twoMakers), 'Back Lane 3')).toMatchObject([{ model: null, maker: null }]);
    expect(readName(compileAtlas(twoMakers), 'Back Lane 3', harbour).faults).toEqual([]);
  });

  test('[A4] what is claimed of a sheet is every model so named; of nothing, none', () => {
    const atlas = compileAtlas(twoMakers);
    const claimed = (text: string | null, maker: MakerId | null = null) =>
      modelsClaimed(atlas, { claimed: text, claimedMaker: maker }).map(({ id }) => id);
    expect([claimed(' cod 1 '), claimed('cod 1', harbour), claimed('Cod 5')]).toEqual([['cod-1', 'harbour-cod-1'], ['harbour-cod-1'], []]);
    expect([claimed(null), claimed('   ')]).toEqual([[], []]);
  });
});

test('[A4] what a name was read as: each token as its maker writes it; its promises are for others to hold against a unit', () => {
  expect(readName(compileAtlas(twoMakers), 'ling 3 CARTRIDGE').tokens).toEqual([
    { token: 'fish', text: 'Ling', promises: [] },
    { token: 'size', text: '3', promises: [] },
    { token: 'bearing', text: 'Cartridge', promises: [] },
  ]);
});

describe('the nearest names that exist (N6)', () => {
  const named = (...names: string[]) =>
    withGrammar(null, {
      models: [
        ...twoMakers.models.filter(({ id }) => id === asId('lane-3')),
        ...names.map((name) => ({
          ...(twoMakers.models[0] as Atlas['models'][number]),
          id: asId<Atlas['models'][number]['id']>(name),
          name,
        })),
        { ...(twoMakers.models.find(({ id }) => id === asId('skua-9')) as Atlas['models'][number]), name: 'Cod 88' },
      ],
    });

  test('[N6] are those that share most words in their places, then those nearest by letters, then by the alphabet; five at most', () => {
    const atlas = named('Cod 9 Wet', 'Ling 8', 'Cod 9', 'Cod 7 Wet', 'Wet Cod 8', 'Cod 6', 'Cod 5');
    expect(readName(atlas, 'Quayside Cod 8 Wet', asId('quayside')).nearest).toEqual(['Cod 7 Wet', 'Cod 9 Wet', 'Cod 5', 'Cod 6', 'Cod 9']);
  });

  test('[N6] and of two makers’ models of one name the first of the atlas', () => {
    const [cod, ...others] = twoMakers.models as readonly [Atlas['models'][number], ...Atlas['models'][number][]];
    const twins = (...models: Atlas['models'][number][]) => readName(withGrammar(null, { models }), 'Sod 1').nearest;
    const harbours = others.find(({ id }) => id === asId('harbour-cod-1')) as typeof cod;
    expect([twins(cod, harbours), twins(harbours, cod)]).toEqual([
      ['cod-1', 'harbour-cod-1'],
      ['harbour-cod-1', 'cod-1'],
    ]);
  });

  test('[N6] of the maker where it is known, of every maker where it is not, and never of a group without a name', () => {
    const atlas = named('Cod 7');
    expect(readName(atlas, 'Cod 8', asId('quayside')).nearest).toEqual(['Cod 7']);
    expect(readName(atlas, 'Sod 8').nearest).toEqual(['Cod 7', 'skua-9']);
    expect(readName(atlas, 'Back Lane 4').nearest).not.toContain('lane-3');
  });

  test('[N6] spaces and signs about words, before, behind and between them, do not count', () => {
    const first = (text: string, ...names: string[]) => readName(named(...names), text).nearest[0];
    expect([first('Sod 8', 'Cod 7', 'Eel 8'), first('  Sod 8', 'Cod 7', 'Eel 8')]).toEqual(['Eel 8', 'Eel 8']);
    expect(first('Ling / 8', 'Ling / 7', 'Ling-8')).toBe('Ling-8');
    expect(first('Ling 8', 'Ling 7', 'Ling / 8')).toBe('Ling / 8');
    expect(first('Sod 5.', 'Cid 9.', 'Soda5')).toBe('Soda5');
    // Case is no distance.
    expect(first('Coddling', 'Eel', 'Zodling')).toBe('Zodling');
  });

  test('[N6] a word is shared where it stands, whatever its case and the signs about it', () => {
    const atlas = named('Ling-8', 'Lang 99 Wet');
    // “Ling-8” has two words in their places, though “Lang 99 Wet” is nearer in length.
    expect(readName(atlas, 'LING/8 Wettest', asId('quayside')).nearest).toEqual(['Ling-8', 'Lang 99 Wet']);
  });
});

import { describe, expect, test } from 'vitest';
import { readName, readNames } from '../../../reasoner/grammar/read-name.ts';
import {
  answer,
  asId,
  compileAtlas,
  type Family,
  type Maker,
  type MakerId,
  type Model,
  type Observation,
  type Sheet,
  type Verdict,
} from '../../../reasoner/index.ts';
import { blades, littleAtlas, sheetOf } from '../reasoner/little-atlas.ts';
import { twoMakers } from './two-makers.ts';

const atlas = compileAtlas(twoMakers);
const [quayside, harbour] = [asId<MakerId>('quayside'), asId<MakerId>('harbour')];
const verdictOn = (claimed: string, observations: readonly Observation[] = [], more: Partial<Sheet> = {}): Verdict => {
  const found = answer(atlas, sheetOf(observations, { claimed, ...more }));
  if (found.kind !== 'verdict') throw new Error('no entry contradicts another here');
  return found;
};
const claimOn = (...args: Parameters<typeof verdictOn>) => {
  const { claim } = verdictOn(...args);
  if (claim === null) throw new Error('something is claimed here');
  return claim;
};

describe('a listed name', () => {
  test('[A4] is a name whether or not the maker’s rule of names is known, whatever the case, the spacing and the name before it', () => {
    for (const text of ['Skua 9', '  skua   9 ', 'Harbour Skua 9', 'harbour works skua 9']) {
      for (const maker of [null, harbour])
        expect(readName(atlas, text, maker), text).toMatchObject({
          verdict: 'a model of the atlas',
          model: 'skua-9',
          maker: 'harbour',
          faults: [],
          nearest: [],
        });
    }
  });

  test('[A4] is judged as what it is, and never called none', () => {
    const claim = claimOn('Skua 9');
    expect(claim).toMatchObject({ name: 'service:skua-9', status: 'open', others: [] });
    expect(claim.sentences.join(' ')).not.toMatch(/no name|not a name|nearest/);
    expect(claimOn('Skua 9', [blades(8)]).status).toBe('ruled out');
  });

  test('[A4] is a name though the maker’s own grammar faults it: the fault is the grammar’s', () => {
    const faulty = compileAtlas({
      ...littleAtlas,
      models: littleAtlas.models.map((model) => (model.id === 'ling-3-cartridge' ? { ...model, name: 'Ling 3' } : model)),
    });
    expect(readName(faulty, 'Ling 3')).toMatchObject({ verdict: 'a model of the atlas', model: 'ling-3-cartridge', faults: [] });
    // Its tokens are read all the same, and promise what they promise.
    expect(readName(faulty, 'ling 3').tokens.map(({ text }) => text)).toEqual(['Ling', '3']);
    const unread = compileAtlas({
      ...littleAtlas,
      models: littleAtlas.models.map((model) => (model.id === 'cod-1' ? { ...model, name: 'Cod four-one' } : model)),
    });
    expect(readName(unread, 'COD FOUR–ONE')).toMatchObject({ verdict: 'a model of the atlas', model: 'cod-1', faults: [], tokens: [] });
  });

  test('[A4] is found as its maker’s grammar would write it, though it was typed with other signs between its words', () => {
    const [maker, ...makers] = littleAtlas.makers;
    const tokens = maker?.grammar?.tokens.map((token) => (token.name === 'bearing word' ? { ...token, before: '/' } : token));
    const slashed = compileAtlas({
      ...littleAtlas,
      makers: [{ ...maker, grammar: { ...maker?.grammar, tokens } } as Maker, ...makers],
      models: littleAtlas.models.map((model) => (model.id === 'ling-3-cartridge' ? { ...model, name: 'Ling 3/Cartridge' } : model)),
    });
    expect(readName(slashed, 'ling 3 / cartridge').model).toBe('ling-3-cartridge');
  });

  test('[A4] of another maker than the one it is claimed under is no name of that one', () => {
    expect(readName(atlas, 'Skua 9', quayside)).toMatchObject({
      verdict: 'no name of this maker',
      maker: 'quayside',
      model: null,
    });
    expect(readName(atlas, 'Skua 9', quayside).faults.at(-1)).toBe('Harbour lists a model named Skua 9');
    expect(readName(atlas, 'Ling 3 Cartridge', harbour).model).toBeNull();
  });
});

describe('a name two makers list', () => {
  test('[A4] is read as each, in the order of the atlas', () => {
    expect(readNames(atlas, 'cod 1').map(({ maker, model }) => [maker, model])).toEqual([
      ['quayside', 'cod-1'],
      ['harbour', 'harbour-cod-1'],
    ]);
    expect(readNames(atlas, 'cod 1', harbour).map(({ model }) => model)).toEqual(['harbour-cod-1']);
    expect(readNames(atlas, 'Harbour Cod 1').map(({ model }) => model)).toEqual(['harbour-cod-1']);
    expect(readNames(atlas, 'Quay Air Cod 1').map(({ model }) => model)).toEqual(['cod-1']);
  });

  test('[A4] is judged for each, and both are said; what fares better stands first', () => {
    const claim = claimOn('Cod 1', [blades(6)]);
    expect(claim).toMatchObject({ name: 'service:harbour-cod-1', status: 'open' });
    expect(claim.others.map(({ name, status }) => [name, status])).toEqual([['service:cod-1', 'ruled out']]);
    expect(claim.sentences[0]).toBe(
      '“Cod 1” is a name of Harbour and of Quayside, and is judged for each: Harbour Cod 1 is open and Quayside Cod 1 is ruled out.',
    );
    expect(claim.sentences.slice(1).join(' ')).toMatch(/Harbour Cod 1 is open: .* Quayside Cod 1 is ruled out, for /);
    const other = claimOn('Cod 1', [blades(8)]);
    expect(other).toMatchObject({ name: 'service:cod-1', status: 'open' });
    expect(other.others).toMatchObject([{ name: 'service:harbour-cod-1', status: 'ruled out' }]);
  });

  test('[A4] one maker gives to models of two families is judged for each, and each is said with its family', () => {
    const twice = compileAtlas({
      ...twoMakers,
      families: [...twoMakers.families, { ...(twoMakers.families.at(-1) as Family), id: asId('tern'), name: 'Tern' }],
      models: [
        ...twoMakers.models,
        { ...(twoMakers.models.find(({ id }) => id === 'skua-9') as Model), id: asId('other-9'), family: asId('tern') },
      ],
    });
    const found = answer(twice, sheetOf([], { claimed: 'Skua 9' }));
    expect(found.kind === 'verdict' && found.claim?.sentences[0]).toBe(
      '“Skua 9” is the name of 2 models of Harbour, and is judged for each: Harbour Skua 9 (Skua) is open and Harbour Skua 9 (Tern) is open.',
    );
    expect(found.kind === 'verdict' && found.claim?.sentences.slice(1).map((text) => text.slice(0, 30))).toEqual([
      'Harbour Skua 9 (Skua) is open:',
      'Harbour Skua 9 (Tern) is open:',
    ]);
  });

  test('[A4] that more than six models bear is judged for each: five are said, those that fare best first, and of the rest how many', () => {
    const shared = (times: number) =>
      compileAtlas({
        ...littleAtlas,
        families: Array.from({ length: times }, (_, i) => ({
          ...(littleAtlas.families[0] as Family),
          id: asId(`f${i}`),
          name: `Cod ${i}`,
        })),
        generations: [],
        models: Array.from({ length: times }, (_, i) => {
          const { generation: _generation, ...model } = littleAtlas.models.find(({ id }) => id === 'cod-1') as Model;
          // All but the last two ask for another wheel than was seen.
          const allowed = model.allowed.filter(({ slot }) => i >= times - 2 || slot !== 'wheel');
          const other =
            littleAtlas.models.find(({ id }) => id === 'ling-3-cartridge')?.allowed.filter(({ slot }) => slot === 'wheel') ?? [];
          return {
            ...model,
            generation: null,
            id: asId(`m${i}`),
            family: asId(`f${i}`),
            allowed: i >= times - 2 ? allowed : [...allowed, ...other],
          };
        }),
      });
    const told = (times: number) => {
      const found = answer(shared(times), sheetOf([blades(8)], { claimed: 'Cod 1' }));
      if (found.kind !== 'verdict' || found.claim === null) throw new Error('something is claimed here');
      const about = found.ticket.mustNot.map(({ text }) => text).filter((text) => /Cod 1/.test(text));
      return { claim: found.claim, about };
    };
    const six = told(6);
    expect(six.claim.others).toHaveLength(5);
    expect(six.claim.sentences[0]).not.toContain('more');
    expect(six.about).toHaveLength(6);
    const nine = told(9);
    expect([nine.claim, ...nine.claim.others].map(({ status }) => status)).toEqual(['open', 'open', ...Array(7).fill('ruled out')]);
    expect(nine.claim.sentences[0]).toMatch(
      /^“Cod 1” is the name of 9 models of Quayside, and is judged for each: .*Cod 7\) is open, .*Cod 8\) is open, .* is ruled out and 4 more are ruled out\.$/,
    );
    expect(nine.about).toHaveLength(6);
    expect(nine.about.at(-1)).toBe(
      'This unit must not be described as any of 4 more models that bear the name “Cod 1”: none of them stands.',
    );
  });

  test('[A4] is ruled out only when it is so for each', () => {
    const claim = claimOn('Cod 1', [blades(12)]);
    expect([claim, ...claim.others].map(({ status }) => status)).toEqual(['ruled out', 'ruled out']);
  });

  test('[A4] every claimed name that is ruled out has its reasons, and may not be put on the ticket', () => {
    const verdict = verdictOn('Cod 1', [blades(6)]);
    const named = verdict.names.find(({ name }) => name.id === 'service:cod-1');
    expect(named?.conflicts?.found.length).toBeGreaterThan(0);
    const mustNot = verdict.ticket.mustNot.map(({ text }) => text).join('\n');
    expect(mustNot).toMatch(/Quayside Cod 1/);
    expect(mustNot).toMatch(/Harbour Cod 1 before /);
  });

  test('[A4] claimed under one of them is judged for that one alone', () => {
    expect(claimOn('Cod 1', [blades(6)], { claimedMaker: quayside })).toMatchObject({
      name: 'service:cod-1',
      status: 'ruled out',
      others: [],
    });
    expect(claimOn('Cod 1', [blades(6)], { claimedMaker: harbour })).toMatchObject({
      name: 'service:harbour-cod-1',
      status: 'open',
      others: [],
    });
  });
});

describe('a text no rule reads', () => {
  test('[N6] of a maker whose rule of names is not known is neither a name nor none', () => {
    for (const [text, maker] of [
      ['Skua 10', harbour],
      ['Harbour Skua 10', null],
    ] as const) {
      const reading = readName(atlas, text, maker);
      expect(reading).toMatchObject({ verdict: 'no rule to read it by', maker: 'harbour', model: null });
      expect(reading.nearest[0]).toBe('skua-9');
      const claim = claimOn(text, [blades(8)], { claimedMaker: maker });
      expect(claim).toMatchObject({ status: 'open', name: null });
      expect(claim.sentences[0]).toBe(
        `Whether “${text}” is a name of Harbour is not known: the atlas lists no such model, and knows no rule by which Harbour makes its names.`,
      );
    }
  });

  test('[N6] without a maker is not known to be none while some maker’s rule is not known', () => {
    expect(readName(atlas, 'Herring 1')).toMatchObject({ verdict: 'no rule to read it by', maker: null, faults: [] });
    expect(claimOn('Herring 1').sentences[0]).toBe(
      'Whether “Herring 1” is a name is not known: no rule of names the atlas knows reads it, and it knows none of Harbour.',
    );
    expect(claimOn('Herring 1').status).toBe('open');
    expect(readName(compileAtlas(littleAtlas), 'Herring 1').verdict).toBe('no maker’s name');
  });

  test('[N6] a number with a zero before it is not how the maker writes it', () => {
    expect(readName(atlas, 'Cod 01').model).toBeNull();
    expect(readName(atlas, 'Cod 01').faults).toHaveLength(1);
  });
});

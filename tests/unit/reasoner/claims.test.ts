import { describe, expect, it } from 'vitest';
import {
  answer,
  asId,
  compileAtlas,
  type FeatureId,
  type Maker,
  type MakerId,
  type Observation,
  readName,
} from '../../../reasoner/index.ts';
import { blades, chose, littleAtlas, measured, sheetOf } from './little-atlas.ts';

const atlas = compileAtlas(littleAtlas);
const quayside = asId<MakerId>('quayside');
const claimOn = (claimed: string, observations: readonly Observation[] = []) => {
  const found = answer(atlas, sheetOf(observations, { claimed }));
  return found.kind === 'verdict' ? found.claim : null;
};

describe('names read by their grammar', () => {
  it('[N6] a model of the atlas is found with or without its maker, in any case and spacing', () => {
    for (const text of ['Ling 3 Cartridge', '  quayside   ling 3  cartridge', 'Quay Air Ling 3 Cartridge']) {
      expect(readName(atlas, text), text).toMatchObject({ verdict: 'a model of the atlas', model: 'ling-3-cartridge', faults: [] });
    }
  });

  it('[N6] a name without the word it needs is no name, and the reason is the maker’s own', () => {
    const reading = readName(atlas, 'Ling 3', quayside);
    expect(reading).toMatchObject({
      verdict: 'no name of this maker',
      model: null,
      faults: ['every Ling has a cartridge, and its name says so'],
    });
    expect(reading.nearest[0]).toBe('ling-3-cartridge');
  });

  it('[A4] a name can be read without being in the atlas', () => {
    const reading = readName(atlas, 'Cod 2');
    expect(reading).toMatchObject({ verdict: 'well formed, not in the atlas', maker: 'quayside', model: null });
    expect(reading.tokens.map(({ token, text }) => [token, text])).toEqual([
      ['fish', 'Cod'],
      ['size', '2'],
    ]);
  });

  it('[N6] where the reading breaks off is said, with what was expected and found', () => {
    expect(readName(atlas, 'Cod').faults).toEqual(['the name breaks off where a running size (a whole number from 1 to 9) should follow']);
    expect(readName(atlas, 'Cod 400').faults).toEqual([
      '“400” stands where a running size (a whole number from 1 to 9) should, or the name should end',
    ]);
    expect(readName(atlas, 'Herring 1')).toMatchObject({ verdict: 'no maker’s name', maker: null });
  });

  it('[N6] each token’s promise is held against what was seen, and not known is neither', () => {
    const promises = (observations: readonly Observation[]) =>
      claimOn('Cod 1 Cartridge', observations)?.reading.tokens.flatMap((token) => token.promises.map(({ truth }) => truth));
    expect(promises([])).toEqual(['not known', 'not known']);
    expect(promises([blades(8)])).toEqual(['holds', 'fails']);
    expect(promises([chose('shaft.bearing', 'cartridge')])).toEqual(['fails', 'holds']);
  });

  it('[A4] a size by table promises its measure, within the leeway either way', () => {
    const size = (claimed: string, ...observations: Observation[]) => claimOn(claimed, observations)?.reading.tokens[1]?.promises;
    expect(size('Cod 1')).toMatchObject([{ feature: 'wheel.tip', truth: 'not known', sentence: expect.stringContaining('40') }]);
    // 40 ± 0.5, and the reading ± 2u.
    expect(size('Cod 1', measured('wheel.tip', 40.5, 0))).toMatchObject([{ truth: 'holds' }]);
    expect(size('Cod 1', measured('wheel.tip', 39.5, 0))).toMatchObject([{ truth: 'holds' }]);
    expect(size('Cod 1', measured('wheel.tip', 40.52, 0))).toMatchObject([{ truth: 'fails' }]);
    expect(size('Cod 1', measured('wheel.tip', 39.48, 0))).toMatchObject([{ truth: 'fails' }]);
    expect(size('Cod 1', measured('wheel.tip', 40.52, 0.01))).toMatchObject([{ truth: 'holds' }]);
    // The number itself is no measure: a wheel of 1 mm is not what Cod 1 promises.
    expect(size('Cod 1', measured('wheel.tip', 1, 0))).toMatchObject([{ truth: 'fails' }]);
    expect(size('Cod 2', blades(8))).toMatchObject([{ truth: 'fails' }]);
    expect(size('Cod 1', blades(8))).toMatchObject([{ truth: 'holds' }]);
  });

  it('[A4] a size its table lacks is a name, and promises nothing', () => {
    const claim = claimOn('Cod 4', [measured('wheel.tip', 40)]);
    expect(claim?.reading.verdict).toBe('well formed, not in the atlas');
    expect(claim?.reading.tokens[1]?.promises).toEqual([]);
    expect(claim?.status).toBe('open');
  });

  it('[A4] a number that is itself the measure promises that', () => {
    const [quay] = littleAtlas.makers;
    const tokens = quay?.grammar?.tokens.map((token) =>
      token.name === 'running size'
        ? {
            ...token,
            reads: { kind: 'whole number', from: 30, to: 99 } as const,
            promises: [{ feature: asId<FeatureId>('wheel.tip'), kind: 'number', within: 0.5 } as const],
          }
        : token,
    );
    const numbered = compileAtlas({ ...littleAtlas, makers: [{ ...quay, grammar: { ...quay?.grammar, tokens } } as Maker] });
    const on = (tip: number) => {
      const found = answer(numbered, sheetOf([measured('wheel.tip', tip, 0)], { claimed: 'Cod 40' }));
      return found.kind === 'verdict' ? found.claim?.reading.tokens[1]?.promises : [];
    };
    expect(on(40.5)).toMatchObject([{ truth: 'holds' }]);
    expect(on(40.52)).toMatchObject([{ truth: 'fails' }]);
  });

  it('[N6] a well-formed name the atlas lacks stays open until a promise is broken', () => {
    expect(claimOn('Cod 2')?.status).toBe('open');
    expect(claimOn('Cod 2', [blades(8)])?.status).toBe('ruled out');
  });

  it('[N6] nothing claimed is answered with nothing', () => {
    expect(claimOn('  ')).toBeNull();
  });
});

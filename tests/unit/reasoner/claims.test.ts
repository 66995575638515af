import { describe, expect, it } from 'vitest';
import { answer, asId, compileAtlas, type MakerId, type Observation, readName } from '../../../reasoner/index.ts';
import { blades, chose, littleAtlas, sheetOf } from './little-atlas.ts';

const atlas = compileAtlas(littleAtlas);
const quayside = asId<MakerId>('quayside');
const claimOn = (claimed: string, observations: readonly Observation[] = []) => {
  const found = answer(atlas, sheetOf(observations, { claimed }));
  return found.kind === 'verdict' ? found.claim : null;
};

describe('names read by their grammar', () => {
  it('[N6] a model of the atlas is found with or without its maker, in any case and spacing', () => {
    for (const text of ['Ling 50 Cartridge', '  quayside   ling 50  cartridge', 'Quay Air Ling 50 Cartridge']) {
      expect(readName(atlas, text), text).toMatchObject({ verdict: 'a model of the atlas', model: 'ling-50-cartridge', faults: [] });
    }
  });

  it('[N6] a name without the word it needs is no name, and the reason is the maker’s own', () => {
    const reading = readName(atlas, 'Ling 50', quayside);
    expect(reading).toMatchObject({
      verdict: 'no name of this maker',
      model: null,
      faults: ['every Ling has a cartridge, and its name says so'],
    });
    expect(reading.nearest[0]).toBe('ling-50-cartridge');
  });

  it('[A4] a name can be read without being in the atlas', () => {
    const reading = readName(atlas, 'Cod 44');
    expect(reading).toMatchObject({ verdict: 'well formed, not in the atlas', maker: 'quayside', model: null });
    expect(reading.tokens.map(({ token, text }) => [token, text])).toEqual([
      ['fish', 'Cod'],
      ['size', '44'],
    ]);
  });

  it('[N6] where the reading breaks off is said, with what was expected and found', () => {
    expect(readName(atlas, 'Cod').faults).toEqual(['the name breaks off where a wheel size (a whole number from 30 to 99) should follow']);
    expect(readName(atlas, 'Cod 400').faults).toEqual([
      '“400” stands where a wheel size (a whole number from 30 to 99) should, or the name should end',
    ]);
    expect(readName(atlas, 'Herring 40')).toMatchObject({ verdict: 'no maker’s name', maker: null });
  });

  it('[N6] each token’s promise is held against what was seen, and not known is neither', () => {
    const promises = (observations: readonly Observation[]) =>
      claimOn('Cod 40 Cartridge', observations)?.reading.tokens.flatMap((token) => token.promises.map(({ truth }) => truth));
    expect(promises([])).toEqual(['not known', 'not known']);
    expect(promises([blades(8)])).toEqual(['holds', 'fails']);
    expect(promises([chose('shaft.bearing', 'cartridge')])).toEqual(['fails', 'holds']);
  });

  it('[N6] a well-formed name the atlas lacks stays open until a promise is broken', () => {
    expect(claimOn('Cod 44')?.status).toBe('open');
    expect(claimOn('Cod 44', [blades(8)])?.status).toBe('ruled out');
  });

  it('[N6] nothing claimed is answered with nothing', () => {
    expect(claimOn('  ')).toBeNull();
  });
});

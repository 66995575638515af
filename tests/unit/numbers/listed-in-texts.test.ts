import { describe, expect, test } from 'vitest';
import { answer, asId, compileAtlas, type Feature, type MakerId, type Observation, readListing } from '../../../reasoner/index.ts';
import { marked, saw, sheetOf } from '../reasoner/little-atlas.ts';
import { twoMakers } from './two-makers.ts';

const atlas = compileAtlas(twoMakers);
const claimsIn = (text: string) =>
  readListing(atlas, text).finds.flatMap(({ text: piece, becomes }) =>
    becomes[0].kind === 'claim'
      ? [[piece, ...becomes.map((one) => (one.kind === 'claim' ? [one.text, one.maker, one.model] : one.kind))]]
      : [],
  );

describe('a listed name in a listing', () => {
  test('[A4] is found though no grammar reads it, with its maker where one stands before it', () => {
    expect(claimsIn('A good Skua 9, low hours.')).toEqual([['Skua 9', ['Skua 9', null, 'skua-9']]]);
    expect(claimsIn('HARBOUR WORKS  skua 9 for sale')).toEqual([['HARBOUR WORKS  skua 9', ['skua 9', 'harbour', 'skua-9']]]);
    expect(claimsIn('Skua 10, Skua, 9 pieces')).toEqual([]);
  });

  test('[A4] that two makers list is one find: as it stands, then as each one’s; under a maker it is that one’s alone', () => {
    expect(claimsIn('Cod 1 as new')).toEqual([
      ['Cod 1', ['Cod 1', null, 'cod-1'], ['Cod 1', 'quayside', 'cod-1'], ['Cod 1', 'harbour', 'harbour-cod-1']],
    ]);
    expect(claimsIn('Harbour Cod 1 as new')).toEqual([['Harbour Cod 1', ['Cod 1', 'harbour', 'harbour-cod-1']]]);
    expect(claimsIn('Quayside Cod 1 as new')).toEqual([['Quayside Cod 1', ['Cod 1', 'quayside', 'cod-1']]]);
  });

  test('[A4] of one word is found only as its maker writes it', () => {
    const oneWord = compileAtlas({
      ...twoMakers,
      models: twoMakers.models.map((model) => (model.id === 'skua-9' ? { ...model, name: 'Standard' } : model)),
    });
    const claims = (text: string) =>
      readListing(oneWord, text)
        .finds.filter(({ becomes }) => becomes[0].kind === 'claim')
        .map((find) => find.text);
    expect(claims('to the usual standard')).toEqual([]);
    expect(claims('a Standard, complete')).toEqual(['Standard']);
    const twoWords = compileAtlas({
      ...twoMakers,
      models: twoMakers.models.map((model) => (model.id === 'skua-9' ? { ...model, name: 'Skua Major' } : model)),
    });
    expect(readListing(twoWords, 'a skua major').finds.map(({ text }) => text)).toEqual(['skua major']);
  });
});

describe('the plate against a claim two makers list', () => {
  const number = twoMakers.features.find(({ id }) => id === 'plate.number') as Feature;
  const year = {
    ...number,
    id: 'plate.year',
    name: 'year of make',
    kind: 'count',
    unit: 'year',
    says: 'year of make',
  } as unknown as Feature;
  const stamped = compileAtlas({
    ...twoMakers,
    features: [...twoMakers.features.filter((one) => one !== number), { ...number, says: 'part number' }, year],
  });
  const found = (claimedMaker: string | null, ...observations: Observation[]) => {
    const sheet = sheetOf(observations, { claimed: 'Cod 1', claimedMaker: claimedMaker === null ? null : asId<MakerId>(claimedMaker) });
    const verdict = answer(stamped, sheet);
    return verdict.kind === 'verdict'
      ? verdict.findings.flatMap((one) => (one.kind === 'plate' ? (one.disagreement?.kind ?? []) : []))
      : null;
  };
  const made = (of: number) => saw('plate.year', { kind: 'count', from: of, to: of });

  test('[O5] a number of one of the claimed models does not contradict the claim; one of neither contradicts both', () => {
    const ofCod = marked('plate.number', 'N-plate/cod');
    expect(found(null, ofCod)).toEqual([]);
    expect(found('quayside', ofCod)).toEqual([]);
    expect(found('harbour', ofCod)).toEqual(['not the claimed model']);
    expect(found(null, marked('plate.number', 'N-plate/ling'))).toEqual(['not the claimed model', 'not the claimed model']);
  });

  test('[O5] a year one of the claimed models was built in does not contradict the claim', () => {
    expect(found(null, made(1965))).toEqual([]);
    expect(found('harbour', made(1965))).toEqual(['out of its time']);
    expect(found(null, made(1950))).toEqual(['out of its time']);
    const earlier = compileAtlas({
      ...stamped.data,
      models: twoMakers.models.map((model) => (model.id === 'harbour-cod-1' ? { ...model, from: 1948, to: 1952 } : model)),
    });
    const verdict = answer(earlier, sheetOf([made(1950)], { claimed: 'Cod 1' }));
    expect(verdict.kind === 'verdict' && verdict.findings.filter(({ kind }) => kind === 'plate')).toEqual([]);
  });
});

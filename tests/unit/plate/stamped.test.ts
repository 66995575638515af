import { describe, expect, test } from 'vitest';
import { asId, type CompiledAtlas, compileAtlas, type Observation, readPlate, type Sheet } from '../../../reasoner/index.ts';
import { chose, feature, marked, sheetOf } from '../reasoner/little-atlas.ts';
import { lettered, makerOf, plateless, quayBut } from './other-quays.ts';
import { castName, number, quay, serial, tradeName, year } from './quay-atlas.ts';

const stamped = (observations: readonly Observation[], atlas: CompiledAtlas = quay) => readPlate(atlas, sheetOf(observations)).stamped;
const kinds = (observations: readonly Observation[], atlas: CompiledAtlas = quay, rest: Partial<Sheet> = {}) =>
  readPlate(atlas, sheetOf(observations, rest)).disagreements.map(({ kind }) => kind);

describe('[O5] what is stamped, read one thing at a time', () => {
  test('[O5] a year of make tells its year', () => {
    expect(stamped([year(1970)])).toEqual([
      {
        observation: year(1970).id,
        feature: 'plate.year',
        says: 'year of make',
        text: '1970',
        makers: [],
        made: { from: 1970, to: 1970 },
        parts: [],
      },
    ]);
  });

  test('[O5] a trade name tells whose it is and when it was in use', () => {
    const [read] = stamped([tradeName('QUAY-AIR')]);
    expect(read).toMatchObject({ says: 'trade name', text: 'QUAY-AIR', makers: ['quayside'], made: { from: 1960, to: 1980 }, parts: [] });
    expect(stamped([tradeName('Nobody')])).toMatchObject([{ makers: [], made: null }]);
    expect(kinds([tradeName('Nobody'), year(1970)])).toEqual([]);
  });

  test('[O5] a part number tells who makes them so and which parts have it, and no time', () => {
    expect(stamped([number('HB 4000')])).toMatchObject([{ says: 'part number', makers: ['harbour'], made: null, parts: ['plate/mole'] }]);
    expect(stamped([number('p1009 1')])).toMatchObject([{ makers: ['quayside'], parts: ['plate/cod-1'] }]);
    // Nobody makes it so, but a part has it.
    expect(stamped([number('X-1')])).toMatchObject([{ makers: ['outland'], parts: ['plate/far'] }]);
    expect(stamped([number('bearing-housing lane')])).toMatchObject([{ makers: [], parts: ['bearing-housing/lane'] }]);
  });

  test('[O5] a serial number tells whose and when, by serial patterns alone', () => {
    expect(stamped([serial('S 1999 123')])).toMatchObject([
      { says: 'serial number', makers: ['quayside'], made: { from: 1999, to: 1999 }, parts: [] },
    ]);
    // What would be a part number, even a listed one, is none where a serial number is stamped.
    expect(stamped([serial('P 100-9/1')])).toMatchObject([{ makers: [], made: null, parts: [] }]);
    expect(stamped([serial('HB 4711')])).toMatchObject([{ makers: [], made: null }]);
  });

  test('[O5] a maker whose name it bears is the only one asked', () => {
    expect(stamped([tradeName('Harbour'), serial('S 1999 123')])[1]).toMatchObject({ makers: [], made: null });
    expect(stamped([tradeName('Nobody'), serial('S 1999 123')])[1]).toMatchObject({ makers: ['quayside'] });
  });

  test('[O5] a number without a year tells the years its pattern was in use, and nothing where those are not known', () => {
    const made = (from: number | null, to: number | null) => {
      const numbering = [...(makerOf('harbour').numbering ?? []), lettered('serial number', 'H', 3, from, to)];
      return stamped([serial('H 123')], quayBut({ makers: { harbour: { numbering } } }))[0]?.made;
    };
    expect([made(1950, 1990), made(null, 1990), made(1950, null), made(null, null)]).toEqual([
      { from: 1950, to: 1990 },
      { from: null, to: 1990 },
      { from: 1950, to: null },
      null,
    ]);
  });

  test('[O5] a place left blank says nothing, nor does what no feature calls a number, a name or a year', () => {
    expect(stamped([marked('plate.number', null), marked('plate.serial', null), tradeName(null), chose('plate.holes', 'two')])).toEqual([]);
    const inspected = quayBut({ more: ({ features }) => ({ features: [...features, feature('plate.inspector', 'mark')] }) });
    expect(stamped([marked('plate.inspector', 'Quayside')], inspected)).toEqual([]);
  });

  test('[O5] what stands on another part is not the plate’s, though it be a maker’s name', () => {
    const named = quayBut({
      more: ({ features }) => ({
        features: features.map((each) => (each.id === asId('bearing-housing.cast-name') ? { ...each, says: 'trade name' } : each)),
      }),
    });
    expect(stamped([castName('HARBOUR'), number('P 100-9/1')], named).map(({ says }) => says)).toEqual(['part number']);
    expect(kinds([castName('HARBOUR'), number('P 100-9/1')], named)).toEqual([]);
  });

  test('[O5] an atlas without plates reads none', () => {
    const bare = compileAtlas(plateless);
    expect(readPlate(bare, sheetOf([number('P 300-7/1'), tradeName('Quay Air'), year(1999)], { claimed: 'Cod 1' }))).toEqual({
      stamped: [],
      disagreements: [],
    });
  });
});

describe('[O5] a number against its maker’s patterns', () => {
  const like = (text: string, name = 'Harbour') =>
    readPlate(quay, sheetOf([number(text), tradeName(name)])).disagreements.flatMap((found) =>
      found.kind === 'not this maker’s number' ? [[found.maker, found.like, found.observations.length]] : [],
    );

  test('[O5] of a number its maker does not make so it is said who does, or whose part has it', () => {
    expect(like('P 777-5/1')).toEqual([['harbour', 'quayside', 2]]);
    expect(like('X-1')).toEqual([['harbour', 'outland', 2]]);
    expect(like('HB 4711', 'Quayside')).toEqual([['quayside', 'harbour', 2]]);
    expect(like('ZZ 9')).toEqual([['harbour', null, 2]]);
    // With a wrong check digit it is nobody's.
    expect(like('P 777-4/1')).toEqual([['harbour', null, 2]]);
    expect(like('bearing-housing lane')).toEqual([['harbour', null, 2]]);
  });

  test('[O5] a number that a part of its own has is its own, however it is made', () => {
    expect(like('turbine-wheel mole')).toEqual([]);
  });

  test('[O5] where one of several that traded under the name has never told how it numbers, nothing is held against the number', () => {
    const shared = quayBut({ makers: { outland: { tradeNames: [{ name: 'Harbour', from: 1960, to: null }] } } });
    expect(kinds([number('ZZ 9'), tradeName('Harbour')], shared)).not.toContain('not this maker’s number');
    expect(kinds([number('ZZ 9'), tradeName('Harbour')])).toContain('not this maker’s number');
  });

  test('[O5] where one pattern reads it rightly, that another would want another check digit is nothing', () => {
    const both = quayBut({ makers: { harbour: { numbering: [lettered('part number', 'P', 5)] } } });
    expect(kinds([number('P 777-4/1')])).toContain('check digit');
    expect(kinds([number('P 777-4/1')], both)).not.toContain('check digit');
    expect(stamped([number('P 777-4/1')], both)).toMatchObject([{ makers: ['harbour'] }]);
    expect(stamped([number('P 777-5/1')], both)).toMatchObject([{ makers: ['quayside', 'harbour'] }]);
  });

  test('[O5] a maker’s name where the number belongs names nobody', () => {
    expect(kinds([number('Harbour')])).toEqual(['number not listed']);
  });
});

describe('[O5] one time on the plate against another', () => {
  test('[O5] the trade name is said as its maker writes it', () => {
    const [found] = readPlate(quay, sheetOf([tradeName('QUAY  air'), year(1999)])).disagreements;
    expect(found).toMatchObject({ kind: 'trade name not in use', name: 'Quay Air', used: { from: 1960, to: 1980 } });
  });

  test('[O5] a serial number is held against a year of make, and neither against another of its own', () => {
    expect(kinds([serial('S 1999 123'), year(1998)])).toEqual(['years disagree']);
    expect(kinds([serial('S 1999 123'), serial('S 1970 123')])).toEqual([]);
    expect(kinds([year(1970), year(1999)])).toEqual([]);
  });
});

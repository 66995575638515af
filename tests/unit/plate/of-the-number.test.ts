import { describe, expect, test } from 'vitest';
import { asId, type CompiledAtlas, type Observation, type PlateHolder, readPlate, type Sheet } from '../../../reasoner/index.ts';
import { modelsOf } from '../../../reasoner/plate/part-index.ts';
import { chose, sheetOf } from '../reasoner/little-atlas.ts';
import { modelOf, partOf, quayBut } from './other-quays.ts';
import { castName, number, quay, ribs, serial, tradeName, year } from './quay-atlas.ts';

const found = (
  observations: readonly Observation[],
  { atlas = quay, holders = [], ...rest }: Partial<Sheet> & { atlas?: CompiledAtlas; holders?: PlateHolder[] } = {},
) => readPlate(atlas, sheetOf(observations, rest), holders).disagreements;
const kinds = (...asked: Parameters<typeof found>) => found(...asked).map(({ kind }) => kind);

describe('[O5] a number of another slot', () => {
  test('[O5] by the part that has it, or by its code where nobody has it', () => {
    const [listed] = found([number('turbine-wheel mole')]);
    expect(listed).toMatchObject({ kind: 'number of another slot', slot: 'turbine-wheel', parts: ['turbine-wheel/mole'] });
    const [coded] = found([number('W 777-5/1')]);
    expect(coded).toMatchObject({ kind: 'number of another slot', slot: 'turbine-wheel', parts: [] });
    expect(kinds([number('HB 4711')])).toEqual(['number not listed']);
  });

  test('[O5] only a code of the maker whose name it bears counts', () => {
    expect(kinds([number('W 777-5/1'), tradeName('Quayside')])).toEqual(['number of another slot']);
    expect(kinds([number('W 777-5/1'), tradeName('Harbour')])).toEqual(['not this maker’s number']);
  });

  test('[O5] a serial number that reads like one is a serial number', () => {
    expect(kinds([serial('W 777-5/1')])).toEqual([]);
    expect(kinds([serial('turbine-wheel mole')])).toEqual([]);
  });

  test('[O5] it is not held against the bearing housing too', () => {
    const holders = [
      { slot: asId<PlateHolder['slot']>('bearing-housing'), observations: [ribs(5).id], parts: [partOf('bearing-housing/ling')] },
    ];
    expect(kinds([number('turbine-wheel mole'), ribs(5)], { holders })).toEqual(['number of another slot']);
  });
});

describe('[O5] a number that was superseded', () => {
  /** The plate of Cod 1 had two later issues. */
  const later = (id: string, supersedes: string, text: string) => ({ ...partOf('plate/cod-1'), id, name: id, numbers: [text], supersedes });
  const issues = quayBut({
    more: ({ parts }) => ({
      parts: [...parts, later('plate/cod-1b', 'plate/cod-1', 'P 100-9/2'), later('plate/cod-1c', 'plate/cod-1b', 'P 100-9/3')] as never,
    }),
  });

  test('[O5] is followed to the last of its chain, and the last is not superseded', () => {
    const first = number('P 100-9/1');
    expect(found([first], { atlas: issues })).toEqual([
      { kind: 'superseded', observations: [first.id], part: 'plate/cod-1', by: 'plate/cod-1c', number: 'P 100-9/3' },
    ]);
    expect(found([number('P 100-9/3')], { atlas: issues })).toEqual([]);
  });

  test('[O5] a later issue is of the same models', () => {
    const [, , last] = ['cod-1', 'cod-1b', 'cod-1c'].map((id) => issues.parts.get(asId(`plate/${id}`)));
    expect(modelsOf(issues, last as never)).toEqual([issues.data.models.find(({ id }) => id === asId('cod-1'))]);
    expect(kinds([number('P 100-9/3')], { atlas: issues, claimed: 'Cod 1' })).toEqual([]);
    expect(kinds([number('P 100-9/3')], { atlas: issues, claimed: 'Cod 2' })).toEqual(['not the claimed model']);
  });

  test('[O5] not where another part with the number is still made', () => {
    const shared = quayBut({
      parts: { 'plate/cod-2': { numbers: ['P 100-9/1'] } },
      more: ({ parts }) => ({ parts: [...parts, later('plate/cod-1b', 'plate/cod-1', 'P 100-9/2')] as never }),
    });
    expect(kinds([number('P 100-9/1')], { atlas: shared })).toEqual([]);
  });
});

describe('[O5] a number against the bearing housing it is on', () => {
  const on = (observations: readonly Observation[], ...parts: string[]): PlateHolder[] => [
    {
      slot: asId('bearing-housing'),
      observations: observations.map(({ id }) => id),
      parts: parts.map((id) => partOf(`bearing-housing/${id}`)),
    },
  ];
  const against = (plate: Observation, seen: Observation[], atlas = quay, more: Observation[] = []) =>
    found([plate, ...more, ...seen], { atlas, holders: on(seen, 'far') }).flatMap(({ kind, observations }) =>
      kind === 'not this bearing housing' ? [observations] : [],
    );
  const cod = number('P 100-9/1');
  const seven = ribs(7);
  const small = chose('bearing-housing.hub', 'small');

  test('[O5] what tells is what no part of the number’s models would show; what they would is not held against it', () => {
    expect(against(cod, [small, seven])).toEqual([[cod.id, seven.id]]);
  });

  test('[O5] of two bearing housings of a model, what either would show does not tell', () => {
    const two = quayBut({
      models: {
        'cod-1': {
          allowed: [...modelOf('cod-1').allowed, { slot: asId('bearing-housing'), part: asId('bearing-housing/ling'), role: 'option' }],
        },
      },
    });
    expect(against(cod, [small, seven], two)).toEqual([[cod.id, seven.id]]);
    // Small as Cod's, five ribs as Ling's: neither tells alone, and so both are said.
    expect(against(cod, [small, ribs(5)], two)).toEqual([[cod.id, small.id, ribs(5).id]]);
  });

  test('[O3] of which the atlas is silent does not tell', () => {
    const { 'bearing-housing.ribs': _, ...facts } = partOf('bearing-housing/cod').facts as Record<string, never>;
    const silent = quayBut({ parts: { 'bearing-housing/cod': { facts } } });
    const cast = castName('OUTLAND');
    expect(against(cod, [cast, seven], silent)).toEqual([[cod.id, cast.id]]);
  });

  test('[O1] what was only told of it is no ground', () => {
    const told: Observation = { ...castName('OUTLAND'), sure: { kind: 'told' } };
    expect(against(cod, [seven], quay, [told])).toEqual([[cod.id, seven.id]]);
  });

  test('[O5] where the models list no bearing housing, all that was seen of this one is said', () => {
    const none = quayBut({
      models: { 'cod-1': { allowed: modelOf('cod-1').allowed.filter(({ slot }) => slot !== asId('bearing-housing')) } },
    });
    expect(against(cod, [small, seven], none)).toEqual([[cod.id, small.id, seven.id]]);
  });

  test('[O5] nothing is said of one that was not looked at, or is no listed one', () => {
    expect(kinds([cod], { holders: on([], 'far') })).toEqual([]);
    expect(kinds([cod, seven], { holders: on([seven]) })).toEqual([]);
  });
});

describe('[O5] a number against the time, and against the claim', () => {
  test('[O5] a model whose years nobody knows was built at any time', () => {
    expect(kinds([number('X-1'), year(1970)])).toEqual([]);
    expect(kinds([year(1970)], { claimed: 'Far 1' })).toEqual([]);
  });

  test('[O5] a model with years of its own, or with one of them, was not built through all its family’s', () => {
    const dated = (from: number | null, to: number | null) => quayBut({ models: { 'cod-1': { from, to } } });
    const told = (from: number | null, to: number | null, made: number) =>
      kinds([number('P 100-9/1'), year(made)], { atlas: dated(from, to) });
    const late = ['out of its time'];
    expect([told(1970, 1975, 1969), told(1970, 1975, 1970), told(1970, 1975, 1976)]).toEqual([late, [], late]);
    expect([told(1970, null, 1969), told(1970, null, 1990)]).toEqual([late, []]);
    expect([told(null, 1975, 1950), told(null, 1975, 1976)]).toEqual([[], late]);
    expect([told(null, null, 1959), told(null, null, 1985), told(null, null, 1986)]).toEqual([late, [], late]);
  });

  test('[O5] the claim is held against the time only where no number of a model has been', () => {
    const early = year(1950);
    expect(kinds([early, number('P 100-9/1')], { claimed: 'Cod 1' })).toEqual(['out of its time']);
    expect(found([early], { claimed: 'Cod 1' })).toMatchObject([
      { kind: 'out of its time', of: 'claim', observations: [early.id], models: ['cod-1'] },
    ]);
    // A plate that no model lists says of no model when it was built.
    const spare = quayBut({
      more: ({ parts }) => ({ parts: [...parts, { ...partOf('plate/cod-1'), id: asId('plate/spare'), numbers: ['P 900-1/1'] }] }),
    });
    expect(found([early, number('P 900-1/1')], { atlas: spare, claimed: 'Cod 1' })).toMatchObject([
      { kind: 'out of its time', of: 'claim' },
    ]);
  });
});

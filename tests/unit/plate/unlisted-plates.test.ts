import { describe, expect, test } from 'vitest';
import { answer, asId, type CompiledAtlas, compileAtlas, type Observation, type Sheet } from '../../../reasoner/index.ts';
import { unlistedNumber } from '../../../reasoner/plate/unlisted-number.ts';
import { chose, feature, letters, marked, sheetOf } from '../reasoner/little-atlas.ts';
import { lettered, makerOf, modelOf, partOf, plateless, quayBut } from './other-quays.ts';
import { castName, number, quay, serial, tradeName, year } from './quay-atlas.ts';

const unlisted = number('P 777-5/1');
const plate = (observations: readonly Observation[], atlas: CompiledAtlas = quay, rest: Partial<Sheet> = {}) => {
  const found = unlistedNumber(atlas, sheetOf(observations, rest));
  return found && { ...found, models: [...found.models] };
};
const makers = (...asked: Parameters<typeof plate>) => plate(...asked)?.makers ?? null;
const models = (...asked: Parameters<typeof plate>) => plate(...asked)?.models ?? null;

describe('[O5] a plate of a maker’s, number not listed', () => {
  test('[O5] whose it is, of which models it can be, and what says so', () => {
    expect(plate([unlisted, tradeName('Quayside')])).toEqual({
      observations: [unlisted.id],
      makers: ['quayside'],
      patterned: true,
      models: ['cod-1', 'cod-2', 'ling-1'],
    });
    expect(plate([number('ZZ 9')])).toMatchObject({ makers: ['outland'], patterned: false, models: ['far-1'] });
  });

  test('[O5] [O1] none where the number is blank, told, of another part, or there is no plate', () => {
    expect(plate([marked('plate.number', null), tradeName('Outland')])).toBeNull();
    expect(plate([{ ...unlisted, sure: { kind: 'told' } }])).toBeNull();
    expect(plate([unlisted], quay, { absent: [asId('plate')] })).toBeNull();
    expect(plate([unlisted], compileAtlas(plateless))).toBeNull();
    const numbered = quayBut({
      more: ({ features }) => ({
        features: features.map((each) => (each.id === asId('bearing-housing.cast-name') ? { ...each, says: 'part number' } : each)),
      }),
    });
    expect(plate([castName('P 777-5/1')], numbered)).toBeNull();
  });

  test('[O5] none where one of two numbers on it is listed', () => {
    expect(plate([unlisted, number('P 100-9/1')])).toBeNull();
  });

  test('[O5] a number that a plate is known to bear is listed, whatever part number that plate has', () => {
    const bears = (fact: object) =>
      quayBut({ parts: { 'plate/ling': { facts: { ...partOf('plate/ling').facts, 'plate.number': fact } as never } } });
    expect(plate([unlisted], bears(letters('P 300-7/1', 'P 777 5 1')))).toBeNull();
    expect(makers([unlisted], bears({ kind: 'not known' }))).toEqual(['quayside']);
    const { 'plate.number': _, ...facts } = partOf('plate/ling').facts as Record<string, never>;
    expect(makers([unlisted], quayBut({ parts: { 'plate/ling': { facts } } }))).toEqual(['quayside']);
  });
});

describe('[O5] whose it can be', () => {
  test('[O5] a serial number’s pattern makes no part numbers, and a part number’s no serial numbers', () => {
    expect(makers([number('S 1999 123')])).toEqual(['outland']);
    expect(makers([number('HB 4711'), serial('ZZZ')])).toEqual(['harbour']);
  });

  test('[O5] of a maker with two patterns, one that reads it is enough', () => {
    const two = quayBut({
      makers: { harbour: { numbering: [...(makerOf('harbour').numbering ?? []), lettered('part number', 'HC', 5)] } },
    });
    expect([makers([number('HB 4711')], two), makers([number('HC 47110')], two)]).toEqual([['harbour'], ['harbour']]);
  });

  const shared = quayBut({ makers: { outland: { tradeNames: [{ name: 'Quayside', from: 1980, to: null }] } } });
  test('[O5] of two that traded under its name, one that makes them so and one of whom nobody knows: either', () => {
    expect(plate([unlisted, tradeName('Quayside')], shared)).toMatchObject({ makers: ['quayside', 'outland'], patterned: true });
    expect(plate([unlisted, tradeName('Quayside'), serial('no such serial')], shared)).toMatchObject({
      makers: ['outland'],
      patterned: false,
    });
  });

  test('[O5] a maker known by its name alone traded under it at any time', () => {
    const named = quayBut({ makers: { harbour: { tradeNames: [{ name: 'Harbour & Sons', from: 1950, to: 1960 }] } } });
    expect(makers([number('HB 4711'), tradeName('Harbour'), year(1985)], named)).toEqual(['harbour']);
    expect(makers([number('HB 4711'), tradeName('Harbour & Sons'), year(1985)], named)).toBeNull();
  });

  test('[O5] no year in common to all that is on it: nobody’s', () => {
    expect(makers([unlisted, year(1999), tradeName('Quay Air'), serial('S 1999 123')])).toBeNull();
  });
});

describe('[O5] what else was seen of it', () => {
  test('[O5] must be so on some plate of the same maker, not of another', () => {
    expect(makers([unlisted, chose('plate.holes', 'four')])).toEqual(['quayside']);
    expect(makers([unlisted, chose('plate.holes', 'three')])).toBeNull();
  });

  test('[O5] letters that are no number, name or year count too', () => {
    const inspected = quayBut({
      parts: { 'plate/ling': { facts: { ...partOf('plate/ling').facts, 'plate.inspector': letters('J') } as never } },
      more: ({ features, parts }) => ({
        features: [...features, feature('plate.inspector', 'mark')],
        parts: parts.map((part) =>
          String(part.id).startsWith('plate/cod') ? { ...part, facts: { ...part.facts, 'plate.inspector': letters('K') } as never } : part,
        ),
      }),
    });
    expect(models([unlisted, marked('plate.inspector', 'J')], inspected)).toEqual(['ling-1']);
    expect(models([unlisted, marked('plate.inspector', 'Q')], inspected)).toBeNull();
    // Of the other makers' plates nothing is known of an inspector: such a plate may bear any letters.
    expect(models([number('HB 4711'), marked('plate.inspector', 'Q')], inspected)).toEqual(['mole-1']);
  });

  test('[O5] a maker of whom no plate is listed is held to none', () => {
    const none = quayBut({
      models: { 'far-1': { allowed: modelOf('far-1').allowed.filter(({ slot }) => slot !== asId('plate')) } },
      more: ({ parts }) => ({ parts: parts.filter(({ id }) => id !== asId('plate/far')) }),
    });
    expect(makers([number('ZZ 9'), chose('plate.fixing', 'glue')], none)).toEqual(['outland']);
    expect(makers([number('ZZ 9'), chose('plate.fixing', 'glue')])).toBeNull();
  });
});

describe('[O5] of which models it can be', () => {
  test('[O5] a number that differs in more than its issue is of no one model', () => {
    // 010 asks for 7 as 300 does, so that only the running number differs from Ling's.
    expect(models([number('P 010-7/1')])).toEqual(['cod-1', 'cod-2', 'ling-1']);
    expect(models([number('P 300-7/2')])).toEqual(['ling-1']);
  });

  test('[O5] a plate’s other numbers count as its first; one that is not made so says nothing', () => {
    const second = (numbers: string[]) => quayBut({ parts: { 'plate/ling': { numbers } } });
    expect(models([number('P 300-7/2')], second(['ZZ 1', 'P 300-7/1']))).toEqual(['ling-1']);
    expect(models([number('P 777-5/1')], second(['ZZ 1']))).toEqual(['cod-1', 'cod-2', 'ling-1']);
  });

  test('[O5] a model of the maker’s that lists no plate can bear it', () => {
    const later = quayBut({
      more: ({ models: all }) => ({
        models: all.map((model) =>
          model.id === asId('cod-2') ? { ...model, allowed: model.allowed.filter(({ slot }) => slot !== asId('plate')) } : model,
        ),
      }),
    });
    expect(models([number('P 777-5/1')], later)).toEqual(['cod-1', 'cod-2', 'ling-1']);
    expect(models([number('P 100-9/2')], later)).toEqual(['cod-1']);
  });

  test('[O5] a model with years of its own, or one of them, is not of all its family’s', () => {
    const dated = (from: number | null, to: number | null) => quayBut({ models: { 'cod-1': { from, to } } });
    const of = (made: number, from: number | null, to: number | null) => models([unlisted, year(made)], dated(from, to));
    expect([of(1970, 1971, null), of(1990, 1971, null)]).toEqual([['cod-2'], ['cod-1', 'ling-1']]);
    expect([of(1970, null, 1969), of(1955, null, 1969)]).toEqual([['cod-2'], ['cod-1']]);
  });
});

describe('[O1] [O5] what is told of such a plate', () => {
  test('[O1] [O5] is not known, whatever listed plates are like', () => {
    const told: Observation = { ...chose('plate.fixing', 'glue'), id: asId('told'), sure: { kind: 'told' } };
    const truthOn = (...observations: readonly Observation[]) => {
      const verdict = answer(quay, sheetOf([...observations, told]));
      if (verdict.kind !== 'verdict') throw new Error('contradictory');
      return verdict.findings.flatMap((finding) =>
        finding.kind === 'told claim'
          ? [finding.truth]
          : finding.kind === 'not confirmed'
            ? finding.observations.map(() => 'not known')
            : [],
      );
    };
    expect(truthOn(unlisted)).toEqual(['not known']);
    expect(truthOn(number('P 100-9/1'))).toEqual(['fails']);
  });
});

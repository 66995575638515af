import { beforeAll, describe, expect, it } from 'vitest';
import { Counter, nameOf, namesOf } from './counter.ts';

/* Every fact here is common practice, no source; told with the demo world's families. */

let counter: Counter;
beforeAll(async () => {
  counter = await Counter.open();
});

const expectRuledOut = (verdict: ReturnType<Counter['verdict']>, models: readonly string[]): void => {
  const names = namesOf(verdict, models);
  expect(names.length).toBeGreaterThan(0);
  for (const { name, status } of names) expect([name.text, status]).toEqual([name.text, 'ruled out']);
};

describe('blade counts (common practice, no source)', () => {
  it('[N1] [N2] (f) six full and six splitter blades where the copy has seven and seven', () => {
    const seven = counter.verdict(counter.unit({ 'compressor-wheel-full-blades': 7, 'compressor-wheel-splitter-blades': 7 }));
    expectRuledOut(seven, counter.models('petrel'));
    expect(nameOf(seven, 'pattern core', 'northquay-13').status).toBe('open');
    const six = counter.verdict(counter.unit({ 'compressor-wheel-full-blades': 6, 'compressor-wheel-splitter-blades': 6 }));
    expectRuledOut(six, counter.models('northquay'));
    expect(nameOf(six, 'model', 'petrel-13-cartridge').status).toBe('open');
  });

  it('[N1] [N2] (f) ten turbine blades with a strong cutback where the copy has eleven', () => {
    const eleven = counter.verdict(counter.unit({ 'turbine-wheel-blades': 11 }));
    expectRuledOut(eleven, counter.models('petrel'));
    expect(nameOf(eleven, 'pattern core', 'northquay-13').status).toBe('open');
    const ten = counter.verdict(counter.unit({ 'turbine-wheel-blades': 10, 'turbine-wheel-cutback': 'strong' }));
    expectRuledOut(ten, counter.models('northquay'));
    expect(nameOf(ten, 'model', 'petrel-13-cartridge').status).toBe('open');
  });

  it('[N1] (f) the older family has ten blades too, with about half the cutback: the cutback tells them apart, the count does not', () => {
    const byCount = counter.verdict(counter.unit({ 'turbine-wheel-blades': 10 }));
    for (const model of ['gannet-12', 'petrel-13-cartridge']) expect(nameOf(byCount, 'model', model).status).toBe('open');
    const half = counter.verdict(counter.unit({ 'turbine-wheel-blades': 10, 'turbine-wheel-cutback': 'half' }));
    expect(nameOf(half, 'model', 'gannet-12').status).toBe('open');
    expectRuledOut(half, counter.models('petrel'));
    const strong = counter.verdict(counter.unit({ 'turbine-wheel-blades': 10, 'turbine-wheel-cutback': 'strong' }));
    expectRuledOut(strong, counter.models('gannet'));
  });

  it('[N1] (f) successive generations of one family’s wheel have eleven blades, then ten', () => {
    const generationOf = new Map(counter.atlas.models.map((model) => [model.id, model.generation]));
    const skuas = counter.models('skua');
    const left = (blades: number): Set<string> => {
      const verdict = counter.verdict(
        counter.unit({ 'turbine-wheel-blades': blades, 'turbine-wheel-cutback': blades === 11 ? 'strong' : 'half' }),
      );
      const models = verdict.names
        .filter(({ name, status }) => name.rung === 'model' && status === 'open')
        .flatMap(({ name }) => name.models);
      return new Set(models.filter((model) => skuas.includes(model)).map((model) => String(generationOf.get(model))));
    };
    const first = left(11);
    expect(first.size).toBe(1);
    const blades = (model: string): Set<number> => {
      const heads = counter.atlas.models
        .find(({ id }) => id === model)
        ?.allowed.filter(({ slot, role }) => slot === 'turbine-wheel' && role !== 'service');
      return new Set(
        (heads ?? []).map(({ part }) => {
          const fact = Object.entries(counter.atlas.parts.find(({ id }) => id === part)?.facts ?? {}).find(
            ([id]) => id === 'turbine-wheel-blades',
          )?.[1];
          return fact?.kind === 'count' ? fact.from : 0;
        }),
      );
    };
    for (const model of skuas)
      expect([model, [...blades(model)]]).toEqual([model, [first.has(String(generationOf.get(model as never))) ? 11 : 10]]);
  });
});

describe('how the head is joined to the shaft (common practice, no source)', () => {
  it('[N1] (g) a friction weld rules out every model of the maker; an electron-beam weld rules out its copies', () => {
    const makers = ['petrel', 'skua', 'gannet'];
    const copies = ['northquay', 'breakwater', 'ferrygate'];
    const friction = counter.verdict(counter.unit({ 'turbine-wheel-weld': 'friction' }));
    expectRuledOut(friction, counter.models(...makers));
    for (const model of counter.models(...copies)) expect([model, nameOf(friction, 'pattern core', model).status]).toEqual([model, 'open']);
    const beam = counter.verdict(counter.unit({ 'turbine-wheel-weld': 'electron-beam' }));
    expectRuledOut(beam, counter.models(...copies));
    for (const model of counter.models(...makers)) expect([model, nameOf(beam, 'model', model).status]).toEqual([model, 'open']);
  });
});

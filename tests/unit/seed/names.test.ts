import { describe, expect, test } from 'vitest';
import { type MakerId, readName } from '../../../reasoner/index.ts';
import { demo, demoAtlas } from './demo-atlas.ts';

const made = demoAtlas.models.flatMap((model) => {
  const maker = demoAtlas.families.find((family) => family.id === model.family)?.maker ?? null;
  return maker === null ? [] : [{ model, maker }];
});
const read = (text: string, maker: string) => readName(demo, text, maker as MakerId);

describe('[A4] names of the demo world', () => {
  test.each(demoAtlas.makers.map((maker) => [maker.name, maker.id] as const))(
    '[A4] %s: its grammar reads every name it made',
    (_name, maker) => {
      for (const { model } of made.filter((each) => each.maker === maker)) {
        const reading = read(model.name, maker);
        expect([reading.verdict, reading.model, reading.faults], model.name).toEqual(['a model of the atlas', model.id, []]);
      }
    },
  );

  test('[A4] no two models of a maker have one name', () => {
    const names = made.map(({ model, maker }) => `${maker} ${model.name}`);
    expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([]);
  });

  test('[N6] Petrel 13 without its word is no name', () => {
    const reading = read('Petrel 13', 'merrowby');
    expect(reading.verdict).toBe('no name of this maker');
    expect(reading.faults.join(' ')).toContain('cartridge');
  });

  test('[N6] Tern 4 Cartridge is a name nobody ever made', () => {
    expect(read('Tern 4 Cartridge', 'merrowby').verdict).toBe('no name of this maker');
  });

  test('[N6] well formed and still never made: Skua 16 Cartridge, Rowan II-16, Tuff-QD, Yawl 200 port', () => {
    for (const [name, maker] of [
      ['Skua 16 Cartridge', 'merrowby'],
      ['Rowan II-16', 'tarnwick'],
      ['Tuff-QD', 'veldmark'],
      ['Yawl 200 port', 'osterhal'],
    ] as const) {
      expect(read(name, maker).verdict, name).toBe('well formed, not in the atlas');
    }
  });

  test('[A4] what a name promises is true of the parts that make it: exducer, A/R and size step', () => {
    const nominal = (model: (typeof made)[number]['model'], slot: string, feature: string): number => {
      const [seat] = model.allowed.filter((each) => each.slot === slot && each.role === 'names');
      const fact = Object.entries(demo.parts.get(seat?.part ?? ('' as never))?.facts ?? {}).find(([id]) => id === feature)?.[1];
      return fact?.kind === 'measure' ? fact.nominal : fact?.kind === 'count' ? fact.from : Number.NaN;
    };
    const promise = demoAtlas.makers
      .flatMap(({ grammar }) => grammar?.tokens ?? [])
      .flatMap(({ promises }) => promises)
      .find(({ feature }) => feature === 'compressor-wheel-exducer');
    const bySize = promise?.kind === 'measure' ? promise.of : {};
    const steps = ['I', 'II', 'III', 'IV', 'V', 'VI', 'VII'];
    for (const { model, maker } of made) {
      const words = model.name.split(/[ -]/);
      if (maker === 'merrowby') {
        const exducer = nominal(model, 'compressor-wheel', 'compressor-wheel-exducer');
        expect(Math.abs(exducer - (bySize[words[1] ?? ''] ?? Number.NaN)), model.name).toBeLessThanOrEqual(0.5);
      }
      if (maker === 'tarnwick') {
        expect(nominal(model, 'bearing-housing', 'bearing-housing-ribs'), model.name).toBe(steps.indexOf(words[1] ?? '') + 1);
        expect(nominal(model, 'turbine-housing', 'turbine-housing-area-ratio'), model.name).toBe(Number(words[2]));
      }
    }
  });
});

import { describe, expect, test } from 'vitest';
import { asId, type Feature, type FeatureId, type Observation } from '../../../reasoner/index.ts';
import { draftOf, type Entry, entryOf, instrumentsFor, observationOf } from '../../../renderer/sheet/draft.ts';
import { demoAtlas, demoPack } from '../seed/demo-atlas.ts';

const feature = (id: string): Feature => demoAtlas.features.find((one) => one.id === asId<FeatureId>(id)) as Feature;
const exducer = feature('compressor-wheel-exducer');
const bore = feature('compressor-wheel-bore');
const cutback = feature('turbine-wheel-cutback-angle');
const { instruments } = demoPack;
const place = { id: asId<Observation['id']>('o1'), slot: exducer.slot, feature: exducer.id };

describe('an entry as it is typed', () => {
  test('[O2] a measure starts with the instrument the atlas names, and that instrument’s uncertainty in the unit shown', () => {
    expect(draftOf(exducer, null, 'mm', instruments)).toMatchObject({ instrument: 'caliper', within: '0.058' });
    expect(draftOf(bore, null, 'inch', instruments)).toMatchObject({ instrument: 'bore gauge', within: '0.000228' });
    expect(draftOf(exducer, null, 'mm', [])).toMatchObject({ instrument: '', within: '0.058' });
  });

  test('[A6] lengths are offered instruments for lengths, angles those for angles, and nothing else any', () => {
    expect(instrumentsFor(cutback, instruments).map(({ name }) => name)).toEqual(['vernier protractor', 'by eye, angle']);
    expect(instrumentsFor(exducer, instruments).map(({ name }) => name)).toContain('steel rule');
    expect(instrumentsFor(feature('turbine-wheel-blades'), instruments)).toEqual([]);
  });

  test('[O1] the instrument goes on the record with a measure, never with what is told; kept in mm whatever was typed', () => {
    const draft = { ...draftOf(exducer, null, 'mm', instruments), text: '2 1/4 in', instrument: 'steel rule', within: '0.58' };
    const read = entryOf(exducer, draft, 'mm');
    expect(read.ok && observationOf(place, read.value)).toEqual({
      ...place,
      value: { kind: 'measure', value: 57.15 },
      sure: { kind: 'measured', u: 0.29 },
      instrument: 'steel rule',
    });
    const told = entryOf(exducer, { ...draft, told: true }, 'mm');
    expect(told.ok && observationOf(place, told.value)).toEqual({
      ...place,
      value: { kind: 'measure', value: 57.15 },
      sure: { kind: 'told' },
    });
  });

  test('[O1] an entry opened again and taken as it stands is the same entry', () => {
    for (const unit of ['mm', 'inch'] as const) {
      const before: Observation = {
        ...place,
        value: { kind: 'measure', value: 57.15 },
        sure: { kind: 'measured', u: 0.29 },
        instrument: 'steel rule',
        note: 'worn rim',
      };
      const read = entryOf(exducer, draftOf(exducer, before, unit, instruments), unit);
      const again = observationOf(place, (read as { value: Entry }).value);
      expect(again).toMatchObject({ instrument: 'steel rule', note: 'worn rim' });
      expect(again.value.kind === 'measure' && again.value.value).toBeCloseTo(57.15, 4);
      expect(again.sure.kind === 'measured' && again.sure.u).toBeCloseTo(0.29, 4);
    }
  });
});

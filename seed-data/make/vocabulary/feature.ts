import type { Feature } from '../../../reasoner/index.ts';
import type { Plain } from '../pack/draft.ts';

type FeatureDraft = Plain<Feature>;

/** When a feature can be seen, and in how many minutes once there. */
type When = readonly [stage: string, minutes: number];
interface Gauge {
  readonly instrument: string;
  readonly resolution: number;
}

export const caliper: Gauge = { instrument: 'caliper', resolution: 0.05 };
export const micrometer: Gauge = { instrument: 'outside micrometer', resolution: 0.005 };
export const boreGauge: Gauge = { instrument: 'bore gauge', resolution: 0.005 };
export const depthGauge: Gauge = { instrument: 'depth gauge', resolution: 0.02 };
export const protractor: Gauge = { instrument: 'vernier protractor', resolution: 0.5 };
export const templates: Gauge = { instrument: 'section templates', resolution: 0.5 };
export const ultrasonic: Gauge = { instrument: 'ultrasonic thickness gauge', resolution: 0.1 };
export const throughTheInlet: Gauge = { instrument: 'caliper through the inlet', resolution: 0.1 };

export type Option = readonly [id: string, name: string];

export const bolts: readonly Option[] = [
  ['none', 'no bolts'],
  ['m5', 'M5'],
  ['m6', 'M6'],
  ['m7', 'M7'],
  ['m8', 'M8'],
  ['m10', 'M10'],
];
export const joinings: readonly Option[] = [
  ['bolted', 'bolted through the rim'],
  ['v-band', 'V-band clamp'],
];
export const clampProfiles: readonly Option[] = [
  ['none', 'no clamp rim'],
  ['shallow-38', 'shallow rim, 38° flanks'],
  ['deep-38', 'deep rim, 38° flanks'],
  ['deep-44', 'deep rim, 44° flanks'],
];
export const rotations: readonly Option[] = [
  ['anticlockwise', 'anticlockwise, seen from the compressor end'],
  ['clockwise', 'clockwise, seen from the compressor end'],
];
export const hands: readonly Option[] = [
  ['right', 'right-hand'],
  ['left', 'left-hand'],
];
/** Ids of metals (shop.ts), by what a casting or forging may be of. */
export const compressorMetals: readonly Option[] = [
  ['cast-aluminium', 'cast aluminium'],
  ['grey-iron', 'grey cast iron'],
];
export const compressorWheelMetals: readonly Option[] = [
  ['cast-aluminium', 'cast aluminium'],
  ['wrought-aluminium', 'wrought aluminium'],
];
export const turbineHousingMetals: readonly Option[] = [
  ['grey-iron', 'grey cast iron'],
  ['austenitic-iron', 'austenitic ductile iron'],
];
export const turbineWheelMetals: readonly Option[] = [['cast-nickel', 'cast nickel alloy']];
export const threads: readonly Option[] = [
  ['m4.5x0.5', 'M4.5×0.5'],
  ['m5x0.5', 'M5×0.5'],
  ['m6x0.75', 'M6×0.75'],
  ['m7x0.75', 'M7×0.75'],
  ['m9x1', 'M9×1'],
  ['m11x1', 'M11×1'],
  ['m14x1.5', 'M14×1.5'],
];
export const bearingKinds: readonly Option[] = [
  ['journal', 'journal set'],
  ['cartridge', 'ball-bearing cartridge'],
];
export const entries: readonly Option[] = [
  ['single', 'single entry'],
  ['twin', 'twin entry'],
];

/** The features of one slot; ids are `<slot>-<short>`. Fields stand in the order the pack format writes them. */
export const featuresOf = (slot: string) => {
  const feature = (
    kind: Feature['kind'],
    [short, name]: readonly [string, string],
    [stage, minutes]: When,
    port: string | undefined,
    said: Pick<FeatureDraft, 'unit' | 'options' | 'says'> = {},
    gauged: Pick<FeatureDraft, 'instrument' | 'resolution' | 'wear'> = {},
  ): FeatureDraft => ({
    id: `${slot}-${short}`,
    slot,
    name,
    kind,
    ...said,
    stage,
    minutes,
    ...gauged,
    ...(port === undefined ? {} : { port: `${slot}-to-${port}` }),
  });
  return {
    count: (short: string, name: string, unit: string, when: When, port?: string) => feature('count', [short, name], when, port, { unit }),
    /** `wear`: how far a used part may lie below and above its limits. */
    measure: (short: string, name: string, when: When, gauge: Gauge, [below, above]: readonly [number, number], port?: string) =>
      feature('measure', [short, name], when, port, { unit: gauge === protractor ? 'deg' : 'mm' }, { ...gauge, wear: { below, above } }),
    choice: (short: string, name: string, options: readonly Option[], when: When, port?: string) =>
      feature('choice', [short, name], when, port, { options: options.map(([id, optionName]) => ({ id, name: optionName })) }),
    /** `remark`: what to say when it is seen so, where that tells of work or condition and not of origin. */
    presence: (short: string, name: string, when: When, port?: string, remark?: { readonly seen: boolean; readonly sentence: string }) => ({
      ...feature('presence', [short, name], when, port),
      ...(remark === undefined
        ? {}
        : { remarks: [{ value: { kind: 'presence', present: remark.seen } as const, sentence: remark.sentence, source: 'trade-habit' }] }),
    }),
    /** `says`: what the letters say of the unit, where they stand on its plate. */
    mark: (short: string, name: string, when: When, says?: NonNullable<FeatureDraft['says']>) =>
      feature('mark', [short, name], when, undefined, says === undefined ? {} : { says }),
    year: (short: string, name: string, when: When) =>
      feature('count', [short, name], when, undefined, { unit: 'year', says: 'year of make' }),
  };
};

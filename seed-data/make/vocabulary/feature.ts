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

/** The features of one slot; ids are `<slot>-<short>`. */
export const featuresOf = (slot: string) => {
  const base = (short: string, name: string, when: When, port?: string) => ({
    id: `${slot}-${short}`,
    slot,
    name,
    stage: when[0],
    minutes: when[1],
    ...(port === undefined ? {} : { port: `${slot}-to-${port}` }),
  });
  return {
    count: (short: string, name: string, unit: string, when: When, port?: string): FeatureDraft => ({
      ...base(short, name, when, port),
      kind: 'count',
      unit,
    }),
    /** `wear`: how far a used part may lie below and above its limits. */
    measure: (short: string, name: string, when: When, gauge: Gauge, wear: readonly [number, number], port?: string): FeatureDraft => ({
      ...base(short, name, when, port),
      kind: 'measure',
      unit: gauge === protractor ? 'deg' : 'mm',
      ...gauge,
      wear: { below: wear[0], above: wear[1] },
    }),
    choice: (short: string, name: string, options: readonly Option[], when: When, port?: string): FeatureDraft => ({
      ...base(short, name, when, port),
      kind: 'choice',
      options: options.map(([id, optionName]) => ({ id, name: optionName })),
    }),
    presence: (short: string, name: string, when: When, port?: string): FeatureDraft => ({
      ...base(short, name, when, port),
      kind: 'presence',
    }),
    mark: (short: string, name: string, when: When): FeatureDraft => ({ ...base(short, name, when), kind: 'mark' }),
  };
};

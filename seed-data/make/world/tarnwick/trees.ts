import { tenth } from '../../pack/facts.ts';
import type { Years } from '../../pack/years.ts';
import type { CompressorWheelDrawing } from '../../parts/compressor-end.ts';
import { bolted, type CorePattern } from '../../parts/core-pattern.ts';
import type { Face } from '../../parts/rim.ts';
import { compressorSize, turbineSize, type WheelSize } from '../../parts/sizes.ts';
import type { TurbineHousingDrawing, TurbineWheelDrawing } from '../../parts/turbine-end.ts';
import { merrowbyFaces } from '../merrowby/core-patterns.ts';
import { compressorHousingOf, wheelSizeOf } from '../merrowby/family.ts';
import { gannetCompressor, ternCompressor } from '../merrowby/journal-birds.ts';

const alderCore: CorePattern = {
  kind: 'journal',
  water: false,
  backplate: { pilot: 67.2, screws: 4, circle: 57.4, screw: 'm5' },
  bearing: { bore: 14.28, running: 8.43, length: 32.7 },
  stub: { diameter: 5.37, length: 28.2, thread: 'm5x0.5', hand: 'right' },
  flinger: 15.92,
  sealBoss: 17.24,
  weld: { pattern: 'cone', spigot: 11.61 },
  shield: { seat: 54.3, hub: 18.9 },
  turbineFace: { pilot: 59.6, rim: bolted(5, 72.3, 'm7') },
  plate: { holes: 4, spacing: 33.7, rivet: '2.5' },
};
const rowanCore: CorePattern = {
  kind: 'journal',
  water: false,
  backplate: { pilot: 74.3, screws: 4, circle: 64.6, screw: 'm6' },
  bearing: { bore: 16.87, running: 10.46, length: 38.9 },
  stub: { diameter: 7.14, length: 33.6, thread: 'm7x0.75', hand: 'right' },
  flinger: 18.53,
  sealBoss: 19.83,
  weld: { pattern: 'cone', spigot: 13.27 },
  shield: { seat: 61.8, hub: 21.8 },
  turbineFace: { pilot: 67.4, rim: bolted(5, 81.7, 'm8') },
  plate: { holes: 4, spacing: 33.7, rivet: '2.5' },
};
const hornbeamCore: CorePattern = {
  kind: 'journal',
  water: true,
  backplate: { pilot: 88.7, screws: 6, circle: 77.9, screw: 'm6' },
  bearing: { bore: 20.36, running: 12.78, length: 47.3 },
  stub: { diameter: 9.23, length: 41.8, thread: 'm9x1', hand: 'right' },
  flinger: 22.87,
  sealBoss: 24.41,
  weld: { pattern: 'long-step', spigot: 16.38 },
  shield: { seat: 76.2, hub: 26.9 },
  turbineFace: { pilot: 83.7, rim: bolted(7, 99.4, 'm8') },
  plate: { holes: 4, spacing: 38.9, rivet: '3' },
};

/** What hangs on one size step of a tree. */
export interface Step {
  readonly step: number;
  readonly face: Face;
  readonly compressor: WheelSize;
  readonly turbine: WheelSize;
  /** The A/Rs it was named by. */
  readonly areaRatios: readonly number[];
  /** Outside diameters of inlet and outlet where they follow somebody else's, mm. */
  readonly mouths?: { readonly inlet: number; readonly outlet: number };
}

export interface Tree {
  readonly name: string;
  readonly years: Years;
  readonly core: CorePattern;
  readonly about: string;
  readonly descendsFrom: readonly string[];
  readonly compressor: Pick<CompressorWheelDrawing, 'fullBlades' | 'splitters' | 'nose' | 'back'>;
  readonly outletForm: 'bead' | 'flange' | 'groove';
  readonly turbine: Pick<TurbineWheelDrawing, 'blades' | 'cutback' | 'hubShape' | 'back'>;
  readonly flange: TurbineHousingDrawing['flange'];
  readonly ribPattern: 'straight' | 'fan' | 'ring' | 'smooth';
  readonly oilFeed: string;
  readonly bushes: number;
  readonly steps: readonly Step[];
}

const shifted = (size: WheelSize, inducer: number, exducer: number, tipHeight: number): WheelSize => ({
  inducer: tenth(size.inducer + inducer),
  exducer: Math.round((size.exducer + exducer) * 100) / 100,
  tipHeight: Math.round((size.tipHeight + tipHeight) * 100) / 100,
});

const tern7 = wheelSizeOf('Tern', 49, ternCompressor);
const tern10 = wheelSizeOf('Tern', 53, ternCompressor);
const gannet12 = wheelSizeOf('Gannet', 56, gannetCompressor);

/** The mouths of a Merrowby housing, which Rowan III was cast to match. */
const mouthsOf = (facts: ReturnType<typeof compressorHousingOf>['facts']) => {
  const nominal = (short: string): number => {
    const fact = facts[`compressor-housing-${short}`];
    if (fact?.kind !== 'measure') throw new Error(`no ${short} to match`);
    return fact.nominal;
  };
  return { inlet: nominal('inlet'), outlet: nominal('outlet') };
};

const alder: Tree = {
  name: 'Alder',
  years: { from: 1962, to: 1987 },
  core: alderCore,
  about: 'The small tree: ten full blades and no splitters, twelve turbine blades, ribs counted by the size step.',
  descendsFrom: [],
  compressor: { fullBlades: 10, splitters: 0, nose: 'hex', back: 'full' },
  outletForm: 'bead',
  turbine: { blades: 12, cutback: { look: 'none', degrees: 0 }, hubShape: 'twin-flat', back: 'full' },
  flange: 'wedge',
  ribPattern: 'fan',
  oilFeed: 'm10x1',
  bushes: 2,
  steps: [
    {
      step: 1,
      face: { pilot: 79.8, rim: bolted(5, 90.2, 'm5') },
      compressor: compressorSize(39.6, 46, 0.068),
      turbine: turbineSize(37.9, 69, 0.149),
      areaRatios: [12],
    },
    {
      step: 2,
      face: { pilot: 79.8, rim: bolted(5, 90.2, 'm5') },
      compressor: compressorSize(43.3, 48, 0.066),
      turbine: turbineSize(41.7, 70, 0.148),
      areaRatios: [12, 14],
    },
    // Bolts on like a middling Merrowby, but recess and contour are tighter by more than any pair would forgive: on a Tern 7 it goes only after machining.
    {
      step: 3,
      face: { ...merrowbyFaces.middle, pilot: 96.06 },
      compressor: shifted(tern7, -0.7, -0.74, -0.06),
      turbine: turbineSize(45.3, 71, 0.147),
      areaRatios: [14, 16],
    },
  ],
};

const rowan: Tree = {
  name: 'Rowan',
  years: { from: 1983, to: 2014 },
  core: rowanCore,
  about: 'Seven full and seven splitter blades under a housing that drops onto some Merrowby cores; eleven turbine blades.',
  descendsFrom: ['alder'],
  compressor: { fullBlades: 7, splitters: 7, nose: 'collar', back: 'full' },
  outletForm: 'bead',
  turbine: { blades: 11, cutback: { look: 'half', degrees: 8.5 }, hubShape: 'round', back: 'scalloped' },
  flange: 'oblong',
  ribPattern: 'straight',
  oilFeed: 'm12x1.5',
  bushes: 1,
  steps: [
    // From outside a Tern 10's twin: same bolts, same mouths. Inside, the contour is for a wheel 1.7 mm smaller.
    {
      step: 3,
      face: merrowbyFaces.middle,
      compressor: shifted(tern10, -1.3, -1.7, -0.3),
      turbine: turbineSize(46.8, 74, 0.142),
      areaRatios: [16],
      mouths: mouthsOf(compressorHousingOf('Tern', 53, ternCompressor, { from: 1971, to: 1997 }, false).facts),
    },
    // Drops onto a Gannet 12 core as it comes.
    {
      step: 4,
      face: merrowbyFaces.middle,
      compressor: shifted(gannet12, -0.1, 0.1, 0.03),
      turbine: turbineSize(52.2, 75, 0.141),
      areaRatios: [16, 18, 21],
    },
    {
      step: 5,
      face: { pilot: 109.4, rim: bolted(6, 122.6, 'm6') },
      compressor: compressorSize(61.7, 53, 0.062),
      turbine: turbineSize(57.6, 76, 0.14),
      areaRatios: [21],
    },
  ],
};

const hornbeam: Tree = {
  name: 'Hornbeam',
  years: { from: 1991, to: null },
  core: hornbeamCore,
  about: 'The large tree: eight and eight blades, thirteen turbine blades, and a water jacket round plain journals.',
  descendsFrom: ['rowan'],
  compressor: { fullBlades: 8, splitters: 8, nose: 'collar', back: 'full' },
  outletForm: 'flange',
  turbine: { blades: 13, cutback: { look: 'none', degrees: 0 }, hubShape: 'round', back: 'scalloped' },
  flange: 'square',
  ribPattern: 'fan',
  oilFeed: 'm16x1.5',
  bushes: 2,
  steps: [
    {
      step: 5,
      face: { pilot: 118.3, rim: bolted(8, 132.7, 'm8') },
      compressor: compressorSize(63.4, 55, 0.061),
      turbine: turbineSize(60.3, 77, 0.138),
      areaRatios: [22],
    },
    {
      step: 6,
      face: { pilot: 118.3, rim: bolted(8, 132.7, 'm8') },
      compressor: compressorSize(69.7, 56, 0.06),
      turbine: turbineSize(66.1, 78, 0.136),
      areaRatios: [22, 26],
    },
    {
      step: 7,
      face: { pilot: 131.6, rim: bolted(8, 146.9, 'm8') },
      compressor: compressorSize(77.2, 57, 0.059),
      turbine: turbineSize(72.4, 79, 0.135),
      areaRatios: [26, 31],
    },
  ],
};

export const trees: readonly Tree[] = [alder, rowan, hornbeam];

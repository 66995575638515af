import type { Years } from '../../pack/years.ts';
import type { CompressorWheelDrawing } from '../../parts/compressor-end.ts';
import { bolted, type CorePattern } from '../../parts/core-pattern.ts';
import type { Face } from '../../parts/rim.ts';
import { compressorSize, turbineSize, type WheelSize } from '../../parts/sizes.ts';

/** A core but for the hand of its stub, which follows the direction of rotation. */
export type UnhandedCore = Omit<CorePattern, 'stub'> & { readonly stub: Omit<CorePattern['stub'], 'hand'> };

const ketchCore: UnhandedCore = {
  kind: 'journal',
  water: false,
  backplate: { pilot: 104.8, screws: 8, circle: 92.7, screw: 'm6' },
  bearing: { bore: 23.42, running: 14.67, length: 56.8 },
  stub: { diameter: 11.38, length: 49.3, thread: 'm11x1' },
  flinger: 26.71,
  sealBoss: 28.36,
  weld: { pattern: 'cone', spigot: 19.43 },
  shield: { seat: 89.7, hub: 31.8 },
  turbineFace: { pilot: 98.4, rim: bolted(8, 117.3, 'm8') },
  plate: { holes: 4, spacing: 61.7, rivet: 'screws' },
};
const yawlCore: UnhandedCore = {
  ...ketchCore,
  backplate: { pilot: 112.3, screws: 8, circle: 99.6, screw: 'm6' },
  bearing: { bore: 25.87, running: 16.23, length: 61.4 },
  stub: { diameter: 11.38, length: 53.6, thread: 'm11x1' },
  flinger: 28.94,
  sealBoss: 30.72,
  weld: { pattern: 'cone', spigot: 20.86 },
  shield: { seat: 95.4, hub: 33.9 },
  turbineFace: { pilot: 104.7, rim: bolted(10, 124.8, 'm8') },
};
const luggerCore: UnhandedCore = {
  ...ketchCore,
  water: true,
  backplate: { pilot: 121.6, screws: 10, circle: 108.2, screw: 'm8' },
  bearing: { bore: 29.34, running: 18.57, length: 68.2 },
  stub: { diameter: 14.43, length: 59.7, thread: 'm14x1.5' },
  flinger: 32.48,
  sealBoss: 34.37,
  weld: { pattern: 'long-step', spigot: 23.61 },
  shield: { seat: 103.8, hub: 37.2 },
  turbineFace: { pilot: 113.9, rim: bolted(10, 136.4, 'm10') },
};

export interface Rating {
  readonly power: number;
  readonly hands: readonly ('port' | 'starboard')[];
  readonly generation: string | null;
  readonly years: Years;
  readonly entry: 'single' | 'twin';
  readonly compressor: WheelSize;
  readonly turbine: WheelSize;
  readonly areaRatios: readonly [number, number];
}

export interface Rig {
  readonly name: string;
  readonly years: Years;
  readonly about: string;
  readonly descendsFrom: readonly string[];
  readonly core: UnhandedCore;
  readonly face: Face;
  readonly compressor: Pick<CompressorWheelDrawing, 'fullBlades' | 'splitters' | 'look' | 'nose' | 'back'>;
  readonly turbineBlades: number;
  readonly generations: readonly { readonly id: string; readonly name: string; readonly years: Years; readonly succeeds: string | null }[];
  readonly ratings: readonly Rating[];
}

const both = ['port', 'starboard'] as const;
const span = (from: number, to: number | null): Years => ({ from, to });

export const rigs: readonly Rig[] = [
  {
    name: 'Ketch',
    years: span(1961, 1994),
    about:
      'The first boat unit. Single entry until 1976, then twin, with the turbine tips relieved for the dividing wall; the flanges never changed.',
    descendsFrom: [],
    core: ketchCore,
    face: { pilot: 138.6, rim: bolted(8, 154.2, 'm8') },
    compressor: { fullBlades: 14, splitters: 0, look: 'cast', nose: 'hex', back: 'full' },
    turbineBlades: 14,
    generations: [
      { id: 'ketch-single', name: 'single-entry Ketch', years: span(1961, 1977), succeeds: null },
      { id: 'ketch-twin', name: 'twin-entry Ketch', years: span(1976, 1994), succeeds: 'ketch-single' },
    ],
    ratings: [
      {
        power: 160,
        hands: both,
        generation: 'ketch-single',
        years: span(1961, 1977),
        entry: 'single',
        compressor: compressorSize(86.7, 49, 0.064),
        turbine: turbineSize(81.3, 74, 0.151),
        areaRatios: [27, 32],
      },
      {
        // The 160's wheels in a twin-entry housing: tips relieved, nothing else.
        power: 180,
        hands: both,
        generation: 'ketch-twin',
        years: span(1976, 1990),
        entry: 'twin',
        compressor: compressorSize(86.7, 49, 0.064),
        turbine: turbineSize(81.3, 74, 0.151),
        areaRatios: [27, 32],
      },
      {
        power: 210,
        hands: both,
        generation: 'ketch-twin',
        years: span(1979, 1994),
        entry: 'twin',
        compressor: compressorSize(91.4, 51, 0.063),
        turbine: turbineSize(85.6, 75, 0.15),
        areaRatios: [29, 34],
      },
    ],
  },
  {
    name: 'Yawl',
    years: span(1978, 2009),
    about: 'Twin entry throughout, nine and nine blades on the compressor wheel.',
    descendsFrom: ['ketch'],
    core: yawlCore,
    face: { pilot: 147.3, rim: bolted(10, 163.8, 'm8') },
    compressor: { fullBlades: 9, splitters: 9, look: 'cast-shot', nose: 'hex', back: 'full' },
    turbineBlades: 13,
    generations: [],
    ratings: [
      {
        power: 240,
        hands: both,
        generation: null,
        years: span(1978, 2001),
        entry: 'twin',
        compressor: compressorSize(95.8, 53, 0.062),
        turbine: turbineSize(90.2, 76, 0.148),
        areaRatios: [31, 36],
      },
      {
        power: 280,
        hands: both,
        generation: null,
        years: span(1984, 2009),
        entry: 'twin',
        compressor: compressorSize(101.3, 54, 0.061),
        turbine: turbineSize(95.1, 77, 0.147),
        areaRatios: [33, 38],
      },
    ],
  },
  {
    name: 'Lugger',
    years: span(1993, null),
    about: 'The heavy one: a water jacket round journals, milled compressor wheel, twin entry.',
    descendsFrom: ['yawl'],
    core: luggerCore,
    face: { pilot: 158.9, rim: bolted(12, 176.7, 'm8') },
    compressor: { fullBlades: 8, splitters: 8, look: 'milled', nose: 'collar', back: 'scalloped' },
    turbineBlades: 12,
    generations: [],
    ratings: [
      {
        power: 350,
        hands: both,
        generation: null,
        years: span(1993, null),
        entry: 'twin',
        compressor: compressorSize(104.6, 56, 0.06),
        turbine: turbineSize(98.7, 78, 0.145),
        areaRatios: [35, 41],
      },
      {
        power: 420,
        hands: both,
        generation: null,
        years: span(1997, null),
        entry: 'twin',
        compressor: compressorSize(107.2, 58, 0.06),
        turbine: turbineSize(101.8, 79, 0.144),
        areaRatios: [37, 43],
      },
      {
        power: 500,
        hands: ['port'],
        generation: null,
        years: span(2006, null),
        entry: 'twin',
        compressor: compressorSize(109.7, 61, 0.059),
        turbine: turbineSize(104.4, 81, 0.143),
        areaRatios: [39, 45],
      },
    ],
  },
];

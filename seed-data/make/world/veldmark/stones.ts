import type { Years } from '../../pack/years.ts';
import type { CompressorWheelDrawing } from '../../parts/compressor-end.ts';
import { type CorePattern, clamped, type Rotation } from '../../parts/core-pattern.ts';
import type { Face } from '../../parts/rim.ts';
import { compressorSize, turbineSize, type WheelSize } from '../../parts/sizes.ts';
import type { TurbineHousingDrawing, TurbineWheelDrawing } from '../../parts/turbine-end.ts';
import type { Trim } from './maker.ts';

const basaltCore: CorePattern = {
  kind: 'journal',
  water: false,
  backplate: { pilot: 73.6, screws: 5, circle: 63.8, screw: 'm5' },
  bearing: { bore: 16.14, running: 9.88, length: 37.1 },
  stub: { diameter: 6.57, length: 32.3, thread: 'm6x0.75', hand: 'right' },
  flinger: 17.93,
  sealBoss: 19.14,
  weld: { pattern: 'long-step', spigot: 12.87 },
  shield: { seat: 60.4, hub: 21.2 },
  turbineFace: { pilot: 66.1, rim: clamped(83.2, 'shallow-38') },
  plate: { holes: 2, spacing: 52.4, rivet: 'screws' },
};
const gneissCore: CorePattern = {
  kind: 'cartridge',
  water: true,
  backplate: { pilot: 79.3, screws: 5, circle: 68.9, screw: 'm5' },
  bearing: { bore: 26.18, running: 11.62, length: 44.2 },
  stub: { diameter: 7.63, length: 36.4, thread: 'm7x0.75', hand: 'right' },
  flinger: 19.84,
  sealBoss: 21.19,
  weld: { pattern: 'hollow-step', spigot: 14.37 },
  shield: { seat: 66.6, hub: 23.4 },
  turbineFace: { pilot: 73.2, rim: clamped(91.7, 'deep-38') },
  plate: { holes: 2, spacing: 52.4, rivet: 'screws' },
};
/** Turns the other way round, so its nut is left-hand: otherwise it would work loose. Everything else is Basalt's. */
const tuffCore: CorePattern = { ...basaltCore, stub: { ...basaltCore.stub, hand: 'left' } };

/** One compressor trim with the generations it was made in. */
export interface TrimSpec {
  readonly trim: Trim;
  readonly compressor: WheelSize;
  readonly turbine: WheelSize;
  readonly areaRatios: readonly [number, number, number];
  /** When each generation was made; the name carries a prime for each after the first. */
  readonly generations: readonly [Years, ...Years[]];
}

export interface Stone {
  readonly name: string;
  readonly years: Years;
  readonly about: string;
  readonly descendsFrom: readonly string[];
  readonly core: CorePattern;
  /** The stone whose bearing housing, bearing set, backplate and heat shield it has; its own name where it has its own. */
  readonly coreOf: string;
  readonly face: Face;
  readonly rotation: Rotation;
  readonly splitters: number;
  readonly nose: CompressorWheelDrawing['nose'];
  readonly turbine: Pick<TurbineWheelDrawing, 'cutback' | 'hubShape' | 'back'>;
  /** Turbine blades by generation. */
  readonly blades: readonly [number, number, number];
  readonly flange: TurbineHousingDrawing['flange'];
  readonly trims: readonly TrimSpec[];
}

const span = (from: number, to: number | null): Years => ({ from, to });

export const stones: readonly Stone[] = [
  {
    name: 'Basalt',
    years: span(1974, 2008),
    about: 'Clamped at both ends, journals, oil only. A prime means a milled compressor wheel and one turbine blade fewer.',
    descendsFrom: [],
    core: basaltCore,
    coreOf: 'Basalt',
    face: { pilot: 91.4, rim: clamped(104.6, 'shallow-38') },
    rotation: 'anticlockwise',
    splitters: 7,
    nose: 'hex',
    turbine: { cutback: { look: 'none', degrees: 0 }, hubShape: 'hexagon', back: 'scalloped' },
    blades: [12, 11, 10],
    flange: 'round',
    trims: [
      {
        trim: 'QD',
        compressor: compressorSize(47.7, 50, 0.065),
        turbine: turbineSize(44.6, 72, 0.146),
        areaRatios: [10, 12, 15],
        generations: [span(1974, 1989), span(1988, 2001), span(2000, 2008)],
      },
      {
        trim: 'QH',
        compressor: compressorSize(50.9, 52, 0.064),
        turbine: turbineSize(47.9, 73, 0.145),
        areaRatios: [11, 13, 16],
        generations: [span(1976, 1991), span(1990, 2004)],
      },
      {
        trim: 'RK',
        compressor: compressorSize(54.3, 55, 0.063),
        turbine: turbineSize(50.2, 74, 0.144),
        areaRatios: [12, 14, 17],
        generations: [span(1981, 1997)],
      },
    ],
  },
  {
    name: 'Gneiss',
    years: span(1996, null),
    about: 'A cartridge with water behind a deep clamp rim; six and six blades, ten turbine blades with a strong cutback.',
    descendsFrom: ['basalt'],
    core: gneissCore,
    coreOf: 'Gneiss',
    face: { pilot: 103.8, rim: clamped(118.3, 'deep-38') },
    rotation: 'anticlockwise',
    splitters: 6,
    nose: 'twin-flat',
    turbine: { cutback: { look: 'strong', degrees: 19 }, hubShape: 'triangle', back: 'scalloped' },
    blades: [10, 9, 9],
    flange: 'round',
    trims: [
      {
        trim: 'JO',
        compressor: compressorSize(55.4, 57, 0.058),
        turbine: turbineSize(51.4, 79, 0.135),
        areaRatios: [13, 15, 18],
        generations: [span(1996, 2010), span(2009, null)],
      },
      {
        trim: 'JU',
        compressor: compressorSize(60.2, 58, 0.057),
        turbine: turbineSize(55.7, 80, 0.134),
        areaRatios: [14, 16, 19],
        generations: [span(1998, 2012), span(2011, null)],
      },
    ],
  },
  {
    name: 'Tuff',
    years: span(1979, 2006),
    about: 'A Basalt core that turns the other way round, with a left-hand nut, for the second bank of an engine.',
    descendsFrom: ['basalt'],
    core: tuffCore,
    coreOf: 'Basalt',
    face: { pilot: 91.4, rim: clamped(104.6, 'shallow-38') },
    rotation: 'clockwise',
    splitters: 8,
    nose: 'hex',
    turbine: { cutback: { look: 'none', degrees: 0 }, hubShape: 'hexagon', back: 'scalloped' },
    blades: [12, 11, 10],
    flange: 'round',
    trims: [
      {
        // The same sizes as Basalt QH: only the hand differs.
        trim: 'WF',
        compressor: compressorSize(50.9, 52, 0.064),
        turbine: turbineSize(47.9, 73, 0.145),
        areaRatios: [11, 13, 16],
        generations: [span(1979, 1992), span(1991, 2006)],
      },
      {
        trim: 'WP',
        compressor: compressorSize(53.4, 54, 0.063),
        turbine: turbineSize(50.2, 74, 0.144),
        areaRatios: [12, 14, 17],
        generations: [span(1983, 1999)],
      },
    ],
  },
];

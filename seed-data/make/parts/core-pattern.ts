import type { Face, Rim } from './rim.ts';

export type Rotation = 'anticlockwise' | 'clockwise';
export type BearingKind = 'journal' | 'cartridge';

/**
 * A core pattern: the dimensions by which the parts of a core go together, whoever made them. Families that share
 * it share bearing housing, bearing set and shaft; a pattern maker copies it.
 */
export interface CorePattern {
  readonly kind: BearingKind;
  readonly water: boolean;
  /** The backplate's spigot in the bearing housing, with its screws. */
  readonly backplate: { readonly pilot: number; readonly screws: number; readonly circle: number; readonly screw: string };
  /** Bore of the bearing housing, journal or raceway diameter, and length between the shoulders. */
  readonly bearing: { readonly bore: number; readonly running: number; readonly length: number };
  readonly stub: { readonly diameter: number; readonly length: number; readonly thread: string; readonly hand: 'right' | 'left' };
  readonly flinger: number;
  readonly sealBoss: number;
  readonly weld: { readonly pattern: string; readonly spigot: number };
  /** Seat of the heat shield on the bearing housing, and the turbine wheel's hub that runs in its hole. */
  readonly shield: { readonly seat: number; readonly hub: number };
  readonly turbineFace: Face;
  readonly plate: { readonly holes: number; readonly spacing: number; readonly rivet: string };
}

export const bolted = (bolts: number, circle: number, bolt: string): Rim => ({ joining: 'bolted', bolts, circle, bolt });
export const clamped = (circle: number, profile: string): Rim => ({ joining: 'v-band', circle, profile });

import { bolted, type CorePattern } from '../../parts/core-pattern.ts';
import type { Face } from '../../parts/rim.ts';

/** Oil cooled, two floating bushes: one bearing housing and one shaft from 1953 to 2001, under five families. */
export const journalCore: CorePattern = {
  kind: 'journal',
  water: false,
  backplate: { pilot: 71.4, screws: 5, circle: 61.3, screw: 'm5' },
  bearing: { bore: 15.62, running: 9.37, length: 35.8 },
  stub: { diameter: 6.33, length: 31.7, thread: 'm6x0.75', hand: 'right' },
  flinger: 17.46,
  sealBoss: 18.71,
  weld: { pattern: 'plain-step', spigot: 12.34 },
  shield: { seat: 58.9, hub: 20.6 },
  turbineFace: { pilot: 64.3, rim: bolted(6, 77.7, 'm7') },
  plate: { holes: 2, spacing: 41.3, rivet: '2.5' },
};

/** Water cooled, ball-bearing cartridge: Petrel and Skua. */
export const cartridgeCore: CorePattern = {
  kind: 'cartridge',
  water: true,
  backplate: { pilot: 76.9, screws: 6, circle: 66.2, screw: 'm5' },
  bearing: { bore: 24.73, running: 10.84, length: 42.6 },
  stub: { diameter: 7.26, length: 34.9, thread: 'm7x0.75', hand: 'right' },
  flinger: 19.12,
  sealBoss: 20.37,
  weld: { pattern: 'hollow-step', spigot: 13.86 },
  shield: { seat: 63.7, hub: 22.7 },
  turbineFace: { pilot: 70.6, rim: bolted(6, 85.4, 'm8') },
  plate: { holes: 2, spacing: 46.8, rivet: '3' },
};

/** The late Gannets: the new cartridge under the old head. The turbine end is the journal core's, weld and all. */
export const gannetCartridgeCore: CorePattern = {
  ...cartridgeCore,
  weld: journalCore.weld,
  shield: journalCore.shield,
  turbineFace: journalCore.turbineFace,
};

/** The second Skuas turn the same cartridge in a stouter turbine end. */
export const secondSkuaCore: CorePattern = {
  ...cartridgeCore,
  weld: { pattern: 'long-step', spigot: 14.92 },
  shield: { seat: 68.2, hub: 24.3 },
  turbineFace: { pilot: 75.7, rim: bolted(8, 90.6, 'm8') },
};

export type FaceSize = 'small' | 'middle' | 'large';

/** Backplate to compressor housing, by the size of the wheel, the same on every Merrowby core. */
export const merrowbyFaces: Readonly<Record<FaceSize, Face>> = {
  small: { pilot: 82.6, rim: bolted(6, 93.5, 'm5') },
  middle: { pilot: 96.3, rim: bolted(6, 108.8, 'm6') },
  large: { pilot: 113.7, rim: bolted(8, 127.4, 'm6') },
};

export const faceSize = (exducer: number): FaceSize => (exducer < 47.5 ? 'small' : exducer < 57.5 ? 'middle' : 'large');

import type { ModelDraft, PartDraft } from '../../pack/draft.ts';
import { mark } from '../../pack/facts.ts';
import type { Shelf } from '../../pack/shelf.ts';
import type { Years } from '../../pack/years.ts';
import type { CorePattern } from '../../parts/core-pattern.ts';
import { firstAndLater } from '../house.ts';
import { cartridgeCore, faceSize, gannetCartridgeCore, secondSkuaCore } from './core-patterns.ts';
import { type CompressorStyle, type Frame, type ModelDrawing, stockModel, type TurbineStyle } from './family.ts';
import { gannet1, gannet2, gannetCompressor } from './journal-birds.ts';
import { runningSize } from './running-sizes.ts';
import {
  cartridgeBearingHousings,
  cartridgeShaft,
  cartridgeShields,
  cartridges,
  gannetCartridgeBearingHousing,
  gannetCartridgeShaft,
  journalShields,
  merrowbyBackplate,
  secondSkuaBearingHousing,
  secondSkuaShaft,
  secondSkuaShields,
} from './shared-parts.ts';

const span = (from: number, to: number | null): Years => ({ from, to });

/** Ten blades, cut back about twice as far as Gannet's. */
export const petrelTurbine: TurbineStyle = {
  trim: 78,
  tipRatio: 0.136,
  wheel: { blades: 10, cutback: { look: 'strong', degrees: 21 }, hubShape: 'triangle', back: 'scalloped' },
  flange: 'square',
  wastegate: true,
};
export const secondSkuaTurbine: TurbineStyle = {
  trim: 81,
  tipRatio: 0.131,
  wheel: { blades: 10, cutback: { look: 'strong', degrees: 24.5 }, hubShape: 'triangle', back: 'scalloped' },
  flange: 'square',
  wastegate: true,
};

export const petrelCompressor: CompressorStyle = {
  trim: 56,
  tipRatio: 0.059,
  blades: { fullBlades: 6, splitters: 6, nose: 'twin-flat', back: 'scalloped' },
  looks: ['cast', 'cast-shot', 'milled'],
  outletForm: 'groove',
};
export const secondSkuaCompressor: CompressorStyle = {
  trim: 53,
  tipRatio: 0.056,
  blades: { fullBlades: 5, splitters: 5, nose: 'collar', back: 'scalloped' },
  looks: ['milled'],
  outletForm: 'groove',
};

const frameWords = ['small', 'middle', 'large'] as const;

const petrelFrame = (number: 1 | 2 | 3, inducer: number): Frame => ({
  id: `petrel-${number}`,
  name: `Petrel ${frameWords[number - 1]}`,
  inducer,
  style: petrelTurbine,
  core: cartridgeCore,
  years: span(1994, 2016),
  mark: mark(`Pe ${frameWords[number - 1]}`),
});
export const petrel1 = petrelFrame(1, 46.3);
export const petrel2 = petrelFrame(2, 52.4);
export const petrel3 = petrelFrame(3, 58.7);

/** The first Skua's wheel: a Petrel's with one blade more, in Petrel's housings. */
const firstSkuaFrame = (petrel: Frame): Frame => ({
  ...petrel,
  id: petrel.id.replace('petrel', 'skua-1'),
  name: petrel.name.replace('Petrel', 'first Skua'),
  style: { ...petrelTurbine, wheel: { ...petrelTurbine.wheel, blades: 11 } },
  mark: mark(petrel.name.replace('Petrel', 'Sk first')),
  housingsOf: petrel,
});

const secondSkuaFrame = (number: 1 | 2, inducer: number): Frame => ({
  id: `skua-2-${number}`,
  name: `second Skua ${['small', 'large'][number - 1]}`,
  inducer,
  style: secondSkuaTurbine,
  core: secondSkuaCore,
  years: span(2015, null),
  mark: mark(`Sk second ${['small', 'large'][number - 1]}`),
});
export const skua21 = secondSkuaFrame(1, 53.8);
export const skua22 = secondSkuaFrame(2, 61.6);

interface CartridgeModel extends Omit<ModelDrawing, 'id' | 'name'> {
  readonly family: string;
  readonly generation: string | null;
}

const petrelYears = span(1994, 2016);

const petrels: readonly CartridgeModel[] = (
  [
    [48, 1994, 2006, petrel1, 0],
    [51, 1994, 2010, petrel1, 1],
    [54, 1996, 2009, petrel2, 0],
    [57, 1996, 2012, petrel2, 1],
    [61, 1999, 2012, petrel3, 0],
    [66, 2001, 2011, petrel3, 1],
  ] as const
).map(([exducer, from, to, frame, housing]) => ({
  family: 'Petrel',
  compressorOf: 'Petrel',
  generation: null,
  exducer,
  years: span(from, to),
  frame,
  housing,
}));

/** First Skuas take Petrel's housings and compressor wheel as they stand; only the turbine wheel has one blade more. */
const firstSkuas: readonly CartridgeModel[] = (
  [
    [51, petrel1, 1],
    [57, petrel2, 1],
    [61, petrel3, 0],
  ] as const
).map(([exducer, petrel, housing]) => ({
  family: 'Skua',
  compressorOf: 'Petrel',
  generation: 'skua-first',
  exducer,
  years: span(2008, 2016),
  frame: firstSkuaFrame(petrel),
  housing,
}));

const secondSkuas: readonly CartridgeModel[] = (
  [
    [54, skua21, 0],
    [59, skua21, 1],
    [64, skua22, 0],
    [69, skua22, 1],
  ] as const
).map(([exducer, frame, housing]) => ({
  family: 'Skua',
  compressorOf: 'Skua',
  generation: 'skua-second',
  exducer,
  years: span(2015, null),
  frame,
  housing,
}));

const gannetCartridges: readonly CartridgeModel[] = (
  [
    [56, gannet1],
    [60, gannet2],
  ] as const
).map(([exducer, frame]) => ({
  family: 'Gannet',
  compressorOf: 'Gannet',
  wheelBored: 'cartridge',
  generation: 'gannet-cartridge',
  exducer,
  years: span(1992, 2001),
  frame,
  housing: 1,
}));

interface SharedCore {
  readonly housings: readonly PartDraft[];
  readonly shaft: PartDraft;
  readonly shields: readonly PartDraft[];
}

/** The parts of a cartridge core that its models share. */
const stockCore = (shelf: Shelf, model: string, exducer: number, core: SharedCore): void => {
  const [housing, laterHousings] = firstAndLater(core.housings);
  const [cartridge, laterCartridges] = firstAndLater(cartridges);
  shelf.allow(model, 'names', housing, cartridge, core.shaft, merrowbyBackplate('cartridge', faceSize(exducer)));
  shelf.allow(model, 'service', ...core.shields);
  for (const later of [...laterHousings, ...laterCartridges]) shelf.put(later);
};

const modelOf = ({ family, generation, exducer, years }: CartridgeModel): ModelDraft => ({
  id: `${family.toLowerCase()}-${runningSize(exducer)}-cartridge`,
  name: `${family} ${runningSize(exducer)} Cartridge`,
  family: family.toLowerCase(),
  generation,
  patternOf: null,
  from: years.from,
  to: years.to,
  source: 'merrowby-list',
});

const petrelCore = { housings: cartridgeBearingHousings, shaft: cartridgeShaft, shields: cartridgeShields };
const secondCore = { housings: [secondSkuaBearingHousing], shaft: secondSkuaShaft, shields: secondSkuaShields };
const lateGannetCore = { housings: [gannetCartridgeBearingHousing], shaft: gannetCartridgeShaft, shields: journalShields };

/** Petrel, Skua and the late Gannets. */
export const stockCartridgeBirds = (shelf: Shelf): readonly ModelDraft[] => {
  const stock = (model: CartridgeModel, style: CompressorStyle, core: CorePattern, shared: SharedCore, castIn: Years): ModelDraft => {
    const draft = modelOf(model);
    stockModel(shelf, { ...model, id: draft.id, name: draft.name }, style, core, castIn);
    stockCore(shelf, draft.id, model.exducer, shared);
    return draft;
  };
  return [
    ...gannetCartridges.map((model) => stock(model, gannetCompressor, gannetCartridgeCore, lateGannetCore, span(1979, 2001))),
    ...petrels.map((model) => stock(model, petrelCompressor, cartridgeCore, petrelCore, petrelYears)),
    ...firstSkuas.map((model) => stock(model, petrelCompressor, cartridgeCore, petrelCore, petrelYears)),
    ...secondSkuas.map((model) => stock(model, secondSkuaCompressor, secondSkuaCore, secondCore, span(2015, null))),
  ];
};

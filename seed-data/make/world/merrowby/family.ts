import type { FactDraft, PartDraft } from '../../pack/draft.ts';
import { mark, tenth } from '../../pack/facts.ts';
import { numberFor } from '../../pack/hash.ts';
import type { Shelf } from '../../pack/shelf.ts';
import { tradeNamesDuring, type Years } from '../../pack/years.ts';
import { type CompressorWheelDrawing, compressorHousing, compressorWheel } from '../../parts/compressor-end.ts';
import { nameplate } from '../../parts/core.ts';
import type { CorePattern } from '../../parts/core-pattern.ts';
import { compressorSize, turbineSize, type WheelSize } from '../../parts/sizes.ts';
import { type TurbineHousingDrawing, type TurbineWheelDrawing, turbineHousing, turbineWheel } from '../../parts/turbine-end.ts';
import { firstAndLater, measuredInTheShop, notMeasured } from '../house.ts';
import { knotOf } from '../knots.ts';
import { faceSize, merrowbyFaces } from './core-patterns.ts';
import { merrowbyCasting, merrowbyNumber, merrowbyTradeNames } from './maker.ts';
import { colourOf, runningSize } from './running-sizes.ts';
import { head, issues } from './shared-parts.ts';

/** What the members of a Merrowby family have in common at the compressor end. */
export interface CompressorStyle {
  readonly trim: number;
  readonly tipRatio: number;
  readonly blades: Pick<CompressorWheelDrawing, 'fullBlades' | 'splitters' | 'nose' | 'back'>;
  /** How each issue of the wheel was made, oldest first. */
  readonly looks: readonly CompressorWheelDrawing['look'][];
  readonly outletForm: 'bead' | 'flange' | 'groove';
}

export interface TurbineStyle {
  readonly trim: number;
  readonly tipRatio: number;
  readonly wheel: Pick<TurbineWheelDrawing, 'blades' | 'cutback' | 'hubShape' | 'back'>;
  readonly flange: TurbineHousingDrawing['flange'];
  readonly wastegate: boolean;
}

/** A size of turbine wheel with its housings; several models share one. `id` counts the family's frames, which are no running sizes. */
export interface Frame {
  readonly id: string;
  readonly name: string;
  readonly inducer: number;
  readonly style: TurbineStyle;
  readonly core: CorePattern;
  readonly years: Years;
  /** Letters cast in the wheel. */
  readonly mark: FactDraft;
  /** The frame whose housings it takes, where it has none of its own. */
  readonly housingsOf?: Frame;
}

export interface ModelDrawing {
  readonly id: string;
  readonly name: string;
  /** Whose compressor wheel and housing it has; a first Skua has Petrel's. */
  readonly compressorOf: string;
  /** Where the same wheel is bored for another shaft. */
  readonly wheelBored?: string;
  /** The wheel's exducer, whole mm; the model is called by its running size. */
  readonly exducer: number;
  readonly years: Years;
  readonly frame: Frame;
  /** Which of the frame's housings names it. */
  readonly housing: 0 | 1 | 2;
}

/** The exducer as made: within 0.3 mm of the whole number its running size stands for. */
export const exducerAsMade = (family: string, exducer: number): number => tenth(exducer + numberFor(`${family} ${exducer}`, 7) / 10 - 0.3);

export const wheelSizeOf = (family: string, exducer: number, style: CompressorStyle): WheelSize =>
  compressorSize(exducerAsMade(family, exducer), style.trim, style.tipRatio);

export const compressorWheelsOf = (
  { compressorOf: family, exducer, wheelBored }: Pick<ModelDrawing, 'compressorOf' | 'exducer' | 'wheelBored'>,
  style: CompressorStyle,
  core: CorePattern,
): readonly PartDraft[] => {
  const id = `merrowby-${family.toLowerCase()}-${runningSize(exducer)}-compressor-wheel${wheelBored === undefined ? '' : `-${wheelBored}`}`;
  const name = `${family} ${runningSize(exducer)} compressor wheel${wheelBored === undefined ? '' : `, bored for the ${wheelBored} shaft`}`;
  return issues('compressor-wheel', id, name, style.looks.length, (wheelHead, issue) =>
    compressorWheel(wheelHead, {
      size: wheelSizeOf(family, exducer, style),
      ...style.blades,
      look: style.looks[issue] ?? 'cast',
      rotation: 'anticlockwise',
      stub: core.stub,
      mark: mark(`${family.slice(0, 2)} ${colourOf(exducer)}`),
    }),
  );
};

export const compressorHousingOf = (
  family: string,
  exducer: number,
  style: CompressorStyle,
  years: Years,
  recirculation: boolean,
): PartDraft => {
  const wheel = wheelSizeOf(family, exducer, style);
  const id = `merrowby-${family.toLowerCase()}-${runningSize(exducer)}-compressor-housing${recirculation ? '-recirculation' : ''}`;
  const housing = compressorHousing(
    head('compressor-housing', id, `${family} ${runningSize(exducer)} compressor housing${recirculation ? ', recirculation slot' : ''}`),
    {
      face: merrowbyFaces[faceSize(exducer)],
      wheel,
      rotation: 'anticlockwise',
      areaRatio: Math.round(wheel.exducer * 0.236 + 1.7),
      inlet: tenth(wheel.inducer * 1.17 + (recirculation ? 16.5 : 9.3)),
      outlet: tenth(wheel.exducer * 0.71 + 4.4),
      outletForm: style.outletForm,
      recirculation,
      castName: merrowbyCasting(years),
      castMark: mark(colourOf(exducer)),
    },
  );
  // Too few Shearwaters are left to measure one.
  return family === 'Shearwater' ? notMeasured(housing, 'tip-contour', 'area-ratio') : housing;
};

export const frameSize = (frame: Frame): WheelSize => turbineSize(frame.inducer, frame.style.trim, frame.style.tipRatio);

export const turbineWheelOf = (frame: Frame): PartDraft => {
  const wheel = turbineWheel(head('turbine-wheel', `merrowby-${frame.id}-turbine-wheel`, `${frame.name} turbine wheel`), {
    size: frameSize(frame),
    core: frame.core,
    ...frame.style.wheel,
    entry: 'single',
    rotation: 'anticlockwise',
    weld: 'electron-beam',
    mark: frame.mark,
  });
  // Nobody prints a weld; the shop cut some of each.
  return measuredInTheShop(wheel, 'weld', 'weld-pattern', 'weld-recess');
};

/** The A/Rs a frame was sold with, mm. */
export const areaRatiosOf = (frame: Frame): readonly [number, number, number] => {
  const smallest = Math.round(frame.inducer * 0.247 - 1.2);
  return [smallest, smallest + 2, smallest + 5];
};

export const turbineHousingsOf = (frame: Frame): readonly PartDraft[] =>
  areaRatiosOf(frame).map((areaRatio, step) => {
    const size = frameSize(frame);
    const id = `merrowby-${frame.id}-turbine-housing-${areaRatio}`;
    return turbineHousing(head('turbine-housing', id, `${frame.name} turbine housing, A/R ${areaRatio}`), {
      face: frame.core.turbineFace,
      wheel: size,
      rotation: 'anticlockwise',
      entry: 'single',
      areaRatio,
      flange: frame.style.flange,
      // The widest housing of each frame is meant for an outside wastegate.
      wastegate: frame.style.wastegate && step < 2,
      outlet: tenth(size.exducer * 1.08 + 7.7),
      castName: merrowbyCasting(frame.years),
      castMark: mark(knotOf(areaRatio)),
    });
  });

/** One plate for each name the model was sold under. */
export const nameplatesOf = (model: { id: string; name: string }, years: Years, core: CorePattern): readonly PartDraft[] =>
  tradeNamesDuring(merrowbyTradeNames, years).map(({ name: tradeName, from, to }, era) => {
    const id = `merrowby-${model.id}-nameplate-${tradeName.toLowerCase().replaceAll(' ', '-')}`;
    const number = merrowbyNumber('nameplate', `merrowby-${model.id}`, era + 1);
    return nameplate(
      { ...head('nameplate', id, `nameplate ${model.name}, ${tradeName}`), numbers: [number] },
      { plate: core.plate, number, tradeName, from, to },
    );
  });

/** Puts one model's own parts on the shelf: what names it, and its options. `familyYears` are those of the castings. */
export const stockModel = (shelf: Shelf, model: ModelDrawing, style: CompressorStyle, core: CorePattern, familyYears: Years): void => {
  const { id, compressorOf, exducer, frame } = model;
  const [wheel, laterIssues] = firstAndLater(compressorWheelsOf(model, style, core));
  shelf.allow(id, 'names', compressorHousingOf(compressorOf, exducer, style, familyYears, false), wheel, turbineWheelOf(frame));
  for (const issue of laterIssues) shelf.put(issue);
  if (exducer >= 52 && familyYears.from >= 1979) {
    shelf.allow(id, 'option', compressorHousingOf(compressorOf, exducer, style, familyYears, true));
  }
  turbineHousingsOf(frame.housingsOf ?? frame).forEach((housing, step) => {
    shelf.allow(id, step === model.housing ? 'names' : 'option', housing);
  });
  shelf.allow(id, 'names', ...nameplatesOf(model, model.years, core));
};

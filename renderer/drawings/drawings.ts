import type {
  DrawingKind,
  DrawingRoles,
  Feature,
  FeatureId,
  Joint,
  Port,
  SlotDrawing,
  SlotDrawingOf,
  SlotId,
} from '../../reasoner/index.ts';
import type { LengthUnit } from '../values/readSeen.ts';
import { compressorBlades, turbineBlades } from './blades.ts';
import { compressorHousingContour, compressorWheelContour, turbineHousingContour, turbineWheelContour } from './contour.ts';
import { type FaceRoles, faceScene, facesOf } from './face.ts';
import { compressorHousing, inletFlange, turbineHousing } from './housing.ts';
import { lettersAcross } from './pen.ts';
import { marksScene, plateScene } from './plate.ts';
import { portsScene } from './ports.ts';
import { type Facts, type Feeds, type OptionName, Reading, type Roles } from './reading.ts';
import { backplateScene, bearingScene, heatShieldScene } from './rings.ts';
import type { Scene } from './scene.ts';
import { shaftScene } from './shaft.ts';

/** What drawings need of the vocabulary. `Vocabulary` of the bridge has all of it. */
export interface DrawingWords {
  readonly features: readonly Feature[];
  readonly joints: readonly Joint[];
  readonly ports: readonly Port[];
  readonly drawings: readonly SlotDrawing[];
}

/** One drawing of a slot's parts, made when it is asked for. */
export interface Drawing {
  /** Stable within a slot, to find the same drawing of another part. */
  readonly id: string;
  readonly scene: (facts: Facts, leastReach?: number) => Scene;
}

/** How each drawing the program has is drawn. */
const drawnBy: { readonly [K in DrawingKind]: (reading: Reading<DrawingRoles[K]>) => Scene } = {
  'compressor blades': compressorBlades,
  'turbine blades': turbineBlades,
  'compressor wheel contour': compressorWheelContour,
  'compressor housing contour': compressorHousingContour,
  'turbine wheel contour': turbineWheelContour,
  'turbine housing contour': turbineHousingContour,
  'compressor housing': compressorHousing,
  'turbine housing': turbineHousing,
  'inlet flange': inletFlange,
  shaft: shaftScene,
  'bearing housing ports': portsScene,
  'bearing set': bearingScene,
  backplate: backplateScene,
  'heat shield': heatShieldScene,
  nameplate: plateScene,
};

/**
 * Every drawing there is of one slot's parts, the most telling first: those the atlas has for it, then its bolted or clamped faces and its marks, but for
 * those that one of its own drawings shows.
 */
export const drawingsOf = (slot: SlotId, words: DrawingWords, unit: LengthUnit = 'mm'): readonly Drawing[] => {
  const optionName: OptionName = (feature, option) =>
    words.features.find((one) => one.id === feature)?.options?.find((one) => one.id === option)?.name ?? option;
  const drawing = <R extends Roles>(id: string, feeds: Feeds, scene: (reading: Reading<R>) => Scene): Drawing => ({
    id,
    scene: (facts, leastReach = 0) => scene(new Reading<R>(feeds, facts, optionName, { unit, leastReach })),
  });
  const ofKind = <K extends DrawingKind>({ id, drawing: kind, feeds }: SlotDrawingOf<K>): Drawing => drawing(id, feeds, drawnBy[kind]);
  const listed = words.drawings.filter((one) => one.slot === slot);
  const shown = new Set<FeatureId>(
    listed.flatMap(({ feeds }) => Object.values<FeatureId | undefined>(feeds).filter((id) => id !== undefined)),
  );
  const own = words.features.filter((feature) => feature.slot === slot);
  const ports = new Map(words.ports.map((port) => [port.id, port.slot]));
  const faces = facesOf(slot, words.joints, ports, new Set(own.map(({ id }) => id)));
  const marks = own.filter((feature) => feature.kind === 'mark');
  return [
    ...listed.map((one) => ofKind(one)),
    ...faces
      .filter(({ feeds: { count, circle, bolt } }) => ![count, circle, bolt].every((id) => id !== undefined && shown.has(id)))
      .map(({ joint, feeds }) => drawing<FaceRoles>(`face ${joint.id}`, feeds, (reading) => faceScene(joint, reading))),
    ...(marks.length === 0 || marks.some(({ id }) => shown.has(id))
      ? []
      : [
          drawing<Record<string, 'mark'>>('marks', Object.fromEntries(marks.map(({ id }) => [id, id])), (reading) =>
            marksScene(marks, reading),
          ),
        ]),
  ];
};

/** The same drawing of several parts, to one scale: the largest of them sets it. */
export const scenesToOneScale = (drawing: Drawing, of: readonly Facts[]): readonly Scene[] => {
  const reach = Math.max(
    0,
    ...of.map((facts) => drawing.scene(facts)).map(({ letter, toScale }) => (toScale ? letter * lettersAcross : 0)),
  );
  return of.map((facts) => drawing.scene(facts, reach));
};

/** The drawing that shows a feature, or none: not everything can be drawn. */
export const drawingFor = (feature: Feature, words: DrawingWords, unit: LengthUnit = 'mm'): Drawing | null =>
  drawingsOf(feature.slot, words, unit).find((drawing) => drawing.scene({}).features.includes(feature.id)) ?? null;

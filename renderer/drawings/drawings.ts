import type { Feature, FeatureId, Joint, Port, SlotId } from '../../reasoner/index.ts';
import { compressorBlades, turbineBlades } from './blades.ts';
import { contourScene } from './contour.ts';
import { faceScene, facesOf } from './face.ts';
import { flangeScene, housingScene } from './housing.ts';
import { lettersAcross } from './pen.ts';
import { marksScene, plateScene } from './plate.ts';
import { portsScene } from './ports.ts';
import { type Facts, Reading } from './reading.ts';
import { backplateScene, bearingScene, heatShieldScene } from './rings.ts';
import type { Scene } from './scene.ts';
import { shaftScene } from './shaft.ts';

/** What drawings need of the vocabulary. `Vocabulary` of the bridge has all of it. */
export interface DrawingWords {
  readonly features: readonly Feature[];
  readonly joints: readonly Joint[];
  readonly ports: readonly Port[];
}

/** One drawing of a slot's parts, made when it is asked for. */
export interface Drawing {
  /** Stable within a slot, to find the same drawing of another part. */
  readonly id: string;
  readonly scene: (facts: Facts, leastReach?: number) => Scene;
}

/** Every drawing there is of one slot's parts, the most telling first. A slot nobody has drawings for has those of its marks and its bolted faces. */
export const drawingsOf = (slot: SlotId, words: DrawingWords): readonly Drawing[] => {
  const optionName = (feature: FeatureId, option: string): string =>
    words.features.find((one) => one.id === feature)?.options?.find((one) => one.id === option)?.name ?? option;
  const drawing = (id: string, scene: (reading: Reading) => Scene): Drawing => ({
    id,
    scene: (facts, leastReach = 0) => scene(new Reading(facts, { leastReach })),
  });
  const ports = new Map(words.ports.map((port) => [port.id, port.slot]));
  const faces = facesOf(slot, words, ports);
  // A nameplate's holes are on its own drawing.
  const faceDrawings =
    slot === 'nameplate' ? [] : faces.map((face) => drawing(`face ${face.joint.id}`, (reading) => faceScene(face, reading, optionName)));
  const marks = words.features.filter((feature) => feature.slot === slot && feature.kind === 'mark');
  const markDrawing = marks.length === 0 || slot === 'nameplate' ? [] : [drawing('marks', (reading) => marksScene(marks, reading))];
  return [...own(slot, drawing, optionName), ...faceDrawings, ...markDrawing];
};

const own = (
  slot: string,
  drawing: (id: string, scene: (reading: Reading) => Scene) => Drawing,
  optionName: (feature: FeatureId, option: string) => string,
): readonly Drawing[] => {
  switch (slot) {
    case 'compressor-wheel':
      return [drawing('blades', compressorBlades), drawing('contour', (reading) => contourScene('compressor', reading, null))];
    case 'turbine-wheel':
      return [drawing('blades', turbineBlades), drawing('contour', (reading) => contourScene('turbine', reading, null))];
    case 'compressor-housing':
      return [
        drawing('outside', (reading) => housingScene('compressor', reading, optionName)),
        drawing('contour', (reading) => contourScene('compressor', null, reading)),
      ];
    case 'turbine-housing':
      return [
        drawing('outside', (reading) => housingScene('turbine', reading, optionName)),
        drawing('flange', (reading) => flangeScene(reading, optionName)),
        drawing('contour', (reading) => contourScene('turbine', null, reading)),
      ];
    case 'shaft':
      return [drawing('profile', shaftScene)];
    case 'bearing-housing':
      return [drawing('ports', portsScene)];
    case 'bearing-set':
      return [drawing('section', bearingScene)];
    case 'backplate':
      return [drawing('rings', backplateScene)];
    case 'heat-shield':
      return [drawing('rings', heatShieldScene)];
    case 'nameplate':
      return [drawing('plate', (reading) => plateScene(reading, optionName))];
    default:
      return [];
  }
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
export const drawingFor = (feature: Feature, words: DrawingWords): Drawing | null =>
  drawingsOf(feature.slot, words).find((drawing) => drawing.scene({}).features.includes(feature.id)) ?? null;

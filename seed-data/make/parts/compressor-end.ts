import type { FactDraft, PartDraft } from '../pack/draft.ts';
import { about, between, choice, coded, count, present, rounded, tenth } from '../pack/facts.ts';
import type { CorePattern, Rotation } from './core-pattern.ts';
import { type PartHead, partOf } from './part.ts';
import { type Face, rimFacts } from './rim.ts';
import type { WheelSize } from './sizes.ts';

export interface CompressorHousingDrawing {
  readonly face: Face;
  readonly wheel: WheelSize;
  readonly rotation: Rotation;
  readonly areaRatio: number;
  readonly inlet: number;
  readonly outlet: number;
  readonly outletForm: 'bead' | 'flange' | 'groove';
  readonly recirculation: boolean;
  readonly castName: FactDraft;
  readonly castMark: FactDraft;
}

/** Contours leave 0.20 to 0.33 mm over the wheel on the radius, 0.20 to 0.34 mm at the tip. */
export const compressorHousing = (head: PartHead, drawing: CompressorHousingDrawing): PartDraft =>
  partOf('compressor-housing', head, {
    'cast-name': drawing.castName,
    'cast-mark': drawing.castMark,
    inlet: about(drawing.inlet, 0.4),
    outlet: about(drawing.outlet, 0.4),
    'outlet-form': choice(drawing.outletForm),
    'recirculation-slot': present(drawing.recirculation),
    'area-ratio': about(drawing.areaRatio, 0.5),
    'volute-hand': choice(drawing.rotation),
    'inducer-contour': between(drawing.wheel.inducer + 0.5, -0.04, 0.08),
    'exducer-contour': between(drawing.wheel.exducer + 0.5, -0.04, 0.08),
    'tip-contour': between(drawing.wheel.tipHeight + 0.25, -0.02, 0.06),
    recess: coded(drawing.face.pilot, 'H8'),
    ...rimFacts(drawing.face.rim),
    metal: choice('cast-aluminium'),
    ...rimMetal(drawing),
  });

/** What there is to cut into: a wall outside the recess, metal behind the contour, and the land the bolts stand on. */
const rimMetal = ({ face, wheel }: CompressorHousingDrawing): Record<string, FactDraft> => ({
  'recess-wall': about(rounded((face.rim.circle - face.pilot) * 0.31 + 1.3), 0.4),
  'contour-wall': about(tenth(4.9 + wheel.exducer * 0.021), 0.4),
  'rim-thickness': about(tenth(7.6 + face.pilot * 0.013), 0.2),
  'land-inner': about(tenth(face.pilot + 1.7), 0.3),
  'land-outer': about(tenth(face.rim.circle + (face.rim.joining === 'bolted' ? 14.3 : 2.1)), 0.4),
});

export interface CompressorWheelDrawing {
  readonly size: WheelSize;
  readonly fullBlades: number;
  readonly splitters: number;
  readonly look: 'cast' | 'milled' | 'cast-shot';
  readonly nose: 'hex' | 'twin-flat' | 'collar';
  readonly back: 'full' | 'scalloped';
  readonly rotation: Rotation;
  readonly stub: CorePattern['stub'];
  readonly mark: FactDraft;
}

export const compressorWheel = (head: PartHead, drawing: CompressorWheelDrawing): PartDraft =>
  partOf('compressor-wheel', head, {
    'full-blades': count(drawing.fullBlades),
    'splitter-blades': count(drawing.splitters),
    look: choice(drawing.look),
    nose: choice(drawing.nose),
    'nut-hand': choice(drawing.stub.hand),
    'nut-thread': choice(drawing.stub.thread),
    bore: between(drawing.stub.diameter, 0.001, 0.009),
    height: about(drawing.stub.length * 0.72, 0.04),
    inducer: about(drawing.size.inducer, 0.05),
    exducer: about(drawing.size.exducer, 0.05),
    'tip-height': about(drawing.size.tipHeight, 0.03),
    rotation: choice(drawing.rotation),
    back: choice(drawing.back),
    mark: drawing.mark,
    metal: choice(drawing.look === 'milled' ? 'wrought-aluminium' : 'cast-aluminium'),
  });

export interface BackplateDrawing {
  readonly face: Face;
  readonly core: CorePattern;
  readonly ribs: number;
  readonly mark: FactDraft;
}

export const backplate = (head: PartHead, drawing: BackplateDrawing): PartDraft =>
  partOf('backplate', head, {
    spigot: between(drawing.face.pilot, -0.065, -0.035),
    ...rimFacts(drawing.face.rim),
    'core-spigot': between(drawing.core.backplate.pilot, -0.035, -0.01),
    'core-screw-count': count(drawing.core.backplate.screws),
    'core-screw-circle': about(drawing.core.backplate.circle, 0.08),
    'core-screw': choice(drawing.core.backplate.screw),
    'seal-bore': between(drawing.core.flinger + 0.2, 0, 0.04),
    ribs: count(drawing.ribs),
    mark: drawing.mark,
  });

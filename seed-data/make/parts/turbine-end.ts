import type { FactDraft, PartDraft } from '../pack/draft.ts';
import { about, between, choice, count, present, tenth } from '../pack/facts.ts';
import type { CorePattern, Rotation } from './core-pattern.ts';
import { type PartHead, partOf } from './part.ts';
import { rimFacts } from './rim.ts';
import type { WheelSize } from './sizes.ts';

export type Cutback = { readonly look: 'none' | 'half' | 'strong'; readonly degrees: number };

export interface TurbineWheelDrawing {
  readonly size: WheelSize;
  readonly core: CorePattern;
  readonly blades: number;
  readonly cutback: Cutback;
  readonly entry: 'single' | 'twin';
  readonly rotation: Rotation;
  readonly weld: 'electron-beam' | 'friction';
  readonly hubShape: 'hexagon' | 'triangle' | 'twin-flat' | 'round';
  readonly back: 'full' | 'scalloped';
  readonly mark: FactDraft;
}

export const turbineWheel = (head: PartHead, { core, ...drawing }: TurbineWheelDrawing): PartDraft =>
  partOf('turbine-wheel', head, {
    blades: count(drawing.blades),
    cutback: choice(drawing.cutback.look),
    'cutback-angle': about(drawing.cutback.degrees, 1),
    inducer: about(drawing.size.inducer, 0.06),
    exducer: about(drawing.size.exducer, 0.06),
    'tip-height': about(drawing.size.tipHeight, 0.05),
    entry: choice(drawing.entry),
    rotation: choice(drawing.rotation),
    weld: choice(drawing.weld),
    'weld-pattern': choice(core.weld.pattern),
    'weld-recess': between(core.weld.spigot, 0, 0.015),
    hub: about(core.shield.hub, 0.05),
    'hub-shape': choice(drawing.hubShape),
    back: choice(drawing.back),
    mark: drawing.mark,
    metal: choice('cast-nickel'),
  });

export interface TurbineHousingDrawing {
  readonly face: CorePattern['turbineFace'];
  readonly wheel: WheelSize;
  readonly rotation: Rotation;
  readonly entry: 'single' | 'twin';
  readonly areaRatio: number;
  readonly flange: 'square' | 'oblong' | 'wedge' | 'round';
  readonly wastegate: boolean;
  readonly outlet: number;
  readonly castName: FactDraft;
  readonly castMark: FactDraft;
}

/** Contours leave 0.31 to 0.48 mm over the wheel on the radius cold, 0.30 to 0.50 mm at the tip. */
export const turbineHousing = (head: PartHead, drawing: TurbineHousingDrawing): PartDraft =>
  partOf('turbine-housing', head, {
    'cast-name': drawing.castName,
    'cast-mark': drawing.castMark,
    'area-ratio': about(drawing.areaRatio, 0.4),
    entry: choice(drawing.entry),
    flange: choice(drawing.flange),
    wastegate: present(drawing.wastegate),
    outlet: about(drawing.outlet, 0.5),
    'volute-hand': choice(drawing.rotation),
    'inducer-contour': between(drawing.wheel.inducer + 0.74, -0.06, 0.14),
    'exducer-contour': between(drawing.wheel.exducer + 0.74, -0.06, 0.14),
    'tip-contour': between(drawing.wheel.tipHeight + 0.38, -0.03, 0.07),
    recess: between(drawing.face.pilot, 0, 0.07),
    ...rimFacts(drawing.face.rim),
    metal: choice('austenitic-iron'),
    'contour-wall': about(tenth(5.3 + drawing.wheel.inducer * 0.017), 0.5),
  });

import type { DrawingId, FeatureId, SlotId } from '../ids.ts';

/**
 * The drawings the program has, each with the roles it is drawn from and the kind of feature that can play them (A6). A role is what the drawing
 * calls a size, a count or a look, whatever an atlas calls the feature. Options it draws apart are told by their ids, named beside the role.
 */
export interface DrawingRoles {
  'compressor blades': {
    fullBlades: 'count';
    splitterBlades: 'count';
    inducer: 'measure';
    exducer: 'measure';
    /** scalloped */
    back: 'choice';
    /** clockwise, anticlockwise */
    rotation: 'choice';
    /** hex, hexagon, triangle, twin-flat, collar, round */
    nose: 'choice';
  };
  'turbine blades': {
    blades: 'count';
    inducer: 'measure';
    exducer: 'measure';
    /** As `back`, `rotation` and `nose` of a compressor wheel. */
    back: 'choice';
    rotation: 'choice';
    hub: 'choice';
  };
  'compressor wheel contour': { exducer: 'measure'; inducer: 'measure'; tipHeight: 'measure' };
  'compressor housing contour': { exducer: 'measure'; inducer: 'measure'; tipWidth: 'measure' };
  'turbine wheel contour': {
    inducer: 'measure';
    exducer: 'measure';
    tipHeight: 'measure';
    /** Degrees. */
    cutbackAngle: 'measure';
    /** none */
    cutback: 'choice';
  };
  'turbine housing contour': { inducer: 'measure'; exducer: 'measure'; tipWidth: 'measure' };
  'compressor housing': {
    inlet: 'measure';
    outlet: 'measure';
    /** bead, flange, groove */
    outletForm: 'choice';
    /** clockwise, anticlockwise */
    voluteHand: 'choice';
    areaRatio: 'measure';
    recirculationSlot: 'presence';
  };
  'turbine housing': {
    outlet: 'measure';
    /** clockwise, anticlockwise */
    voluteHand: 'choice';
    areaRatio: 'measure';
    /** single, twin */
    entry: 'choice';
    wastegate: 'presence';
    flange: 'choice';
  };
  /** flange: square, oblong, wedge, round; entry: single, twin */
  'inlet flange': { flange: 'choice'; entry: 'choice' };
  shaft: {
    running: 'measure';
    stub: 'measure';
    stubLength: 'measure';
    bearingLength: 'measure';
    flinger: 'measure';
    sealBoss: 'measure';
    weldSpigot: 'measure';
    steps: 'count';
    innerRaces: 'presence';
    thread: 'choice';
    /** left, right */
    threadHand: 'choice';
  };
  'bearing housing ports': {
    recess: 'measure';
    bearingBore: 'measure';
    oilFeed: 'choice';
    /** two-bolt, four-bolt, spigot */
    oilDrain: 'choice';
    waterPorts: 'presence';
    ribs: 'count';
    /** straight, fan, ring */
    ribPattern: 'choice';
  };
  'bearing set': {
    outside: 'measure';
    runningBore: 'measure';
    length: 'measure';
    /** journal, cartridge */
    kind: 'choice';
    bushes: 'count';
    balls: 'count';
  };
  backplate: { spigot: 'measure'; coreSpigot: 'measure'; sealBore: 'measure'; ribs: 'count' };
  'heat shield': { outside: 'measure'; seat: 'measure'; hole: 'measure'; dish: 'measure'; slots: 'count'; form: 'choice' };
  nameplate: {
    holes: 'count';
    spacing: 'measure';
    rivet: 'choice';
    fixing: 'choice';
    tradeName: 'mark';
    number: 'mark';
    year: 'count';
    serial: 'presence';
  };
}

export type DrawingKind = keyof DrawingRoles;

/**
 * Which drawing shows the parts of a slot, and which feature of the slot plays which role. A role nothing is fed to is not known. Drawings of one slot
 * stand in the order of the list, the most telling first; those of its bolted faces and of its marks follow by themselves.
 */
export type SlotDrawing = { readonly [K in DrawingKind]: SlotDrawingOf<K> }[DrawingKind];

export interface SlotDrawingOf<K extends DrawingKind> {
  readonly id: DrawingId;
  readonly slot: SlotId;
  readonly drawing: K;
  readonly feeds: { readonly [Role in keyof DrawingRoles[K]]?: FeatureId };
}

import type { DrawingKind, DrawingRoles, SlotDrawing } from '../../../reasoner/index.ts';
import type { Plain } from '../pack/draft.ts';

/** @param feeds role of the drawing, and the feature of the slot that plays it, without the slot */
const drawingsOf =
  (slot: string) =>
  <K extends DrawingKind>(id: string, drawing: K, feeds: { readonly [Role in keyof DrawingRoles[K]]: string }) =>
    ({
      id: `${slot}-${id}`,
      slot,
      drawing,
      feeds: Object.fromEntries(Object.entries(feeds).map(([role, feature]) => [role, `${slot}-${feature}`])),
    }) as Plain<SlotDrawing>;

const compressorHousing = drawingsOf('compressor-housing');
const compressorWheel = drawingsOf('compressor-wheel');
const turbineWheel = drawingsOf('turbine-wheel');
const turbineHousing = drawingsOf('turbine-housing');

/** Which drawing shows a slot, the most telling first, and from which features. */
export const drawings: readonly Plain<SlotDrawing>[] = [
  compressorHousing('outside', 'compressor housing', {
    inlet: 'inlet',
    outlet: 'outlet',
    outletForm: 'outlet-form',
    voluteHand: 'volute-hand',
    areaRatio: 'area-ratio',
    recirculationSlot: 'recirculation-slot',
  }),
  compressorHousing('contour', 'compressor housing contour', {
    exducer: 'exducer-contour',
    inducer: 'inducer-contour',
    tipWidth: 'tip-contour',
  }),
  compressorWheel('blades', 'compressor blades', {
    fullBlades: 'full-blades',
    splitterBlades: 'splitter-blades',
    inducer: 'inducer',
    exducer: 'exducer',
    back: 'back',
    rotation: 'rotation',
    nose: 'nose',
  }),
  compressorWheel('contour', 'compressor wheel contour', { exducer: 'exducer', inducer: 'inducer', tipHeight: 'tip-height' }),
  drawingsOf('backplate')('rings', 'backplate', { spigot: 'spigot', coreSpigot: 'core-spigot', sealBore: 'seal-bore', ribs: 'ribs' }),
  drawingsOf('bearing-housing')('ports', 'bearing housing ports', {
    recess: 'recess',
    bearingBore: 'bearing-bore',
    oilFeed: 'oil-feed',
    oilDrain: 'oil-drain',
    waterPorts: 'water-ports',
    ribs: 'ribs',
    ribPattern: 'rib-pattern',
  }),
  drawingsOf('bearing-set')('section', 'bearing set', {
    outside: 'outside',
    runningBore: 'running-bore',
    length: 'length',
    kind: 'kind',
    bushes: 'bushes',
    balls: 'balls',
  }),
  drawingsOf('shaft')('profile', 'shaft', {
    running: 'running',
    stub: 'stub',
    stubLength: 'stub-length',
    bearingLength: 'bearing-length',
    flinger: 'flinger',
    sealBoss: 'seal-boss',
    weldSpigot: 'weld-spigot',
    steps: 'steps',
    innerRaces: 'inner-races',
    thread: 'thread',
    threadHand: 'thread-hand',
  }),
  turbineWheel('blades', 'turbine blades', {
    blades: 'blades',
    inducer: 'inducer',
    exducer: 'exducer',
    back: 'back',
    rotation: 'rotation',
    hub: 'hub-shape',
  }),
  turbineWheel('contour', 'turbine wheel contour', {
    inducer: 'inducer',
    exducer: 'exducer',
    tipHeight: 'tip-height',
    cutbackAngle: 'cutback-angle',
    cutback: 'cutback',
  }),
  drawingsOf('heat-shield')('rings', 'heat shield', {
    outside: 'outside',
    seat: 'rim',
    hole: 'hole',
    dish: 'dish',
    slots: 'slots',
    form: 'form',
  }),
  turbineHousing('outside', 'turbine housing', {
    outlet: 'outlet',
    voluteHand: 'volute-hand',
    areaRatio: 'area-ratio',
    entry: 'entry',
    wastegate: 'wastegate',
    flange: 'flange',
  }),
  turbineHousing('flange', 'inlet flange', { flange: 'flange', entry: 'entry' }),
  turbineHousing('contour', 'turbine housing contour', { inducer: 'inducer-contour', exducer: 'exducer-contour', tipWidth: 'tip-contour' }),
  drawingsOf('nameplate')('plate', 'nameplate', {
    holes: 'holes',
    spacing: 'spacing',
    rivet: 'rivet',
    fixing: 'fixing',
    tradeName: 'trade-name',
    number: 'number',
    year: 'year',
    serial: 'serial',
  }),
];

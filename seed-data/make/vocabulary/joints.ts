import type { FitRule, Joint } from '../../../reasoner/index.ts';
import type { Plain } from '../pack/draft.ts';

/**
 * The joints and what each asks. All limits are invented.
 *
 * Bolted and clamped rims are one kind of face here: a clamped rim has no bolts (count 0, bolt "none") and its
 * fixing circle is the clamp's seat; a bolted rim has the clamp profile "none". So every rule asks something of
 * either kind, and a bolted part never meets a clamped one.
 */
const joint = (a: string, b: string, name: string, rules: readonly Plain<FitRule>[]): Plain<Joint> => ({
  id: `${a}-and-${b}`,
  name,
  a: `${a}-to-${b}`,
  b: `${b}-to-${a}`,
  rules,
  source: 'limits-of-joints',
});

const rim = (a: string, b: string, within: number): readonly Plain<FitRule>[] => [
  { kind: 'same', what: 'joining', a: `${a}-joining`, b: `${b}-joining` },
  {
    kind: 'bolt circle',
    a: { count: `${a}-bolt-count`, diameter: `${a}-fixing-circle`, bolt: `${a}-bolt` },
    b: { count: `${b}-bolt-count`, diameter: `${b}-fixing-circle`, bolt: `${b}-bolt` },
    within,
  },
  { kind: 'clamp profile', a: `${a}-clamp-profile`, b: `${b}-clamp-profile` },
];

export const joints: readonly Plain<Joint>[] = [
  joint('compressor-housing', 'backplate', 'compressor housing on backplate', [
    { kind: 'pilot', spigot: 'backplate-spigot', recess: 'compressor-housing-recess', min: 0.02, max: 0.16 },
    ...rim('compressor-housing', 'backplate', 0.25),
  ]),
  joint('compressor-wheel', 'compressor-housing', 'compressor wheel in its contour', [
    {
      kind: 'wheel to contour',
      pairs: [
        { wheel: 'compressor-wheel-inducer', housing: 'compressor-housing-inducer-contour', way: 'radial', min: 0.12, max: 0.45 },
        { wheel: 'compressor-wheel-exducer', housing: 'compressor-housing-exducer-contour', way: 'radial', min: 0.12, max: 0.5 },
        { wheel: 'compressor-wheel-tip-height', housing: 'compressor-housing-tip-contour', way: 'axial', min: 0.12, max: 0.5 },
      ],
    },
    { kind: 'direction of rotation', a: 'compressor-wheel-rotation', b: 'compressor-housing-volute-hand' },
  ]),
  joint('compressor-wheel', 'shaft', 'compressor wheel on shaft', [
    { kind: 'pilot', spigot: 'shaft-stub', recess: 'compressor-wheel-bore', min: 0, max: 0.018 },
    {
      kind: 'thread',
      external: { size: 'shaft-thread', hand: 'shaft-thread-hand' },
      internal: { size: 'compressor-wheel-nut-thread', hand: 'compressor-wheel-nut-hand' },
    },
  ]),
  joint('backplate', 'bearing-housing', 'backplate on bearing housing', [
    { kind: 'pilot', spigot: 'backplate-core-spigot', recess: 'bearing-housing-recess', min: 0, max: 0.09 },
    {
      kind: 'bolt circle',
      a: { count: 'backplate-core-screw-count', diameter: 'backplate-core-screw-circle', bolt: 'backplate-core-screw' },
      b: { count: 'bearing-housing-screw-count', diameter: 'bearing-housing-screw-circle', bolt: 'bearing-housing-screw' },
      within: 0.2,
    },
  ]),
  joint('bearing-set', 'bearing-housing', 'bearing set in bearing housing', [
    { kind: 'same', what: 'bearing kind', a: 'bearing-set-seat-kind', b: 'bearing-housing-bored-for' },
    { kind: 'running clearance', inner: 'bearing-set-outside', outer: 'bearing-housing-bearing-bore', min: 0.02, max: 0.14 },
    { kind: 'services', pairs: [{ needs: 'bearing-set-needs-water', offers: 'bearing-housing-water-ports' }] },
  ]),
  joint('shaft', 'bearing-set', 'shaft in bearing set', [
    { kind: 'same', what: 'bearing kind', a: 'shaft-made-for', b: 'bearing-set-kind' },
    { kind: 'running clearance', inner: 'shaft-running', outer: 'bearing-set-running-bore', min: 0.008, max: 0.085 },
  ]),
  joint('turbine-wheel', 'shaft', 'turbine wheel welded to shaft', [
    { kind: 'same', what: 'weld pattern', a: 'turbine-wheel-weld-pattern', b: 'shaft-weld-pattern' },
    { kind: 'pilot', spigot: 'shaft-weld-spigot', recess: 'turbine-wheel-weld-recess', min: 0, max: 0.06 },
  ]),
  joint('turbine-wheel', 'turbine-housing', 'turbine wheel in its contour', [
    {
      kind: 'wheel to contour',
      pairs: [
        { wheel: 'turbine-wheel-inducer', housing: 'turbine-housing-inducer-contour', way: 'radial', min: 0.2, max: 0.75 },
        { wheel: 'turbine-wheel-exducer', housing: 'turbine-housing-exducer-contour', way: 'radial', min: 0.2, max: 0.75 },
        { wheel: 'turbine-wheel-tip-height', housing: 'turbine-housing-tip-contour', way: 'axial', min: 0.2, max: 0.8 },
      ],
    },
    { kind: 'direction of rotation', a: 'turbine-wheel-rotation', b: 'turbine-housing-volute-hand' },
    { kind: 'same', what: 'entry', a: 'turbine-wheel-entry', b: 'turbine-housing-entry' },
  ]),
  joint('bearing-housing', 'turbine-housing', 'bearing housing in turbine housing', [
    { kind: 'pilot', spigot: 'bearing-housing-spigot', recess: 'turbine-housing-recess', min: 0.04, max: 0.26 },
    ...rim('bearing-housing', 'turbine-housing', 0.3),
  ]),
  joint('heat-shield', 'bearing-housing', 'heat shield on bearing housing', [
    { kind: 'press fit', shaft: 'bearing-housing-shield-seat', bore: 'heat-shield-rim', min: 0.02, max: 0.22 },
  ]),
  joint('heat-shield', 'turbine-wheel', 'turbine wheel hub in heat shield', [
    { kind: 'running clearance', inner: 'turbine-wheel-hub', outer: 'heat-shield-hole', min: 0.5, max: 2 },
  ]),
  joint('nameplate', 'bearing-housing', 'nameplate on bearing housing', [
    {
      kind: 'bolt circle',
      a: { count: 'nameplate-holes', diameter: 'nameplate-spacing', bolt: 'nameplate-rivet' },
      b: { count: 'bearing-housing-plate-holes', diameter: 'bearing-housing-plate-spacing', bolt: 'bearing-housing-plate-rivet' },
      within: 0.5,
    },
  ]),
];

import type { Chain, Metal, Operation, Warmth } from '../../../reasoner/index.ts';
import type { Plain } from '../pack/draft.ts';

/** What a shop can do, what it must leave, and what runs warm. Hours, limits and cautions are invented. */

/**
 * Mean expansion near room temperature, millionths per K (reasoner/fits/materials.ts says where each is read), and for wheels what their growth at
 * speed needs. Density, Young's modulus and Poisson's ratio are of the common alloys, from memory; warm figures are estimates in any case.
 */
export const metals: readonly Plain<Metal>[] = [
  {
    id: 'cast-aluminium',
    name: 'cast aluminium',
    expansion: 21.5,
    disc: { density: 2680, young: 72.4, poisson: 0.33 },
    source: 'trade-habit',
  },
  {
    id: 'wrought-aluminium',
    name: 'wrought aluminium',
    expansion: 22.9,
    disc: { density: 2780, young: 73.1, poisson: 0.33 },
    source: 'trade-habit',
  },
  { id: 'grey-iron', name: 'grey cast iron', expansion: 11.4, source: 'trade-habit' },
  { id: 'austenitic-iron', name: 'austenitic ductile iron', expansion: 12.9, source: 'trade-habit' },
  {
    id: 'cast-nickel',
    name: 'cast nickel alloy',
    expansion: 13.5,
    disc: { density: 7910, young: 206, poisson: 0.3 },
    source: 'trade-habit',
  },
];

const source = 'limits-of-joints';
const grade = (is: number) => ({ kind: 'grade', grade: is }) as const;
const within = (tolerance: number) => ({ kind: 'tolerance', tolerance }) as const;
const aluminium = [{ feature: 'compressor-housing-metal', anyOf: ['cast-aluminium'] }];
const onTheFixture = 'The housing is cut on a fixture off its own spigot; one that is chucked by its volute comes out oval.';

export const operations: readonly Plain<Operation>[] = [
  {
    id: 'open-compressor-recess',
    name: 'open the backplate recess',
    slot: 'compressor-housing',
    does: {
      kind: 'cut',
      cuts: [
        {
          feature: 'compressor-housing-recess',
          way: 'larger',
          most: 1.4,
          holds: grade(8),
          metal: [{ feature: 'compressor-housing-recess-wall', per: 2, leaves: 3.2 }],
          moves: [],
        },
      ],
    },
    takes: aluminium,
    hours: 1.6,
    turning: false,
    cautions: [onTheFixture],
    source,
  },
  {
    id: 'ring-compressor-recess',
    name: 'press a ring into the backplate recess and bore it',
    slot: 'compressor-housing',
    does: { kind: 'ring', feature: 'compressor-housing-recess', way: 'smaller', wall: 2.4, holds: grade(8) },
    takes: aluminium,
    hours: 3.8,
    turning: false,
    cautions: ['An aluminium ring is secured against turning and creeping before it is bored.'],
    source,
  },
  {
    id: 'recontour-compressor-housing',
    name: 'cut the contour to the wheel',
    slot: 'compressor-housing',
    does: {
      kind: 'cut',
      cuts: [
        {
          feature: 'compressor-housing-inducer-contour',
          way: 'larger',
          most: 0.9,
          holds: within(0.06),
          metal: [{ feature: 'compressor-housing-contour-wall', per: 2, leaves: 4.2 }],
          moves: [],
        },
        {
          feature: 'compressor-housing-exducer-contour',
          way: 'larger',
          most: 0.9,
          holds: within(0.06),
          metal: [{ feature: 'compressor-housing-contour-wall', per: 2, leaves: 4.2 }],
          moves: [],
        },
        {
          feature: 'compressor-housing-tip-contour',
          way: 'larger',
          most: 0.6,
          holds: within(0.05),
          metal: [{ feature: 'compressor-housing-contour-wall', per: 1, leaves: 4.2 }],
          moves: [],
        },
      ],
    },
    takes: aluminium,
    hours: 3.4,
    turning: false,
    cautions: ['A contour that is cut away further than the wheel asks costs pressure and brings the surge line nearer.', onTheFixture],
    source,
  },
  {
    id: 'skim-compressor-rim',
    name: 'skim the rim so that the contour comes nearer to the wheel',
    slot: 'compressor-housing',
    does: {
      kind: 'cut',
      cuts: [
        {
          feature: 'compressor-housing-tip-contour',
          way: 'smaller',
          most: 0.8,
          holds: within(0.05),
          metal: [{ feature: 'compressor-housing-rim-thickness', per: 1, leaves: 7.4 }],
          moves: [],
        },
      ],
    },
    takes: aluminium,
    hours: 1.2,
    turning: false,
    cautions: [onTheFixture],
    source,
  },
  {
    id: 'drill-compressor-rim',
    name: 'drill the rim for another bolt circle',
    slot: 'compressor-housing',
    does: {
      kind: 'drill a circle',
      count: 'compressor-housing-bolt-count',
      diameter: 'compressor-housing-fixing-circle',
      bolt: 'compressor-housing-bolt',
      land: { inner: 'compressor-housing-land-inner', outer: 'compressor-housing-land-outer' },
      holes: { m5: 5.5, m6: 6.6, m7: 7.6, m8: 9 },
      edge: 2.2,
      within: 0.08,
    },
    takes: [...aluminium, { feature: 'compressor-housing-joining', anyOf: ['bolted'] }],
    hours: 2.7,
    turning: false,
    cautions: ['Old holes that are left open are plugged, or the joint blows.'],
    source,
  },
  {
    id: 'turn-backplate-spigot',
    name: 'turn down the spigot towards the compressor housing',
    slot: 'backplate',
    does: { kind: 'cut', cuts: [{ feature: 'backplate-spigot', way: 'smaller', most: 0.7, holds: grade(8), metal: [], moves: [] }] },
    takes: [],
    // The core has to come apart for it.
    hours: 2.4,
    turning: false,
    cautions: [],
    source,
  },
  {
    id: 'redrill-backplate',
    name: 'drill the backplate for another screw circle',
    slot: 'backplate',
    does: {
      kind: 'remake',
      offers: [
        { feature: 'backplate-core-screw-count', kind: 'count', from: 3, to: 8 },
        { feature: 'backplate-core-screw-circle', kind: 'measure', from: 50, to: 120, within: 0.06 },
        { feature: 'backplate-core-screw', kind: 'choice', anyOf: ['m5', 'm6'] },
      ],
    },
    takes: [],
    hours: 2.2,
    turning: false,
    cautions: ['The seal ring’s bore stays concentric with the new spigot to a hundredth, or the ring wears out in hours.'],
    source,
  },
  {
    id: 'recontour-turbine-housing',
    name: 'cut the contour to the wheel',
    slot: 'turbine-housing',
    does: {
      kind: 'cut',
      cuts: (['inducer-contour', 'exducer-contour'] as const).map((short) => ({
        feature: `turbine-housing-${short}`,
        way: 'larger' as const,
        most: 1.2,
        holds: within(0.1),
        metal: [{ feature: 'turbine-housing-contour-wall', per: 2 as const, leaves: 4.6 }],
        moves: [],
      })),
    },
    takes: [{ feature: 'turbine-housing-metal', anyOf: ['austenitic-iron', 'grey-iron'] }],
    hours: 4.3,
    turning: false,
    cautions: ['A turbine housing that has run is looked over for cracks before it is cut; heat has hardened its skin.'],
    source,
  },
  {
    id: 'open-turbine-recess',
    name: 'open the bearing housing recess',
    slot: 'turbine-housing',
    does: { kind: 'cut', cuts: [{ feature: 'turbine-housing-recess', way: 'larger', most: 1, holds: grade(9), metal: [], moves: [] }] },
    takes: [{ feature: 'turbine-housing-metal', anyOf: ['austenitic-iron', 'grey-iron'] }],
    hours: 2.3,
    turning: false,
    cautions: [],
    source,
  },
  {
    id: 'bore-heat-shield',
    name: 'bore the hub hole',
    slot: 'heat-shield',
    does: { kind: 'cut', cuts: [{ feature: 'heat-shield-hole', way: 'larger', most: 2.4, holds: within(0.12), metal: [], moves: [] }] },
    takes: [],
    hours: 0.4,
    turning: false,
    cautions: [],
    source,
  },
];

/** Stacks of lengths along the shaft. */
export const chains: readonly Plain<Chain>[] = [
  {
    id: 'nut-engagement',
    name: 'stack from the stub’s shoulder to the compressor nut',
    leaves: 'nut engagement',
    links: [
      { feature: 'shaft-stub-length', times: 1 },
      { feature: 'compressor-wheel-height', times: -1 },
    ],
    min: 6,
    max: 20,
    source,
  },
  {
    id: 'bearing-float',
    name: 'stack between the shaft’s shoulders',
    leaves: 'float',
    links: [
      { feature: 'shaft-bearing-length', times: 1 },
      { feature: 'bearing-set-length', times: -1 },
    ],
    min: 0.04,
    max: 0.22,
    source,
  },
];

/** Rises above 20 °C and speeds are round figures for a unit at full load. */
export const warmth: readonly Plain<Warmth>[] = [
  {
    id: 'compressor-at-load',
    joint: 'compressor-wheel-and-compressor-housing',
    sides: [
      { slot: 'compressor-wheel', metal: 'compressor-wheel-metal', rise: 115, turns: { speed: 98_000, bore: 'compressor-wheel-bore' } },
      { slot: 'compressor-housing', metal: 'compressor-housing-metal', rise: 95 },
    ],
    source,
  },
  {
    id: 'turbine-at-load',
    joint: 'turbine-wheel-and-turbine-housing',
    sides: [
      { slot: 'turbine-wheel', metal: 'turbine-wheel-metal', rise: 560, turns: { speed: 98_000 } },
      { slot: 'turbine-housing', metal: 'turbine-housing-metal', rise: 610 },
    ],
    source,
  },
];

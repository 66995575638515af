import {
  bearingKinds,
  bolts,
  boreGauge,
  caliper,
  clampProfiles,
  depthGauge,
  featuresOf,
  hands,
  joinings,
  micrometer,
  threads,
} from './feature.ts';

const housing = featuresOf('bearing-housing');
const bearings = featuresOf('bearing-set');
const shaft = featuresOf('shaft');
const shield = featuresOf('heat-shield');
const plate = featuresOf('nameplate');

/** How shaft and turbine wheel are prepared for their weld; parts of one pattern go together whoever made them. */
export const weldPatterns = [
  ['plain-step', 'plain step'],
  ['hollow-step', 'step with a hollow behind it'],
  ['long-step', 'long step'],
  ['cone', 'cone'],
] as const;

export const rivets = [
  ['2.5', '2.5 mm rivets'],
  ['3', '3 mm rivets'],
  ['screws', 'drive screws'],
] as const;

export const coreFeatures = [
  housing.mark('cast-name', 'cast name', ['as-received', 1]),
  housing.mark('cast-mark', 'casting mark', ['as-received', 1]),
  housing.presence('water-ports', 'water ports', ['as-received', 1], 'bearing-set'),
  housing.choice(
    'oil-feed',
    'oil feed thread',
    [
      ['m10x1', 'M10×1'],
      ['m11x1', 'M11×1'],
      ['m12x1.5', 'M12×1.5'],
      ['m16x1.5', 'M16×1.5'],
    ],
    ['as-received', 3],
  ),
  housing.choice(
    'oil-drain',
    'oil drain',
    [
      ['two-bolt', 'two-bolt flange'],
      ['four-bolt', 'four-bolt flange'],
      ['spigot', 'spigot for a hose'],
    ],
    ['as-received', 1],
  ),
  housing.choice(
    'rib-pattern',
    'rib pattern',
    [
      ['straight', 'straight ribs'],
      ['fan', 'ribs in a fan'],
      ['ring', 'ribs joined by a ring'],
      ['smooth', 'smooth, no ribs'],
    ],
    ['as-received', 1],
  ),
  housing.count('ribs', 'rib count', 'ribs', ['as-received', 1]),
  housing.measure('recess', 'backplate recess diameter', ['core-stripped', 3], boreGauge, [0.01, 0.04], 'backplate'),
  housing.count('screw-count', 'screw count at the backplate', 'screws', ['core-stripped', 1], 'backplate'),
  housing.measure('screw-circle', 'screw circle diameter at the backplate', ['core-stripped', 4], caliper, [0.1, 0.1], 'backplate'),
  housing.choice('screw', 'screw size at the backplate', bolts, ['core-stripped', 2], 'backplate'),
  housing.choice('bored-for', 'bore, made for', bearingKinds, ['core-stripped', 1], 'bearing-set'),
  housing.measure('bearing-bore', 'bearing bore', ['core-stripped', 3], boreGauge, [0.003, 0.02], 'bearing-set'),
  housing.measure('seal-bore', 'seal bore on the turbine side', ['core-stripped', 3], boreGauge, [0.01, 0.08]),
  housing.measure(
    'spigot',
    'spigot diameter towards the turbine housing',
    ['turbine-housing-off', 3],
    caliper,
    [0.15, 0.02],
    'turbine-housing',
  ),
  housing.choice('joining', 'joining to the turbine housing', joinings, ['as-received', 1], 'turbine-housing'),
  housing.count('bolt-count', 'bolt count at the turbine housing', 'bolts', ['as-received', 1], 'turbine-housing'),
  housing.measure(
    'fixing-circle',
    'bolt circle or clamp seat diameter',
    ['turbine-housing-off', 4],
    caliper,
    [0.15, 0.15],
    'turbine-housing',
  ),
  housing.choice('bolt', 'bolt size at the turbine housing', bolts, ['as-received', 2], 'turbine-housing'),
  housing.choice('clamp-profile', 'clamp rim profile', clampProfiles, ['turbine-housing-off', 3], 'turbine-housing'),
  housing.measure('shield-seat', 'heat shield seat diameter', ['turbine-housing-off', 3], caliper, [0.08, 0.02], 'heat-shield'),
  housing.count('plate-holes', 'plate hole count', 'holes', ['as-received', 1], 'nameplate'),
  housing.measure('plate-spacing', 'plate hole spacing', ['as-received', 2], caliper, [0.2, 0.2], 'nameplate'),
  housing.choice('plate-rivet', 'plate hole size', rivets, ['as-received', 1], 'nameplate'),

  bearings.choice('kind', 'kind', bearingKinds, ['core-stripped', 1], 'shaft'),
  bearings.presence('needs-water', 'need of water', ['core-stripped', 1], 'bearing-housing'),
  bearings.choice('seat-kind', 'seat, made for', bearingKinds, ['core-stripped', 1], 'bearing-housing'),
  bearings.measure('outside', 'outside diameter', ['core-stripped', 2], micrometer, [0.02, 0.003], 'bearing-housing'),
  bearings.measure('running-bore', 'running bore', ['core-stripped', 3], boreGauge, [0.003, 0.02], 'shaft'),
  bearings.measure('length', 'length', ['core-stripped', 2], depthGauge, [0.1, 0.02], 'bearing-housing'),
  bearings.count('bushes', 'bush count', 'bushes', ['core-stripped', 1]),
  bearings.count('balls', 'ball count', 'balls', ['cut-or-sectioned', 6]),
  bearings.choice(
    'thrust',
    'thrust',
    [
      ['split-ring', 'split thrust ring'],
      ['full-ring', 'full thrust ring'],
      ['in-cartridge', 'taken by the cartridge'],
    ],
    ['core-stripped', 1],
  ),
  // A good set repeats its readings on the high-speed balancing rig; one that does not is suspect (common practice, no source).
  bearings.presence('repeats', 'repeatable readings on the balancing rig', ['turbine-housing-off', 25], undefined, {
    seen: false,
    sentence:
      'Readings that do not repeat on a high-speed balancing rig make the bearings suspect, whatever maker they are of. Do not run the core until the bearing set has been looked at.',
  }),
  bearings.mark('mark', 'mark', ['core-stripped', 1]),

  shaft.count('steps', 'stepped diameter count', 'diameters', ['core-stripped', 1]),
  shaft.presence('inner-races', 'pressed inner races', ['core-stripped', 1]),
  shaft.choice('made-for', 'running surface, made for', bearingKinds, ['core-stripped', 1], 'bearing-set'),
  shaft.measure('running', 'journal or raceway diameter', ['core-stripped', 3], micrometer, [0.02, 0.002], 'bearing-set'),
  shaft.measure('bearing-length', 'length between the shoulders', ['core-stripped', 3], depthGauge, [0.02, 0.1], 'bearing-set'),
  shaft.measure('seal-boss', 'seal boss diameter', ['core-stripped', 2], micrometer, [0.06, 0.005]),
  shaft.measure('flinger', 'flinger diameter', ['core-stripped', 2], micrometer, [0.06, 0.005]),
  shaft.measure('stub', 'stub diameter', ['core-stripped', 2], micrometer, [0.01, 0.001], 'compressor-wheel'),
  shaft.measure('stub-length', 'stub length', ['core-stripped', 2], depthGauge, [0.05, 0.05], 'compressor-wheel'),
  shaft.choice('thread', 'stub thread', threads, ['core-stripped', 3], 'compressor-wheel'),
  shaft.choice('thread-hand', 'stub thread hand', hands, ['compressor-housing-off', 2], 'compressor-wheel'),
  shaft.choice('weld-pattern', 'weld preparation', weldPatterns, ['cut-or-sectioned', 4], 'turbine-wheel'),
  shaft.measure('weld-spigot', 'weld spigot diameter', ['cut-or-sectioned', 4], micrometer, [0, 0], 'turbine-wheel'),
  shaft.mark('mark', 'mark on the stub end', ['compressor-housing-off', 2]),

  shield.measure('rim', 'seat diameter', ['turbine-housing-off', 3], caliper, [0.02, 0.25], 'bearing-housing'),
  shield.measure('hole', 'hub hole diameter', ['core-stripped', 2], caliper, [0.05, 0.5], 'turbine-wheel'),
  shield.measure('outside', 'outside diameter', ['turbine-housing-off', 2], caliper, [0.6, 0.3]),
  shield.measure('dish', 'dish depth', ['core-stripped', 2], depthGauge, [0.4, 0.4]),
  shield.choice(
    'form',
    'form',
    [
      ['pressed', 'pressed from sheet'],
      ['turned', 'turned from a casting'],
    ],
    ['turbine-housing-off', 1],
  ),
  shield.count('slots', 'slot count', 'slots', ['turbine-housing-off', 1]),
  shield.mark('mark', 'stamped mark', ['core-stripped', 1]),

  plate.mark('number', 'part number', ['as-received', 1], 'part number'),
  plate.mark('trade-name', 'trade name', ['as-received', 1], 'trade name'),
  plate.presence('serial', 'serial number', ['as-received', 1]),
  plate.mark('serial-text', 'serial number, as stamped', ['as-received', 1], 'serial number'),
  plate.year('year', 'year of make', ['as-received', 1]),
  plate.choice(
    'fixing',
    'fixing',
    [
      ['factory-rivets', 'factory rivets'],
      ['replaced-rivets', 'replaced rivets'],
      ['glued', 'glued'],
    ],
    ['as-received', 1],
  ),
  plate.count('holes', 'hole count', 'holes', ['as-received', 1], 'bearing-housing'),
  plate.measure('spacing', 'hole spacing', ['as-received', 2], caliper, [0.2, 0.2], 'bearing-housing'),
  plate.choice('rivet', 'hole size', rivets, ['as-received', 1], 'bearing-housing'),
];

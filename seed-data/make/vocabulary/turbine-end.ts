import { weldPatterns } from './core.ts';
import {
  bolts,
  boreGauge,
  caliper,
  clampProfiles,
  depthGauge,
  entries,
  featuresOf,
  joinings,
  micrometer,
  protractor,
  rotations,
  templates,
} from './feature.ts';

const wheel = featuresOf('turbine-wheel');
const housing = featuresOf('turbine-housing');

export const turbineEndFeatures = [
  wheel.count('blades', 'blade count', 'blades', ['as-received', 2]),
  wheel.choice(
    'cutback',
    'cutback',
    [
      ['none', 'none'],
      ['half', 'about half'],
      ['strong', 'strong'],
    ],
    ['as-received', 2],
  ),
  wheel.measure('cutback-angle', 'cutback angle', ['turbine-housing-off', 5], protractor, [0.5, 0.5]),
  wheel.measure('inducer', 'inducer diameter', ['turbine-housing-off', 3], caliper, [0.6, 0.05], 'turbine-housing'),
  wheel.measure('exducer', 'exducer diameter', ['as-received', 3], caliper, [0.6, 0.05], 'turbine-housing'),
  wheel.measure('tip-height', 'tip height', ['turbine-housing-off', 4], depthGauge, [0.25, 0.03], 'turbine-housing'),
  wheel.choice('entry', 'tips, cut for', entries, ['turbine-housing-off', 1], 'turbine-housing'),
  wheel.choice('rotation', 'blade hand', rotations, ['as-received', 1], 'turbine-housing'),
  wheel.choice(
    'weld',
    'weld',
    [
      ['electron-beam', 'electron beam, narrow and even'],
      ['friction', 'friction, with an upset ring'],
    ],
    ['core-stripped', 2],
  ),
  wheel.choice('weld-pattern', 'weld preparation', weldPatterns, ['cut-or-sectioned', 4], 'shaft'),
  wheel.measure('weld-recess', 'weld recess diameter', ['cut-or-sectioned', 4], micrometer, [0, 0], 'shaft'),
  wheel.measure('hub', 'hub diameter behind the blades', ['core-stripped', 2], caliper, [0.1, 0.05], 'heat-shield'),
  wheel.choice(
    'hub-shape',
    'hub nose shape',
    [
      ['hexagon', 'hexagon'],
      ['triangle', 'rounded triangle'],
      ['twin-flat', 'two flats'],
      ['round', 'round'],
    ],
    ['as-received', 1],
  ),
  wheel.choice(
    'back',
    'back',
    [
      ['full', 'full back disc'],
      ['scalloped', 'scalloped between the blades'],
    ],
    ['turbine-housing-off', 1],
  ),
  wheel.mark('mark', 'cast mark', ['turbine-housing-off', 2]),

  housing.mark('cast-name', 'cast name', ['as-received', 1]),
  housing.mark('cast-mark', 'cast size mark', ['as-received', 1]),
  housing.measure('area-ratio', 'A/R', ['turbine-housing-off', 12], templates, [0.2, 0.4]),
  housing.choice('entry', 'entry', entries, ['as-received', 1], 'turbine-wheel'),
  housing.choice(
    'flange',
    'inlet flange',
    [
      ['square', 'square, four bolts'],
      ['oblong', 'oblong, four bolts'],
      ['wedge', 'wedge, three bolts'],
      ['round', 'round, clamped'],
    ],
    ['as-received', 1],
  ),
  housing.presence('wastegate', 'wastegate', ['as-received', 1]),
  housing.measure('outlet', 'outlet diameter', ['as-received', 2], caliper, [0.5, 0.5]),
  housing.choice('volute-hand', 'volute hand', rotations, ['as-received', 1], 'turbine-wheel'),
  housing.measure('inducer-contour', 'inducer contour diameter', ['turbine-housing-off', 4], boreGauge, [0.05, 0.6], 'turbine-wheel'),
  housing.measure('exducer-contour', 'exducer contour diameter', ['turbine-housing-off', 3], boreGauge, [0.05, 0.6], 'turbine-wheel'),
  housing.measure('tip-contour', 'contour width at the inducer', ['turbine-housing-off', 4], depthGauge, [0.05, 0.4], 'turbine-wheel'),
  housing.measure('recess', 'bearing housing recess diameter', ['turbine-housing-off', 3], boreGauge, [0.05, 0.15], 'bearing-housing'),
  housing.choice('joining', 'joining to the bearing housing', joinings, ['as-received', 1], 'bearing-housing'),
  housing.count('bolt-count', 'bolt count at the bearing housing', 'bolts', ['as-received', 1], 'bearing-housing'),
  housing.measure(
    'fixing-circle',
    'bolt circle or clamp seat diameter',
    ['turbine-housing-off', 4],
    caliper,
    [0.15, 0.15],
    'bearing-housing',
  ),
  housing.choice('bolt', 'bolt size at the bearing housing', bolts, ['as-received', 2], 'bearing-housing'),
  housing.choice('clamp-profile', 'clamp rim profile', clampProfiles, ['turbine-housing-off', 3], 'bearing-housing'),
];

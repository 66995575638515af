import type { Chapter, ModelDraft, PartDraft } from '../../pack/draft.ts';
import { blank, mark, markOrBlank, tenth } from '../../pack/facts.ts';
import { Shelf } from '../../pack/shelf.ts';
import { thisYear } from '../../pack/years.ts';
import { backplate, compressorHousing, compressorWheel } from '../../parts/compressor-end.ts';
import { bearingHousing, bearingSet, heatShield, nameplate, shaft } from '../../parts/core.ts';
import { turbineHousing, turbineWheel } from '../../parts/turbine-end.ts';
import { firstAndLater, measuredInTheShop, notMeasured, silentOn, unnamedHead } from '../house.ts';
import { knotOf } from '../knots.ts';
import { roman } from '../roman.ts';
import { head, issues, tarnwick, tarnwickCasting } from './maker.ts';
import { type Step, type Tree, trees } from './trees.ts';

const slug = (tree: Tree) => `tarnwick-${tree.name.toLowerCase()}`;
const stepSlug = (tree: Tree, { step }: Step) => `${slug(tree)}-${roman(step).toLowerCase()}`;
const stepName = (tree: Tree, { step }: Step) => `${tree.name} ${roman(step)}`;

const compressorWheelsOf = (tree: Tree, step: Step): readonly PartDraft[] =>
  issues(
    'compressor-wheel',
    `${stepSlug(tree, step)}-compressor-wheel`,
    `${stepName(tree, step)} compressor wheel`,
    2,
    (wheelHead, issue) =>
      compressorWheel(wheelHead, {
        size: step.compressor,
        ...tree.compressor,
        look: issue === 0 ? 'cast' : 'cast-shot',
        rotation: 'anticlockwise',
        stub: tree.core.stub,
        mark: mark(`${tree.name.slice(0, 3)} ${roman(step.step)}`),
      }),
  );

const compressorHousingOf = (tree: Tree, step: Step, recirculation: boolean): PartDraft =>
  compressorHousing(
    head(
      'compressor-housing',
      `${stepSlug(tree, step)}-compressor-housing${recirculation ? '-recirculation' : ''}`,
      `${stepName(tree, step)} compressor housing${recirculation ? ', recirculation slot' : ''}`,
    ),
    {
      face: step.face,
      wheel: step.compressor,
      rotation: 'anticlockwise',
      areaRatio: Math.round(step.compressor.exducer * 0.251 + 0.4),
      inlet: (step.mouths?.inlet ?? tenth(step.compressor.inducer * 1.21 + 7.1)) + (recirculation ? 8.2 : 0),
      outlet: step.mouths?.outlet ?? tenth(step.compressor.exducer * 0.68 + 6.9),
      outletForm: tree.outletForm,
      recirculation,
      castName: tarnwickCasting,
      castMark: mark(`${tree.name} ${roman(step.step)}`),
    },
  );

const turbineWheelOf = (tree: Tree, step: Step): PartDraft => {
  const wheel = turbineWheel(head('turbine-wheel', `${stepSlug(tree, step)}-turbine-wheel`, `${stepName(tree, step)} turbine wheel`), {
    size: step.turbine,
    core: tree.core,
    ...tree.turbine,
    entry: 'single',
    rotation: 'anticlockwise',
    weld: 'electron-beam',
    mark: markOrBlank(roman(step.step)),
  });
  // No Alder head has been cut open in the shop: what is under the weld is not known.
  return tree.name === 'Alder' ? notMeasured(wheel, 'weld-recess') : measuredInTheShop(wheel, 'weld-recess', 'weld');
};

const turbineHousingOf = (tree: Tree, step: Step, areaRatio: number, wastegate: boolean): PartDraft =>
  turbineHousing(
    head(
      'turbine-housing',
      `${stepSlug(tree, step)}-turbine-housing-${areaRatio}${wastegate ? '-wastegate' : ''}`,
      `${stepName(tree, step)} turbine housing, A/R ${areaRatio}${wastegate ? ', wastegate' : ''}`,
    ),
    {
      face: tree.core.turbineFace,
      wheel: step.turbine,
      rotation: 'anticlockwise',
      entry: 'single',
      areaRatio,
      flange: tree.flange,
      wastegate,
      outlet: tenth(step.turbine.exducer * 1.11 + 5.3),
      castName: tarnwickCasting,
      castMark: mark(`${roman(step.step)} ${knotOf(areaRatio)}`),
    },
  );

const bearingHousingOf = (tree: Tree, step: Step): PartDraft =>
  bearingHousing(head('bearing-housing', `${stepSlug(tree, step)}-bearing-housing`, `${stepName(tree, step)} bearing housing`), {
    core: tree.core,
    oilFeed: tree.oilFeed,
    oilDrain: tree.core.water ? 'four-bolt' : 'two-bolt',
    ribPattern: tree.ribPattern,
    ribs: step.step,
    castName: tarnwickCasting,
    castMark: mark(`${tree.name} ${roman(step.step)}`),
  });

/** What all steps of a tree share: shaft, bearing set in three issues, heat shield, and the copies people fit. */
const sharedOf = (tree: Tree) => {
  const { core } = tree;
  const id = slug(tree);
  const sets = issues('bearing-set', `${id}-bearing-set`, `${tree.name} journal set`, 3, (setHead, issue, letter) =>
    bearingSet(setHead, {
      core,
      bushes: tree.bushes,
      balls: 0,
      thrust: issue === 2 ? 'full-ring' : 'split-ring',
      needsWater: false,
      mark: markOrBlank(`${tree.name.slice(0, 2)} ${letter}`),
    }),
  );
  const copiedSet = bearingSet(unnamedHead(`unnamed-${id}-bearing-set`, `${tree.name} journal set, no maker’s name`, `${id}-bearing-set`), {
    core,
    bushes: tree.bushes,
    balls: 0,
    thrust: 'split-ring',
    needsWater: false,
    mark: blank,
  });
  const shield = heatShield(head('heat-shield', `${id}-heat-shield`, `${tree.name} heat shield`), {
    core,
    outside: core.shield.seat + 4.3,
    dish: 7.4,
    form: 'turned',
    slots: 0,
    mark: markOrBlank('TTC'),
  });
  const copiedShield = heatShield(
    unnamedHead(`unnamed-${id}-heat-shield`, `${tree.name} heat shield, no maker’s name`, `${id}-heat-shield`),
    {
      core,
      outside: core.shield.seat + 3.8,
      dish: 7.1,
      form: 'pressed',
      slots: 0,
      mark: blank,
    },
  );
  const spindle = shaft(head('shaft', `${id}-shaft`, `${tree.name} shaft`), { core, steps: 4, mark: mark(tree.name.slice(0, 2)) });
  return { sets, copiedSet, shield: silentOn(shield, 'dish'), copiedShield, spindle };
};

const stockStep = (shelf: Shelf, tree: Tree, step: Step, areaRatio: number): ModelDraft => {
  const name = `${stepName(tree, step)}-${areaRatio}`;
  const id = name.toLowerCase().replaceAll(' ', '-');
  const { sets, copiedSet, shield, copiedShield, spindle } = sharedOf(tree);
  const [firstSet, laterSets] = firstAndLater(sets);
  const [wheel, laterWheels] = firstAndLater(compressorWheelsOf(tree, step));
  const plateHead = head('nameplate', `tarnwick-${id}-nameplate`, `nameplate ${name}`);
  const plate = nameplate(plateHead, {
    plate: tree.core.plate,
    number: plateHead.numbers[0] ?? '',
    tradeName: 'Tarnwick Turbine Company',
    from: tree.years.from,
    to: tree.years.to ?? thisYear,
  });
  const plainBackplate = backplate(head('backplate', `${stepSlug(tree, step)}-backplate`, `${stepName(tree, step)} backplate`), {
    face: step.face,
    core: tree.core,
    ribs: step.step + 2,
    mark: markOrBlank(`${roman(step.step)} B`),
  });
  shelf.allow(
    id,
    'names',
    compressorHousingOf(tree, step, false),
    wheel,
    bearingHousingOf(tree, step),
    spindle,
    turbineWheelOf(tree, step),
  );
  shelf.allow(id, 'names', turbineHousingOf(tree, step, areaRatio, false), plate);
  shelf.allow(id, 'option', compressorHousingOf(tree, step, true), turbineHousingOf(tree, step, areaRatio, true));
  shelf.allow(id, 'service', plainBackplate, firstSet, copiedSet, shield, copiedShield);
  for (const later of [...laterSets, ...laterWheels]) shelf.put(later);
  return {
    id,
    name,
    family: tree.name.toLowerCase(),
    generation: null,
    patternOf: null,
    from: tree.years.from,
    to: tree.years.to,
    source: 'tarnwick-list',
  };
};

export const makeTarnwick = (): Chapter => {
  const shelf = new Shelf();
  const models = trees.flatMap((tree) =>
    tree.steps.flatMap((step) => step.areaRatios.map((areaRatio) => stockStep(shelf, tree, step, areaRatio))),
  );
  return {
    makers: [tarnwick],
    families: trees.map((tree) => ({
      id: tree.name.toLowerCase(),
      name: tree.name,
      maker: 'tarnwick',
      ...tree.years,
      descendsFrom: tree.descendsFrom,
      succeeds: [],
      patternOf: [],
      about: tree.about,
      source: 'tarnwick-list',
    })),
    generations: [],
    models,
    parts: shelf.parts,
    allowed: shelf.allowed,
  };
};

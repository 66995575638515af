import type { Chapter, ModelDraft, PartDraft } from '../../pack/draft.ts';
import { blank, mark, markOrBlank, tenth } from '../../pack/facts.ts';
import { Shelf } from '../../pack/shelf.ts';
import { thisYear } from '../../pack/years.ts';
import { backplate, compressorHousing, compressorWheel } from '../../parts/compressor-end.ts';
import { bearingHousing, bearingSet, heatShield, nameplate, shaft } from '../../parts/core.ts';
import type { CorePattern, Rotation } from '../../parts/core-pattern.ts';
import { turbineHousing, turbineWheel } from '../../parts/turbine-end.ts';
import { firstAndLater, notMeasured, silentOn, unnamedHead } from '../house.ts';
import { head, issues, osterhal, osterhalCasting } from './maker.ts';
import { type Rating, type Rig, rigs } from './rigs.ts';

type Hand = 'port' | 'starboard';
const rotationOf: Readonly<Record<Hand, Rotation>> = { port: 'anticlockwise', starboard: 'clockwise' };

/** A starboard unit turns clockwise, and its nut is left-hand so that it does not work loose. */
const coreOf = (rig: Rig, hand: Hand): CorePattern => ({
  ...rig.core,
  stub: { ...rig.core.stub, hand: hand === 'port' ? 'right' : 'left' },
});

const slug = (rig: Rig) => `osterhal-${rig.name.toLowerCase()}`;
const unitSlug = (rig: Rig, rating: Rating, hand: Hand) => `${slug(rig)}-${rating.power}-${hand}`;
const unitName = (rig: Rig, rating: Rating, hand: Hand) => `${rig.name} ${rating.power} ${hand}`;

/** Nobody at Osterhal answers letters about the first Ketch: some of its sizes are not known. */
const isFirstKetch = (rating: Rating) => rating.generation === 'ketch-single';

const compressorHousingOf = (rig: Rig, rating: Rating, hand: Hand): PartDraft => {
  const housing = compressorHousing(
    head('compressor-housing', `${unitSlug(rig, rating, hand)}-compressor-housing`, `${unitName(rig, rating, hand)} compressor housing`),
    {
      face: rig.face,
      wheel: rating.compressor,
      rotation: rotationOf[hand],
      areaRatio: Math.round(rating.compressor.exducer * 0.247 + 2.6),
      inlet: tenth(rating.compressor.inducer * 1.16 + 14.3),
      outlet: tenth(rating.compressor.exducer * 0.66 + 11.8),
      outletForm: 'flange',
      recirculation: false,
      castName: osterhalCasting,
      castMark: mark(`${rating.power} ${hand.slice(0, 1).toUpperCase()}`),
    },
  );
  return isFirstKetch(rating) ? notMeasured(housing, 'recess', 'area-ratio') : housing;
};

const compressorWheelOf = (rig: Rig, rating: Rating, hand: Hand): PartDraft =>
  compressorWheel(
    head('compressor-wheel', `${unitSlug(rig, rating, hand)}-compressor-wheel`, `${unitName(rig, rating, hand)} compressor wheel`),
    {
      size: rating.compressor,
      ...rig.compressor,
      rotation: rotationOf[hand],
      stub: coreOf(rig, hand).stub,
      mark: markOrBlank(`buoy ${rating.power}`),
    },
  );

const turbineWheelOf = (rig: Rig, rating: Rating, hand: Hand): PartDraft => {
  const wheel = turbineWheel(
    head('turbine-wheel', `${unitSlug(rig, rating, hand)}-turbine-wheel`, `${unitName(rig, rating, hand)} turbine wheel`),
    {
      size: rating.turbine,
      core: coreOf(rig, hand),
      blades: rig.turbineBlades,
      cutback: { look: 'none', degrees: 0 },
      entry: rating.entry,
      rotation: rotationOf[hand],
      weld: 'electron-beam',
      hubShape: 'hexagon',
      back: 'full',
      mark: markOrBlank(`buoy ${rating.power} T`),
    },
  );
  return isFirstKetch(rating) ? notMeasured(wheel, 'weld-recess', 'weld-pattern', 'weld') : silentOn(wheel, 'back');
};

const turbineHousingsOf = (rig: Rig, rating: Rating, hand: Hand): readonly PartDraft[] =>
  rating.areaRatios.map((areaRatio) =>
    turbineHousing(
      head(
        'turbine-housing',
        `${unitSlug(rig, rating, hand)}-turbine-housing-${areaRatio}`,
        `${unitName(rig, rating, hand)} turbine housing, A/R ${areaRatio}`,
      ),
      {
        face: rig.core.turbineFace,
        wheel: rating.turbine,
        rotation: rotationOf[hand],
        entry: rating.entry,
        areaRatio,
        flange: 'square',
        wastegate: false,
        outlet: tenth(rating.turbine.exducer * 1.06 + 12.4),
        castName: osterhalCasting,
        castMark: mark(`${rating.power} ${areaRatio}`),
      },
    ),
  );

/** What the ratings of a rig share; only the shaft knows the hand. */
const sharedOf = (rig: Rig) => {
  const core = coreOf(rig, 'port');
  const id = slug(rig);
  const sets = issues('bearing-set', `${id}-bearing-set`, `${rig.name} journal set`, 3, (setHead, issue) =>
    bearingSet(setHead, {
      core,
      bushes: 2,
      balls: 0,
      thrust: issue === 0 ? 'split-ring' : 'full-ring',
      needsWater: false,
      mark: markOrBlank(`buoy ${rig.name} ${issue + 1}`),
    }),
  );
  const copiedSet = bearingSet(unnamedHead(`unnamed-${id}-bearing-set`, `${rig.name} journal set, no maker’s name`, `${id}-bearing-set`), {
    core,
    bushes: 2,
    balls: 0,
    thrust: 'full-ring',
    needsWater: false,
    mark: blank,
  });
  const shields = issues('heat-shield', `${id}-heat-shield`, `${rig.name} heat shield`, 2, (shieldHead, issue) =>
    heatShield(shieldHead, {
      core,
      outside: core.shield.seat + 6.6,
      dish: 9.3,
      form: issue === 0 ? 'turned' : 'pressed',
      slots: issue * 8,
      mark: markOrBlank(`buoy ${rig.name.slice(0, 1)}`),
    }),
  );
  const housing = bearingHousing(head('bearing-housing', `${id}-bearing-housing`, `${rig.name} bearing housing`), {
    core,
    oilFeed: 'm16x1.5',
    oilDrain: 'four-bolt',
    ribPattern: 'straight',
    ribs: 8,
    castName: osterhalCasting,
    castMark: mark(rig.name),
  });
  const rear = backplate(head('backplate', `${id}-backplate`, `${rig.name} backplate`), {
    face: rig.face,
    core,
    ribs: 12,
    mark: markOrBlank(`buoy ${rig.name} B`),
  });
  return { sets, copiedSet, shields, housing, rear };
};

const shaftOf = (rig: Rig, hand: Hand): PartDraft =>
  shaft(head('shaft', `${slug(rig)}-shaft-${hand}`, `${rig.name} shaft, ${hand}`), {
    core: coreOf(rig, hand),
    steps: 5,
    mark: markOrBlank(hand.slice(0, 1).toUpperCase()),
  });

const stockUnit = (shelf: Shelf, rig: Rig, rating: Rating, hand: Hand): ModelDraft => {
  const name = unitName(rig, rating, hand);
  const id = name.toLowerCase().replaceAll(' ', '-');
  const { sets, copiedSet, shields, housing, rear } = sharedOf(rig);
  const [firstSet, laterSets] = firstAndLater(sets);
  const [firstShield, laterShields] = firstAndLater(shields);
  const [turbine, ...otherTurbines] = turbineHousingsOf(rig, rating, hand);
  if (turbine === undefined) throw new Error(`${name} has no turbine housing`);
  const plateHead = head('nameplate', `osterhal-${id}-nameplate`, `nameplate ${name}`);
  const plate = nameplate(plateHead, {
    plate: rig.core.plate,
    number: plateHead.numbers[0] ?? '',
    tradeName: 'Osterhal Diesel',
    from: rating.years.from,
    to: rating.years.to ?? thisYear,
  });
  shelf.allow(id, 'names', compressorHousingOf(rig, rating, hand), compressorWheelOf(rig, rating, hand), housing, shaftOf(rig, hand));
  shelf.allow(id, 'names', turbineWheelOf(rig, rating, hand), turbine, plate);
  shelf.allow(id, 'option', ...otherTurbines);
  shelf.allow(id, 'service', rear, firstSet, copiedSet, firstShield);
  for (const later of [...laterSets, ...laterShields]) shelf.put(later);
  return {
    id,
    name,
    family: rig.name.toLowerCase(),
    generation: rating.generation,
    patternOf: null,
    ...rating.years,
    source: 'osterhal-list',
  };
};

export const makeOsterhal = (): Chapter => {
  const shelf = new Shelf();
  const models = rigs.flatMap((rig) => rig.ratings.flatMap((rating) => rating.hands.map((hand) => stockUnit(shelf, rig, rating, hand))));
  return {
    makers: [osterhal],
    families: rigs.map((rig) => ({
      id: rig.name.toLowerCase(),
      name: rig.name,
      maker: 'osterhal',
      ...rig.years,
      descendsFrom: rig.descendsFrom,
      succeeds: [],
      patternOf: [],
      about: rig.about,
      source: 'osterhal-list',
    })),
    generations: rigs.flatMap((rig) =>
      rig.generations.map(({ id, name, years, succeeds }) => ({
        id,
        family: rig.name.toLowerCase(),
        name,
        ...years,
        succeeds,
        source: 'osterhal-list',
      })),
    ),
    models,
    parts: shelf.parts,
    allowed: shelf.allowed,
  };
};

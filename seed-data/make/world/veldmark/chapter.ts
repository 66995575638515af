import type { Chapter, ModelDraft, PartDraft } from '../../pack/draft.ts';
import { blank, mark, markOrBlank, tenth } from '../../pack/facts.ts';
import { Shelf } from '../../pack/shelf.ts';
import { tradeNamesDuring, type Years } from '../../pack/years.ts';
import { backplate, compressorHousing, compressorWheel } from '../../parts/compressor-end.ts';
import { bearingHousing, bearingSet, heatShield, nameplate, shaft } from '../../parts/core.ts';
import { turbineHousing, turbineWheel } from '../../parts/turbine-end.ts';
import { firstAndLater, notMeasured, silentOn, unnamedHead } from '../house.ts';
import { knotOf } from '../knots.ts';
import { head, issues, trimBlades, veldmark, veldmarkCasting } from './maker.ts';
import { type Stone, stones, type TrimSpec } from './stones.ts';

const slug = (stone: Stone) => `veldmark-${stone.name.toLowerCase()}`;
/** `basalt-qd-2` for the second generation of Basalt-QD. */
const trimSlug = (stone: Stone, { trim }: TrimSpec, generation: number) => `${slug(stone)}-${trim.toLowerCase()}-${generation + 1}`;
const nameOf = (stone: Stone, { trim }: TrimSpec, generation: number) => `${stone.name}-${trim}${'′'.repeat(generation)}`;
const modelId = (stone: Stone, { trim }: TrimSpec, generation: number) =>
  `${stone.name}-${trim}${generation === 0 ? '' : `-${generation + 1}`}`.toLowerCase();

const compressorHousingOf = (stone: Stone, trim: TrimSpec, recirculation: boolean): PartDraft =>
  compressorHousing(
    head(
      'compressor-housing',
      `${slug(stone)}-${trim.trim.toLowerCase()}-compressor-housing${recirculation ? '-recirculation' : ''}`,
      `${stone.name} ${trim.trim} compressor housing${recirculation ? ', recirculation slot' : ''}`,
    ),
    {
      face: stone.face,
      wheel: trim.compressor,
      rotation: stone.rotation,
      areaRatio: Math.round(trim.compressor.exducer * 0.229 + 2.3),
      inlet: tenth(trim.compressor.inducer * 1.19 + (recirculation ? 15.2 : 8.4)),
      outlet: tenth(trim.compressor.exducer * 0.73 + 3.7),
      outletForm: 'groove',
      recirculation,
      castName: veldmarkCasting,
      castMark: mark(trim.trim),
    },
  );

const compressorWheelOf = (stone: Stone, trim: TrimSpec, generation: number): PartDraft =>
  compressorWheel(
    head(
      'compressor-wheel',
      `${trimSlug(stone, trim, generation)}-compressor-wheel`,
      `${nameOf(stone, trim, generation)} compressor wheel`,
    ),
    {
      size: trim.compressor,
      fullBlades: trimBlades[trim.trim],
      splitters: trim.trim === 'RK' ? 0 : stone.splitters,
      look: generation === 0 ? 'cast' : 'milled',
      nose: stone.nose,
      back: generation === 0 ? 'full' : 'scalloped',
      rotation: stone.rotation,
      stub: stone.core.stub,
      mark: mark(`${trim.trim}${generation === 0 ? '' : ` ${generation + 1}`}`),
    },
  );

const turbineWheelOf = (stone: Stone, trim: TrimSpec, generation: number): PartDraft => {
  const wheel = turbineWheel(
    head('turbine-wheel', `${trimSlug(stone, trim, generation)}-turbine-wheel`, `${nameOf(stone, trim, generation)} turbine wheel`),
    {
      size: trim.turbine,
      core: stone.core,
      ...stone.turbine,
      blades: stone.blades[generation] ?? stone.blades[0],
      entry: 'single',
      rotation: stone.rotation,
      weld: 'electron-beam',
      mark: markOrBlank(`${trim.trim} T`),
    },
  );
  return stone.name === 'Tuff' ? notMeasured(wheel, 'weld-recess', 'weld') : wheel;
};

const turbineHousingsOf = (stone: Stone, trim: TrimSpec): readonly PartDraft[] =>
  trim.areaRatios.map((areaRatio, step) =>
    turbineHousing(
      head(
        'turbine-housing',
        `${slug(stone)}-${trim.trim.toLowerCase()}-turbine-housing-${areaRatio}`,
        `${stone.name} ${trim.trim} turbine housing, A/R ${areaRatio}`,
      ),
      {
        face: stone.core.turbineFace,
        wheel: trim.turbine,
        rotation: stone.rotation,
        entry: 'single',
        areaRatio,
        flange: stone.flange,
        wastegate: step < 2,
        outlet: tenth(trim.turbine.exducer * 1.07 + 8.8),
        castName: veldmarkCasting,
        castMark: mark(`${trim.trim} ${knotOf(areaRatio)}`),
      },
    ),
  );

const nameplatesOf = (stone: Stone, trim: TrimSpec, generation: number, years: Years): readonly PartDraft[] =>
  tradeNamesDuring(veldmark.tradeNames, years).map(({ name: tradeName, from, to }) => {
    const model = modelId(stone, trim, generation);
    const plateHead = head('nameplate', `veldmark-${model}-nameplate`, `nameplate ${nameOf(stone, trim, generation)}`);
    return nameplate(plateHead, { plate: stone.core.plate, number: plateHead.numbers[0] ?? '', tradeName, from, to });
  });

/** What the trims of a stone share, and Tuff with Basalt: all of the core that does not know which way it turns. */
const sharedOf = ({ core, coreOf: name, face }: Stone) => {
  const id = `veldmark-${name.toLowerCase()}`;
  const isCartridge = core.kind === 'cartridge';
  const setName = `${name} ${isCartridge ? 'ball-bearing cartridge' : 'journal set'}`;
  const sets = issues('bearing-set', `${id}-bearing-set`, setName, 2, (setHead, issue, letter) =>
    bearingSet(setHead, {
      core,
      bushes: isCartridge ? 0 : 2,
      balls: isCartridge ? 14 : 0,
      thrust: isCartridge ? 'in-cartridge' : issue === 0 ? 'split-ring' : 'full-ring',
      needsWater: isCartridge,
      mark: mark(`V${letter}`),
    }),
  );
  const copiedSet = bearingSet(unnamedHead(`unnamed-${id}-bearing-set`, `${setName}, no maker’s name`, `${id}-bearing-set`), {
    core,
    bushes: isCartridge ? 0 : 2,
    balls: isCartridge ? 12 : 0,
    thrust: isCartridge ? 'in-cartridge' : 'full-ring',
    needsWater: isCartridge,
    mark: blank,
  });
  const shields = [
    heatShield(head('heat-shield', `${id}-heat-shield`, `${name} heat shield`), {
      core,
      outside: core.shield.seat + 5.2,
      dish: 6.2,
      form: 'pressed',
      slots: 4,
      mark: markOrBlank('V'),
    }),
    heatShield(unnamedHead(`unnamed-${id}-heat-shield`, `${name} heat shield, no maker’s name`, `${id}-heat-shield`), {
      core,
      outside: core.shield.seat + 4.6,
      dish: 6,
      form: 'pressed',
      slots: 0,
      mark: blank,
    }),
  ];
  const housings = issues('bearing-housing', `${id}-bearing-housing`, `${name} bearing housing`, 2, (housingHead, issue, letter) =>
    bearingHousing(housingHead, {
      core,
      oilFeed: issue === 0 ? 'm10x1' : 'm12x1.5',
      oilDrain: 'spigot',
      ribPattern: 'smooth',
      ribs: 0,
      castName: veldmarkCasting,
      castMark: mark(`${name.slice(0, 1)} ${letter}`),
    }),
  );
  const rear = backplate(head('backplate', `${id}-backplate`, `${name} backplate`), {
    face,
    core,
    ribs: 0,
    mark: markOrBlank('VELDMARK'),
  });
  return { sets, copiedSet, shields, housings, rear };
};

const shaftOf = (stone: Stone): PartDraft => {
  const spindle = shaft(head('shaft', `${slug(stone)}-shaft`, `${stone.name} shaft`), {
    core: stone.core,
    steps: stone.core.kind === 'cartridge' ? 6 : 4,
    mark: mark(`V ${stone.name}`),
  });
  // The journal shafts' marks were never noted down.
  return stone.core.kind === 'cartridge' ? spindle : silentOn(spindle, 'mark');
};

const stockTrim = (shelf: Shelf, stone: Stone, trim: TrimSpec, generation: number, years: Years): ModelDraft => {
  const id = modelId(stone, trim, generation);
  const name = nameOf(stone, trim, generation);
  const { sets, copiedSet, shields, housings, rear } = sharedOf(stone);
  const [firstSet, laterSets] = firstAndLater(sets);
  const [firstHousing, laterHousings] = firstAndLater(housings);
  const [housing, ...otherHousings] = turbineHousingsOf(stone, trim);
  if (housing === undefined) throw new Error(`${name} has no turbine housing`);
  shelf.allow(
    id,
    'names',
    compressorHousingOf(stone, trim, false),
    compressorWheelOf(stone, trim, generation),
    firstHousing,
    shaftOf(stone),
  );
  shelf.allow(id, 'names', turbineWheelOf(stone, trim, generation), housing, ...nameplatesOf(stone, trim, generation, years));
  shelf.allow(id, 'option', ...otherHousings, ...(trim.generations.length > 1 ? [compressorHousingOf(stone, trim, true)] : []));
  shelf.allow(id, stone.core.kind === 'cartridge' ? 'names' : 'service', firstSet);
  shelf.allow(id, 'service', copiedSet, rear, ...shields);
  for (const later of [...laterSets, ...laterHousings]) shelf.put(later);
  return {
    id,
    name,
    family: stone.name.toLowerCase(),
    generation: `${stone.name.toLowerCase()}-${generation + 1}`,
    patternOf: null,
    ...years,
    source: 'veldmark-list',
  };
};

export const makeVeldmark = (): Chapter => {
  const shelf = new Shelf();
  const models = stones.flatMap((stone) =>
    stone.trims.flatMap((trim) => trim.generations.map((years, generation) => stockTrim(shelf, stone, trim, generation, years))),
  );
  return {
    makers: [veldmark],
    families: stones.map((stone) => ({
      id: stone.name.toLowerCase(),
      name: stone.name,
      maker: 'veldmark',
      ...stone.years,
      descendsFrom: stone.descendsFrom,
      succeeds: [],
      patternOf: [],
      about: stone.about,
      source: 'veldmark-list',
    })),
    generations: stones.flatMap((stone) => generationsOf(stone)),
    models,
    parts: shelf.parts,
    allowed: shelf.allowed,
  };
};

/** A generation runs from its first trim's first year to its last trim's last. */
const generationsOf = (stone: Stone): Chapter['generations'] => {
  const family = stone.name.toLowerCase();
  const most = Math.max(...stone.trims.map((trim) => trim.generations.length));
  return Array.from({ length: most }, (_, generation) => {
    const years = stone.trims.flatMap((trim) => trim.generations[generation] ?? []);
    return {
      id: `${family}-${generation + 1}`,
      family,
      name: `${stone.name}${'′'.repeat(generation)}`,
      from: Math.min(...years.map((each) => each.from)),
      to: years.some((each) => each.to === null) ? null : Math.max(...years.map((each) => each.to ?? 0)),
      succeeds: generation === 0 ? null : `${family}-${generation}`,
      source: 'veldmark-list',
    };
  });
};

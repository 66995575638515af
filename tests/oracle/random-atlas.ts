import type {
  Atlas,
  Fact,
  Family,
  Feature,
  FeatureId,
  FitRule,
  Id,
  Joint,
  Maker,
  Model,
  Observation,
  Part,
  PartId,
  Port,
  Role,
  Seen,
  Sheet,
  Slot,
  SlotId,
  Stage,
  TokenPromise,
} from '../../reasoner/index.ts';
import { Dice } from './dice.ts';
import { withOperations } from './random-operations.ts';
import { withPlate } from './random-plate.ts';

const id = <T extends Id<string>>(text: string): T => text as T;
const source = id<Atlas['sources'][number]['id']>('made-up');

/** Choices every feature of a kind draws from, few enough for parts to share values. */
const options = ['plain', 'stepped', 'ribbed'];
const letters = ['Knot 4', 'knot-5', 'Ro.Ro', 'T', 'T 4'];

export interface Case {
  readonly seed: number;
  readonly atlas: Atlas;
  readonly sheet: Sheet;
}

/**
 * A small atlas with everything the rules of names, candidates and conflicts look at, and one unit's sheet over it.
 * Every length is a multiple of 1/16 mm, exact in binary, so that touching limits touch in any order of adding.
 */
export const randomCase = (seed: number): Case => {
  const dice = new Dice(seed);
  const stages = makeStages(dice);
  const slots = makeSlots(dice, stages);
  const features = slots.flatMap((slot) => makeFeatures(dice, slot, stages));
  const { joints, ports, faces } = makeJoints(dice, slots, stages);
  features.push(...faces);
  const makers = makeMakers(dice, features);
  const parts = slots.flatMap((slot) => makeParts(dice, slot, features, makers));
  const families = makeFamilies(dice, makers);
  const models = makeModels(dice, families, slots, parts);
  const atlas: Atlas = {
    edition: `seed ${seed}`,
    sources: [{ id: source, title: 'made up for a test', kind: 'invented' }],
    stages,
    slots,
    ports,
    features,
    joints,
    makers,
    families,
    generations: [],
    models,
    parts,
  };
  return withPlate({ seed, ...withOperations(seed, atlas, makeSheet(dice, seed, atlas)) });
};

const makeStages = (dice: Dice): Stage[] =>
  Array.from({ length: dice.whole(2, 4) }, (_, i) => ({
    id: id(`stage-${i}`),
    name: `stage ${i}`,
    minutes: i === 0 ? 0 : dice.whole(1, 20),
    after: Array.from({ length: i }, (_, j) => id<Stage['id']>(`stage-${j}`)).filter(() => dice.often(50)),
  }));

const makeSlots = (dice: Dice, stages: readonly Stage[]): Slot[] => {
  const count = dice.whole(3, 6);
  const housings = count >= 4 && dice.often(50) ? (count >= 6 && dice.often(20) ? 3 : 2) : 1;
  const plate = count - housings >= 3 && dice.often(60) ? 1 : 0;
  return Array.from({ length: count }, (_, i) => ({
    id: id(`slot-${i}`),
    name: `slot ${i}`,
    group: i < housings ? 'housing' : i < housings + plate ? 'plate' : 'core',
    stage: dice.one(stages).id,
    swapMinutes: dice.whole(1, 30),
  }));
};

const makeFeatures = (dice: Dice, slot: Slot, stages: readonly Stage[]): Feature[] =>
  Array.from({ length: dice.one([1, 2, 3, 5]) }, (_, i) => {
    const kind = dice.one(['count', 'measure', 'choice', 'presence', 'mark'] as const);
    return {
      id: id(`${slot.id}-feature-${i}`),
      slot: slot.id,
      name: `feature ${i}`,
      kind,
      stage: dice.one(stages).id,
      minutes: dice.whole(0, 5),
      ...(kind === 'measure' ? { unit: 'mm', ...(dice.often(60) ? { wear: wear(dice) } : {}) } : {}),
      ...(kind === 'count' ? { unit: 'blades' } : {}),
      ...(kind === 'choice' ? { options: options.map((option) => ({ id: option, name: option })) } : {}),
    };
  });

const wear = (dice: Dice) => ({ below: dice.whole(0, 3) / 8, above: dice.whole(0, 2) / 8 });

/** One to n joints, each with two ports of its own and one or two rules; two joints may lie between the same two slots. */
const makeJoints = (dice: Dice, slots: readonly Slot[], stages: readonly Stage[]) => {
  const ports: Port[] = [];
  const faces: Feature[] = [];
  const joints = Array.from({ length: dice.whole(1, slots.length) }, (_, i): Joint => {
    const [slotA, slotB] = dice.some(slots, 2).sort(() => (dice.often(50) ? 1 : -1)) as [Slot, Slot];
    const port = (slot: Slot, side: string): Port => {
      const made = { id: id<Port['id']>(`port-${i}${side}`), slot: slot.id, name: `face ${i}${side}` };
      ports.push(made);
      return made;
    };
    const a = port(slotA, 'a');
    const b = port(slotB, 'b');
    const face = (on: Port, rule: number, kind: 'choice' | 'measure'): FeatureId => {
      const made: Feature = {
        id: id(`${on.id}-${rule}`),
        slot: on.slot,
        name: `face ${i}.${rule}`,
        kind,
        stage: dice.one(stages).id,
        minutes: dice.whole(0, 5),
        port: on.id,
        ...(kind === 'measure' ? { unit: 'mm' } : { options: options.map((option) => ({ id: option, name: option })) }),
      };
      faces.push(made);
      return made.id;
    };
    const rules = Array.from({ length: dice.often(25) ? 2 : 1 }, (_, rule): FitRule => {
      switch (dice.one(['same', 'same', 'clamp', 'pilot'])) {
        case 'pilot': {
          const [spigot, recess] = dice.often(50) ? [a, b] : [b, a];
          return { kind: 'pilot', spigot: face(spigot, rule, 'measure'), recess: face(recess, rule, 'measure'), min: 0, max: 0.25 };
        }
        case 'clamp':
          return { kind: 'clamp profile', a: face(a, rule, 'choice'), b: face(b, rule, 'choice') };
        default:
          return { kind: 'same', what: `face ${i}.${rule}`, a: face(a, rule, 'choice'), b: face(b, rule, 'choice') };
      }
    });
    return { id: id(`joint-${i}`), name: `joint ${i}`, a: a.id, b: b.id, rules, source };
  });
  return { joints, ports, faces };
};

const makeMakers = (dice: Dice, features: readonly Feature[]): Maker[] =>
  Array.from({ length: dice.whole(1, 2) }, (_, i) => ({
    id: id(`maker-${i}`),
    name: `Maker ${i}`,
    tradeNames: [{ name: `Maker ${i}`, from: 1950, to: null }],
    plateRule: dice.often(50),
    grammar: dice.often(50) ? grammar(dice, features) : null,
    source,
  }));

/** `Model` and a number that promises something of a part. */
const grammar = (dice: Dice, features: readonly Feature[]): NonNullable<Maker['grammar']> => {
  const spoken = features.filter(({ kind }) => kind === 'count' || kind === 'measure' || kind === 'choice');
  const feature = spoken.length === 0 ? null : dice.one(spoken);
  const table = <T>(value: (number: number) => T) =>
    Object.fromEntries(Array.from({ length: 10 }, (_, number) => [`${number}`, value(number)]));
  const promises = (): TokenPromise[] => {
    switch (feature?.kind) {
      case 'count':
        return dice.often(50)
          ? [{ feature: feature.id, kind: 'count', of: table(() => dice.whole(7, 13)) }]
          : [{ feature: feature.id, kind: 'number', within: dice.whole(3, 6) }];
      case 'measure':
        return [
          {
            feature: feature.id,
            kind: 'measure',
            of: table(() => (feature.port === undefined ? 10 + dice.whole(0, 9) / 4 : dice.one([40, 41, 42]))),
            within: dice.one([0, 1, 2, 4]) / 16,
          },
        ];
      case 'choice':
        return [{ feature: feature.id, kind: 'choice', of: table(() => dice.some(options, dice.often(25) ? 2 : 1)) }];
      default:
        return [];
    }
  };
  return {
    tokens: [
      { id: id('word'), name: 'word', before: '', optional: false, reads: { kind: 'word', words: ['Model'] }, promises: [] },
      { id: id('size'), name: 'size', before: ' ', optional: false, reads: { kind: 'whole number', from: 0, to: 9 }, promises: promises() },
    ],
    demands: [],
  };
};

const makeParts = (dice: Dice, slot: Slot, features: readonly Feature[], makers: readonly Maker[]): Part[] => {
  const own = features.filter((feature) => feature.slot === slot.id);
  const count = dice.whole(2, 6);
  const silent = dice.one([0, 0, 10, 25]);
  return Array.from({ length: count }, (_, i) => {
    const facts: Record<FeatureId, Fact> = {};
    for (const feature of own) {
      if (dice.often(silent)) {
        if (dice.often(50)) facts[feature.id] = { kind: 'not known' };
      } else facts[feature.id] = fact(dice, feature);
    }
    return {
      id: id<PartId>(`${slot.id}-part-${i}`),
      slot: slot.id,
      name: `part ${i} of ${slot.name}`,
      maker: dice.often(70) ? dice.one(makers).id : null,
      numbers: [`${slot.id}/${i}`],
      ...(i > 0 && dice.often(20) ? { supersedes: id<PartId>(`${slot.id}-part-${dice.whole(0, i - 1)}`) } : {}),
      facts,
      source,
    };
  });
};

const fact = (dice: Dice, feature: Feature): Fact => {
  switch (feature.kind) {
    case 'count': {
      const from = dice.whole(7, 13);
      return { kind: 'count', from, to: from + (dice.often(25) ? 1 : 0) };
    }
    case 'measure':
      // Of a mating face: two sizes of spigot and recess, so that some pairs meet and some are loose or tight.
      return feature.port === undefined
        ? { kind: 'measure', nominal: 10 + dice.whole(0, 9) / 4, lower: -dice.whole(0, 2) / 16, upper: dice.whole(0, 2) / 16 }
        : { kind: 'measure', nominal: dice.one([40, 40.125, 41, 42]), lower: -dice.whole(0, 1) / 16, upper: dice.whole(0, 1) / 16 };
    case 'choice':
      return { kind: 'choice', anyOf: dice.some(options, dice.often(25) ? 2 : 1) };
    case 'presence':
      return { kind: 'presence', present: dice.often(50) };
    case 'mark': {
      const anyOf = dice.some(letters, dice.whole(0, 2));
      return { kind: 'mark', anyOf, blank: anyOf.length === 0 || dice.often(25) };
    }
  }
};

const makeFamilies = (dice: Dice, makers: readonly Maker[]): Family[] => {
  const named = dice.whole(1, 3);
  const all = named + (dice.often(50) ? 1 : 0);
  return Array.from({ length: all }, (_, i) => ({
    id: id(`family-${i}`),
    name: `Family ${i}`,
    maker: i < named ? dice.one(makers).id : null,
    from: null,
    to: null,
    descendsFrom: [],
    succeeds: [],
    patternOf: [],
    about: '',
    source,
  }));
};

const makeModels = (dice: Dice, families: readonly Family[], slots: readonly Slot[], parts: readonly Part[]): Model[] => {
  const models: Model[] = [];
  const count = Math.max(families.length, dice.whole(2, 5));
  for (let i = 0; i < count; i++) {
    const family = families[i] ?? dice.one(families);
    const shared = models.length > 0 && dice.often(35) ? dice.one(models) : null;
    // At least one slot of the core carries the name, or there would be no core to speak of.
    const bearer = dice.one(slots.filter((slot) => slot.group === 'core')).id;
    const allowed = slots.flatMap((slot) => {
      const before = shared?.allowed.filter((entry) => entry.slot === slot.id) ?? [];
      if (slot.group === 'core' && before.length > 0) return before;
      return listing(dice, slot, parts, slot.id === bearer);
    });
    const maker = family.maker;
    const originals = models.filter((model) => families.some(({ id: of, maker: whose }) => of === model.family && whose !== null));
    const openEnded = slots.filter((slot) => slot.group !== 'plate' && dice.often(8)).map((slot) => slot.id);
    models.push({
      id: id(`model-${i}`),
      name: `Model ${i}`,
      family: family.id,
      generation: null,
      patternOf: maker === null && originals.length > 0 && dice.often(80) ? dice.one(originals).id : null,
      from: null,
      to: null,
      allowed,
      ...(openEnded.length > 0 ? { openEnded } : {}),
      source,
    });
  }
  return models;
};

const listing = (dice: Dice, slot: Slot, parts: readonly Part[], bearer: boolean) => {
  const own = parts.filter((part) => part.slot === slot.id);
  if (!bearer && slot.group !== 'housing' && dice.often(12)) return [];
  const style = bearer ? 'names' : dice.one(['names', 'names', 'names', 'mixed', 'mixed', 'options', 'service'] as const);
  return dice
    .some(own, dice.whole(1, Math.min(3, own.length)))
    .map((part, i) => ({ slot: slot.id, part: part.id, role: role(dice, style, i) }));
};

const role = (dice: Dice, style: 'names' | 'mixed' | 'options' | 'service', index: number): Role => {
  switch (style) {
    case 'names':
      return 'names';
    case 'mixed':
      return index === 0 ? 'names' : dice.one(['names', 'option', 'service'] as const);
    case 'options':
      return 'option';
    case 'service':
      return 'service';
  }
};

/** Mostly a unit built as some model or from listed parts, with slips; now and then nothing but guesses. */
const makeSheet = (dice: Dice, seed: number, atlas: Atlas): Sheet => {
  const base = new Map<SlotId, Part>();
  const model = dice.one(atlas.models);
  const asModel = dice.often(60);
  for (const slot of atlas.slots) {
    const listed = model.allowed.filter((entry) => entry.slot === slot.id).map((entry) => entry.part);
    const pool = atlas.parts.filter((part) => part.slot === slot.id && (!asModel || listed.length === 0 || listed.includes(part.id)));
    base.set(slot.id, dice.one(pool));
  }
  const absent = dice.often(12) ? [dice.one(atlas.slots).id] : [];
  const slips = dice.one([0, 0, 15, 30, 100]);
  // Either looked over thoroughly, feature by feature, or here and there, some things twice.
  const looked =
    slips === 0 && dice.often(60)
      ? atlas.features.filter(() => dice.often(85))
      : Array.from({ length: dice.whole(2, 9) }, () => dice.one(atlas.features));
  const observations: Observation[] = [];
  for (const feature of looked) {
    if (absent.includes(feature.slot)) continue;
    const known = base.get(feature.slot)?.facts[feature.id];
    const truth = known === undefined || known.kind === 'not known' || dice.often(slips) ? fact(dice, feature) : known;
    const told = dice.often(15);
    observations.push({
      id: id(`seen-${observations.length}`),
      slot: feature.slot,
      feature: feature.id,
      value: seen(dice, truth),
      sure: told ? { kind: 'told' } : feature.kind === 'measure' ? { kind: 'measured', u: dice.one([1, 2, 4]) / 32 } : { kind: 'seen' },
    });
  }
  return {
    id: id(`sheet-${seed}`),
    title: `unit ${seed}`,
    story: '',
    kind: 'found',
    ...claim(dice, atlas, model),
    observations,
    absent,
    chosen: {},
  };
};

/** Offered as nothing, as a model of the atlas however spelt, or as something nobody makes. */
const claim = (dice: Dice, atlas: Atlas, built: Model): Pick<Sheet, 'claimed' | 'claimedMaker'> => {
  const model = dice.often(60) ? built : dice.one(atlas.models);
  const maker = atlas.families.find((family) => family.id === model.family)?.maker ?? null;
  const claimed = dice.one([null, model.name, model.name, model.name, `Model ${atlas.models.length}`]);
  return { claimed, claimedMaker: claimed !== null && dice.often(30) ? maker : null };
};

const seen = (dice: Dice, fact: Fact): Seen => {
  switch (fact.kind) {
    case 'count': {
      const from = dice.whole(fact.from, fact.to) - (dice.often(20) ? 1 : 0);
      return { kind: 'count', from, to: from + (dice.often(25) ? 1 : 0) };
    }
    case 'measure':
      return { kind: 'measure', value: fact.nominal + dice.whole(-3, 3) / 16 };
    case 'choice':
      return { kind: 'choice', option: dice.one(fact.anyOf) };
    case 'presence':
      return { kind: 'presence', present: fact.present };
    case 'mark':
      return { kind: 'mark', text: fact.anyOf.length === 0 || (fact.blank && dice.often(50)) ? null : respelt(dice, dice.one(fact.anyOf)) };
    case 'not known':
      throw new Error('nothing to see of a fact that is not known');
  }
};

/** The same letters as another hand would note them (O2). */
const respelt = (dice: Dice, text: string): string => {
  switch (dice.whole(0, 3)) {
    case 0:
      return text.toLowerCase();
    case 1:
      return text.replace(/[^A-Za-z0-9]/g, '');
    case 2:
      return text.replace(/[^A-Za-z0-9]/g, '-').toUpperCase();
    default:
      return text;
  }
};

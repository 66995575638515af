import type {
  Atlas,
  BuildConstraints,
  Chain,
  Feature,
  FeatureId,
  Id,
  MakerId,
  Operation,
  Part,
  PartId,
  Rates,
  Sheet,
  SlotId,
} from '../../reasoner/index.ts';
import { Dice } from './dice.ts';
import { randomCase } from './random-atlas.ts';

const id = <T extends Id<string>>(text: string): T => text as T;
const source = id<Atlas['sources'][number]['id']>('made-up');

export interface BuildCase {
  readonly seed: number;
  readonly atlas: Atlas;
  readonly sheet: Sheet;
  readonly constraints: BuildConstraints;
}

export interface Wanted {
  /** Works may change what other joints read, and wear one wall together. */
  readonly crossing: boolean;
  /** Some parts have no price. */
  readonly unpriced: boolean;
  readonly constrained: boolean;
  /** At most so many ways to fill the empty slots. */
  readonly most: number;
}

/** A small atlas with operations, stacks and prices, and a start to be completed. All lengths are multiples of 1/16 mm. */
export const randomBuild = (seed: number, wanted: Wanted): BuildCase => {
  const { atlas: plain } = randomCase(seed);
  const dice = new Dice(seed + 7_000_000);
  const operations = makeOperations(dice, plain, wanted);
  const atlas: Atlas = {
    ...plain,
    operations,
    chains: wanted.crossing && dice.often(50) ? makeChains(dice, plain) : [],
    rates: [makeRates(dice, plain.parts, wanted)],
  };
  const sheet = makeStart(dice, seed, atlas, wanted);
  return { seed, atlas, sheet, constraints: wanted.constrained ? makeConstraints(dice, atlas) : {} };
};

const measuresOf = (atlas: Atlas, slot: SlotId): readonly Feature[] =>
  atlas.features.filter((feature) => feature.slot === slot && feature.kind === 'measure');

const makeOperations = (dice: Dice, atlas: Atlas, { crossing }: Wanted): Operation[] => {
  const operations: Operation[] = [];
  const add = (slot: SlotId, does: Operation['does']): void => {
    operations.push({
      id: id(`operation-${operations.length}`),
      name: `operation ${operations.length}`,
      slot,
      does,
      takes: [],
      hours: dice.whole(1, 6),
      turning: false,
      cautions: [],
      source,
    });
  };
  const slotOf = (feature: FeatureId): SlotId => atlas.features.find((each) => each.id === feature)?.slot as SlotId;
  const holds = { kind: 'tolerance', tolerance: 1 / 16 } as const;
  for (const rule of atlas.joints.flatMap(({ rules }) => rules)) {
    if (rule.kind === 'pilot') {
      for (const [feature, way] of [
        [rule.recess, 'larger'],
        [rule.spigot, 'smaller'],
      ] as const) {
        if (!dice.often(70)) continue;
        const slot = slotOf(feature);
        const others = measuresOf(atlas, slot).filter((each) => each.id !== feature);
        const other = others.length > 0 && crossing && dice.often(60) ? dice.one(others) : null;
        add(slot, {
          kind: 'cut',
          cuts: [
            {
              feature,
              way,
              most: dice.one([0.5, 1.25, 3]),
              holds,
              metal: other !== null && dice.often(30) ? [{ feature: other.id, per: 2, leaves: 38 }] : [],
              moves: other !== null && dice.often(70) ? [{ feature: other.id, times: dice.one([1, -1]) }] : [],
            },
          ],
        });
      }
      if (dice.often(40)) add(slotOf(rule.recess), { kind: 'ring', feature: rule.recess, way: 'smaller', wall: 0.25, holds });
    } else if (rule.kind === 'same' || rule.kind === 'clamp profile') {
      if (dice.often(60)) {
        const feature = dice.one([rule.a, rule.b]);
        const options = atlas.features.find((each) => each.id === feature)?.options?.map((option) => option.id) ?? [];
        add(slotOf(feature), {
          kind: 'remake',
          offers: [{ feature, kind: 'choice', anyOf: dice.some(options, dice.whole(1, options.length)) }],
        });
      }
    }
  }
  return operations;
};

const makeChains = (dice: Dice, atlas: Atlas): Chain[] => {
  const faces = atlas.features.filter((feature) => feature.kind === 'measure' && feature.port !== undefined);
  if (faces.length < 2) return [];
  const [one, other] = dice.some(faces, 2) as [Feature, Feature];
  return [
    {
      id: id('chain'),
      name: 'stack',
      leaves: 'float',
      links: [
        { feature: one.id, times: 1 },
        { feature: other.id, times: -1 },
      ],
      min: -1.5,
      max: dice.one([0.5, 1, 3]),
      source,
    },
  ];
};

const makeRates = (dice: Dice, parts: readonly Part[], { unpriced }: Wanted): Rates => ({
  id: id('rates'),
  name: 'made-up prices',
  money: 'crowns',
  hour: dice.whole(1, 5),
  parts: parts.flatMap((part) => (unpriced && dice.often(25) ? [] : [{ part: part.id, price: dice.whole(1, 9) }])),
  source,
});

const makeStart = (dice: Dice, seed: number, atlas: Atlas, { most }: Wanted): Sheet => {
  const chosen: Record<SlotId, PartId> = {};
  const absent: SlotId[] = [];
  const partsIn = (slot: SlotId): readonly Part[] => atlas.parts.filter((part) => part.slot === slot);
  for (const slot of atlas.slots) {
    if (slot.group === 'plate' ? dice.often(60) : dice.often(20)) chosen[slot.id] = dice.one(partsIn(slot.id)).id;
    else if (dice.often(10)) absent.push(slot.id);
  }
  const free = (): SlotId[] =>
    atlas.slots
      .filter(({ id: slot, group }) => chosen[slot] === undefined && !absent.includes(slot) && group !== 'plate')
      .map((slot) => slot.id);
  while (free().reduce((ways, slot) => ways * partsIn(slot).length, 1) > most) {
    const slot = dice.one(free());
    chosen[slot] = dice.one(partsIn(slot)).id;
  }
  return {
    id: id(`build-${seed}`),
    title: `build ${seed}`,
    story: '',
    kind: 'planned',
    claimed: null,
    claimedMaker: null,
    observations: [],
    absent,
    chosen,
  };
};

const makeConstraints = (dice: Dice, atlas: Atlas): BuildConstraints => {
  const choices = atlas.features.filter(({ kind }) => kind === 'choice');
  const feature = choices.length > 0 ? dice.one(choices) : null;
  const model = dice.one(atlas.models);
  const named = atlas.families.find(({ id: family }) => family === model.family)?.maker !== null;
  return {
    ...(dice.often(25) ? { maker: id<MakerId>(dice.one(atlas.makers).id) } : {}),
    ...(dice.often(40) ? { atMost: dice.whole(0, 3) } : {}),
    ...(dice.often(20) && named ? { keep: id(`service:${model.id}`) } : {}),
    ...(feature !== null && dice.often(25)
      ? {
          require: [
            {
              slot: feature.slot,
              feature: feature.id,
              value: { kind: 'choice' as const, option: dice.one(['plain', 'stepped', 'ribbed']) },
            },
          ],
        }
      : {}),
    ...(dice.often(50) ? { stock: dice.some(atlas.parts, Math.ceil(atlas.parts.length / 3)).map((part) => part.id) } : {}),
    ...(dice.often(15) ? { onlyStock: true } : {}),
    ...(dice.often(60) ? { mayLeave: dice.one(['measuring', 'unknowns'] as const) } : {}),
  };
};

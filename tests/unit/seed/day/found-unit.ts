import { asId, type Fact, type Feature, type Observation, type Part, type Seen, type Sheet } from '../../../../reasoner/index.ts';
import { demoAtlas, demoPack } from '../demo-atlas.ts';

/** What somebody says of a feature: a count, letters or null for none, a choice, a presence, or a measure with its u. */
export type Said = number | string | boolean | null | readonly [value: number, u: number];

/** A unit of the invented harbour town: built as a model, with what the years and the story have changed. */
export interface Story {
  /** The model whose parts it has, the first listed in each slot; of a nameless copy, its pattern core. */
  readonly built: string;
  /** Parts that are not that model's. */
  readonly swapped?: Readonly<Record<string, string>>;
  /** Which looks were taken, as slot and feature; what a stripped unit shows at the bench, where nothing is said. */
  readonly looks?: readonly string[];
  /** What was seen otherwise than the parts show it, or beside the looks. */
  readonly seen?: Readonly<Record<string, Said>>;
  readonly told?: Readonly<Record<string, Said>>;
  readonly absent?: readonly string[];
  readonly claimed?: readonly [maker: string | null, name: string];
}

/** What is looked at before anything is opened but the two covers of the shipping crate. */
export const asReceived: readonly string[] = [
  'compressor-housing-cast-name',
  'compressor-housing-cast-mark',
  'compressor-housing-outlet-form',
  'compressor-housing-recirculation-slot',
  'compressor-wheel-full-blades',
  'compressor-wheel-splitter-blades',
  'bearing-housing-cast-name',
  'bearing-housing-cast-mark',
  'bearing-housing-water-ports',
  'bearing-housing-rib-pattern',
  'bearing-housing-ribs',
  'turbine-wheel-blades',
  'turbine-wheel-cutback',
  'turbine-housing-cast-name',
  'turbine-housing-cast-mark',
  'turbine-housing-entry',
  'turbine-housing-wastegate',
  'nameplate-number',
  'nameplate-trade-name',
  'nameplate-year',
  'nameplate-fixing',
];

export const atTheBench: readonly string[] = [
  ...asReceived,
  'compressor-wheel-exducer',
  'compressor-wheel-mark',
  'backplate-ribs',
  'backplate-mark',
  'bearing-set-kind',
  'bearing-set-thrust',
  'bearing-set-mark',
  'shaft-steps',
  'shaft-inner-races',
  'shaft-mark',
  'turbine-wheel-inducer',
  'turbine-wheel-weld',
  'turbine-wheel-mark',
  'heat-shield-slots',
  'heat-shield-mark',
  'turbine-housing-area-ratio',
];

const features = new Map(demoAtlas.features.map((feature) => [feature.id as string, feature]));
const parts = new Map(demoAtlas.parts.map((part) => [part.id as string, part]));

/** The sheet the shop writes of such a unit. @throws when the story speaks of what the demo atlas does not have */
export const foundUnit = (story: Story): Sheet => {
  const { built, swapped = {}, looks = atTheBench, seen = {}, told = {}, absent = [], claimed = [null, null] } = story;
  const holds = new Map<string, Part>();
  for (const { id } of demoAtlas.slots) {
    const part = swapped[id] === undefined ? firstListed(built, id) : parts.get(swapped[id]);
    if (part === undefined && swapped[id] !== undefined) throw new Error(`the demo atlas has no part ${swapped[id]}`);
    if (part !== undefined && !absent.includes(id)) holds.set(id, part);
  }
  const looked = looks.flatMap((id): Observation[] => {
    const { slot } = featureOf(id);
    const part = holds.get(slot);
    return part === undefined || seen[id] !== undefined ? [] : lookAt(part, featureOf(id));
  });
  return {
    id: asId('unit'),
    title: '',
    story: '',
    kind: 'found',
    claimed: claimed[1],
    claimedMaker: claimed[0] === null ? null : asId(claimed[0]),
    observations: [
      ...looked,
      ...Object.entries(seen).map(([id, said]) =>
        entry(id, said, Array.isArray(said) ? { kind: 'measured', u: said[1] } : { kind: 'seen' }),
      ),
      ...Object.entries(told).map(([id, said]) => ({ ...entry(id, said, { kind: 'told' }), id: asId<Observation['id']>(`told ${id}`) })),
    ],
    absent: absent.map((slot) => asId(slot)),
    chosen: {},
  };
};

const featureOf = (id: string): Feature => {
  const feature = features.get(id);
  if (feature === undefined) throw new Error(`the demo atlas has no feature ${id}`);
  return feature;
};

const firstListed = (model: string, slot: string): Part | undefined => {
  const listed = demoPack.allowed.filter((each) => each.model === model && each.slot === slot);
  const first = listed.find(({ role }) => role === 'names') ?? listed[0];
  return first === undefined ? undefined : parts.get(first.part);
};

/** A part as the shop reads it: a measure at the middle of its limits, to the instrument's resolution, half of which is its u. */
const lookAt = (part: Part, feature: Feature): Observation[] => {
  const fact = part.facts[feature.id];
  return fact === undefined || fact.kind === 'not known'
    ? []
    : [entry(feature.id, shown(fact, feature.resolution ?? 0.1), sureOf(fact, feature))];
};

const sureOf = (fact: Fact, { resolution = 0.1 }: Feature): Observation['sure'] =>
  fact.kind === 'measure' ? { kind: 'measured', u: resolution / 2 } : { kind: 'seen' };

const shown = (fact: Exclude<Fact, { kind: 'not known' }>, resolution: number): Said => {
  switch (fact.kind) {
    case 'count':
      return fact.from;
    case 'choice':
      return fact.anyOf[0] ?? '';
    case 'mark':
      return fact.anyOf[0] ?? null;
    case 'presence':
      return fact.present;
    case 'measure':
      return [Number((Math.round((fact.nominal + (fact.lower + fact.upper) / 2) / resolution) * resolution).toFixed(6)), resolution / 2];
  }
};

const entry = (id: string, said: Said, sure: Observation['sure']): Observation => {
  const feature = featureOf(id);
  return { id: asId(id), slot: feature.slot, feature: feature.id, value: readAs(feature, said), sure };
};

const readAs = (feature: Feature, said: Said): Seen => {
  if (feature.kind === 'count' && typeof said === 'number') return { kind: 'count', from: said, to: said };
  if (feature.kind === 'measure' && Array.isArray(said)) return { kind: 'measure', value: said[0] as number };
  if (feature.kind === 'presence' && typeof said === 'boolean') return { kind: 'presence', present: said };
  if (feature.kind === 'mark' && (said === null || typeof said === 'string')) return { kind: 'mark', text: said };
  if (feature.kind === 'choice' && feature.options?.some(({ id }) => id === said)) return { kind: 'choice', option: said as string };
  throw new Error(`${feature.id} is a ${feature.kind}; it cannot be ${JSON.stringify(said)}`);
};

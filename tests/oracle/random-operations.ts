import type { Atlas, Feature, FeatureId, Id, Observation, Operation, Sheet, Slot } from '../../reasoner/index.ts';
import { Dice } from './dice.ts';
import { rowsOf } from './machined.ts';

const id = <T extends Id<string>>(text: string): T => text as T;
const source = id<Operation['source']>('made-up');

/** Rows of one part; more would keep a solver busy with nothing new. */
const mostRows = 9;

/**
 * The same atlas with up to three operations, mostly on mating faces, and the same sheet with some readings as of a part that one of them was done to. Thrown
 * with dice of its own, so that the rest of the atlas is what its seed makes it. Every length is a multiple of 1/16 mm.
 */
export const withOperations = (seed: number, atlas: Atlas, sheet: Sheet): { readonly atlas: Atlas; readonly sheet: Sheet } => {
  const dice = new Dice(seed ^ 0x6d616368);
  if (dice.often(35)) return { atlas, sheet };
  let answer = atlas;
  const count = dice.whole(1, 3);
  for (let i = 0; i < count; i++) {
    const slot = dice.one(atlas.slots);
    const operation = makeOperation(dice, i, slot, atlas);
    if (operation === null) continue;
    const more = { ...answer, operations: [...(answer.operations ?? []), operation] };
    if (more.parts.every((part) => part.slot !== slot.id || rowsOf(more, part).length <= mostRows)) answer = more;
  }
  return { atlas: answer, sheet: { ...sheet, observations: sheet.observations.map((seen) => worked(dice, answer, seen)) } };
};

const makeOperation = (dice: Dice, number: number, slot: Slot, atlas: Atlas): Operation | null => {
  const own = atlas.features.filter((feature) => feature.slot === slot.id);
  const of = (kind: Feature['kind']): FeatureId[] => own.filter((feature) => feature.kind === kind).map((feature) => feature.id);
  const faces = own.filter((feature) => feature.port !== undefined && (feature.kind === 'measure' || feature.kind === 'choice'));
  const on = faces.length > 0 && dice.often(80) ? dice.one(faces) : own.length > 0 ? dice.one(own) : null;
  const does = on === null ? null : makeDoing(dice, on, of);
  if (does === null) return null;
  const choices = of('choice').filter((feature) => feature !== on?.id);
  return {
    id: id(`operation-${number}`),
    name: `operation ${number}`,
    slot: slot.id,
    does,
    takes:
      choices.length > 0 && dice.often(30) ? [{ feature: dice.one(choices), anyOf: dice.some(['plain', 'stepped', 'ribbed'], 2) }] : [],
    hours: dice.whole(1, 8) / 2,
    turning: dice.often(30),
    cautions: [],
    source,
  };
};

const makeDoing = (dice: Dice, on: Feature, of: (kind: Feature['kind']) => readonly FeatureId[]): Operation['does'] | null => {
  const sizes = of('measure').filter((feature) => feature !== on.id);
  switch (on.kind) {
    case 'measure': {
      const [counts, choices] = [of('count'), of('choice')];
      if (sizes.length > 1 && counts.length > 0 && choices.length > 0 && dice.often(30)) {
        const [inner, outer] = dice.some(sizes, 2) as [FeatureId, FeatureId];
        const holes = { plain: dice.whole(1, 8) / 8, ribbed: dice.whole(1, 8) / 8 };
        const land = { inner, outer };
        return {
          kind: 'drill a circle',
          count: dice.one(counts),
          diameter: on.id,
          bolt: dice.one(choices),
          land,
          holes,
          edge: 0.25,
          within: 0.125,
        };
      }
      if (dice.often(20))
        return { kind: 'ring', feature: on.id, way: dice.one(['larger', 'smaller'] as const), wall: dice.whole(1, 6) / 8, holds };
      if (dice.often(15)) return { kind: 'remake', offers: [{ feature: on.id, kind: 'measure', from: 40, to: 41, within: 0.125 }] };
      const cut = (feature: FeatureId) => ({
        feature,
        way: dice.one(['larger', 'smaller'] as const),
        most: dice.whole(1, 8) / 4,
        holds,
        metal:
          sizes.length > 0 && dice.often(40)
            ? [{ feature: dice.one(sizes), per: dice.one([1, 2] as const), leaves: dice.one([9, 10.5, 11, 40]) + dice.whole(0, 4) / 16 }]
            : [],
        moves: sizes.length > 0 && dice.often(25) ? [{ feature: dice.one(sizes), times: dice.one([-1, 0.5, 1]) }] : [],
      });
      return { kind: 'cut', cuts: [cut(on.id), ...(sizes.length > 0 && dice.often(25) ? [cut(dice.one(sizes))] : [])] };
    }
    case 'choice':
      return {
        kind: 'remake',
        offers: [{ feature: on.id, kind: 'choice', anyOf: dice.some(['plain', 'stepped', 'ribbed'], dice.whole(1, 2)) }],
      };
    case 'count':
      return { kind: 'remake', offers: [{ feature: on.id, kind: 'count', from: dice.whole(6, 9), to: dice.whole(10, 14) }] };
    case 'presence':
      return { kind: 'remake', offers: [{ feature: on.id, kind: 'presence' }] };
    case 'mark':
      return null;
  }
};

const holds = { kind: 'tolerance', tolerance: 0.0625 } as const;

/** Now and then what is read of a dimension is what an operation left of some part there. */
const worked = (dice: Dice, atlas: Atlas, seen: Observation): Observation => {
  const rows = rowsOf(atlas, dice.one(atlas.parts.filter((part) => part.slot === seen.slot)));
  const facts = new Set(rows.map((row) => row.facts[seen.feature]));
  if (facts.size < 2 || dice.often(50)) return seen;
  const fact = dice.one([...facts]);
  switch (fact?.kind) {
    case 'measure':
      return seen.value.kind === 'measure' ? { ...seen, value: { kind: 'measure', value: sizeIn(dice, fact) } } : seen;
    case 'choice':
      return seen.value.kind === 'choice' ? { ...seen, value: { kind: 'choice', option: dice.one(fact.anyOf) } } : seen;
    case 'count': {
      const at = Math.min(fact.to, fact.from + dice.whole(0, 2));
      return seen.value.kind === 'count' ? { ...seen, value: { kind: 'count', from: at, to: at } } : seen;
    }
    case 'presence':
      return seen.value.kind === 'presence' ? { ...seen, value: fact } : seen;
    default:
      return seen;
  }
};

const sizeIn = (dice: Dice, { nominal, lower, upper }: { nominal: number; lower: number; upper: number }): number => {
  const steps = Math.min(32, Math.max(0, Math.round((upper - lower) * 16)));
  return nominal + lower + dice.whole(0, steps) / 16;
};

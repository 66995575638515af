import type { Joint, Part, SlotId } from '../../../reasoner/index.ts';
import { groupBy } from '../../plain/group-by.ts';
import type { Asked } from '../../read/asked.ts';
import { type Warning, warning } from '../warnings.ts';
import type { Finding, Ground } from './ground.ts';

/** So many choices are tried for one model; where more would be needed, nothing is said of it. */
const mostTried = 20_000;

/**
 * Models no choice of their parts can build: at some joint no two of the parts that may sit on either side go together, as made or after work (F2), or each joint
 * can be made and not all of them at once. What is not known goes together; a slot that lists nothing asks nothing.
 */
function* find(ground: Ground): Generator<Warning> {
  const { partnersOf, goesAfterWork, featuresOf } = ground.asked;
  if (partnersOf === undefined || goesAfterWork === undefined || featuresOf === undefined) return;
  const { joints, slotOfPort, features, read, at, slotName } = ground;
  const operations = [...read.lists.files.operations, ...(ground.beside.operations ?? [])];
  const between = joints.flatMap((joint): Between[] => {
    const [a, b] = [slotOfPort(joint.a), slotOfPort(joint.b)];
    if (a === undefined || b === undefined || a === b) return [];
    const asks = joint.rules.flatMap((rule) => featuresOf(rule));
    const read = new Map<Part, string>();
    const readOf = (part: Part): string => {
      const text = read.get(part) ?? JSON.stringify(asks.map((id) => part.facts[id] ?? null));
      read.set(part, text);
      return text;
    };
    return [{ joint, a, b, readOf }];
  });
  const slotOf = (feature: Parameters<Parameters<NonNullable<Asked['partnersOf']>>[2]>[0]): SlotId =>
    features.get(feature)?.slot ?? ('' as SlotId);
  const worked = new Map<string, boolean>();
  const afterWork = ({ joint, a, b, readOf }: Between, one: Part, other: Part): boolean => {
    const key = `${joint.id} ${readOf(one)} ${readOf(other)}`;
    const known = worked.get(key) ?? goesAfterWork(joint, { a, b }, one, other, operations);
    worked.set(key, known);
    return known;
  };
  const asMade = new Map<string, (i: number) => readonly number[]>();

  for (const model of ground.models) {
    if (model.index === null) continue;
    const seats = ground.seatsOf(model.id);
    const here = between.filter(({ a, b }) => seats.has(a) && seats.has(b));
    if (here.length === 0) continue;
    // Parts that read alike to every joint here are one choice.
    const choices = new Map<SlotId, readonly Part[]>();
    for (const slot of new Set(here.flatMap(({ a, b }) => [a, b]))) {
      const asking = here.filter(({ a, b }) => a === slot || b === slot);
      const classes = groupBy(seats.get(slot) ?? [], (part) => asking.map(({ readOf }) => readOf(part)).join());
      choices.set(
        slot,
        [...classes.values()].map(([part]) => part as Part),
      );
    }
    const relations = here.map((one): Relation => {
      const [as, bs] = [choices.get(one.a) ?? [], choices.get(one.b) ?? []];
      const key = JSON.stringify([one.joint.id, as.map(({ id }) => id), bs.map(({ id }) => id)]);
      const partners = asMade.get(key) ?? partnersOf(one.joint, { a: one.a, b: one.b }, slotOf, as, bs);
      asMade.set(key, partners);
      return { of: one, as, bs, goes: as.map((_, i) => new Set(partners(i))) };
    });
    if (buildable(choices, relations) !== 'no') continue;
    for (const { of, as, bs, goes } of relations)
      for (const [i, one] of as.entries())
        for (const [j, other] of bs.entries()) if (afterWork(of, one, other)) (goes[i] as Set<number>).add(j);
    if (buildable(choices, relations) !== 'no') continue;
    const place = at.entry('models', [model.index]);
    const apart = relations.filter(({ goes }) => goes.every((js) => js.size === 0));
    for (const { of, as, bs } of apart)
      yield warning(
        place,
        `no ${slotName(of.a)} the model ${JSON.stringify(model.name)} lists goes together with a ${slotName(of.b)} it lists, as made or after work (${of.joint.name})`,
        builds,
        { alike: { cause: JSON.stringify([of.joint.id, as.map(({ id }) => id), bs.map(({ id }) => id)]), name: model.name } },
      );
    if (apart.length === 0)
      yield warning(
        place,
        `no choice of the parts the model ${JSON.stringify(model.name)} lists goes together at all its joints, though at each of them some do`,
        builds,
      );
  }
}

const builds = 'No unit of listed parts can be one, so every unit offered under its name would be told that it is none.';

interface Between {
  readonly joint: Joint;
  readonly a: SlotId;
  readonly b: SlotId;
  /** What the joint reads of a part. */
  readonly readOf: (part: Part) => string;
}

interface Relation {
  readonly of: Between;
  readonly as: readonly Part[];
  readonly bs: readonly Part[];
  /** For each of `as` the places in `bs` it goes together with. */
  readonly goes: readonly Set<number>[];
}

/** Whether one of each slot's choices can be taken so that all relations hold; slots with the fewest choices first, by trying. */
const buildable = (choices: ReadonlyMap<SlotId, readonly Part[]>, relations: readonly Relation[]): 'yes' | 'no' | 'not tried' => {
  const slots = [...choices.keys()].sort((a, b) => (choices.get(a)?.length ?? 0) - (choices.get(b)?.length ?? 0));
  const chosen = new Map<SlotId, number>();
  let tried = 0;
  const holds = ({ of, goes }: Relation): boolean => {
    const [i, j] = [chosen.get(of.a), chosen.get(of.b)];
    return i === undefined || j === undefined || goes[i]?.has(j) === true;
  };
  const choose = (depth: number): boolean => {
    const slot = slots[depth];
    if (slot === undefined) return true;
    const asking = relations.filter(({ of }) => of.a === slot || of.b === slot);
    for (const n of (choices.get(slot) ?? []).keys()) {
      tried += 1;
      if (tried > mostTried) return false;
      chosen.set(slot, n);
      if (asking.every(holds) && choose(depth + 1)) return true;
    }
    chosen.delete(slot);
    return false;
  };
  return choose(0) ? 'yes' : tried > mostTried ? 'not tried' : 'no';
};

export const unbuildableModels: Finding = {
  about: 'cannot be built',
  rests: [
    'parts.csv',
    'facts.csv',
    'allowed.csv',
    'models.json',
    'joints.json',
    'ports.json',
    'features.json',
    'slots.json',
    'operations.json',
  ],
  find,
};

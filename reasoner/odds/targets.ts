import type { Rung } from '../answer/verdict.ts';
import type { Model } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { type Demand, demandsCore, type NameRule } from '../compile/name-rule.ts';
import { fullNames } from '../compile/name-texts.ts';
import { rankOf } from '../names/rank.ts';
import { DemandSets, exactWeights, type MeetingBoxes, meetingBoxes } from './boxes.ts';

/**
 * What the parts of a unit can honestly be called once every one of them is known, as cases that exclude each other: the names met on the best rank
 * that any is met on. Of a model the weakest rung that still says it is that model; a core with whatever housings; a family; a pattern core; or no name.
 */
export interface Target {
  /** The names met together; none for a list of parts. */
  readonly rules: readonly NameRule[];
  /** What they are called where nothing is known of a unit. */
  readonly text: string;
}

/**
 * The targets in a form sums can be taken over. A *box* is a set of parts for each slot (null: any part, the unlisted one too); boxes are the
 * demands of the names and all their meetings. The chance of a target is a sum of chances of boxes with whole-number weights
 * (Möbius inversion over the meetings: Rota, "On the foundations of combinatorial theory I", Z. Wahrscheinlichkeitstheorie 2 (1964)).
 */
export interface Targets {
  readonly all: readonly Target[];
  readonly boxes: readonly Box[];
  readonly weights: BoxWeights;
}

export interface Box {
  /** By slot: which of the slot's demands (an index of `demandsOf`), or −1 for any part. */
  readonly demands: Int32Array;
}

/** What each box counts for: its targets with their weights, box after box. */
export interface BoxWeights {
  /** Where the targets of each box begin; one longer than the boxes. */
  readonly from: Int32Array;
  readonly targets: Int32Array;
  readonly weights: Float64Array;
}

/** For each slot the distinct sets of parts some box asks for. */
export interface TargetSpace extends Targets {
  readonly demands: readonly (readonly Int32Array[])[];
}

/** Rungs that tell units apart whose parts are all known. Of a model’s three the weakest says it is that model; a hybrid is its core; a list of parts is what is left. */
const targetRungs: ReadonlySet<Rung> = new Set([
  'model with service parts replaced',
  'all parts',
  'core',
  'family',
  'pattern core',
  'pattern family',
  'family parts',
] as const);

/**
 * What each slot must hold for a name to be met, in one or more ways; null: any part, the unlisted one too. Every slot demanded holds a part known to belong (A7). A name that says the unit is one of several
 * asks besides that one of these is not ruled out: its whole lists are met, its open-ended ones ask nothing. Those without an open-ended list are names of a better rank, and so need not be tried.
 */
const waysToMeet = (atlas: CompiledAtlas, rule: NameRule): Demand[][] => {
  if (!demandsCore(atlas, rule)) return [];
  const ways =
    rule.anyOf === null
      ? [[...rule.demands]]
      : rule.anyOf
          .filter(({ open }) => open.size > 0)
          .map((one) => rule.demands.map((demand, slot): Demand => both(demand, one.open.has(slot) ? null : (one.demands[slot] ?? null))));
  return ways.filter((way) => way.every((demand) => demand === null || demand.size > 0));
};

const both = (a: Demand, b: Demand): Demand => (a === null || b === null ? (a ?? b) : new Set([...a].filter((part) => b.has(part))));

/** @throws when the names of the atlas meet in more ways than can be summed over */
export const targetsOf = (atlas: CompiledAtlas): TargetSpace => {
  const named = [...atlas.names, ...atlas.familyParts.map(({ rule }) => rule)].filter(({ name }) => targetRungs.has(name.rung));
  const ways = named.flatMap((rule) => waysToMeet(atlas, rule).map((demands) => ({ rule, demands })));
  const sets = new DemandSets(atlas.slots.length);
  const boxes = meetingBoxes(
    ways.map(({ demands }) =>
      Int32Array.from(demands, (demand, slot) => (demand === null ? -1 : sets.numberOf(slot, Int32Array.from(demand).sort()))),
    ),
    sets,
  );
  const { all, of } = targetsOfBoxes(
    atlas,
    ways.map(({ rule }) => rule),
    boxes,
    sets,
  );
  const counting = countingBoxes(boxes.all, of, sets);
  const from = new Int32Array(counting.length + 1);
  counting.forEach(({ own }, box) => {
    from[box + 1] = (from[box] as number) + own.length;
  });
  const listed = counting.flatMap(({ own }) => own);
  return {
    all,
    demands: sets.all,
    boxes: counting.map(({ demands }) => ({ demands })),
    weights: {
      from,
      targets: Int32Array.from(listed, ([target]) => target),
      weights: Float64Array.from(listed, ([, weight]) => weight),
    },
  };
};

/** What a unit in each box can be called: the best-ranked of the names whose box holds it. `rules` is by name, as `boxes.own`. */
const targetsOfBoxes = (
  atlas: CompiledAtlas,
  rules: readonly NameRule[],
  boxes: MeetingBoxes,
  sets: DemandSets,
): { readonly all: readonly Target[]; readonly of: readonly number[] } => {
  const all: Target[] = [];
  const numbers = new Map<string, number>();
  const namesOf = new Map(boxes.single.map((number) => [number, [] as number[]]));
  boxes.own.forEach((number, name) => {
    namesOf.get(number)?.push(name);
  });
  const of = boxes.all.map((box) => {
    atlas.pulse();
    const names = boxes
      .holding(box)
      .map((at) => boxes.single[at] as number)
      .filter((number) => sets.within(box, boxes.all[number] as Int32Array))
      .flatMap((number) => namesOf.get(number) as number[])
      .sort((a, b) => a - b)
      .map((name) => rules[name] as NameRule);
    const best = Math.min(...names.map(({ name }) => rankOf(name)));
    const chosen = [...new Set(names)].filter(({ name }) => rankOf(name) === best);
    const key = chosen.map(({ name }) => name.id).join('|');
    const known = numbers.get(key);
    if (known !== undefined) return known;
    numbers.set(key, all.push({ rules: chosen, text: textOf(atlas, chosen) }) - 1);
    return all.length - 1;
  });
  return { all, of };
};

/** The boxes that count for some target, with what each counts for: targets and weights. */
const countingBoxes = (
  boxes: readonly Int32Array[],
  targetOf: readonly number[],
  sets: DemandSets,
): readonly { readonly demands: Int32Array; readonly own: readonly (readonly [number, number])[] }[] => {
  const weights = boxes.map(() => new Map<number, number>());
  exactWeights(boxes, sets).forEach((own, i) => {
    const target = targetOf[i] as number;
    for (const [box, weight] of own) {
      const known = weights[box] as Map<number, number>;
      known.set(target, (known.get(target) ?? 0) + weight);
    }
  });
  return boxes.flatMap((demands, box) => {
    const own = [...(weights[box] as Map<number, number>)].filter(([, weight]) => weight !== 0);
    return own.length === 0 ? [] : [{ demands, own }];
  });
};

const textOf = (atlas: CompiledAtlas, rules: readonly NameRule[]): string => {
  const first = rules[0];
  if (first === undefined) return 'no name: a list of parts';
  const models = [...new Set(rules.flatMap(({ name }) => name.models))].map((model) => atlas.models.get(model) as Model);
  switch (first.name.rung) {
    case 'model with service parts replaced':
      return fullNames(atlas, models);
    case 'core':
      return `core of ${fullNames(atlas, models)}, whatever its housings`;
    case 'all parts':
    case 'family':
    case 'pattern core':
    case 'pattern family':
    case 'family parts':
      return rules.map(({ name }) => name.text).join(', or ');
    case 'model':
    case 'model with options':
    case 'hybrid':
    case 'parts':
      return first.name.text;
  }
};

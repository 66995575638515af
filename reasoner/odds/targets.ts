import type { Rung } from '../answer/verdict.ts';
import type { Model } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { type Demand, demandsCore, type NameRule } from '../compile/name-rule.ts';
import { fullNames } from '../compile/name-texts.ts';
import { rankOf } from '../names/ladder.ts';

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

/** More meetings of names than this are a fault of the data, not of the unit. */
const mostBoxes = 200_000;

/** @throws when the names of the atlas meet in more ways than can be summed over */
export const targetsOf = (atlas: CompiledAtlas): TargetSpace => {
  const named = [...atlas.names, ...atlas.familyParts.map(({ rule }) => rule)].filter(({ name }) => targetRungs.has(name.rung));
  const ways = named.flatMap((rule) => waysToMeet(atlas, rule).map((demands) => ({ rule, demands })));
  const slots = atlas.slots.length;
  // Every distinct set of parts a slot is asked for, by number, and how two of them meet.
  const sets: Int32Array[][] = Array.from({ length: slots }, () => []);
  const numbers = Array.from({ length: slots }, () => new Map<string, number>());
  const numberOf = (slot: number, parts: Int32Array): number => {
    const key = parts.join();
    const known = numbers[slot]?.get(key);
    if (known !== undefined) return known;
    const made = (sets[slot] as Int32Array[]).push(parts) - 1;
    numbers[slot]?.set(key, made);
    return made;
  };
  const met = Array.from({ length: slots }, () => new Map<number, number>());
  /** The set two demands share; −1 any, −2 none. */
  const meeting = (slot: number, a: number, b: number): number => {
    if (a === b || b === -1) return a;
    if (a === -1) return b;
    const key = Math.min(a, b) * 2 ** 24 + Math.max(a, b);
    const known = met[slot]?.get(key);
    if (known !== undefined) return known;
    const other = new Set(sets[slot]?.[b]);
    const both = ((sets[slot] as Int32Array[])[a] as Int32Array).filter((part) => other.has(part));
    const made = both.length === 0 ? -2 : numberOf(slot, both);
    met[slot]?.set(key, made);
    return made;
  };

  const boxes: Int32Array[] = [new Int32Array(slots).fill(-1)];
  const boxNumber = new Map<string, number>([[(boxes[0] as Int32Array).join(), 0]]);
  const add = (box: Int32Array): number => {
    const key = box.join();
    const known = boxNumber.get(key);
    if (known !== undefined) return known;
    if (boxes.length >= mostBoxes) throw new Error(`the names of this atlas share their parts in more than ${mostBoxes} ways`);
    boxNumber.set(key, boxes.push(box) - 1);
    return boxes.length - 1;
  };
  const ownBox = ways.map(({ demands }) =>
    add(Int32Array.from(demands, (demand, slot) => (demand === null ? -1 : numberOf(slot, Int32Array.from(demand).sort())))),
  );
  const single = [...new Set(ownBox)];
  const near = indexOf(
    slots,
    single.map((number) => boxes[number] as Int32Array),
    sets,
  );
  // Meetings, to a fixed point: each box with every name's own box it can meet.
  for (let at = 1; at < boxes.length; at += 1) {
    const a = boxes[at] as Int32Array;
    for (const other of near.meeting(a)) {
      const b = boxes[single[other] as number] as Int32Array;
      if (a === b) continue;
      const both = new Int32Array(slots);
      let empty = false;
      for (let slot = 0; slot < slots && !empty; slot += 1) {
        both[slot] = meeting(slot, a[slot] as number, b[slot] as number);
        empty = both[slot] === -2;
      }
      if (!empty) add(both);
    }
  }
  const within = (inner: Int32Array, outer: Int32Array): boolean => {
    for (let slot = 0; slot < slots; slot += 1) {
      if (meeting(slot, inner[slot] as number, outer[slot] as number) !== inner[slot]) return false;
    }
    return true;
  };

  const targets: Target[] = [];
  const targetNumber = new Map<string, number>();
  const waysOf = new Map(single.map((number) => [number, [] as number[]]));
  ownBox.forEach((number, i) => {
    waysOf.get(number)?.push(i);
  });
  const targetOf = boxes.map((box) => {
    const names = near
      .holding(box)
      .map((at) => single[at] as number)
      .filter((number) => within(box, boxes[number] as Int32Array))
      .flatMap((number) => waysOf.get(number) as number[])
      .sort((a, b) => a - b)
      .map((way) => (ways[way] as (typeof ways)[number]).rule);
    const best = Math.min(...names.map(({ name }) => rankOf(name)));
    const chosen = [...new Set(names)].filter(({ name }) => rankOf(name) === best);
    const key = chosen.map(({ name }) => name.id).join('|');
    const known = targetNumber.get(key);
    if (known !== undefined) return known;
    targetNumber.set(key, targets.push({ rules: chosen, text: textOf(atlas, chosen) }) - 1);
    return targets.length - 1;
  });

  // chance(exactly this box) = Σ over boxes inside it of μ · chance(box); smaller boxes first.
  const size = (box: Int32Array): number =>
    box.reduce(
      (sum, demand, slot) =>
        sum + Math.log((demand === -1 ? 2 ** 30 : ((sets[slot] as Int32Array[])[demand] as Int32Array).length) as number),
      0,
    );
  const order = boxes.map((box, i) => ({ i, size: size(box) })).sort((a, b) => a.size - b.size || a.i - b.i);
  const exact: Map<number, number>[] = boxes.map(() => new Map());
  const every = indexOf(slots, boxes, sets);
  /** By box, the boxes strictly inside it, smaller first. */
  const inside: number[][] = boxes.map(() => []);
  for (const { i } of order) {
    const own = exact[i] as Map<number, number>;
    own.set(i, 1);
    for (const j of inside[i] as number[])
      for (const [box, weight] of exact[j] as Map<number, number>) own.set(box, (own.get(box) ?? 0) - weight);
    for (const [box, weight] of own) if (weight === 0) own.delete(box);
    for (const outer of every.holding(boxes[i] as Int32Array))
      if (outer !== i && within(boxes[i] as Int32Array, boxes[outer] as Int32Array)) (inside[outer] as number[]).push(i);
  }
  const weights = boxes.map(() => new Map<number, number>());
  exact.forEach((own, i) => {
    const target = targetOf[i] as number;
    for (const [box, weight] of own) {
      const known = weights[box] as Map<number, number>;
      known.set(target, (known.get(target) ?? 0) + weight);
    }
  });
  // A box that counts for nothing is left out.
  const counting = boxes.flatMap((demands, box) => {
    const own = [...(weights[box] as Map<number, number>)].filter(([, weight]) => weight !== 0);
    return own.length === 0 ? [] : [{ demands, own }];
  });
  const from = new Int32Array(counting.length + 1);
  counting.forEach(({ own }, box) => {
    from[box + 1] = (from[box] as number) + own.length;
  });
  const listed = counting.flatMap(({ own }) => own);
  return {
    all: targets,
    demands: sets,
    boxes: counting.map(({ demands }) => ({ demands })),
    weights: {
      from,
      targets: Int32Array.from(listed, ([target]) => target),
      weights: Float64Array.from(listed, ([, weight]) => weight),
    },
  };
};

/**
 * Which of a list of boxes can meet, or hold, a given one, without trying them all: by the slot where fewest come into question, those that ask
 * nothing there and those that ask for a part the given one does. More than the answer may be named, never less; in the order of the list.
 */
const indexOf = (slots: number, list: readonly Int32Array[], sets: readonly (readonly Int32Array[])[]) => {
  const free: number[][] = Array.from({ length: slots }, () => []);
  const asking = Array.from({ length: slots }, () => new Map<number, number[]>());
  list.forEach((box, at) => {
    for (let slot = 0; slot < slots; slot += 1) {
      const demand = box[slot] as number;
      if (demand === -1) (free[slot] as number[]).push(at);
      else
        for (const part of (sets[slot] as readonly Int32Array[])[demand] as Int32Array) {
          const own = asking[slot]?.get(part);
          if (own) own.push(at);
          else asking[slot]?.set(part, [at]);
        }
    }
  });
  const all = list.map((_, at) => at);
  const among = (box: Int32Array, partsOf: (demand: Int32Array) => Int32Array): number[] => {
    let best: number[][] | null = null;
    let fewest = list.length;
    for (let slot = 0; slot < slots; slot += 1) {
      const demand = box[slot] as number;
      if (demand === -1) continue;
      const lists = Array.from(partsOf(sets[slot]?.[demand] as Int32Array), (part) => asking[slot]?.get(part) ?? []);
      lists.push(free[slot] as number[]);
      const count = lists.reduce((sum, each) => sum + each.length, 0);
      if (count < fewest) [best, fewest] = [lists, count];
    }
    return best === null ? all : [...new Set(best.flat())].sort((a, b) => a - b);
  };
  return {
    meeting: (box: Int32Array) => among(box, (demand) => demand),
    // What holds all of a demand holds its first part.
    holding: (box: Int32Array) => among(box, (demand) => demand.subarray(0, 1)),
  };
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

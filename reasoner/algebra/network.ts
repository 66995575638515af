import { booleans, evaluate, numbers, type Problem, type Semiring } from './evaluate.ts';
import { type Antichain, bySizeThenLabels, type LabelSets, labelSets } from './label-sets.ts';

/**
 * A constraint network whose constraints carry labels: what may be given up. The atlas questions are networks of slots;
 * the published examples this engine is checked against are networks of gates, queens and countries.
 */
export interface Network {
  /** Number of values of each variable; its values are 0 … n − 1. */
  readonly domains: readonly number[];
  readonly constraints: readonly Constraint[];
}

export interface Constraint {
  readonly scope: readonly number[];
  /** Given the values of the scope, in its order. */
  readonly allows: (values: readonly number[]) => boolean;
  /** Several constraints may share a label: they stand and fall together. `null`: never given up. */
  readonly label: number | null;
}

export interface Enumeration {
  /** Sorted label sets, smallest first. */
  readonly found: number[][];
  /** False when the enumeration was stopped by its limit. */
  readonly complete: boolean;
}

/** How many sets an enumeration gives before it says it stopped. */
export const defaultLimit = 1000;

const allowsAt = (constraint: Constraint): ((values: readonly number[]) => boolean) => {
  const { scope, allows } = constraint;
  if (scope.length === 1) {
    const [a] = scope as [number];
    return (values) => allows([values[a] as number]);
  }
  if (scope.length === 2) {
    const [a, b] = scope as [number, number];
    return (values) => allows([values[a] as number, values[b] as number]);
  }
  return (values) => allows(scope.map((variable) => values[variable] as number));
};

/** The same question with weights instead of yes and no: what an allowed and what a forbidden combination is worth. */
const weighed = <T>(network: Network, allowed: T, forbidden: (label: number | null) => T): Problem<T> => ({
  domains: network.domains,
  factors: network.constraints.map((constraint) => {
    const ok = allowsAt(constraint);
    const otherwise = forbidden(constraint.label);
    return { scope: constraint.scope, at: (values) => (ok(values) ? allowed : otherwise) };
  }),
});

/** How many assignments satisfy every constraint, labelled or not. */
export const countSolutions = (network: Network): number =>
  evaluate(
    weighed(network, 1, () => 0),
    numbers,
  );

/** Whether some assignment satisfies every constraint whose label is not given up. */
export const isSatisfiable = (network: Network, givenUp: ReadonlySet<number> = new Set()): boolean =>
  evaluate(
    weighed(network, true, (label) => label !== null && givenUp.has(label)),
    booleans,
  );

/**
 * The semiring in which a problem's value is the family of minimal label sets that leave it without a solution: an assignment
 * is excluded by *any* violated label, the problem by excluding *all* assignments.
 */
export const conflictRing = (sets: LabelSets): Semiring<Antichain> => ({
  zero: sets.free,
  one: sets.none,
  plus: sets.both,
  times: sets.either,
  isZero: (family) => family === sets.free,
  isFull: (family) => family.length === 0,
});

/** Its dual: an assignment costs *all* labels it violates, the problem takes *any* assignment. */
export const relaxationRing = (sets: LabelSets): Semiring<Antichain> => ({
  zero: sets.none,
  one: sets.free,
  plus: sets.either,
  times: sets.both,
  isZero: (family) => family.length === 0,
  isFull: (family) => family === sets.free,
});

const labelCountOf = (network: Network): number => network.constraints.reduce((most, { label }) => Math.max(most, (label ?? -1) + 1), 0);

/** All minimal sets of labels that, with the constraints that carry none, no assignment satisfies. */
export const minimalConflicts = (network: Network, limit = defaultLimit): Enumeration => {
  const sets = labelSets(labelCountOf(network));
  const ring = conflictRing(sets);
  const family = evaluate(
    weighed<Antichain>(network, ring.one, (label) => (label === null ? ring.zero : sets.of([label]))),
    ring,
  );
  const all = new Set(network.constraints.flatMap(({ label }) => (label === null ? [] : [label])));
  return cutToLimit(sets, family, limit, (labels) => !isSatisfiable(network, new Set([...all].filter((label) => !labels.includes(label)))));
};

/** All minimal sets of labels whose giving up leaves a solution. Empty when the constraints without a label have none. */
export const minimalRelaxations = (network: Network, limit = defaultLimit): Enumeration => {
  const sets = labelSets(labelCountOf(network));
  const ring = relaxationRing(sets);
  const family = evaluate(
    weighed<Antichain>(network, ring.one, (label) => (label === null ? ring.zero : sets.of([label]))),
    ring,
  );
  return cutToLimit(sets, family, limit, (labels) => isSatisfiable(network, new Set(labels)));
};

/** All minimal sets that meet every one of the given sets. The family without sets is met by the empty set. */
export const minimalHittingSets = (families: readonly (readonly number[])[], limit = defaultLimit): Enumeration => {
  const labelCount = families.flat().reduce((most, label) => Math.max(most, label + 1), 0);
  const sets = labelSets(labelCount);
  const hits = families
    .map((family) => family.reduce<Antichain>((any, label) => sets.either(any, sets.of([label])), sets.none))
    .reduce(sets.both, sets.free);
  return cutToLimit(sets, hits, limit, (labels) => families.every((family) => family.some((label) => labels.includes(label))));
};

/**
 * The family as lists, at most `limit`. Where the lattice had to be cut on the way, each set is still sound but may have lost
 * the smaller set that would have absorbed it: it is shrunk against the question itself.
 */
export const cutToLimit = (
  sets: LabelSets,
  family: Antichain,
  limit: number,
  suffices: (labels: readonly number[]) => boolean,
): Enumeration => {
  let found = sets.list(family);
  if (sets.wasCut()) {
    const shrunk = found.map((set) =>
      set.reduce((kept, label) => (suffices(kept.filter((l) => l !== label)) ? kept.filter((l) => l !== label) : kept), set),
    );
    found = [...new Map(shrunk.map((set) => [set.join(), set])).values()].sort(bySizeThenLabels);
  }
  return { found: found.slice(0, limit), complete: !sets.wasCut() && found.length <= limit };
};

import { booleans, evaluate, numbers, type Problem, type Semiring } from './evaluate.ts';
import { bySizeThenLabels, type Family, type LabelSets, labelSets } from './label-sets.ts';

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
const defaultLimit = 1000;

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
export const conflictRing = (sets: LabelSets): Semiring<Family> => ({
  zero: sets.free,
  one: sets.none,
  plus: sets.both,
  times: sets.either,
  isZero: (family) => family === sets.free,
  isFull: (family) => family === sets.none,
});

/** Its dual: an assignment costs *all* labels it violates, the problem takes *any* assignment. */
export const relaxationRing = (sets: LabelSets): Semiring<Family> => ({
  zero: sets.none,
  one: sets.free,
  plus: sets.either,
  times: sets.both,
  isZero: (family) => family === sets.none,
  isFull: (family) => family === sets.free,
});

const labelCountOf = (network: Network): number => network.constraints.reduce((most, { label }) => Math.max(most, (label ?? -1) + 1), 0);

/** All minimal sets of labels that, with the constraints that carry none, no assignment satisfies. */
export const minimalConflicts = (network: Network, limit = defaultLimit): Enumeration =>
  smallestFirst(labelCountOf(network), limit, (sets) => valueIn(network, conflictRing(sets), sets));

/** All minimal sets of labels whose giving up leaves a solution. Empty when the constraints without a label have none. */
export const minimalRelaxations = (network: Network, limit = defaultLimit): Enumeration =>
  smallestFirst(labelCountOf(network), limit, (sets) => valueIn(network, relaxationRing(sets), sets));

/** All minimal sets that meet every one of the given sets. The family without sets is met by the empty set. */
export const minimalHittingSets = (families: readonly (readonly number[])[], limit = defaultLimit): Enumeration =>
  smallestFirst(
    families.flat().reduce((most, label) => Math.max(most, label + 1), 0),
    limit,
    (sets) =>
      families
        .map((family) => family.reduce<Family>((any, label) => sets.either(any, sets.of([label])), sets.none))
        .reduce(sets.both, sets.free),
  );

const valueIn = (network: Network, ring: Semiring<Family>, sets: LabelSets): Family =>
  evaluate(
    weighed<Family>(network, ring.one, (label) => (label === null ? ring.zero : sets.of([label]))),
    ring,
  );

/**
 * The sets of a family, smallest first, at most `limit`. The family is computed with sets up to some size, which is exact for
 * those, and again with larger ones until there are enough or nothing was left out. What is found, or `known` beforehand, prunes what follows.
 */
export const smallestFirst = (
  labelCount: number,
  limit: number,
  compute: (sets: LabelSets) => Family,
  known: readonly (readonly number[])[] = [],
): Enumeration => {
  let found: number[][] = known.map((set) => [...set]);
  for (let largest = firstLargest; ; largest *= 2) {
    const sets = labelSets(labelCount, largest, found);
    found = [...found, ...sets.list(compute(sets))].sort(bySizeThenLabels);
    // The empty set absorbs all others, whatever was left out.
    if (found[0]?.length === 0) return { found: [[]], complete: true };
    const exhausted = !sets.leftOut();
    if (exhausted || found.length >= limit) return { found: found.slice(0, limit), complete: exhausted && found.length <= limit };
  }
};

/** Conflicts people read have two to four members; with a hundred labels larger ones are what makes an enumeration long. */
const firstLargest = 4;

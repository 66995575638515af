import type { Outcome } from './outcomes.ts';
import type { KeyProblem } from './problem.ts';
import { after, couldTellTogether, labelsOf, type State, type Step, startOf, stepOf } from './state.ts';

/** A key as a tree; a place reached in several ways is one node. */
export type KeyNode =
  | { readonly kind: 'end'; readonly labels: readonly number[]; readonly odds: readonly number[] }
  | {
      readonly kind: 'check';
      readonly check: number;
      readonly minutes: number;
      /** Expected minutes from here to an end. */
      readonly expected: number;
      readonly ways: readonly { readonly outcome: Outcome; readonly share: number; readonly to: KeyNode }[];
    };

export interface BuiltKey {
  readonly root: KeyNode;
  readonly expected: number;
  /** Whether no key takes fewer expected minutes. */
  readonly optimal: boolean;
}

/**
 * How much to look into before the exact way gives up, on a whole key and on what is left of one below a check: subjects held against checks, summed over the places weighed.
 * Counted, not timed, so that the same atlas gives the same key on every machine.
 */
export interface KeyEffort {
  readonly whole: number;
  readonly below: number;
}

export const usualEffort: KeyEffort = { whole: 200_000, below: 6_000 };

const expectedOf = (node: KeyNode): number => (node.kind === 'end' ? 0 : node.expected);

/**
 * The checks worth making at a place; none where the key ends. While some check could exclude a label, only such are made; where none can alone but several could together,
 * any that tells something.
 */
export const stepsAt = (problem: KeyProblem, state: State): readonly Step[] => {
  problem.pulse?.();
  if (labelsOf(problem, state).length < 2) return [];
  const steps = problem.checks.flatMap((_, check) => stepOf(problem, state, check) ?? []);
  const excluding = steps.filter(({ excludes }) => excludes);
  if (excluding.length > 0) return withoutDearer(problem, excluding);
  return couldTellTogether(problem, state) ? withoutDearer(problem, steps) : [];
};

/** Of checks that come out alike in every way and cost the same strip-down, only the cheapest. */
const withoutDearer = (problem: KeyProblem, steps: readonly Step[]): readonly Step[] => {
  const best = new Map<string, Step>();
  for (const step of steps) {
    const { slot } = problem.checks[step.check] as KeyProblem['checks'][number];
    const ways = step.ways.map(({ outcome }) =>
      outcome.kinds
        .map((kind, i) => `${kind}:${(outcome.shares[i] as number).toFixed(6)}`)
        .sort()
        .join(),
    );
    const key = `${step.reached}|${slot}|${ways.sort().join(';')}`;
    const known = best.get(key);
    if (known === undefined || step.minutes < known.minutes) best.set(key, step);
  }
  return [...best.values()];
};

const endOf = (problem: KeyProblem, state: State): KeyNode => {
  const odds = new Map<number, number>();
  for (const { number, odds: one } of state.subjects) {
    const label = problem.subjects[number]?.label as number;
    odds.set(label, (odds.get(label) ?? 0) + one / state.odds);
  }
  // Shares added up may come out a last figure above one.
  const sorted = [...odds].sort((a, b) => b[1] - a[1] || a[0] - b[0]);
  return { kind: 'end', labels: sorted.map(([label]) => label), odds: sorted.map(([, one]) => Math.min(1, one)) };
};

/** The best key from a place, by weighing every check at every place it can lead to; null when that takes more than `budget` places. */
const exactFrom = (problem: KeyProblem, state: State, known: Map<string, KeyNode>, budget: { left: number }): KeyNode | null => {
  const before = known.get(state.key);
  if (before !== undefined) return before;
  if (budget.left <= 0) return null;
  budget.left -= state.subjects.length * problem.checks.length;
  const steps = stepsAt(problem, state);
  let best: KeyNode | null = steps.length === 0 ? endOf(problem, state) : null;
  for (const step of [...steps].sort((a, b) => a.minutes - b.minutes)) {
    let expected = step.minutes;
    const ways: { outcome: Outcome; share: number; to: KeyNode }[] = [];
    for (const way of step.ways) {
      if (best !== null && expected >= expectedOf(best)) break;
      const to = exactFrom(problem, after(problem, state, step, way), known, budget);
      if (to === null) return null;
      expected += way.share * expectedOf(to);
      ways.push({ outcome: way.outcome, share: way.share, to });
    }
    if (ways.length === step.ways.length && (best === null || expected < expectedOf(best))) {
      best = { kind: 'check', check: step.check, minutes: step.minutes, expected, ways };
    }
  }
  if (best !== null) known.set(state.key, best);
  return best;
};

const entropy = (parts: Iterable<number>): number => {
  let [sum, bits] = [0, 0];
  for (const part of parts) sum += part;
  for (const part of parts) if (part > 0) bits -= (part / sum) * Math.log2(part / sum);
  return bits;
};

/**
 * A good key, not always the best: at each place the check that tells the most bits a minute, where strip-down counts by `strip` only, as later checks share it.
 * What is small enough is done exactly.
 */
const byBits = (problem: KeyProblem, strip: number, below: number, exact: Map<string, KeyNode>, gaveUp: Set<string>): KeyNode => {
  const known = new Map<string, KeyNode>();
  const from = (state: State): KeyNode => {
    const before = known.get(state.key);
    if (before !== undefined) return before;
    const labels = labelsOf(problem, state).length;
    let node: KeyNode | null = null;
    if (labels <= 5 && !gaveUp.has(state.key)) {
      node = exactFrom(problem, state, exact, { left: below });
      if (node === null) gaveUp.add(state.key);
    }
    if (node === null) {
      const steps = stepsAt(problem, state);
      if (steps.length === 0) node = endOf(problem, state);
      else {
        const { step } = steps
          .map((one) => ({ step: one, worth: worth(problem, state, one, strip) }))
          .reduce((a, b) => (b.worth > a.worth ? b : a));
        const ways = step.ways.map((way) => ({ outcome: way.outcome, share: way.share, to: from(after(problem, state, step, way)) }));
        const expected = step.minutes + ways.reduce((sum, { share, to }) => sum + share * expectedOf(to), 0);
        node = { kind: 'check', check: step.check, minutes: step.minutes, expected, ways };
      }
    }
    known.set(state.key, node);
    return node;
  };
  return from(startOf(problem));
};

/** Bits a check tells of the label a minute; where it alone tells none of it, of the subject and then of its parts, far less. */
const worth = (problem: KeyProblem, state: State, step: Step, strip: number): number => {
  const look = problem.checks[step.check]?.minutes ?? 0;
  const minutes = Math.max(0.1, look + strip * (step.minutes - look));
  const labels = (odds: ArrayLike<number>): Iterable<number> => {
    const sums = new Map<number, number>();
    state.subjects.forEach(({ number }, i) => {
      const label = problem.subjects[number]?.label as number;
      sums.set(label, (sums.get(label) ?? 0) + (odds[i] ?? 0));
    });
    return [...sums.values()];
  };
  const now = entropy(labels(state.subjects.map(({ odds }) => odds)));
  const later = step.ways.reduce((sum, { share, odds }) => sum + share * entropy(labels(odds)), 0);
  const byWays = 1e-6 * entropy(step.ways.map(({ share }) => share));
  return (Math.max(0, now - later) + byWays) / minutes;
};

/** The best key where it can be weighed whole; otherwise the best of several good ones. */
export const buildKey = (problem: KeyProblem, effort: KeyEffort = usualEffort): BuiltKey => {
  const exact = new Map<string, KeyNode>();
  const start = startOf(problem);
  const whole = labelsOf(problem, start).length <= 12 ? exactFrom(problem, start, exact, { left: effort.whole }) : null;
  if (whole !== null) return { root: whole, expected: expectedOf(whole), optimal: true };
  const gaveUp = new Set<string>();
  const tried = [1, 0.3, 0.05].map((strip) => byBits(problem, strip, effort.below, exact, gaveUp));
  const root = tried.reduce((a, b) => (expectedOf(b) < expectedOf(a) ? b : a));
  return { root, expected: expectedOf(root), optimal: false };
};

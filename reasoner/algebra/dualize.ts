import { bySizeThenLabels } from './enumeration.ts';

/** Every minimal set of labels that cannot all be kept, and every minimal set whose giving up makes the rest consistent. */
export interface Dual {
  /** Sorted label lists, smallest first. */
  readonly conflicts: number[][];
  readonly relaxations: number[][];
  /** False when the search was stopped by one of its bounds: there may be conflicts not found, and the relaxations are not to be used. */
  readonly complete: boolean;
}

/** When a search stops that is not at its end. Both are counted, so that the same question has the same answer on every machine. */
export interface Bounds {
  /** No more conflicts are looked for once there are so many. */
  readonly conflicts: number;
  /** No further conflict is looked for once the questions asked, and those that wait to be asked, are more than this. */
  readonly questions: number;
  /** Told how many conflicts there are each time one more is found. */
  readonly found?: (conflicts: number) => void;
}

/** Whether the labels whose flag is 1 can be kept together; keeping fewer never makes it less so. */
export type Consistent = (kept: Uint8Array) => boolean;

/**
 * All minimal conflicts and relaxations of labels 0 … count − 1, by asking nothing but whether a set of labels can be kept. Exact when `complete`; else
 * every conflict given is a minimal one, and there may be others.
 *
 * The two families are each other's minimal hitting sets. The conflicts found so far have minimal hitting sets; where giving one of them up does not make the
 * rest consistent, the rest holds a conflict not found yet, which is shrunk out of it; where it does for all of them, nothing is missing, and that is the proof.
 * (Reiter, "A theory of diagnosis from first principles", Artificial Intelligence 32 (1987); Bailey & Stuckey, "Discovery of minimal unsatisfiable subsets of constraints using
 * hitting set dualization", PADL 2005. Hitting sets one conflict at a time: Berge, Hypergraphs (1989).) Every hitting set not asked about yet is a question that waits.
 *
 * @param known minimal conflicts found before; they are among those given, and need not be found again
 */
export const dualize = (
  count: number,
  consistent: Consistent,
  bounds: Bounds | number,
  known: readonly (readonly number[])[] = [],
): Dual => {
  const { conflicts: atMost, questions, found } = typeof bounds === 'number' ? boundsOf(bounds) : bounds;
  let asked = 0;
  const ask: Consistent = (kept) => {
    asked += 1;
    return consistent(kept);
  };
  const kept = new Uint8Array(count);
  if (!ask(kept)) return { conflicts: [[]], relaxations: [], complete: true };
  const conflicts: number[][] = known.map((set) => [...set]);
  /** Minimal hitting sets of the conflicts so far: those seen to be relaxations, and those not asked about yet. */
  const settled: Labels[] = [];
  let open: Labels[] = [new Int32Array(Math.max(1, Math.ceil(count / 32)))];
  for (const conflict of conflicts) open = meetAlso(open, conflict, settled);
  for (let hitting = open.pop(); hitting !== undefined; hitting = open.pop()) {
    for (let label = 0; label < count; label += 1) kept[label] = has(hitting, label) ? 0 : 1;
    // Asked about it would be one question more.
    if (asked + 1 + open.length > questions) return stopped(conflicts);
    if (ask(kept)) {
      settled.push(hitting);
      continue;
    }
    if (conflicts.length >= atMost) return stopped(conflicts);
    const conflict = shrink(
      Array.from(kept.keys()).filter((label) => kept[label] === 1),
      count,
      ask,
    );
    conflicts.push(conflict);
    found?.(conflicts.length);
    // A relaxation meets every conflict, so only the others change.
    open.push(hitting);
    open = meetAlso(open, conflict, settled);
  }
  return {
    conflicts: conflicts.sort(bySizeThenLabels),
    relaxations: settled
      .map((set) => Array.from({ length: count }, (_, label) => label).filter((label) => has(set, label)))
      .sort(bySizeThenLabels),
    complete: true,
  };
};

const boundsOf = (conflicts: number): Bounds => ({ conflicts, questions: Number.POSITIVE_INFINITY });

const stopped = (conflicts: number[][]): Dual => ({ conflicts: conflicts.sort(bySizeThenLabels), relaxations: [], complete: false });

/** A set of labels, a bit for each. */
type Labels = Int32Array;

const has = (set: Labels, label: number): boolean => (((set[label >>> 5] as number) >>> (label & 31)) & 1) === 1;

/** Berge's step: sets that miss the conflict are widened by each of its labels in turn, and what contains another falls away. */
const meetAlso = (open: readonly Labels[], conflict: readonly number[], settled: readonly Labels[]): Labels[] => {
  const mask = new Int32Array(open[0]?.length ?? 1);
  for (const label of conflict) add(mask, label);
  const meets: Labels[] = [];
  const misses: Labels[] = [];
  for (const set of open) (overlaps(set, mask) ? meets : misses).push(set);
  // A set within a widened one has the label it was widened by; it met the conflict in that label alone.
  const rivals = new Map(conflict.map((label) => [label, [] as Labels[]]));
  for (const sets of [meets, settled]) for (const set of sets) rivals.get(onlyCommon(set, mask))?.push(set);
  const next = meets.slice();
  for (const set of misses) {
    for (const [label, others] of rivals) {
      const wider = set.slice();
      add(wider, label);
      if (!others.some((other) => within(other, wider))) next.push(wider);
    }
  }
  return next;
};

const add = (set: Labels, label: number): void => {
  set[label >>> 5] = (set[label >>> 5] as number) | (1 << (label & 31));
};

const overlaps = (a: Labels, b: Labels): boolean => {
  for (let w = 0; w < a.length; w += 1) if (((a[w] as number) & (b[w] as number)) !== 0) return true;
  return false;
};

/** The one label two sets have in common; −1 where there is none, or more than one. */
const onlyCommon = (a: Labels, b: Labels): number => {
  let found = -1;
  for (let w = 0; w < a.length; w += 1) {
    const common = (a[w] as number) & (b[w] as number);
    if (common === 0) continue;
    if (found >= 0 || (common & (common - 1)) !== 0) return -1;
    found = w * 32 + (31 - Math.clz32(common));
  }
  return found;
};

const within = (inner: Labels, outer: Labels): boolean => {
  for (let w = 0; w < inner.length; w += 1) if (((inner[w] as number) & ~(outer[w] as number)) !== 0) return false;
  return true;
};

/**
 * One minimal conflict among labels that are not consistent together; no labels at all are. Of several the one without what comes late in the list, as
 * far as one can do without it. (Junker, "QuickXplain: preferred explanations and relaxations for over-constrained problems", AAAI 2004.)
 * @param count of all labels there are
 */
export const shrink = (labels: readonly number[], count: number, consistent: Consistent): number[] => {
  const trial = new Uint8Array(count);
  const flags = (labels: readonly number[], flag: 0 | 1): void => {
    for (const label of labels) trial[label] = flag;
  };
  /** A minimal part of `labels` that is not consistent with what is in `trial`. `added`: something came into `trial` since it was last asked about. */
  const needed = (labels: readonly number[], added: boolean): readonly number[] => {
    if (added && !consistent(trial)) return [];
    if (labels.length === 1) return labels;
    const half = labels.length >> 1;
    const [first, second] = [labels.slice(0, half), labels.slice(half)];
    flags(first, 1);
    const late = needed(second, true);
    flags(first, 0);
    flags(late, 1);
    const early = needed(first, late.length > 0);
    flags(late, 0);
    return [...early, ...late];
  };
  return [...needed(labels, false)].sort((a, b) => a - b);
};

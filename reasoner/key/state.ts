import { couldBeRead } from '../apart/look.ts';
import { type Outcome, outcomesOf } from './outcomes.ts';
import { goOn, type KeyProblem } from './problem.ts';

/** Where a reader of the key stands: what is still possible, with its odds, which checks were made, and how far the unit is apart. */
export interface State {
  /** By slot and kind: how likely that kind is still, 0 when an answer excluded it; the likeliest of each slot is 1. */
  readonly left: readonly Float64Array[];
  /** Subjects still possible with their odds, not normalised. */
  readonly subjects: readonly { readonly number: number; readonly odds: number }[];
  readonly odds: number;
  readonly asked: ReadonlySet<number>;
  readonly reached: number;
  readonly key: string;
}

export const startOf = (problem: KeyProblem): State =>
  settled(
    problem,
    problem.kinds.map((count) => new Float64Array(count).fill(1)),
    new Set(),
    goOn(problem, 0, -1).reached,
    problem.subjects.map((_, number) => number),
  );

/** A check as it could be made here. */
export interface Step {
  readonly check: number;
  /** Strip-down still needed and the look. */
  readonly minutes: number;
  readonly reached: number;
  readonly ways: readonly Way[];
  /** Whether some answer excludes a label. */
  readonly excludes: boolean;
}

export interface Way {
  readonly outcome: Outcome;
  /** Of this answer, given what is known here. */
  readonly share: number;
  readonly labels: readonly number[];
  /** Odds of each subject left, in the state's order, 0 for those excluded; not normalised. */
  readonly odds: Float64Array;
}

export const labelsOf = (problem: KeyProblem, state: State): readonly number[] => [
  ...new Set(state.subjects.map(({ number }) => problem.subjects[number]?.label as number)),
];

/** The check as it could be made here; null where it was made, or would tell nothing. */
export const stepOf = (problem: KeyProblem, state: State, check: number): Step | null => {
  if (state.asked.has(check)) return null;
  const asked = problem.checks[check] as KeyProblem['checks'][number];
  const left = state.left[asked.slot] as Float64Array;
  const kinds = Array.from(left.keys()).filter((kind) => (left[kind] as number) > 0);
  const outcomes = outcomesOf(kinds, asked.looks, asked.step);
  if (outcomes.length === 0) return null;
  const before = new Set(labelsOf(problem, state)).size;
  const share = new Float64Array(left.length);
  const ways = outcomes.flatMap((outcome): Way[] => {
    share.fill(0);
    outcome.kinds.forEach((kind, i) => {
      share[kind] = outcome.shares[i] as number;
    });
    const odds = new Float64Array(state.subjects.length);
    const labels = new Set<number>();
    let sum = 0;
    state.subjects.forEach(({ number, odds: was }, i) => {
      const subject = problem.subjects[number] as KeyProblem['subjects'][number];
      let [all, kept] = [0, 0];
      for (const held of subject.holds[asked.slot] as readonly { kind: number; odds: number }[]) {
        const likely = held.odds * (left[held.kind] as number);
        all += likely;
        kept += likely * (share[held.kind] as number);
      }
      if (kept === 0) return;
      odds[i] = (was * kept) / all;
      sum += odds[i] as number;
      labels.add(subject.label);
    });
    return sum === 0 ? [] : [{ outcome, share: sum / state.odds, labels: [...labels], odds }];
  });
  if (ways.length < 2) return null;
  const { reached, minutes } = goOn(problem, state.reached, asked.stage);
  return { check, minutes: minutes + asked.minutes, reached, ways, excludes: ways.some(({ labels }) => labels.length < before) };
};

/** Where one answer leads. */
export const after = (problem: KeyProblem, state: State, step: Step, way: Way): State => {
  const { slot } = problem.checks[step.check] as KeyProblem['checks'][number];
  const was = state.left[slot] as Float64Array;
  const now = new Float64Array(was.length);
  way.outcome.kinds.forEach((kind, i) => {
    now[kind] = (was[kind] as number) * (way.outcome.shares[i] as number);
  });
  const left = state.left.map((kinds, number) => (number === slot ? now : kinds));
  const alive = state.subjects.flatMap(({ number }, i) => ((way.odds[i] as number) > 0 ? [number] : []));
  return settled(problem, left, new Set([...state.asked, step.check]), step.reached, alive);
};

/** A state in its one canonical form: kinds nobody left can hold are out, and each slot's likeliest kind is 1. */
const settled = (
  problem: KeyProblem,
  left: readonly Float64Array[],
  asked: ReadonlySet<number>,
  reached: number,
  alive: readonly number[],
): State => {
  const kept = left.map((kinds, slot) => {
    const held = new Float64Array(kinds.length);
    for (const number of alive) {
      for (const { kind } of problem.subjects[number]?.holds[slot] ?? []) held[kind] = kinds[kind] as number;
    }
    const most = held.reduce((a, b) => Math.max(a, b), 0);
    return most === 0 ? held : held.map((odds) => odds / most);
  });
  const subjects = alive.map((number) => {
    const subject = problem.subjects[number] as KeyProblem['subjects'][number];
    const odds = subject.holds.reduce(
      (product, holds, slot) =>
        product * holds.reduce((sum, one) => sum + one.odds * ((kept[slot] as Float64Array)[one.kind] as number), 0),
      subject.odds,
    );
    return { number, odds };
  });
  // A check already made matters only while it could still seem to tell something: of kinds with several looks.
  const again = [...asked].filter((check) => {
    const { slot, looks, step } = problem.checks[check] as KeyProblem['checks'][number];
    const kinds = Array.from((kept[slot] as Float64Array).keys()).filter((kind) => ((kept[slot] as Float64Array)[kind] as number) > 0);
    return kinds.length > 1 && outcomesOf(kinds, looks, step).length > 0;
  });
  const kinds = kept.map((one) =>
    Array.from(one.entries()).flatMap(([kind, odds]) => (odds > 0 ? [odds === 1 ? `${kind}` : `${kind}:${odds.toFixed(9)}`] : [])),
  );
  return {
    left: kept,
    subjects,
    odds: subjects.reduce((sum, { odds }) => sum + odds, 0),
    asked,
    reached,
    key: `${reached}|${alive.join()}|${again.sort((a, b) => a - b).join()}|${kinds.map((one) => one.join()).join(';')}`,
  };
};

/**
 * Whether checks left could still tell some labels apart that no single one can: a part of one subject that each part another may hold in that slot is excluded from
 * by some check left.
 */
export const couldTellTogether = (problem: KeyProblem, state: State): boolean => {
  const left = problem.checks.flatMap((check, number) => (state.asked.has(number) ? [] : [check]));
  const open = (subject: number, slot: number): readonly number[] =>
    (problem.subjects[subject]?.holds[slot] ?? []).flatMap(({ kind }) =>
      ((state.left[slot] as Float64Array)[kind] as number) > 0 ? [kind] : [],
    );
  return state.subjects.some(({ number: a }) =>
    state.subjects.some(
      ({ number: b }) =>
        problem.subjects[a]?.label !== problem.subjects[b]?.label &&
        problem.kinds.some((_, slot) => {
          const checks = left.filter((check) => check.slot === slot);
          const others = open(b, slot);
          return (
            checks.length > 0 &&
            open(a, slot).some((one) =>
              others.every((other) =>
                checks.some(({ looks }) => {
                  const [x, y] = [looks[one], looks[other]];
                  return x != null && y != null && !couldBeRead(x, y);
                }),
              ),
            )
          );
        }),
    ),
  );
};

import { couldBeRead, type Look } from '../apart/look.ts';
import { goOn, type KeyProblem } from './problem.ts';

/**
 * Expected minutes no key can do with less of: strip-down and looks are bounded each by itself, and added.
 *
 * Whoever is subject i must be told from every j that some check tells from it for certain, by a check that could exclude j for i. *Strip-down*: at least that of the
 * least stripped such check, for the j that needs the most. *Looks*: in the same way the cheapest such look; or, if it is more, by *bits*: the answers must carry the entropy of
 * which group the unit is of, where labels that nothing tells apart for certain are one group. A check with k ways carries at most log₂ k bits (Shannon 1948) and is made at most
 * once, so the bound is the least minutes of looks that carry as many, each taken at most wholly.
 */
export const lowerBound = (problem: KeyProblem): { readonly minutes: number; readonly strip: number; readonly looks: number } => {
  const apart = apartFrom(problem);
  const strip = byFarthest(problem, apart, ({ stage }) => goOn(problem, 0, stage).minutes);
  const looks = Math.max(
    byFarthest(problem, apart, ({ minutes }) => minutes),
    byBits(problem, apart),
  );
  return { minutes: strip + looks, strip, looks };
};

const kindsOf = (problem: KeyProblem, subject: number, slot: number): readonly number[] =>
  (problem.subjects[subject]?.holds[slot] ?? []).map(({ kind }) => kind);

/** Whether the check tells these two for certain, whatever they hold. */
const tells = (problem: KeyProblem, check: KeyProblem['checks'][number], a: number, b: number): boolean =>
  kindsOf(problem, a, check.slot).every((one) =>
    kindsOf(problem, b, check.slot).every((other) => {
      const [x, y] = [check.looks[one], check.looks[other]];
      return x != null && y != null && !couldBeRead(x, y);
    }),
  );

/** Whether some answer that `a` can give could be one that `b`, or some part of it, cannot. */
const couldExclude = (problem: KeyProblem, check: KeyProblem['checks'][number], a: number, b: number): boolean =>
  kindsOf(problem, b, check.slot).some((other) => {
    const look = check.looks[other];
    return look != null && kindsOf(problem, a, check.slot).some((one) => !isWithin(check.looks[one] ?? null, look));
  });

const isWithin = (inner: Look | null, outer: Look): boolean => {
  if (inner === null) return false;
  if (inner.kind === 'range') return outer.kind === 'range' && outer.low <= inner.low && inner.high <= outer.high;
  return outer.kind === 'one of' && inner.values.every((value) => outer.values.includes(value));
};

/** By subject, those of another label that some check tells from it for certain. */
type Apart = readonly ReadonlySet<number>[];

const apartFrom = (problem: KeyProblem): Apart =>
  problem.subjects.map(({ label }, a) => {
    problem.pulse?.();
    return new Set(
      problem.subjects.flatMap((other, b) =>
        other.label !== label && problem.checks.some((check) => tells(problem, check, a, b)) ? [b] : [],
      ),
    );
  });

const byFarthest = (problem: KeyProblem, apart: Apart, cost: (check: KeyProblem['checks'][number]) => number): number => {
  const cheapest = problem.checks.map((check) => ({ check, minutes: cost(check) })).sort((a, b) => a.minutes - b.minutes);
  return problem.subjects.reduce((sum, { odds }, a) => {
    const needs = [...(apart[a] ?? [])].map((b) => cheapest.find(({ check }) => couldExclude(problem, check, a, b))?.minutes ?? 0);
    return sum + odds * Math.max(0, ...needs);
  }, 0);
};

const byBits = (problem: KeyProblem, apart: Apart): number => {
  // Labels that anything of could be taken for each other are one group.
  const group = Array.from({ length: problem.labels }, (_, label) => label);
  const root = (label: number): number => (group[label] === label ? label : root(group[label] as number));
  problem.subjects.forEach(({ label }, a) => {
    problem.subjects.forEach((other, b) => {
      if (other.label !== label && apart[a]?.has(b) !== true) group[root(label)] = root(other.label);
    });
  });
  const odds = new Map<number, number>();
  for (const subject of problem.subjects) odds.set(root(subject.label), (odds.get(root(subject.label)) ?? 0) + subject.odds);
  let bits = -[...odds.values()].reduce((sum, one) => (one > 0 ? sum + one * Math.log2(one) : sum), 0);
  const carried = problem.checks
    .map(({ looks, minutes }) => ({ minutes, bits: Math.log2(Math.max(1, waysAtMost(looks))) }))
    .filter((check) => check.bits > 0)
    .sort((a, b) => a.minutes / a.bits - b.minutes / b.bits);
  let minutes = 0;
  for (const check of carried) {
    if (bits <= 1e-12) break;
    const share = Math.min(1, bits / check.bits);
    minutes += share * check.minutes;
    bits -= share * check.bits;
  }
  return minutes;
};

/** No more ways than distinct values, or than distinct ranges, at any place of any key. */
const waysAtMost = (looks: readonly (Look | null)[]): number => {
  const values = new Set<string>();
  for (const look of looks) {
    if (look === null) continue;
    if (look.kind === 'one of') for (const value of look.values) values.add(value);
    else values.add(`${look.low} ${look.high}`);
  }
  return values.size;
};

import { describe, expect, it } from 'vitest';
import { buildKey, type KeyNode, type KeyProblem, lowerBound } from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { zoo, zooFeatures } from './zoo.ts';

const one = (values: readonly string[]) => ({ kind: 'one of', values }) as const;

/** Each subject a part of its own in one slot, every check at hand. */
const table = (
  rows: readonly (readonly string[])[],
  labels: readonly number[],
  checks: readonly { minutes: number; stage: number }[],
  stages: KeyProblem['stages'],
): KeyProblem => ({
  labels: Math.max(...labels) + 1,
  kinds: [rows.length],
  stages,
  checks: checks.map(({ minutes, stage }, c) => ({ slot: 0, minutes, stage, step: 0, looks: rows.map((row) => one([row[c] as string])) })),
  subjects: rows.map((_, kind) => ({ label: labels[kind] as number, odds: 1 / rows.length, holds: [[{ kind, odds: 1 }]] })),
});

const ends = (node: KeyNode): readonly KeyNode[] => (node.kind === 'end' ? [node] : node.ways.flatMap(({ to }) => ends(to)));
const flat = [{ minutes: 0, needs: [0] }];

describe('Zoo (Forsyth 1990, UCI)', () => {
  // Figures of the check values, section H: class sizes, entropy and gains C (computed there), 59 distinct rows.
  it('[D4] the table is the published one: class sizes, entropy of the class, gains', () => {
    expect(zoo).toHaveLength(101);
    const sizes = [1, 2, 3, 4, 5, 6, 7].map((group) => zoo.filter((animal) => animal.group === group).length);
    expect(sizes).toEqual([41, 20, 5, 13, 4, 8, 10]);
    const entropy = (animals: typeof zoo) => {
      const count = new Map<number, number>();
      for (const { group } of animals) count.set(group, (count.get(group) ?? 0) + 1);
      return [...count.values()].reduce((bits, n) => bits - (n / animals.length) * Math.log2(n / animals.length), 0);
    };
    expect(entropy(zoo)).toBeCloseTo(2.39056, 5);
    const gain = (name: (typeof zooFeatures)[number]) => {
      const at = zooFeatures.indexOf(name);
      const values = [...new Set(zoo.map(({ values }) => values[at]))];
      return (
        entropy(zoo) -
        values.reduce<number>((sum, value) => {
          const part = zoo.filter(({ values }) => values[at] === value);
          return sum + (part.length / zoo.length) * entropy(part);
        }, 0)
      );
    };
    expect(gain('legs')).toBeCloseTo(1.363047, 5);
    expect(gain('milk')).toBeCloseTo(0.97432, 5);
    expect(gain('toothed')).toBeCloseTo(0.865694, 5);
    expect(gain('eggs')).toBeCloseTo(0.830138, 5);
    expect(new Set(zoo.map(({ values }) => values.join())).size).toBe(59);
  });

  it('[D4] a key to the animals ends in exactly the 59 groups of equal rows, each named as what cannot be told apart', () => {
    const problem = table(
      zoo.map(({ values }) => values.map(String)),
      zoo.map((_, i) => i),
      zooFeatures.map(() => ({ minutes: 1, stage: 0 })),
      flat,
    );
    const built = buildKey(problem);
    const found = [
      ...new Set(ends(built.root).map((end) => (end.kind === 'end' ? [...end.labels].sort((a, b) => a - b).join() : ''))),
    ].sort();
    const rows = new Map<string, number[]>();
    for (const [i, { values }] of zoo.entries()) rows.set(values.join(), [...(rows.get(values.join()) ?? []), i]);
    expect(found).toHaveLength(59);
    expect(found).toEqual([...rows.values()].map((group) => group.join()).sort());
    // No key of answers can ask less than the entropy of the groups, at most log2 6 bits an answer (legs has six values), Shannon 1948.
    const bits = [...rows.values()].reduce((sum, { length }) => sum - (length / 101) * Math.log2(length / 101), 0);
    const bound = lowerBound(problem);
    expect(bound.minutes).toBeGreaterThanOrEqual(bits / Math.log2(6));
    expect(built.expected).toBeGreaterThanOrEqual(bound.minutes);
    expect(built.optimal).toBe(false);
  });

  it('[D4] the seven classes are all told: no end holds two', () => {
    const problem = table(
      zoo.map(({ values }) => values.map(String)),
      zoo.map(({ group }) => group - 1),
      zooFeatures.map(() => ({ minutes: 1, stage: 0 })),
      flat,
    );
    const built = buildKey(problem);
    for (const end of ends(built.root)) expect(end.kind === 'end' && end.labels.length).toBe(1);
    expect(built.expected).toBeGreaterThanOrEqual(lowerBound(problem).minutes);
  });
});

/**
 * The least expected minutes of any tree that splits as long as anything can be split, by trying every check at every set, with nothing remembered and nothing given up early.
 * Optimal identification trees as in M. R. Garey, Optimal binary identification procedures, SIAM J. Appl. Math. 23, 1972 (M), with many-valued checks and shared strip-down.
 */
const exhaustive = (
  rows: readonly (readonly string[])[],
  checks: readonly { minutes: number; stage: number }[],
  strip: readonly number[],
): number => {
  const from = (left: readonly number[], reached: number): number => {
    let best: number | null = null;
    checks.forEach(({ minutes, stage }, c) => {
      const groups = new Map<string, number[]>();
      for (const row of left) groups.set(rows[row]?.[c] as string, [...(groups.get(rows[row]?.[c] as string) ?? []), row]);
      if (groups.size < 2) return;
      const far = Math.max(reached, stage);
      const way = strip.slice(reached + 1, far + 1).reduce((sum, one) => sum + one, 0);
      const total = minutes + way + [...groups.values()].reduce((sum, group) => sum + (group.length / left.length) * from(group, far), 0);
      if (best === null || total < best) best = total;
    });
    return best ?? 0;
  };
  return from(
    rows.map((_, i) => i),
    0,
  );
};

describe('keys small enough to weigh whole', () => {
  it('[D4] as few expected minutes as the best of all trees, on random tables with shared strip-down', () => {
    for (let seed = 1; seed <= 150; seed += 1) {
      const dice = new Dice(seed);
      const checks = Array.from({ length: dice.whole(2, 5) }, () => ({ minutes: dice.whole(1, 6), stage: dice.whole(0, 2) }));
      const strip = [0, dice.whole(2, 12), dice.whole(2, 20)];
      const rows = Array.from({ length: dice.whole(2, 6) }, () => checks.map(() => String(dice.whole(0, 2))));
      const stages = strip.map((minutes, at) => ({ minutes, needs: Array.from({ length: at + 1 }, (_, need) => need) }));
      const problem = table(
        rows,
        rows.map((_, i) => i),
        checks,
        stages,
      );
      const built = buildKey(problem);
      const best = exhaustive(rows, checks, strip);
      expect(built.optimal, `seed ${seed}`).toBe(true);
      expect(built.expected, `seed ${seed}`).toBeCloseTo(best, 9);
      expect(lowerBound(problem).minutes, `seed ${seed}`).toBeLessThanOrEqual(best + 1e-9);
      const quick = buildKey(problem, { whole: 0, below: 0 });
      expect(quick.optimal).toBe(false);
      expect(quick.expected).toBeGreaterThanOrEqual(best - 1e-9);
    }
  });
});

import { describe, expect, test } from 'vitest';
import { buildKey, type KeyNode, type KeyProblem, lowerBound } from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';

/** Models that may hold several kinds of part in each of two slots; looks of several values, ranges that overlap in chains, and looks not known. */
const random = (seed: number): KeyProblem => {
  const dice = new Dice(seed);
  const kinds = [dice.whole(2, 5), dice.whole(2, 5)];
  const stages = [0, 7, 11].map((minutes, at) => ({ minutes, needs: Array.from({ length: at + 1 }, (_, need) => need) }));
  const checks = Array.from({ length: dice.whole(2, 6) }, () => {
    const slot = dice.whole(0, 1);
    const ranges = dice.often(40);
    const looks = Array.from({ length: kinds[slot] as number }, () => {
      if (dice.often(12)) return null;
      if (ranges) {
        const low = dice.whole(0, 12);
        return { kind: 'range', low, high: low + dice.whole(0, 4) } as const;
      }
      const values = dice.often(25) ? ['a', dice.one(['b', 'c'])] : [dice.one(['a', 'b', 'c'])];
      return { kind: 'one of', values } as const;
    });
    return { slot, minutes: dice.whole(1, 5), stage: dice.whole(0, 2), step: 0, looks };
  });
  const count = dice.whole(2, 6);
  const labels = dice.often(30) ? 2 : count;
  const subjects = Array.from({ length: count }, (_, s) => ({
    label: s % labels,
    odds: 1 / count,
    holds: kinds.map((all) => {
      const held = [...new Set(Array.from({ length: dice.whole(1, 3) }, () => dice.whole(0, all - 1)))];
      return held.map((kind) => ({ kind, odds: 1 / held.length }));
    }),
  }));
  return { labels, kinds, checks, stages, subjects };
};

/**
 * Walks a key with every unit there can be: each model with each choice of parts, each answer its part can give. Nothing of the builder's state is used:
 * an answer can be given when the part's kind is among those the way names.
 */
const walk = (problem: KeyProblem, node: KeyNode) => {
  let [minutes, odds] = [0, 0];
  const lost: string[] = [];
  const from = (at: KeyNode, label: number, parts: readonly number[], share: number, spent: number): void => {
    if (at.kind === 'end') {
      if (!at.labels.includes(label)) lost.push(`label ${label}, parts ${parts.join()}`);
      minutes += share * spent;
      odds += share;
      return;
    }
    const kind = parts[problem.checks[at.check]?.slot as number] as number;
    const open = at.ways.flatMap(({ outcome, to }) => {
      const i = outcome.kinds.indexOf(kind);
      return i < 0 ? [] : [{ to, share: outcome.shares[i] as number }];
    });
    const all = open.reduce((sum, way) => sum + way.share, 0);
    if (Math.abs(all - 1) > 1e-9) lost.push(`answers of kind ${kind} make ${all}`);
    for (const way of open) from(way.to, label, parts, share * way.share, spent + at.minutes);
  };
  for (const { label, odds: own, holds } of problem.subjects) {
    for (const a of holds[0] ?? []) for (const b of holds[1] ?? []) from(node, label, [a.kind, b.kind], own * a.odds * b.odds, 0);
  }
  return { minutes, odds, lost };
};

describe('keys over models with several parts in a slot', () => {
  test('[D4] whatever a unit holds, its model is at the end it comes to, and the minutes are those that were promised', () => {
    let [several, exact] = [0, 0];
    for (let seed = 1; seed <= 250; seed += 1) {
      const problem = random(seed);
      for (const effort of [undefined, { whole: 0, below: 0 }] as const) {
        const built = buildKey(problem, effort);
        const { minutes, odds, lost } = walk(problem, built.root);
        expect(lost, `seed ${seed}`).toEqual([]);
        expect(odds).toBeCloseTo(1, 9);
        expect(minutes, `seed ${seed}`).toBeCloseTo(built.expected, 6);
        expect(built.expected, `seed ${seed}`).toBeGreaterThanOrEqual(lowerBound(problem).minutes - 1e-9);
        if (built.optimal) exact += 1;
        if (built.root.kind === 'check') several += 1;
      }
      expect(buildKey(problem).expected).toBeLessThanOrEqual(buildKey(problem, { whole: 0, below: 0 }).expected + 1e-9);
    }
    expect(several).toBeGreaterThan(300);
    expect(exact).toBeGreaterThan(200);
  });

  test('[D4] a key does not end while one check could still tell two of its models for certain', () => {
    for (let seed = 1; seed <= 250; seed += 1) {
      const problem = random(seed);
      const asked = new Set<number>();
      const visit = (node: KeyNode): void => {
        if (node.kind === 'check') {
          const fresh = !asked.has(node.check);
          asked.add(node.check);
          for (const { to } of node.ways) visit(to);
          if (fresh) asked.delete(node.check);
          return;
        }
        for (const [number, check] of problem.checks.entries()) {
          if (asked.has(number)) continue;
          const looksOf = (label: number) =>
            problem.subjects
              .filter((subject) => subject.label === label)
              .flatMap(({ holds }) => (holds[check.slot] ?? []).map(({ kind }) => check.looks[kind]));
          for (const a of node.labels) {
            for (const b of node.labels) {
              if (a >= b) continue;
              const apart = looksOf(a).every((x) =>
                looksOf(b).every(
                  (y) =>
                    x != null &&
                    y != null &&
                    (x.kind === 'range'
                      ? y.kind === 'range' && (x.high < y.low || y.high < x.low)
                      : y.kind === 'one of' && !x.values.some((value) => y.values.includes(value))),
                ),
              );
              expect(apart, `seed ${seed}: labels ${a} and ${b} by check ${number}`).toBe(false);
            }
          }
        }
      };
      visit(buildKey(problem).root);
    }
  });
});

import { bySizeThenLabels } from '../algebra/enumeration.ts';

/**
 * Tests that each separate some pairs of a universe; which sets of tests separate all of them (the test cover problem). `covers[t]` holds the pairs test t
 * separates. Pairs no test separates must be left out beforehand. Exact: exponential in the size of the answer, which for a handful of subjects is a handful.
 */
export interface SmallestSets {
  /** Number of tests in a smallest set. */
  readonly size: number;
  /** All smallest sets, each sorted, in order; at most `limit` of them. */
  readonly sets: readonly (readonly number[])[];
  /** How many there are, listed or not. */
  readonly count: number;
}

/**
 * All smallest sets of tests that separate every pair.
 * @throws when some pair is separated by no test
 */
export const smallestSets = (pairCount: number, covers: readonly (readonly number[])[], limit = 200): SmallestSets => {
  if (pairCount === 0) return { size: 0, sets: [[]], count: 1 };
  // Tests that separate exactly the same pairs stand for each other in every smallest set, and never stand together in one.
  const classes = classesOf(covers);
  const hits = Array.from({ length: pairCount }, (_, pair) => classes.flatMap(({ pairs }, c) => (pairs.includes(pair) ? [c] : [])));
  const alone = hits.findIndex((tests) => tests.length === 0);
  if (alone >= 0) throw new RangeError(`pair ${alone} is separated by no test; leave it out beforehand`);
  for (let size = 1; ; size += 1) {
    const found = setsOf(size, hits, classes);
    if (found.length === 0) continue;
    const count = found.reduce((sum, set) => sum + set.reduce((product, c) => product * (classes[c] as TestClass).tests.length, 1), 0);
    return { size, sets: spelledOut(found, classes, limit), count };
  }
};

/**
 * Every set of `size` classes that separates all pairs, where no smaller one does. Some pair is taken, the one with fewest tests: a set holds one of these tests. Each is tried in turn,
 * and barred afterwards, so that no set is met twice.
 */
const setsOf = (size: number, hits: readonly (readonly number[])[], classes: readonly TestClass[]): number[][] => {
  const order = hits.map((_, pair) => pair).sort((a, b) => (hits[a] as readonly number[]).length - (hits[b] as readonly number[]).length);
  const bitOf = new Map(order.map((pair, bit) => [pair, 1n << BigInt(bit)]));
  const masks = classes.map(({ pairs }) => pairs.reduce((mask, pair) => mask | (bitOf.get(pair) ?? 0n), 0n));
  const barred = classes.map(() => false);
  const found: number[][] = [];
  const search = (open: bigint, chosen: readonly number[]): void => {
    if (open === 0n) {
      found.push([...chosen].sort((a, b) => a - b));
      return;
    }
    if (chosen.length === size) return;
    const hardest = order.find((_, bit) => (open >> BigInt(bit)) & 1n) as number;
    const tests = (hits[hardest] as readonly number[]).filter((test) => !barred[test]);
    for (const test of tests) {
      search(open & ~(masks[test] as bigint), [...chosen, test]);
      barred[test] = true;
    }
    for (const test of tests) barred[test] = false;
  };
  search((1n << BigInt(hits.length)) - 1n, []);
  return found.sort(bySizeThenLabels);
};

interface TestClass {
  readonly pairs: readonly number[];
  readonly tests: readonly number[];
}

export const classesOf = (covers: readonly (readonly number[])[]): readonly TestClass[] => {
  const classes = new Map<string, { pairs: readonly number[]; tests: number[] }>();
  covers.forEach((pairs, test) => {
    if (pairs.length === 0) return;
    const sorted = [...pairs].sort((a, b) => a - b);
    const known = classes.get(sorted.join());
    if (known) known.tests.push(test);
    else classes.set(sorted.join(), { pairs: sorted, tests: [test] });
  });
  return [...classes.values()];
};

/** Every way to name one test of each class, up to a limit. */
const spelledOut = (found: readonly (readonly number[])[], classes: readonly TestClass[], limit: number): number[][] => {
  const sets: number[][] = [];
  for (const set of found) {
    let ways: number[][] = [[]];
    for (const c of set) {
      ways = ways.flatMap((way) => (classes[c] as TestClass).tests.map((test) => [...way, test])).slice(0, limit);
    }
    sets.push(...ways.map((way) => way.sort((a, b) => a - b)));
    if (sets.length >= limit) return sets.slice(0, limit);
  }
  return sets;
};

import { describe, expect, it } from 'vitest';
import { proofThatNone, smallestSets } from '../../../reasoner/index.ts';
import { proofHolds } from '../../oracle/proof-holds.ts';

/**
 * Telling things apart by the fewest checks is the test cover problem, and with distances for checks it is the metric dimension of a graph:
 * the least number of vertices from which every two vertices lie at different distances. Their values are published for many graphs.
 * No benchmark instances of test cover with a known optimum could be had here; these graphs, whose optima are theorems, stand in for them.
 */
interface Graph {
  readonly size: number;
  readonly joined: (a: number, b: number) => boolean;
}

/** Every vertex is a check that separates the pairs it lies unequally far from. */
const distanceChecks = ({ size, joined }: Graph) => {
  const far = Array.from({ length: size }, (_, a) =>
    Array.from({ length: size }, (_, b) => (a === b ? 0 : joined(a, b) ? 1 : Number.POSITIVE_INFINITY)),
  );
  for (let via = 0; via < size; via += 1) {
    for (const row of far)
      row.forEach((now, b) => {
        row[b] = Math.min(now, (row[via] as number) + ((far[via] as number[])[b] as number));
      });
  }
  const pairs: [number, number][] = [];
  for (let a = 0; a < size; a += 1) for (let b = a + 1; b < size; b += 1) pairs.push([a, b]);
  return { pairs: pairs.length, covers: far.map((row) => pairs.flatMap(([a, b], pair) => (row[a] === row[b] ? [] : [pair]))) };
};

const path = (size: number): Graph => ({ size, joined: (a, b) => Math.abs(a - b) === 1 });
const ring = (size: number): Graph => ({ size, joined: (a, b) => Math.abs(a - b) === 1 || Math.abs(a - b) === size - 1 });
const complete = (size: number): Graph => ({ size, joined: () => true });
const grid = (wide: number, high: number): Graph => ({
  size: wide * high,
  joined: (a, b) => Math.abs((a % wide) - (b % wide)) + Math.abs(Math.floor(a / wide) - Math.floor(b / wide)) === 1,
});
const cube = (dimensions: number): Graph => ({ size: 2 ** dimensions, joined: (a, b) => ((a ^ b) & ((a ^ b) - 1)) === 0 });
/** Outer ring, inner star, spokes. */
const petersen: Graph = {
  size: 10,
  joined: (a, b) => {
    const [low, high] = a < b ? [a, b] : [b, a];
    if (high < 5) return high - low === 1 || high - low === 4;
    if (low >= 5) return high - low === 2 || high - low === 3;
    return high - low === 5;
  },
};

const held = (graph: Graph, dimension: number): void => {
  const { pairs, covers } = distanceChecks(graph);
  const { size, sets } = smallestSets(pairs, covers);
  expect(size).toBe(dimension);
  for (const set of sets) expect(new Set(set.flatMap((test) => covers[test] as number[])).size).toBe(pairs);
  const proof = proofThatNone(pairs, covers, dimension - 1);
  expect(proof).not.toBeNull();
  if (proof !== null) expect(proofHolds(pairs, covers, dimension - 1, proof)).toBe(true);
  expect(proofThatNone(pairs, covers, dimension)).toBeNull();
};

describe('the fewest checks that tell all vertices of a graph apart', () => {
  /* F. Harary, R. A. Melter, On the metric dimension of a graph, Ars Combinatoria 2, 1976, 191–195: paths 1, complete graphs n − 1, rings 2. From memory (M). */
  it('[D2] paths need 1, rings 2, complete graphs one fewer than they have vertices', () => {
    for (const size of [2, 5, 9]) held(path(size), 1);
    for (const size of [4, 7, 8]) held(ring(size), 2);
    for (const size of [3, 5, 6]) held(complete(size), size - 1);
  });

  /* S. Khuller, B. Raghavachari, A. Rosenfeld, Landmarks in graphs, Discrete Applied Mathematics 70, 1996: grids 2. From memory (M). */
  it('[D2] rectangular grids need 2', () => {
    held(grid(3, 3), 2);
    held(grid(4, 5), 2);
  });

  /* J. Cáceres et al., On the metric dimension of Cartesian products of graphs, SIAM J. Discrete Math. 21(2), 2007, table 1: hypercubes 1, 2, 3, 4, 4. From memory (M). */
  it('[D2] hypercubes of 1 to 4 dimensions need 1, 2, 3, 4', () => {
    for (const [dimensions, least] of [
      [1, 1],
      [2, 2],
      [3, 3],
      [4, 4],
    ] as const)
      held(cube(dimensions), least);
  });

  /* The Petersen graph has metric dimension 3: mathworld.wolfram.com/MetricDimension.html lists it. From memory (M). */
  it('[D2] the Petersen graph needs 3', () => held(petersen, 3));

  /*
   * K. M. J. De Bontridder et al., Approximation algorithms for the test cover problem, Mathematical Programming 98, 2003: with tests of at most k
   * items each, at least ⌈2(n − 1)/(k + 1)⌉ are needed to tell n items apart; with all pairs of items for tests (k = 2) the bound is met. From memory (M).
   */
  it('[D2] tests of two items each: ⌈2(n − 1)/3⌉ of them', () => {
    for (const items of [4, 5, 6, 7]) {
      const pairs: [number, number][] = [];
      for (let a = 0; a < items; a += 1) for (let b = a + 1; b < items; b += 1) pairs.push([a, b]);
      const covers = pairs.map(([x, y]) => pairs.flatMap(([a, b], pair) => ((a === x || a === y) !== (b === x || b === y) ? [pair] : [])));
      expect(smallestSets(pairs.length, covers).size).toBe(Math.ceil((2 * (items - 1)) / 3));
    }
  });

  it('[D2] a proof with anything left out of it does not hold', () => {
    const { pairs, covers } = distanceChecks(petersen);
    const proof = proofThatNone(pairs, covers, 2);
    if (proof === null || proof.kind !== 'cases') throw new Error('a proof by cases was expected');
    expect(proofHolds(pairs, covers, 2, proof)).toBe(true);
    for (let i = 0; i < proof.cases.length; i += 1) {
      expect(proofHolds(pairs, covers, 2, { ...proof, cases: proof.cases.filter((_, at) => at !== i) })).toBe(false);
    }
    expect(proofHolds(pairs, covers, 3, proof)).toBe(false);
  });
});

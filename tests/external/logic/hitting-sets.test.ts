import { describe, expect, it } from 'vitest';
import { minimalHittingSets } from '../../oracle/algebra/network.ts';
import { inOrder } from './networks.ts';

const expectHittingSets = (sets: number[][], expected: number[][]): void => {
  const answer = minimalHittingSets(sets);
  expect(answer.complete).toBe(true);
  expect(inOrder(answer.found)).toEqual(inOrder(expected));
};

describe('minimal hitting sets', () => {
  /* R. Reiter, A theory of diagnosis from first principles, Artificial Intelligence 32(1), 1987. From memory, recomputed. */
  it('[S2] Reiter 1987, the seven sets of the hitting-set tree', () => {
    expectHittingSets(
      [
        [2, 4, 5],
        [1, 2, 3],
        [1, 3, 5],
        [2, 4, 6],
        [2, 4],
        [2, 3, 5],
        [1, 6],
      ],
      [
        [1, 2],
        [1, 3, 4],
        [1, 4, 5],
        [2, 3, 6],
        [2, 5, 6],
        [3, 4, 6],
      ],
    );
  });

  /*
   * R. Greiner, B. A. Smith, R. W. Wilkerson, A correction to the algorithm in Reiter's theory of diagnosis,
   * Artificial Intelligence 41, 1989, 79–88: the order in which the first pruning rule loses a set. From memory.
   */
  it('[S2] Greiner et al. 1989, {a,b},{b,c},{a,c},{b,d},{b} in that order loses nothing', () => {
    const [a, b, c, d] = [1, 2, 3, 4] as const;
    expectHittingSets(
      [[a, b], [b, c], [a, c], [b, d], [b]],
      [
        [a, b],
        [b, c],
      ],
    );
  });

  /* PySAT documentation, module `hitman` (examples). Confirmed. */
  it('[S2] PySAT documentation: nine sets', () => {
    expectHittingSets(
      [
        [1, 2, 3],
        [1, 4],
        [5, 6, 7],
      ],
      [
        [1, 5],
        [1, 6],
        [1, 7],
        [2, 4, 5],
        [2, 4, 6],
        [2, 4, 7],
        [3, 4, 5],
        [3, 4, 6],
        [3, 4, 7],
      ],
    );
  });

  /* As above: the second example. Confirmed. */
  it('[S2] PySAT documentation: a superset among the sets changes nothing', () => {
    expectHittingSets(
      [[2, 4, 7], [7, 8], [9], [9, 10]],
      [
        [7, 9],
        [2, 8, 9],
        [4, 8, 9],
      ],
    );
  });

  /* By definition. */
  it('[S2] nothing to hit: the empty set; an empty set to hit: none', () => {
    expectHittingSets([], [[]]);
    expectHittingSets([[1], []], []);
  });

  it('[S2] a limit that is reached is said', () => {
    const sets = [
      [1, 2],
      [3, 4],
      [5, 6],
    ];
    const stopped = minimalHittingSets(sets, 5);
    expect(stopped.complete).toBe(false);
    expect(stopped.found).toHaveLength(5);
    expect(minimalHittingSets(sets, 8).found).toHaveLength(8);
  });
});

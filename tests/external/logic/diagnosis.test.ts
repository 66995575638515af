import { describe, expect, it } from 'vitest';
import { minimalConflicts, minimalHittingSets, minimalRelaxations, type Network } from '../../oracle/algebra/network.ts';
import { inOrder, NetworkBuilder } from './networks.ts';

/** Both enumerations, complete, and each the other's minimal hitting sets (S2). */
const expectDual = (network: Network, conflicts: readonly (readonly number[])[], relaxations: readonly (readonly number[])[]): void => {
  const foundConflicts = minimalConflicts(network);
  const foundRelaxations = minimalRelaxations(network);
  expect(foundConflicts.complete).toBe(true);
  expect(foundRelaxations.complete).toBe(true);
  expect(inOrder(foundConflicts.found)).toEqual(inOrder(conflicts));
  expect(inOrder(foundRelaxations.found)).toEqual(inOrder(relaxations));
  expect(inOrder(minimalHittingSets(foundConflicts.found).found)).toEqual(inOrder(relaxations));
  expect(inOrder(minimalHittingSets(foundRelaxations.found).found)).toEqual(inOrder(conflicts));
};

/*
 * Full adder: R. Reiter, A theory of diagnosis from first principles, Artificial Intelligence 32(1), 1987, 57–95.
 * Status: from memory, recomputed by brute force.
 */
describe('Reiter 1987, full adder', () => {
  const X1 = 1;
  const X2 = 2;
  const A1 = 3;
  const A2 = 4;
  const O1 = 5;
  /** A gate that is not trusted may put out anything. */
  const fullAdder = (): Network =>
    new NetworkBuilder()
      .variables(['in1', 'in2', 'carryIn', 'x1', 'a1', 'a2', 'sum', 'carry'], 2)
      .labelled(X1, ['in1', 'in2', 'x1'], (p, q, out) => out === (p === q ? 0 : 1))
      .labelled(X2, ['x1', 'carryIn', 'sum'], (p, q, out) => out === (p === q ? 0 : 1))
      .labelled(A1, ['in1', 'in2', 'a1'], (p, q, out) => out === Math.min(p, q))
      .labelled(A2, ['x1', 'carryIn', 'a2'], (p, q, out) => out === Math.min(p, q))
      .labelled(O1, ['a1', 'a2', 'carry'], (p, q, out) => out === Math.max(p, q))
      .hard(['in1', 'in2', 'carryIn'], (p, q, r) => p === 1 && q === 0 && r === 1)
      .hard(['sum', 'carry'], (sum, carry) => sum === 1 && carry === 0)
      .build();

  it('[K1] [S1] two minimal conflicts and three minimal diagnoses', () => {
    expectDual(
      fullAdder(),
      [
        [X1, X2],
        [X1, A2, O1],
      ],
      [[X1], [X2, A2], [X2, O1]],
    );
  });
});

/*
 * Polybox: J. de Kleer, B. C. Williams, Diagnosing multiple faults, Artificial Intelligence 32, 1987, 97–130.
 * Status: confirmed, recomputed. The two with X observed are computed, not published.
 */
describe('de Kleer & Williams 1987, polybox', () => {
  const M1 = 1;
  const M2 = 2;
  const M3 = 3;
  const A1 = 4;
  const A2 = 5;
  const inputs = { A: 3, B: 2, C: 2, D: 3, E: 3 };

  /** Inner values run wide enough (0..12, sums 0..24) for any faulty output that could still explain F and G. */
  const polybox = (x: number | null): Network => {
    const builder = new NetworkBuilder()
      .variables(['X', 'Y', 'Z'], 13)
      .variables(['F', 'G'], 25)
      .labelled(M1, ['X'], (value) => value === inputs.A * inputs.C)
      .labelled(M2, ['Y'], (value) => value === inputs.B * inputs.D)
      .labelled(M3, ['Z'], (value) => value === inputs.C * inputs.E)
      .labelled(A1, ['X', 'Y', 'F'], (p, q, sum) => sum === p + q)
      .labelled(A2, ['Y', 'Z', 'G'], (p, q, sum) => sum === p + q)
      .hard(['F', 'G'], (f, g) => f === 10 && g === 12);
    if (x !== null) builder.hard(['X'], (value) => value === x);
    return builder.build();
  };

  it('[K1] [S1] outputs only: conflicts {A1,M1,M2} and {A1,A2,M1,M3}', () => {
    expectDual(
      polybox(null),
      [
        [A1, M1, M2],
        [A1, A2, M1, M3],
      ],
      [[A1], [M1], [A2, M2], [M2, M3]],
    );
  });

  it('[K1] [S1] X measured 4: the first multiplier alone', () => {
    expectDual(polybox(4), [[M1]], [[M1]]);
  });

  it('[K1] [S1] X measured 6 (computed): the first multiplier is cleared', () => {
    expectDual(
      polybox(6),
      [
        [A1, M2],
        [A1, A2, M3],
      ],
      [[A1], [A2, M2], [M2, M3]],
    );
  });
});

/*
 * M. H. Liffiton, K. A. Sakallah, Algorithms for computing minimal unsatisfiable subsets of constraints,
 * Journal of Automated Reasoning 40, 2008, 1–33. Status: confirmed, recomputed.
 */
describe('Liffiton & Sakallah 2008, six clauses', () => {
  it('[K1] [S1] all three minimal unsatisfiable subsets and all five minimal corrections', () => {
    const network = new NetworkBuilder()
      .variables(['x1', 'x2', 'x3'], 2)
      .labelled(1, ['x1'], (x1) => x1 === 1)
      .labelled(2, ['x1'], (x1) => x1 === 0)
      .labelled(3, ['x1', 'x2'], (x1, x2) => x1 === 0 || x2 === 1)
      .labelled(4, ['x2'], (x2) => x2 === 0)
      .labelled(5, ['x1', 'x3'], (x1, x3) => x1 === 0 || x3 === 1)
      .labelled(6, ['x3'], (x3) => x3 === 0)
      .build();
    expectDual(
      network,
      [
        [1, 2],
        [1, 3, 4],
        [1, 5, 6],
      ],
      [[1], [2, 3, 5], [2, 3, 6], [2, 4, 5], [2, 4, 6]],
    );
  });
});

/*
 * B. O'Sullivan, A. Papadopoulos, B. Faltings, P. Pu, Representative explanations for over-constrained problems, AAAI 2007.
 * Conflicts confirmed; the minimal relaxations computed.
 */
describe('O’Sullivan et al. 2007, car options', () => {
  it('[K1] [S1] four conflicts over a budget and four options', () => {
    const options = ['roof rack', 'convertible', 'CD player', 'leather'];
    const prices = [500, 500, 500, 2600];
    const network = new NetworkBuilder()
      .variables(options, 2)
      .hard(['roof rack', 'convertible'], (rack, convertible) => rack === 0 || convertible === 0)
      .labelled(1, options, (...taken) => taken.reduce((sum, yes, i) => sum + yes * (prices[i] ?? 0), 0) <= 3000)
      .labelled(2, ['roof rack'], (yes) => yes === 1)
      .labelled(3, ['convertible'], (yes) => yes === 1)
      .labelled(4, ['CD player'], (yes) => yes === 1)
      .labelled(5, ['leather'], (yes) => yes === 1)
      .build();
    expectDual(
      network,
      [
        [2, 3],
        [1, 2, 5],
        [1, 3, 5],
        [1, 4, 5],
      ],
      [
        [1, 2],
        [1, 3],
        [2, 5],
        [3, 5],
        [2, 3, 4],
      ],
    );
  });
});

/*
 * U. Junker, QuickXplain: preferred explanations and relaxations for over-constrained problems, AAAI 2004.
 * The published conflict {4,5} confirmed, the budget from memory; the other sets computed.
 */
describe('Junker 2004, options over a budget', () => {
  const items = ['1', '2', '3', '4', '5'];
  const prices = [500, 500, 800, 500, 2600];
  const network = (): Network => {
    const builder = new NetworkBuilder().variables(items, 2);
    for (const [i, item] of items.entries()) builder.labelled(i + 1, [item], (yes) => yes === 1);
    builder.hard(items, (...taken) => taken.reduce((sum, yes, i) => sum + yes * (prices[i] ?? 0), 0) <= 3000);
    return builder.build();
  };

  it('[K1] the published conflict {4,5} is among the minimal ones', () => {
    expect(inOrder(minimalConflicts(network()).found)).toContainEqual([4, 5]);
  });

  it('[K1] [S1] every conflict takes the dear option with one cheap one (computed)', () => {
    expectDual(
      network(),
      [
        [1, 5],
        [2, 5],
        [3, 5],
        [4, 5],
      ],
      [[5], [1, 2, 3, 4]],
    );
  });
});

/*
 * D. Poole, CPSC 322 examination, University of British Columbia, 1997: assumables and Horn clauses.
 * The conflict {p} confirmed; with the fact d computed.
 */
describe('Poole 1997, examination question on assumables', () => {
  const p = 1;
  const q = 2;
  const r = 3;
  const s = 4;
  const t = 5;
  const u = 6;
  const knowledge = (): NetworkBuilder => {
    const builder = new NetworkBuilder().variables(['a', 'b', 'c', 'd', 'e', 'f', 'g', 'p', 'q', 'r', 's', 't', 'u'], 2);
    const follows = (head: string, ...body: string[]): void => {
      builder.hard([...body, head], (...values) => values.at(-1) === 1 || values.slice(0, -1).includes(0));
    };
    const never = (...body: string[]): void => {
      builder.hard(body, (...values) => values.includes(0));
    };
    never('a', 'b');
    never('c', 'd');
    follows('a', 'p');
    follows('b', 'r');
    follows('b', 'e');
    follows('e', 'p');
    follows('c', 'f', 'r');
    follows('f', 'g', 'p');
    follows('f', 'q', 's');
    follows('f', 'u');
    for (const [label, name] of [
      [p, 'p'],
      [q, 'q'],
      [r, 'r'],
      [s, 's'],
      [t, 't'],
      [u, 'u'],
    ] as const) {
      builder.labelled(label, [name], (holds) => holds === 1);
    }
    return builder;
  };

  it('[K1] the only minimal conflict is {p}', () => {
    expectDual(knowledge().build(), [[p]], [[p]]);
  });

  it('[K1] with the fact d (computed): {p}, {q,r,s}, {r,u}', () => {
    const network = knowledge()
      .hard(['d'], (holds) => holds === 1)
      .build();
    expectDual(
      network,
      [[p], [r, u], [q, r, s]],
      [
        [p, r],
        [p, q, u],
        [p, s, u],
      ],
    );
  });
});

describe('nothing to explain', () => {
  it('[K1] [S1] a network with a solution has no conflict, and giving up nothing is its only minimal relaxation', () => {
    const network = new NetworkBuilder()
      .variable('x', 2)
      .labelled(1, ['x'], (x) => x === 1)
      .build();
    expectDual(network, [], [[]]);
  });

  it('[K1] [S1] hard constraints without a solution: the empty conflict, and no relaxation at all', () => {
    const network = new NetworkBuilder()
      .variable('x', 2)
      .hard(['x'], (x) => x === 1)
      .hard(['x'], (x) => x === 0)
      .labelled(1, ['x'], (x) => x === 1)
      .build();
    expectDual(network, [[]], []);
  });

  it('[K1] several constraints under one label are given up together', () => {
    const network = new NetworkBuilder()
      .variables(['x', 'y'], 2)
      .hard(['x', 'y'], (x, y) => x !== y)
      .labelled(1, ['x'], (x) => x === 1)
      .labelled(1, ['y'], (y) => y === 1)
      .labelled(2, ['x'], (x) => x === 0)
      .build();
    expectDual(network, [[1]], [[1]]);
  });
});

describe('stopping early', () => {
  /** Pairs that cannot both be had: n conflicts, 2^n relaxations. */
  const pairs = (n: number): Network => {
    const builder = new NetworkBuilder();
    for (let i = 0; i < n; i++) {
      builder
        .variable(`x${i}`, 2)
        .labelled(2 * i, [`x${i}`], (x) => x === 0)
        .labelled(2 * i + 1, [`x${i}`], (x) => x === 1);
    }
    return builder.build();
  };

  it('[K1] a limit that is reached is said, and what was found before it is right', () => {
    const stopped = minimalConflicts(pairs(6), 4);
    expect(stopped.complete).toBe(false);
    expect(stopped.found).toHaveLength(4);
    const all = inOrder(minimalConflicts(pairs(6)).found);
    expect(all).toHaveLength(6);
    for (const conflict of inOrder(stopped.found)) expect(all).toContainEqual(conflict);
  });

  it('[S1] the same for relaxations: 64 of them, ten asked for', () => {
    const stopped = minimalRelaxations(pairs(6), 10);
    expect(stopped.complete).toBe(false);
    expect(stopped.found).toHaveLength(10);
    expect(minimalRelaxations(pairs(6)).found).toHaveLength(64);
    for (const set of stopped.found) expect(new Set(set.map((label) => Math.floor(label / 2))).size).toBe(6);
  });
});

import { describe, expect, it } from 'vitest';
import { countSolutions, isSatisfiable, type Network } from '../../oracle/algebra/network.ts';
import { colouring, holding, NetworkBuilder } from './networks.ts';

/** The values of each variable that are in some solution. */
const supported = (network: Network): number[][] =>
  network.domains.map((size, variable) =>
    Array.from({ length: size }, (_, value) => value).filter((value) => isSatisfiable(holding(network, variable, value))),
  );

/* Queens that do not attack each other: OEIS A000170. Confirmed. */
describe('queens', () => {
  const queens = (n: number): Network => {
    const rows = Array.from({ length: n }, (_, row) => `row ${row}`);
    const builder = new NetworkBuilder().variables(rows, n);
    for (let i = 0; i < n; i++) {
      for (let j = i + 1; j < n; j++) builder.hard([`row ${i}`, `row ${j}`], (a, b) => a !== b && Math.abs(a - b) !== j - i);
    }
    return builder.build();
  };

  it.each([
    [1, 1],
    [2, 0],
    [3, 0],
    [4, 2],
    [5, 10],
    [6, 4],
    [7, 40],
    [8, 92],
    [9, 352],
    [10, 724],
  ])('[J1] %i queens: %i ways', (n, ways) => {
    expect(countSolutions(queens(n))).toBe(ways);
    expect(isSatisfiable(queens(n))).toBe(ways > 0);
  });
});

/* Counts from the chromatic polynomials, recomputed; Canada from arXiv 1908.05694, confirmed. */
describe('colourings', () => {
  const australia = [
    ['WA', 'NT'],
    ['WA', 'SA'],
    ['NT', 'SA'],
    ['NT', 'Q'],
    ['SA', 'Q'],
    ['SA', 'NSW'],
    ['SA', 'V'],
    ['Q', 'NSW'],
    ['NSW', 'V'],
  ] as const;
  const cycle = [
    ['1', '2'],
    ['2', '3'],
    ['3', '4'],
    ['4', '5'],
    ['5', '1'],
  ] as const;
  const wheel = [...cycle, ['hub', '1'], ['hub', '2'], ['hub', '3'], ['hub', '4'], ['hub', '5']] as const;
  const complete = [
    ['1', '2'],
    ['1', '3'],
    ['1', '4'],
    ['2', '3'],
    ['2', '4'],
    ['3', '4'],
  ] as const;
  const canada = 'BC-AB BC-YT BC-NT AB-SK AB-NT SK-MB SK-NT MB-ON MB-NU ON-QC QC-NL QC-NB NB-NS NT-YT NT-NU'
    .split(' ')
    .map((edge) => edge.split('-') as [string, string]);

  it.each([
    ['Australia’s mainland, 3 colours', australia, 3, 6],
    ['Australia’s mainland, 4 colours', australia, 4, 192],
    ['a ring of five, 3 colours', cycle, 3, 30],
    ['a ring of five, 2 colours', cycle, 2, 0],
    ['four that all touch, 4 colours', complete, 4, 24],
    ['four that all touch, 3 colours', complete, 3, 0],
    ['a hub and a ring of five, 4 colours', wheel, 4, 120],
    ['Canada’s twelve regions, 3 colours', canada, 3, 576],
  ])('[J1] %s', (_, edges, colours, ways) => {
    expect(countSolutions(colouring(edges, colours))).toBe(ways);
  });
});

/*
 * "Who owns the zebra?", Life International, 17 December 1962. Text confirmed; exactly one solution recomputed.
 */
describe('the zebra', () => {
  const groups = {
    nation: ['Englishman', 'Spaniard', 'Ukrainian', 'Norwegian', 'Japanese'],
    colour: ['red', 'green', 'ivory', 'yellow', 'blue'],
    pet: ['dog', 'snails', 'fox', 'horse', 'zebra'],
    drink: ['coffee', 'tea', 'milk', 'orange juice', 'water'],
    smoke: ['Old Gold', 'Kools', 'Chesterfields', 'Lucky Strike', 'Parliaments'],
  };
  /** Each variable's value is the house, 0 to 4 from the left. */
  const puzzle = (): NetworkBuilder => {
    const builder = new NetworkBuilder();
    for (const group of Object.values(groups)) {
      builder.variables(group, 5);
      for (const [i, a] of group.entries()) for (const b of group.slice(i + 1)) builder.hard([a, b], (x, y) => x !== y);
    }
    const same = (a: string, b: string) => builder.hard([a, b], (x, y) => x === y);
    const beside = (a: string, b: string) => builder.hard([a, b], (x, y) => Math.abs(x - y) === 1);
    same('Englishman', 'red');
    same('Spaniard', 'dog');
    same('coffee', 'green');
    same('Ukrainian', 'tea');
    builder.hard(['green', 'ivory'], (green, ivory) => green === ivory + 1);
    same('Old Gold', 'snails');
    same('Kools', 'yellow');
    builder.hard(['milk'], (house) => house === 2);
    builder.hard(['Norwegian'], (house) => house === 0);
    beside('Chesterfields', 'fox');
    beside('Kools', 'horse');
    same('Lucky Strike', 'orange juice');
    same('Japanese', 'Parliaments');
    beside('Norwegian', 'blue');
    return builder;
  };

  it('[J1] has one solution: the Norwegian drinks water in the first house, the Japanese keeps the zebra in the fifth', () => {
    const builder = puzzle();
    const network = builder.build();
    expect(countSolutions(network)).toBe(1);
    const houses = supported(network);
    expect(houses[builder.index('water')]).toEqual([0]);
    expect(houses[builder.index('Norwegian')]).toEqual([0]);
    expect(houses[builder.index('zebra')]).toEqual([4]);
    expect(houses[builder.index('Japanese')]).toEqual([4]);
  });
});

/*
 * D. Poole, A. Mackworth, AIPython: Python code for AIFCA, example constraint problems. Statements confirmed, answers recomputed.
 * Values there are 1..4; here 0..3, so one is added before comparing.
 */
describe('Poole & Mackworth, consistency examples', () => {
  const values = (network: Network): number[][] => supported(network).map((list) => list.map((value) => value + 1));

  it('[J1] A<B, B<C over 1..4: {1,2}, {2,3}, {3,4}, four solutions', () => {
    const network = new NetworkBuilder()
      .variables(['A', 'B', 'C'], 4)
      .hard(['A', 'B'], (a, b) => a < b)
      .hard(['B', 'C'], (b, c) => b < c)
      .build();
    expect(values(network)).toEqual([
      [1, 2],
      [2, 3],
      [3, 4],
    ]);
    expect(countSolutions(network)).toBe(4);
  });

  it('[J1] the same with B≠2: A {1,2}, B {3}, C {4}, two solutions', () => {
    const network = new NetworkBuilder()
      .variables(['A', 'B', 'C'], 4)
      .hard(['A', 'B'], (a, b) => a < b)
      .hard(['B', 'C'], (b, c) => b < c)
      .hard(['B'], (b) => b !== 1)
      .build();
    expect(values(network)).toEqual([[1, 2], [3], [4]]);
    expect(countSolutions(network)).toBe(2);
  });

  it('[J1] five variables, eleven constraints: A4 B2 C3 D4 E1 and nothing else', () => {
    const network = new NetworkBuilder()
      .variables(['A', 'B', 'C', 'D', 'E'], 4)
      .hard(['B'], (b) => b !== 2)
      .hard(['C'], (c) => c !== 1)
      .hard(['A', 'B'], (a, b) => a !== b)
      .hard(['B', 'C'], (b, c) => b !== c)
      .hard(['C', 'D'], (c, d) => c < d)
      .hard(['A', 'D'], (a, d) => a === d)
      .hard(['E', 'A'], (e, a) => e < a)
      .hard(['E', 'B'], (e, b) => e < b)
      .hard(['E', 'C'], (e, c) => e < c)
      .hard(['E', 'D'], (e, d) => e < d)
      .hard(['B', 'D'], (b, d) => b !== d)
      .build();
    expect(values(network)).toEqual([[4], [2], [3], [4], [1]]);
    expect(countSolutions(network)).toBe(1);
  });

  it('[J1] X<Y<Z over 1..3: 1, 2, 3', () => {
    const network = new NetworkBuilder()
      .variables(['X', 'Y', 'Z'], 3)
      .hard(['X', 'Y'], (x, y) => x < y)
      .hard(['Y', 'Z'], (y, z) => y < z)
      .build();
    expect(values(network)).toEqual([[1], [2], [3]]);
    expect(countSolutions(network)).toBe(1);
  });
});

describe('configuration counts', () => {
  /* T. Hadzic, R. Jensen, H. R. Andersen, arXiv 0704.1394. Rules confirmed; the count from memory, recomputed. */
  it('[J1] T-shirt: 11 of 24', () => {
    const [black, small, mib, stw] = [0, 0, 0, 1];
    const network = new NetworkBuilder()
      .variable('colour', 4)
      .variable('size', 3)
      .variable('print', 2)
      .hard(['print', 'colour'], (print, colour) => print !== mib || colour === black)
      .hard(['print', 'size'], (print, size) => print !== stw || size !== small)
      .build();
    expect(countSolutions(network)).toBe(11);
    expect(countSolutions({ domains: network.domains, constraints: [] })).toBe(24);
  });

  /* D. Benavides, S. Segura, A. Ruiz-Cortés, Information Systems 35(6), 2010. The count from memory, recomputed. */
  it('[J1] phone: 14 products', () => {
    const [basic, high] = [0, 2];
    const network = new NetworkBuilder()
      .variable('calls', 2)
      .variable('GPS', 2)
      .variable('screen', 3)
      .variables(['media', 'camera', 'MP3'], 2)
      .hard(['calls'], (calls) => calls === 1)
      .hard(['media', 'camera', 'MP3'], (media, camera, mp3) => media === Math.max(camera, mp3))
      .hard(['camera', 'screen'], (camera, screen) => camera === 0 || screen === high)
      .hard(['GPS', 'screen'], (gps, screen) => gps === 0 || screen !== basic)
      .build();
    expect(countSolutions(network)).toBe(14);
  });
});

describe('small and odd networks', () => {
  it('[J1] no variables: one solution, the empty one; a variable without values: none', () => {
    expect(countSolutions({ domains: [], constraints: [] })).toBe(1);
    expect(countSolutions({ domains: [2, 0], constraints: [] })).toBe(0);
    expect(isSatisfiable({ domains: [2, 0], constraints: [] })).toBe(false);
  });
});

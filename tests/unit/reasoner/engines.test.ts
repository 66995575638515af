import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { choiceSpace, choosableClasses, classesIn, domainsOf, hasChoice } from '../../../reasoner/algebra/choices.ts';
import { dualize } from '../../../reasoner/algebra/dualize.ts';
import {
  countSolutions,
  isSatisfiable,
  minimalConflicts,
  minimalHittingSets,
  minimalRelaxations,
  type Network,
} from '../../oracle/algebra/network.ts';

/** Small networks of up to five variables in a ring with tails: wide enough for cycles, narrow enough for both conflict engines. */
const networks = fc.record({
  sizes: fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 2, maxLength: 5 }),
  unary: fc.array(fc.record({ at: fc.nat(), allowed: fc.integer({ min: 0, max: 15 }) }), { maxLength: 7 }),
  binary: fc.array(fc.record({ at: fc.nat(), allowed: fc.integer({ min: 0, max: 65535 }) }), { maxLength: 7 }),
});
type Drawn = typeof networks extends fc.Arbitrary<infer T> ? T : never;

const pairsOf = (count: number): [number, number][] =>
  Array.from({ length: count }, (_, i): [number, number] => [i, (i + 1) % count]).filter(([a, b]) => a < b || count > 2);
const bit = (word: number, at: number): boolean => ((word >>> at) & 1) === 1;

const asBoth = ({ sizes, unary, binary }: Drawn) => {
  const pairs = pairsOf(sizes.length);
  const ones = unary.map(({ at, allowed }, label) => ({
    variable: at % sizes.length,
    label,
    allows: (value: number) => bit(allowed, value),
  }));
  const twos = binary.map(({ at, allowed }, i) => {
    const [a, b] = pairs[at % pairs.length] as [number, number];
    return { a, b, label: ones.length + i, allows: (x: number, y: number) => bit(allowed, x * 4 + y) };
  });
  const network: Network = {
    domains: sizes,
    constraints: [
      ...ones.map(({ variable, label, allows }) => ({ scope: [variable], label, allows: ([x]: readonly number[]) => allows(x as number) })),
      ...twos.map(({ a, b, label, allows }) => ({
        scope: [a, b],
        label,
        allows: ([x, y]: readonly number[]) => allows(x as number, y as number),
      })),
    ],
  };
  return { network, labelled: { sizes, unary: ones, binary: twos } };
};

const runs = { seed: 20261125, numRuns: 400 };

describe('the engines under the reasoner', () => {
  it('[K1] [S1] asking only what can be kept finds the same conflicts and relaxations as the engine that sums over all choices', () => {
    let conflicts = 0;
    fc.assert(
      fc.property(networks, (drawn) => {
        const { network } = asBoth(drawn);
        const labels = network.constraints.length;
        const keeps = (kept: Uint8Array) => isSatisfiable(network, new Set(Array.from(kept.keys()).filter((label) => kept[label] === 0)));
        const dual = dualize(labels, keeps, 1000);
        expect(dual.complete).toBe(true);
        expect(dual.conflicts).toEqual(minimalConflicts(network).found);
        expect(dual.relaxations).toEqual(minimalRelaxations(network).found);
        conflicts += dual.conflicts.length;
      }),
      runs,
    );
    expect(conflicts).toBeGreaterThan(400);
  });

  it('[K1] [S2] with more labels than fit one word, conflicts and relaxations are each other’s minimal hitting sets', () => {
    // Forty labels in ten groups of four, of which any three of a group cannot be kept together.
    const keeps = (kept: Uint8Array) =>
      Array.from({ length: 10 }, (_, group) => [0, 1, 2, 3].reduce((sum, i) => sum + (kept[group * 4 + i] as number), 0)).every(
        (sum) => sum < 3,
      );
    const groups = dualize(12, (kept) => keeps(Uint8Array.from({ length: 40 }, (_, i) => kept[i] ?? 0)), 1000);
    expect(groups.conflicts).toHaveLength(3 * 4);
    expect(groups.relaxations).toHaveLength(6 ** 3);
    const many = dualize(40, (kept) => kept[3] === 0 || (kept[31] === 0 && kept[32] === 0) || kept[39] === 0, 1000);
    expect(many.conflicts).toEqual([
      [3, 31, 39],
      [3, 32, 39],
    ]);
    expect(many.relaxations).toEqual([[3], [39], [31, 32]]);
    expect(minimalHittingSets(many.conflicts).found).toEqual(many.relaxations);
  });

  it('[K1] nothing wrong has no conflict and one empty relaxation; something wrong whatever is kept is the empty conflict', () => {
    expect(dualize(3, () => true, 10)).toEqual({ conflicts: [], relaxations: [[]], complete: true });
    expect(dualize(3, () => false, 10)).toEqual({ conflicts: [[]], relaxations: [], complete: true });
  });

  it('[K1] a search that is stopped says so', () => {
    const pairs = dualize(8, (kept) => kept.reduce((sum, flag) => sum + flag, 0) < 2, 5);
    expect(pairs.complete).toBe(false);
    expect(pairs.conflicts).toHaveLength(5);
    expect(dualize(8, (kept) => kept.reduce((sum, flag) => sum + flag, 0) < 2, 28)).toMatchObject({ complete: true });
  });

  it('[J1] choices by bit sets exist exactly where solutions do, and each class is choosable exactly where it occurs in one', () => {
    let possible = 0;
    fc.assert(
      fc.property(networks, (drawn) => {
        const { network, labelled } = asBoth({ ...drawn, unary: [] });
        const space = choiceSpace(
          drawn.sizes,
          labelled.binary.map(({ a, b, allows }) => ({
            a,
            b,
            holds: Uint8Array.from({ length: (drawn.sizes[a] as number) * (drawn.sizes[b] as number) }, (_, at) =>
              allows(Math.floor(at / (drawn.sizes[b] as number)), at % (drawn.sizes[b] as number)) ? 1 : 0,
            ),
          })),
        );
        const domains = domainsOf(
          space,
          drawn.sizes.map((size) => Array.from({ length: size }, (_, i) => i)),
        );
        expect(hasChoice(space, domains)).toBe(countSolutions(network) > 0);
        const choosable = choosableClasses(space, domains);
        drawn.sizes.forEach((size, variable) => {
          const occurring = Array.from({ length: size }, (_, i) => i).filter(
            (value) =>
              countSolutions({
                ...network,
                constraints: [...network.constraints, { scope: [variable], label: null, allows: ([x]) => x === value }],
              }) > 0,
          );
          expect(classesIn(space, choosable, variable)).toEqual(occurring);
          possible += occurring.length;
        });
      }),
      runs,
    );
    expect(possible).toBeGreaterThan(400);
  });

  it('[K1] an enumeration that stops at its limit says so and gives the smallest', () => {
    const families = [
      [1, 2, 3],
      [4, 5, 6],
      [7, 8, 9],
    ];
    expect(minimalHittingSets(families, 5)).toMatchObject({ complete: false });
    expect(minimalHittingSets(families, 5).found).toHaveLength(5);
    expect(minimalHittingSets(families)).toMatchObject({ complete: true });
    expect(minimalHittingSets(families).found).toHaveLength(27);
  });
});

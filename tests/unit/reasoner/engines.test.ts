import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { choiceSpace, choosableClasses, classesIn, domainsOf, findChoice } from '../../../reasoner/algebra/choices.ts';
import { explainedConflicts } from '../../../reasoner/algebra/explained.ts';
import { countSolutions, minimalConflicts, minimalHittingSets, type Network } from '../../../reasoner/index.ts';

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
const sorted = (sets: readonly (readonly number[])[]): string[] => sets.map((set) => set.join()).sort();

describe('the engines under the reasoner', () => {
  it('[K1] explained relations find the same conflicts, up to their size, as the general engine', () => {
    let conflicts = 0;
    fc.assert(
      fc.property(networks, fc.integer({ min: 1, max: 6 }), (drawn, largest) => {
        const { network, labelled } = asBoth(drawn);
        const quick = explainedConflicts(labelled, largest);
        const all = minimalConflicts(network);
        if (quick === null) throw new Error('a ring has width two');
        expect(sorted(quick.found)).toEqual(sorted(all.found.filter((set) => set.length <= largest)));
        if (!quick.leftOut) expect(quick.found.length).toBe(all.found.length);
        conflicts += quick.found.length;
      }),
      runs,
    );
    expect(conflicts).toBeGreaterThan(400);
  });

  it('[K1] where some variable keeps three neighbours explained relations step aside', () => {
    const all = [0, 1, 2, 3].flatMap((a) =>
      [0, 1, 2, 3].filter((b) => b > a).map((b) => ({ a, b, label: a * 4 + b, allows: (x: number, y: number) => x !== y })),
    );
    expect(explainedConflicts({ sizes: [2, 2, 2, 2], unary: [], binary: all }, 4)).toBeNull();
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
        expect(findChoice(space, domains) !== null).toBe(countSolutions(network) > 0);
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

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inOrder } from '../../external/logic/networks.ts';
import {
  countSolutions,
  isSatisfiable,
  minimalConflicts,
  minimalHittingSets,
  minimalRelaxations,
  type Network,
} from '../../oracle/algebra/network.ts';
import { byHand } from './brute-force.ts';

const runs = { seed: 20261125, numRuns: 400 };

/** Up to five variables of up to four values; constraints of one to three variables as tables, hard or under one of six labels. */
const networks: fc.Arbitrary<Network> = fc
  .array(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 5 })
  .chain((domains) =>
    fc.record({
      domains: fc.constant(domains),
      constraints: fc.array(
        fc.record({
          scope: fc.uniqueArray(fc.nat(domains.length - 1), { minLength: 1, maxLength: Math.min(3, domains.length) }),
          table: fc.array(fc.boolean(), { minLength: 7, maxLength: 13 }),
          label: fc.oneof({ weight: 1, arbitrary: fc.constant(null) }, { weight: 5, arbitrary: fc.integer({ min: 0, max: 5 }) }),
        }),
        { minLength: 0, maxLength: 9 },
      ),
    }),
  )
  .map(({ domains, constraints }) => ({
    domains,
    constraints: constraints.map(({ scope, table, label }) => ({
      scope,
      label,
      allows: (values: readonly number[]) => table[values.reduce((at, value) => at * 5 + value, 0) % table.length] === true,
    })),
  }));

const families = fc.array(fc.uniqueArray(fc.integer({ min: 1, max: 8 }), { minLength: 1, maxLength: 5 }), { maxLength: 7 });

describe('the engine under the answers', () => {
  it('[J1] counts as many solutions as trying every assignment', () => {
    fc.assert(
      fc.property(networks, (network) => {
        const { solutions } = byHand(network);
        expect(countSolutions(network)).toBe(solutions);
        expect(isSatisfiable(network)).toBe(solutions > 0);
      }),
      runs,
    );
  });

  it('[K1] [S1] finds all minimal conflicts and all minimal relaxations, and no others', () => {
    fc.assert(
      fc.property(networks, (network) => {
        const expected = byHand(network);
        const conflicts = minimalConflicts(network);
        const relaxations = minimalRelaxations(network);
        expect([conflicts.complete, relaxations.complete]).toEqual([true, true]);
        expect(inOrder(conflicts.found)).toEqual(inOrder(expected.conflicts));
        expect(inOrder(relaxations.found)).toEqual(inOrder(expected.relaxations));
      }),
      runs,
    );
  });

  it('[S2] conflicts and relaxations are each other’s minimal hitting sets', () => {
    fc.assert(
      fc.property(networks, (network) => {
        const conflicts = minimalConflicts(network).found;
        const relaxations = minimalRelaxations(network).found;
        expect(inOrder(minimalHittingSets(conflicts).found)).toEqual(inOrder(relaxations));
        expect(inOrder(minimalHittingSets(relaxations).found)).toEqual(inOrder(conflicts));
      }),
      runs,
    );
  });

  it('[S2] hitting twice gives back the minimal sets one began with', () => {
    fc.assert(
      fc.property(families, (sets) => {
        const twice = minimalHittingSets(minimalHittingSets(sets).found).found;
        const contains = (big: readonly number[], small: readonly number[]) => small.every((x) => big.includes(x));
        const distinct = inOrder(sets).filter((set, i, list) => list.findIndex((other) => `${other}` === `${set}`) === i);
        const minimal = distinct.filter((set) => !distinct.some((other) => other !== set && contains(set, other)));
        expect(inOrder(twice)).toEqual(inOrder(minimal));
      }),
      runs,
    );
  });

  it('[K1] a limit stops with that many right answers, and says complete only when nothing is left out', () => {
    fc.assert(
      fc.property(networks, fc.integer({ min: 1, max: 6 }), (network, limit) => {
        const expected = byHand(network);
        for (const [answer, all] of [
          [minimalConflicts(network, limit), expected.conflicts],
          [minimalRelaxations(network, limit), expected.relaxations],
        ] as const) {
          expect(answer.found.length).toBe(Math.min(limit, all.length));
          expect(answer.complete).toBe(all.length <= limit);
          for (const set of inOrder(answer.found)) expect(inOrder(all)).toContainEqual(set);
        }
      }),
      runs,
    );
  });
});

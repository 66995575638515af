import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { choosableClasses, consistent, findChoiceWithin, hasChoice, spaceOf } from '../../../reasoner/algebra/choices.ts';
import { dualize } from '../../../reasoner/algebra/dualize.ts';
import { thinned } from '../../../reasoner/algebra/narrow.ts';
import { eachAsked, meet, narrowed, pairingOf, partnersIn, regrouped } from '../../../reasoner/algebra/pairing.ts';
import { remembering } from '../../../reasoner/algebra/remembering.ts';
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

interface Web {
  readonly a: number;
  readonly b: number;
  /** For each class of a the classes of b it goes with, as bits. */
  readonly allowed: readonly number[];
}

/** Up to six slots and nine joints between any two of them: several rings, slots in none, joints of one pair of slots twice. */
const webs = fc
  .record({
    sizes: fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 2, maxLength: 6 }),
    joints: fc.array(
      fc.record({ at: fc.nat(), on: fc.nat(), allowed: fc.array(fc.integer({ min: 0, max: 15 }), { minLength: 4, maxLength: 4 }) }),
      {
        maxLength: 9,
      },
    ),
  })
  .map(({ sizes, joints }) => ({
    sizes,
    joints: joints.map(({ at, on, allowed }): Web => {
      const a = at % sizes.length;
      return { a, b: (a + 1 + (on % (sizes.length - 1))) % sizes.length, allowed };
    }),
  }));

const wide = fc.record({
  sizes: fc.tuple(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 1, max: 30 })),
  allowed: fc.array(fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 2 ** 30 - 1 })), { minLength: 30, maxLength: 30 }),
  few: fc.integer({ min: 0, max: 6 }),
  group: fc.integer({ min: 1, max: 4 }),
});

const allows = ({ allowed }: Web, x: number, y: number): boolean => bit(allowed[x] as number, y);

/** Classes that go with the same are put into one row. */
const pairingIn = (sizes: readonly number[], joint: Web) => {
  const { a, b } = joint;
  const [countA, countB] = [sizes[a] as number, sizes[b] as number];
  const met = Array.from({ length: countA }, (_, x) => Array.from({ length: countB }, (_each, y) => y).filter((y) => allows(joint, x, y)));
  const rows = [...new Map(met.map((each) => [each.join(), each])).values()];
  const of = Int32Array.from(met, (each) => rows.findIndex((row) => row.join() === each.join()));
  return pairingOf([a, of, rows.length], [b, Int32Array.from({ length: countB }, (_, y) => y), countB], (row) => rows[row] as number[]);
};

const networkOf = (sizes: readonly number[], joints: readonly Web[], only?: { variable: number; value: number }): Network => ({
  domains: sizes,
  constraints: [
    ...joints.map((joint) => ({
      scope: [joint.a, joint.b],
      label: null,
      allows: ([x, y]: readonly number[]) => allows(joint, x as number, y as number),
    })),
    ...(only === undefined ? [] : [{ scope: [only.variable], label: null, allows: ([x]: readonly number[]) => x === only.value }]),
  ],
});

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

  it('[J1] choices exist exactly where solutions do, and each class is choosable exactly where it occurs in one, however many rings the joints make', () => {
    let [possible, impossible] = [0, 0];
    fc.assert(
      fc.property(webs, ({ sizes, joints }) => {
        const network = networkOf(sizes, joints);
        const space = spaceOf(
          sizes,
          joints.map((joint) => pairingIn(sizes, joint)),
        );
        const domains = { classes: sizes.map((size) => Int32Array.from({ length: size }, (_, i) => i)) };
        const exists = countSolutions(network) > 0;
        expect(hasChoice(space, domains)).toBe(exists);
        const choosable = choosableClasses(space, domains);
        sizes.forEach((size, variable) => {
          const occurring = Array.from({ length: size }, (_, i) => i).filter(
            (value) => countSolutions(networkOf(sizes, joints, { variable, value })) > 0,
          );
          expect([...(choosable[variable] as Int32Array)]).toEqual(occurring);
          possible += occurring.length;
          impossible += size - occurring.length;
        });
      }),
      runs,
    );
    expect(possible).toBeGreaterThan(400);
    expect(impossible).toBeGreaterThan(400);
  });

  it('[J1] what is kept of the slots that take part, and of the space another was made from, changes no answer', () => {
    let [possible, impossible] = [0, 0];
    const word = fc.integer({ min: 0, max: 2 ** 30 - 1 });
    fc.assert(
      fc.property(webs, word, word, fc.array(word, { minLength: 4, maxLength: 4 }), ({ sizes, joints }, split, holds, asked) => {
        const from = spaceOf(
          sizes,
          joints.map((joint) => pairingIn(sizes, joint)),
        );
        // Some classes are told apart into two, and some joints hold for some pairs of these no longer.
        const of = sizes.map((size, slot) =>
          Int32Array.from(
            Array.from({ length: size }, (_, each) => each).flatMap((each) => (bit(split, (slot * 5 + each) % 30) ? [each, each] : [each])),
          ),
        );
        const lessen = (at: number): boolean => bit(holds, at % 30);
        const pairings = from.pairings.map((pairing, at) => {
          const finer = regrouped(pairing, of[pairing.a] as Int32Array, of[pairing.b] as Int32Array);
          const itself = (side: Int32Array) => Int32Array.from(side.keys());
          return lessen(at)
            ? narrowed(finer, { group: itself(of[finer.a] as Int32Array) }, { group: itself(of[finer.b] as Int32Array) }, (x, y) =>
                bit(holds, (x * 7 + y * 3 + at) % 30),
              )
            : finer;
        });
        const counts = of.map(({ length }) => length);
        const space = spaceOf(counts, pairings, {
          space: from,
          of: of.map((own, slot) => (own.length === sizes[slot] ? null : own)),
          changed: pairings.flatMap(({ a, b }, at) => (lessen(at) ? [a, b] : [])),
        });
        const active = new Uint8Array(pairings.length).fill(1);
        const wholly = counts.map((count) => Int32Array.from({ length: count }, (_, each) => each));
        for (const ask of [2 ** 30 - 1, ...asked, 2 ** 30 - 1]) {
          const classes = wholly.map((own, slot) =>
            bit(ask, 29 - slot) ? own.filter((each) => bit(ask, (slot * 4 + each) % 23) || each === ask % own.length) : null,
          );
          // With every joint named the question is asked of these classes alone.
          const alone = choosableClasses(space, { classes, active });
          const kept = choosableClasses(space, { classes });
          expect(kept.map((own) => own && [...own])).toEqual(alone.map((own) => own && [...own]));
          expect(hasChoice(space, { classes })).toBe(hasChoice(space, { classes, active }));
          for (const own of alone) [possible, impossible] = [possible + (own?.length ?? 0), impossible + (own?.length === 0 ? 1 : 0)];
        }
      }),
      runs,
    );
    expect(possible).toBeGreaterThan(2000);
    expect(impossible).toBeGreaterThan(500);
  });

  it('[J1] a choice is one that no joint fails in, and what some slots are narrowed to, or take part with at last, is looked for within what is left of the others', () => {
    let [found, none] = [0, 0];
    fc.assert(
      fc.property(
        webs,
        fc.array(fc.integer({ min: 0, max: 15 }), { minLength: 6, maxLength: 6 }),
        fc.integer({ min: -1, max: 5 }),
        (web, bits, aside) => {
          const { sizes, joints } = web;
          const space = spaceOf(
            sizes,
            joints.map((joint) => pairingIn(sizes, joint)),
          );
          const all = sizes.map((size) => Int32Array.from({ length: size }, (_, i) => i));
          const left = consistent(space, { classes: all.map((classes, slot) => (slot === aside ? null : classes)) });
          // Every second slot is narrowed, and the one that took no part takes part.
          const narrowed = new Map(
            sizes.flatMap((_, slot) => {
              if (slot % 2 === 0 && slot !== aside) return [];
              const before = slot === aside ? (all[slot] as Int32Array) : (left?.classes[slot] ?? (all[slot] as Int32Array));
              return [[slot, before.filter((each) => bit(bits[slot] as number, each))] as const];
            }),
          );
          const exists =
            countSolutions({
              ...networkOf(sizes, joints),
              constraints: [
                ...networkOf(sizes, joints).constraints,
                ...[...narrowed].map(([slot, classes]) => ({
                  scope: [slot],
                  label: null,
                  allows: ([x]: readonly number[]) => classes.includes(x as number),
                })),
              ],
            }) > 0;
          const choice = left === null ? null : findChoiceWithin(space, left, narrowed);
          expect(choice !== null).toBe(exists);
          if (choice === null) none += 1;
          else {
            found += 1;
            for (const joint of joints) expect(allows(joint, choice[joint.a] as number, choice[joint.b] as number)).toBe(true);
            for (const [slot, classes] of narrowed) expect(classes).toContain(choice[slot]);
          }
        },
      ),
      runs,
    );
    expect(Math.min(found, none)).toBeGreaterThan(80);
  });

  it('[K1] what is remembered of choices and conflicts answers as asking anew would, and asks less', () => {
    let [asked, searched] = [0, 0];
    fc.assert(
      fc.property(networks, (drawn) => {
        const { network } = asBoth(drawn);
        const labels = drawn.unary.length + drawn.binary.length;
        const keeps = (kept: Uint8Array) => isSatisfiable(network, new Set(Array.from(kept.keys()).filter((label) => kept[label] === 0)));
        const remembered = remembering(labels, (kept) => {
          searched += 1;
          return keeps(kept) ? Array.from(kept.keys()).filter((label) => kept[label] === 0) : null;
        });
        const both = (kept: Uint8Array) => {
          asked += 1;
          const answer = remembered(kept);
          expect(answer).toBe(keeps(kept));
          return answer;
        };
        dualize(labels, both, 1000);
        dualize(labels, both, 1000);
      }),
      runs,
    );
    expect(asked / searched).toBeGreaterThan(2);
  });

  it('[K1] more than a word of labels is remembered whole', () => {
    const searched: number[][] = [];
    const consistently = remembering(70, (kept) => {
      const given = [...kept.keys()].filter((label) => kept[label] === 0);
      searched.push(given);
      return given.includes(69) ? [69] : null;
    });
    const without = (...given: number[]) => consistently(Uint8Array.from({ length: 70 }, (_, label) => (given.includes(label) ? 0 : 1)));
    expect([without(69, 1), without(69), without(69, 33), without(33), without(), without(64), without(33, 64)]).toEqual([
      true,
      true,
      true,
      false,
      false,
      false,
      false,
    ]);
    expect(searched).toEqual([[1, 69], [33], [64], [33, 64]]);
  });

  it('[J1] long lists are narrowed from what a few classes reach, and nothing that was left out comes back', () => {
    let [kept, gone] = [0, 0];
    fc.assert(
      fc.property(
        fc.integer({ min: 70, max: 90 }),
        fc.array(
          fc.record({ shift: fc.integer({ min: -4, max: 4 }), wide: fc.integer({ min: 1, max: 3 }), hole: fc.integer({ min: 2, max: 7 }) }),
          {
            minLength: 3,
            maxLength: 3,
          },
        ),
        fc.integer({ min: 2, max: 5 }),
        (size, around, left) => {
          // Three slots in a ring; a class meets those a little further on, but for some.
          const goes = around.map(
            ({ shift, wide: reach, hole }) =>
              (x: number, y: number) =>
                Math.abs(x + shift - y) < reach && (x + y) % hole !== 1,
          );
          const all = Array.from({ length: size }, (_, i) => i);
          const of = Int32Array.from(all);
          const pairs = [
            [0, 1],
            [1, 2],
            [2, 0],
          ] as const;
          const space = spaceOf(
            [size, size, size],
            pairs.map(([a, b], at) => pairingOf([a, of, size], [b, of, size], (x) => all.filter((y) => goes[at]?.(x, y)))),
          );
          const open = [all, all, all.filter((z) => z % left !== 0)] as const;
          const chosen = [new Set<number>(), new Set<number>(), new Set<number>()] as const;
          for (const x of open[0])
            for (const y of open[1]) {
              if (!goes[0]?.(x, y)) continue;
              for (const z of open[2]) {
                if (!goes[1]?.(y, z) || !goes[2]?.(z, x)) continue;
                for (const [slot, each] of [x, y, z].entries()) chosen[slot]?.add(each);
              }
            }
          const domains = { classes: open.map((classes) => Int32Array.from(classes)) };
          const within = consistent(space, domains);
          for (const [slot, classes] of choosableClasses(space, domains).entries()) {
            expect([...(classes as Int32Array)]).toEqual([...(chosen[slot] as Set<number>)].sort((p, q) => p - q));
            kept += chosen[slot]?.size ?? 0;
            gone += size - (chosen[slot]?.size ?? 0);
            for (const each of within?.classes[slot] ?? []) {
              const choice = findChoiceWithin(space, within as NonNullable<typeof within>, new Map([[slot, Int32Array.of(each)]]));
              expect(choice !== null).toBe(chosen[slot]?.has(each));
            }
          }
        },
      ),
      { ...runs, numRuns: 60 },
    );
    expect(Math.min(kept, gone)).toBeGreaterThan(1000);
  });

  it('[J1] a slot that takes no part, and a joint that does not count, ask nothing', () => {
    const space = spaceOf([2, 2], [pairingIn([2, 2], { a: 0, b: 1, allowed: [0, 0] })]);
    const both = { classes: [Int32Array.of(0, 1), Int32Array.of(0, 1)] };
    expect(hasChoice(space, both)).toBe(false);
    expect(hasChoice(space, { classes: [Int32Array.of(0, 1), null] })).toBe(true);
    expect(hasChoice(space, { ...both, active: Uint8Array.of(0) })).toBe(true);
    expect(hasChoice(space, { classes: [null, new Int32Array(0)] })).toBe(false);
    expect(choosableClasses(space, { classes: [Int32Array.of(1), null] })).toEqual([Int32Array.of(1), null]);
  });

  it('[J1] a joint told as runs says of every pair, from either side, few against many or many against many, what it was told', () => {
    fc.assert(
      fc.property(wide, ({ sizes, allowed, few, group }) => {
        const [countA, countB] = sizes;
        const joint = { a: 0, b: 1, allowed };
        const pairing = pairingIn(sizes, joint);
        const all = sizes.map((size) => Array.from({ length: size }, (_, i) => i)) as [number[], number[]];
        for (const x of all[0]) {
          expect(partnersIn(pairing, 0, x).sort((p, q) => p - q)).toEqual(all[1].filter((y) => allows(joint, x, y)));
          for (const y of all[1]) expect(meet(pairing, x, y)).toBe(allows(joint, x, y));
        }
        for (const others of [all[1], all[1].filter((y) => y % 7 === few), all[1].filter((y) => y % 2 === few % 2)]) {
          const kept = thinned(pairing, 0, Int32Array.from(all[0]), Int32Array.from(others));
          expect([...kept]).toEqual(all[0].filter((x) => others.some((y) => allows(joint, x, y))));
        }
        // Some classes twice and others not at all; then only pairs of one group and those of no remainder.
        const [toA, toB] = [all[0].map((x) => (x * 3) % countA), all[1].map((y) => (y * 2) % countB)];
        const again = regrouped(pairing, Int32Array.from(toA), Int32Array.from(toB));
        const groupOf = (each: number) => each % group;
        const keeps = (x: number, y: number) => (groupOf(x) + groupOf(y)) % 2 === 0;
        const left = narrowed(again, { group: Int32Array.from(all[0], groupOf) }, { group: Int32Array.from(all[1], groupOf) }, keeps);
        // Some groups have to be asked about; what meets and need not on either side is kept.
        const asks = (each: number) => groupOf(each) % 3 === 1;
        const asking = (own: number[]) => ({
          group: Int32Array.from(own, groupOf),
          asks: Uint8Array.from(own, (each) => (asks(each) ? 1 : 0)),
        });
        const askedOf = narrowed(again, asking(all[0]), asking(all[1]), keeps);
        const asked: (readonly [number, number])[] = [];
        eachAsked(again, asking(all[0]), asking(all[1]), (x, y) => asked.push([x, y]));
        for (const [p, q] of asked) {
          const meeting = all[0].some((x) => groupOf(x) === p && all[1].some((y) => groupOf(y) === q && meet(again, x, y)));
          expect([meeting, asks(p) || asks(q)]).toEqual([true, true]);
        }
        for (const x of all[0]) {
          for (const y of all[1]) {
            const isAsked = asks(x) || asks(y);
            expect(meet(askedOf, x, y)).toBe(meet(again, x, y) && (!isAsked || keeps(x, y)));
            expect(partnersIn(askedOf, 1, y).includes(x)).toBe(meet(askedOf, x, y));
            const alike = ([p, q]: readonly [number, number]) => groupOf(p) === groupOf(x) && groupOf(q) === groupOf(y);
            if (isAsked && meet(again, x, y)) expect(asked.some(alike)).toBe(true);
            expect(meet(again, x, y)).toBe(allows(joint, toA[x] as number, toB[y] as number));
            expect(meet(left, x, y)).toBe(keeps(x, y) && meet(again, x, y));
            expect(partnersIn(left, 1, y).includes(x)).toBe(meet(left, x, y));
          }
        }
      }),
      { ...runs, numRuns: 60 },
    );
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

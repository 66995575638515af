import { describe, expect, test } from 'vitest';
import { demandsCore, demandsOfAny, isSilent, type NameRule, nameRule, notBarred } from '../../../reasoner/compile/name-rule.ts';

/** A name by what it demands: of each slot the parts that belong, and of an open-ended list those that are known not to. */
const rule = (demands: readonly (readonly number[] | null)[], open: Readonly<Record<number, readonly number[]>> = {}): NameRule =>
  nameRule(
    { id: 'a-name', rung: 'model', maker: null, text: 'a name', models: [], family: null },
    demands.map((parts) => (parts === null ? null : new Set(parts))),
    new Map(Object.entries(open).map(([slot, barred]) => [Number(slot), new Set(barred)])),
  );
const anyOf = (...rules: NameRule[]) => {
  const { demands, open } = demandsOfAny(rules);
  return { demands: demands.map((parts) => parts && [...parts]), open: [...open].map(([slot, barred]) => [slot, [...barred]]) };
};

describe('what is demanded of a unit that is one of several things (N4)', () => {
  test('[N4] of a slot only where all of them demand something, and there what belongs to any', () => {
    expect(anyOf(rule([[1, 2], null, [4]]), rule([[2, 3], [5], [4]]))).toEqual({ demands: [[1, 2, 3], null, [4]], open: [] });
    expect(anyOf(rule([[], [6]]), rule([[1], null]))).toEqual({ demands: [[1], null], open: [] });
  });

  test('[A7] where any of their lists is open-ended so is theirs, and barred is what every open one bars and none lists', () => {
    expect(anyOf(rule([[1]], { 0: [7, 8] }), rule([[2]], { 0: [8, 9] }))).toEqual({ demands: [[1, 2]], open: [[0, [8]]] });
    expect(anyOf(rule([[1]], { 0: [7, 8] }), rule([[8]]))).toEqual({ demands: [[1, 8]], open: [[0, [7]]] });
    expect(anyOf(rule([[1]]), rule([[2]], { 0: [] }))).toEqual({ demands: [[1, 2]], open: [[0, []]] });
    expect(anyOf(rule([[1]], { 0: [2, 9] }), rule([[2]], { 0: [1, 9] }))).toEqual({ demands: [[1, 2]], open: [[0, [9]]] });
    expect(anyOf(rule([[1], [3]], { 1: [] }), rule([[2], null]))).toEqual({ demands: [[1, 2], null], open: [] });
  });
});

describe('what a name’s list says of a slot (A7)', () => {
  const slot = (number: number, group: 'core' | 'housing' | 'plate', parts: number) => ({
    data: { group },
    number,
    parts: Array.from({ length: parts }, () => null),
  });

  test('[A7] silent is where its models list nothing at all, not where only what they list is in another role, nor where the list is whole', () => {
    const of = rule([[], [], [1], [], null], { 0: [], 1: [3], 2: [], 4: [] });
    expect([0, 1, 2, 3, 4, 5].map((number) => isSilent(of, number))).toEqual([true, false, false, false, false, false]);
  });

  test('[A7] not barred: what it lists, where the list is whole; else all but what is known not to belong', () => {
    const of = rule([[1], null, [0], [0]], { 2: [], 3: [1] });
    const parts = (number: number) => {
      const found = notBarred(slot(number, 'core', 3), of);
      return found && [...found];
    };
    expect([0, 1, 2, 3, 4].map(parts)).toEqual([[1], null, null, [0, 2], null]);
  });

  test('[N3] a name says something of the core only where it demands something of a core slot, be it of a list of nothing', () => {
    const slots = [slot(0, 'core', 2), slot(1, 'housing', 2), slot(2, 'plate', 1)];
    const says = (...demands: (readonly number[] | null)[]) => demandsCore({ slots }, rule(demands));
    expect([says([1], null, null), says([], null, null), says(null, [0], [0]), says()]).toEqual([true, true, false, false]);
  });
});

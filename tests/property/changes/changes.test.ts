import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Cells } from '../../../db/atlas/cell.ts';
import type { Pack } from '../../../db/atlas/pack.ts';
import { cellsOf, hadIn, packOf } from '../../../db/changes/cells-of.ts';
import { applyTo, changeBetween, type Effect, rebase, rebaseOnto, reverse } from '../../../db/changes/change.ts';
import { placesFor } from '../../../db/changes/places.ts';
import { canonicalText } from '../../../db/packs/canonical.ts';
import { naiveDiff, naiveMerge, naiveOf } from './naive.ts';
import { anyPack } from './random-packs.ts';

const runs = { numRuns: 150, seed: 20261128 };
const bytes = (pack: Pack): string => [...canonicalText(pack)].flat().join('\n');
const back = (cells: Cells): string => bytes(packOf('small', cells));
const next = (held: Cells, pack: Pack): Effect => changeBetween(held, cellsOf(pack, hadIn(held)));

describe('[H1] what a pack says, cell by cell', () => {
  test('[H1] the cells of a pack make the same pack again, to the byte', () => {
    fc.assert(
      fc.property(anyPack, (pack) => {
        expect(back(cellsOf(pack))).toBe(bytes(pack));
      }),
      runs,
    );
  });

  test('[H1] a slow reading of the pack’s files finds the same cells', () => {
    fc.assert(
      fc.property(anyPack, (pack) => {
        expect([...cellsOf(pack).keys()].sort()).toEqual([...cellsAsNaive(pack).said.keys()].sort());
      }),
      runs,
    );
  });

  test('[H1] a place is kept wherever the order allows: one more, one less or one moved alters no other', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.nat(40), { minLength: 2, maxLength: 40 }), fc.nat(), fc.nat(), (ids, from, to) => {
        const names = ids.map(String);
        const held = placesFor(names, () => undefined);
        const without = names.filter((_, index) => index !== from % names.length);
        const moved = [...without.slice(0, to % names.length), names[from % names.length] as string, ...without.slice(to % names.length)];
        const more = [...names.slice(0, to % names.length), 'new', ...names.slice(to % names.length)];
        const otherThan = (after: readonly string[], but: string) => {
          const places = placesFor(after, (id) => held.get(id));
          expect([...places.values()].every((place, index, all) => index === 0 || place > (all[index - 1] as number))).toBe(true);
          return after.filter((id) => id !== but && places.get(id) !== held.get(id));
        };
        expect(otherThan(without, '')).toEqual([]);
        expect(otherThan(more, 'new')).toEqual([]);
        // Of two that change places either may be called the one that moved.
        expect(otherThan(moved, names[from % names.length] as string).length).toBeLessThanOrEqual(1);
      }),
      runs,
    );
  });

  test('[H1] places always rise, however often something is put in between or where none is left', () => {
    let order = ['a', 'b'];
    let places = placesFor(order, () => undefined);
    for (let n = 0; n < 200; n += 1) {
      order = [...order.slice(0, 1), `n${n}`, ...order.slice(1)];
      const before = places;
      places = placesFor(order, (id) => before.get(id));
      const row = order.map((id) => places.get(id) as number);
      expect(row.every((place, index) => Number.isInteger(place) && (index === 0 || place > (row[index - 1] as number)))).toBe(true);
    }
    const dense = placesFor(['x', 'a', 'b', 'y', 'c'], (id) => ({ a: 0, b: 1, c: 2 })[id]);
    const twice = placesFor(['a', 'b', 'c'], () => 7);
    expect(new Set(twice.values()).size).toBe(3);
    expect([...dense.keys()].sort((a, b) => (dense.get(a) as number) - (dense.get(b) as number))).toEqual(['x', 'a', 'b', 'y', 'c']);
  });
});

/** What the naive reading makes of a pack, its maps alone. */
const cellsAsNaive = (pack: Pack) => {
  const naive = naiveOf(canonicalText(pack));
  // Columns of parts.csv go by other names than the fields.
  const said = new Map([...naive.said].map(([key, text]) => [key.replace(/\/pattern_of$/, '/patternOf'), text]));
  return { ...naive, said };
};

/** What a change alters but for places, by key. */
const altered = (effect: Effect): string[] =>
  [...effect]
    .filter(([, { before, after }]) => JSON.stringify(before?.is) !== JSON.stringify(after?.is))
    .map(([key]) => key)
    .sort();

describe('[H2] a change', () => {
  test('[H2] made of what is held and a pack, it leads to that pack to the byte, and back to the byte', () => {
    fc.assert(
      fc.property(anyPack, anyPack, (a, b) => {
        const held = cellsOf(a);
        const effect = next(held, b);
        const then = applyTo(held, effect);
        expect(back(then)).toBe(bytes(b));
        expect(applyTo(then, reverse(effect))).toEqual(held);
      }),
      runs,
    );
  });

  test('[H2] it is the effect and no more: what it alters is what the files say otherwise', () => {
    fc.assert(
      fc.property(anyPack, anyPack, (a, b) => {
        const effect = next(cellsOf(a), b);
        for (const { before, after } of effect.values()) expect(before).not.toEqual(after);
        expect(altered(effect)).toEqual(naiveDiff(cellsAsNaive(a).said, cellsAsNaive(b).said));
        expect(next(applyTo(cellsOf(a), effect), b).size).toBe(0);
      }),
      runs,
    );
  });

  test('[H2] a row of changes, undone from the last, comes back to where it began', () => {
    fc.assert(
      fc.property(fc.array(anyPack, { minLength: 2, maxLength: 6 }), (packs) => {
        const [first, ...rest] = packs as [Pack, ...Pack[]];
        const start = cellsOf(first);
        const made: Effect[] = [];
        let cells = start;
        for (const pack of rest) {
          const effect = next(cells, pack);
          cells = applyTo(cells, effect);
          made.push(effect);
          expect(back(cells)).toBe(bytes(pack));
        }
        for (const effect of made.reverse()) cells = applyTo(cells, reverse(effect));
        expect(cells).toEqual(start);
      }),
      runs,
    );
  });

  test('[H2] one that is not made of the present state is not applied', () => {
    fc.assert(
      fc.property(anyPack, anyPack, (a, b) => {
        const effect = next(cellsOf(a), b);
        fc.pre(effect.size > 0);
        expect(() => applyTo(applyTo(cellsOf(a), effect), effect)).toThrow(/does not say/);
      }),
      runs,
    );
  });
});

/** A pack with some of another's things in the place of its own: two of them made of one seldom differ in the same cells. */
const edited = (a: Pack, b: Pack, which: number): Pack =>
  ({
    ...a,
    ...(which % 2 === 0 ? { makers: b.makers } : {}),
    ...(which % 3 === 0 ? { parts: b.parts } : {}),
    ...(which % 5 === 0 ? { rates: b.rates, stages: b.stages } : {}),
    ...(which % 7 === 0 ? { features: b.features, allowed: b.allowed } : {}),
    ...(which % 11 === 0 ? { head: b.head, sheets: b.sheets } : {}),
  }) as Pack;
const which = fc.nat(2 * 3 * 5 * 7 * 11);

describe('[H4] a change moved over another', () => {
  test('[H4] what is disputed is what a slow merge of three states disputes, and the rest comes to what that comes to', () => {
    fc.assert(
      fc.property(anyPack, anyPack, anyPack, which, which, (a, x, y, i, j) => {
        const [one, other] = [edited(a, x, i), edited(a, y, j)];
        const held = cellsOf(a);
        const [first, second] = [next(held, one), next(held, other)];
        const { effect, disputes } = rebase(second, first);
        const naive = naiveMerge(cellsAsNaive(a).said, cellsAsNaive(one).said, cellsAsNaive(other).said);
        expect(disputes.map(({ key }) => key as string).sort()).toEqual(naive.disputes);
        if (disputes.length > 0) return;
        const both = applyTo(applyTo(held, first), effect);
        expect([...both.keys()].sort()).toEqual([...naive.said.keys()].sort());
        // The tables' columns are written otherwise than the cells; what came as JSON is the same text.
        for (const [key, { is }] of both) if (!/^(parts|allowed)\//.test(key)) expect(JSON.stringify(is), key).toBe(naive.said.get(key));
      }),
      { ...runs, numRuns: 400 },
    );
  });

  test('[H4] where nothing is disputed, it makes no difference which of two was first', () => {
    let without = 0;
    fc.assert(
      fc.property(anyPack, anyPack, anyPack, which, which, (a, x, y, i, j) => {
        const held = cellsOf(a);
        const [first, second] = [next(held, edited(a, x, i)), next(held, edited(a, y, j))];
        const [after, before] = [rebase(second, first), rebase(first, second)];
        expect(after.disputes.map(({ key }) => key).sort()).toEqual(before.disputes.map(({ key }) => key).sort());
        if (after.disputes.length > 0) return;
        without += first.size > 0 && second.size > 0 ? 1 : 0;
        const one = applyTo(applyTo(held, first), after.effect);
        expect(one).toEqual(applyTo(applyTo(held, second), before.effect));
        expect(back(one)).toBe(back(applyTo(applyTo(held, second), before.effect)));
      }),
      { ...runs, numRuns: 400 },
    );
    expect(without).toBeGreaterThan(50);
  });

  test('[H4] over what does the same already it comes to nothing; over nothing it is as it was', () => {
    fc.assert(
      fc.property(anyPack, anyPack, (a, b) => {
        const effect = next(cellsOf(a), b);
        expect(rebase(effect, effect)).toEqual({ effect: new Map(), disputes: [] });
        expect(rebase(effect, new Map())).toEqual({ effect, disputes: [] });
      }),
      runs,
    );
  });

  test('[H4] moved to a state it is what it is moved over the way there', () => {
    fc.assert(
      fc.property(anyPack, anyPack, anyPack, which, which, (a, x, y, i, j) => {
        const held = cellsOf(a);
        const [first, second] = [next(held, edited(a, x, i)), next(held, edited(a, y, j))];
        const [onto, over] = [rebaseOnto(second, applyTo(held, first)), rebase(second, first)];
        expect(onto.effect).toEqual(over.effect);
        expect(new Set(onto.disputes.map(({ key }) => key))).toEqual(new Set(over.disputes.map(({ key }) => key)));
      }),
      runs,
    );
  });

  test('[H4] places are no dispute: the lower of two stays, and what moved may still be taken away', () => {
    const at = (place: number): Cells => new Map([['parts/wheel-a', { is: true, at: place }]] as never);
    const to = (place: number) => changeBetween(at(1024), at(place));
    expect([...rebase(to(2048), to(512)).effect]).toEqual([]);
    expect([...rebase(to(512), to(2048)).effect.values()]).toEqual([{ before: { is: true, at: 2048 }, after: { is: true, at: 512 } }]);
    const gone = changeBetween(at(1024), new Map());
    expect([...rebase(gone, to(512)).effect.values()]).toEqual([{ before: { is: true, at: 512 }, after: null }]);
    expect(rebase(to(512), gone)).toEqual({ effect: new Map(), disputes: [] });
  });

  test('[H4] more said of a part that the other takes away is disputed, from either side', () => {
    const held: Cells = new Map([
      ['parts/wheel-a', { is: true, at: 1024 }],
      ['parts/wheel-a/name', { is: 'plain' }],
    ] as never);
    const gone = changeBetween(held, new Map());
    const more = changeBetween(held, new Map([...held, ['parts/wheel-a/facts/bore', { is: 5 }]] as never));
    expect(rebase(more, gone).disputes).toEqual([{ key: 'parts/wheel-a/facts/bore', before: null, present: null, after: { is: 5 } }]);
    expect(rebase(gone, more).disputes).toEqual([{ key: 'parts/wheel-a/facts/bore', before: null, present: { is: 5 }, after: null }]);
  });
});

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Pack } from '../../../db/atlas/pack.ts';
import { cellsOf, hadIn, packOf } from '../../../db/changes/cells-of.ts';
import { movedWords, saidCells, saidUnder, wordsBetween, wordsIn, wordsOver } from '../../../db/changes/own-words.ts';
import { canonicalText } from '../../../db/packs/canonical.ts';
import { shapeFaults } from '../../../db/packs/shape-faults.ts';
import { naiveOf } from './naive.ts';
import { anyPack } from './random-packs.ts';

const runs = { numRuns: Number(process.env.KINPLATE_RUNS ?? 100), seed: 20261129 };

const text = (pack: Pack) => naiveOf(canonicalText(pack)).said;
const entryOf = (key: string): string => {
  const [list, id] = key.split('/');
  return list === 'allowed' ? key : `${list}/${id}`;
};

/** A second reading of what becomes of the shop's words, entry by entry over plain maps of texts. */
const naiveMoved = (
  said: ReadonlyMap<string, string>,
  now: ReadonlyMap<string, string>,
  next: ReadonlyMap<string, string>,
  holds: 'shop' | 'pack',
): { readonly is: ReadonlyMap<string, string>; readonly disputes: readonly string[] } => {
  const is = new Map<string, string>();
  const disputes: string[] = [];
  const entries = new Set([...said.keys(), ...now.keys(), ...next.keys()].map(entryOf));
  for (const entry of entries) {
    const keys = [...new Set([...said.keys(), ...now.keys(), ...next.keys()])].filter((key) => entryOf(key) === entry);
    const from = (state: ReadonlyMap<string, string>): void => {
      for (const key of keys) {
        const of = state.get(key);
        if (of !== undefined) is.set(key, of);
      }
    };
    const alike = (a: ReadonlyMap<string, string>, b: ReadonlyMap<string, string>) => keys.every((key) => a.get(key) === b.get(key));
    if (alike(said, now)) from(next);
    else if (said.has(entry) && !now.has(entry)) {
      const same = alike(said, next);
      if (next.has(entry) && !same) disputes.push(entry);
      if (next.has(entry) && !same && holds === 'pack') from(next);
    } else if (said.has(entry) && !next.has(entry)) {
      disputes.push(entry);
      if (holds === 'shop') from(now);
    } else
      for (const key of keys) {
        const [b, own, n] = [said.get(key), now.get(key), next.get(key)];
        if (own !== b && n !== b && n !== own) disputes.push(key);
        const value = own === b || (n !== b && n !== own && holds === 'pack') ? n : own;
        if (value !== undefined) is.set(key, value);
      }
  }
  return { is, disputes: disputes.sort() };
};

/** Fields that are lines of one text in one reading, and names of columns in the other. */
const comparable = (said: ReadonlyMap<string, string>): Record<string, string> =>
  Object.fromEntries([...said].sort(([a], [b]) => (a < b ? -1 : 1)));

describe('the shop’s words over a pack', () => {
  test('[H1] what the pack says and what is reasoned over are found again from each other and the words, and the words from both', () => {
    fc.assert(
      fc.property(anyPack, anyPack, (pack, edited) => {
        const said = cellsOf(pack);
        const cells = cellsOf(edited, hadIn(said));
        const words = wordsBetween(said, cells);
        expect(wordsOver(said, words)).toEqual(cells);
        expect(saidUnder(cells, words)).toEqual(said);
        expect(wordsIn(new Map([...cells, ...saidCells(words)]))).toEqual(words);
        expect(wordsBetween(said, said).size).toBe(0);
      }),
      runs,
    );
  });

  test('[H4] a newer edition of the pack: a slow reading finds the same, and the same disputes, whoever’s word holds', () => {
    let disputed = 0;
    fc.assert(
      fc.property(anyPack, anyPack, anyPack, fc.constantFrom('shop' as const, 'pack' as const), (pack, edited, newer, holds) => {
        const said = cellsOf(pack);
        const cells = cellsOf(edited, hadIn(said));
        const next = cellsOf(newer, hadIn(cells));
        const moved = movedWords(cells, wordsBetween(said, cells), next, () => holds);
        const naive = naiveMoved(text(pack), text(edited), text(newer), holds);
        const result = packOf('small', wordsOver(next, moved.words));
        // Two sides that each say something else of one entry may come to none; loading says so, see below.
        fc.pre(shapeFaults(result).length === 0);
        expect(comparable(text(result))).toEqual(comparable(naive.is));
        expect(moved.disputes.map(({ key }) => String(key).replace(/\/patternOf$/, '/pattern_of')).sort()).toEqual(naive.disputes);
        disputed += naive.disputes.length;
      }),
      runs,
    );
    expect(disputed).toBeGreaterThan(200);
  });
});

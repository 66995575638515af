import { type Pairing, wordsFor } from '../algebra/choices.ts';
import type { Joint } from '../atlas/atlas.ts';
import { comparisonsOf } from '../fits/comparisons.ts';
import { featuresOf } from '../fits/features-of.ts';
import type { FeatureId } from '../ids.ts';
import type { ReadOf, Table } from './fact-tables.ts';
import { meetings } from './meetings.ts';

/** How the parts of an atlas meet, with parts of a slot that meet every neighbour alike put into one class. */
export interface Mating {
  /** By slot, the class of each part and how many there are. */
  readonly slots: readonly { readonly of: Int32Array; readonly count: number }[];
  /** By joint, which classes do not fail. */
  readonly joints: readonly Pairing[];
}

export interface End {
  readonly joint: Joint;
  /** Slot numbers of the two ports. */
  readonly a: number;
  readonly b: number;
}

/**
 * Judges every rule once for each pair of distinct facts it reads, not for each pair of parts: a slot of ten thousand parts has a
 * few dozen recess diameters. Parts are then grouped by what they read, joints decided between groups, and groups that
 * fail alike everywhere merged. Where a reading may be any of several facts, a comparison fails only if it fails for every one.
 *
 * @param partsIn by slot, how many parts it has
 */
export const matingOf = (
  partsIn: readonly number[],
  ends: readonly End[],
  slotOf: (feature: FeatureId) => number,
  reads: readonly ReadOf[],
): Mating => {
  // Which features each slot's parts are read by, over all joints.
  const read = partsIn.map(() => new Set<FeatureId>());
  for (const end of ends) {
    for (const rule of end.joint.rules) for (const feature of featuresOf(rule)) (read[slotOf(feature)] as Set<FeatureId>).add(feature);
  }
  const fine = partsIn.map((count, slot) =>
    refine(
      count,
      [...(read[slot] as Set<FeatureId>)].map((feature) => (reads[slot] as ReadOf)(feature)),
    ),
  );
  const rows = ends.map((end) => rowsOf(end, fine, slotOf, reads));
  // Classes that fail alike across every joint of the slot are one.
  const merged = fine.map((classes, slot) =>
    merge(
      classes,
      rows.flatMap(({ a, b, fromA, fromB }) => (a === slot ? [fromA] : b === slot ? [fromB] : [])),
    ),
  );
  return {
    slots: merged.map(({ of, count }) => ({ of, count })),
    joints: rows.map((pairing) => between(pairing, fine, merged)),
  };
};

interface Classes {
  readonly of: Int32Array;
  readonly count: number;
  /** One part of each class; of merged classes, one of the classes that became it. */
  readonly example: readonly number[];
}

/** The coarsest grouping finer than all the given ones. */
export const refine = (
  length: number,
  tables: readonly { readonly distinct: { readonly length: number }; readonly of: Int32Array }[],
): Classes => {
  let of = new Int32Array(length);
  let count = length === 0 ? 0 : 1;
  for (const table of tables) {
    const numbers = new Map<number, number>();
    const next = new Int32Array(length);
    for (let i = 0; i < length; i += 1) {
      const key = (of[i] as number) * table.distinct.length + (table.of[i] as number);
      let number = numbers.get(key);
      if (number === undefined) {
        number = numbers.size;
        numbers.set(key, number);
      }
      next[i] = number;
    }
    of = next;
    count = numbers.size;
  }
  const example = new Array<number>(count).fill(-1);
  of.forEach((group, i) => {
    if (example[group] === -1) example[group] = i;
  });
  return { of, count, example };
};

/** Which classes of slots a and b hold together. A joint fails where one comparison of one rule does (F2), so each is judged by itself, on the two readings it compares. */
const rowsOf = (end: End, classes: readonly Classes[], slotOf: (feature: FeatureId) => number, reads: readonly ReadOf[]): Pairing => {
  const [a, b] = [classes[end.a] as Classes, classes[end.b] as Classes];
  const fromA = everything(a.count, b.count);
  const fromB = everything(b.count, a.count);
  for (const comparison of end.joint.rules.flatMap(comparisonsOf)) {
    const aFirst = slotOf(comparison.first) === end.a;
    const [ofA, ofB] = aFirst ? [comparison.first, comparison.second] : [comparison.second, comparison.first];
    const [tableA, tableB] = [(reads[end.a] as ReadOf)(ofA), (reads[end.b] as ReadOf)(ofB)];
    const wide = tableB.distinct.length;
    const holds = meetings(comparison, tableA, tableB, aFirst).holds();
    if (!holds.includes(0)) continue;
    const readA = Int32Array.from(a.example, (part) => tableA.of[part] as number);
    const readB = Int32Array.from(b.example, (part) => tableB.of[part] as number);
    keepIn(fromA, readA, readB, tableA.distinct.length, (one, other) => holds[one * wide + other] as number);
    keepIn(fromB, readB, readA, wide, (one, other) => holds[other * wide + one] as number);
  }
  return { a: end.a, b: end.b, fromA, fromB };
};

/** A bit row for each of `count` classes, with all of the other slot's in it. */
const everything = (count: number, others: number): Uint32Array => {
  const wide = wordsFor(others);
  const row = new Uint32Array(wide);
  for (let j = 0; j < others; j += 1) row[j >>> 5] = (row[j >>> 5] as number) | (1 << (j & 31));
  const rows = new Uint32Array(count * wide);
  for (let i = 0; i < count; i += 1) rows.set(row, i * wide);
  return rows;
};

/** Leaves in each row the classes that hold by one comparison: a row of bits for each reading, and then for each class its reading's. */
const keepIn = (
  rows: Uint32Array,
  own: Int32Array,
  other: Int32Array,
  readings: number,
  holds: (own: number, other: number) => number,
): void => {
  const wide = wordsFor(other.length);
  const masks = new Uint32Array(readings * wide);
  for (let reading = 0; reading < readings; reading += 1) {
    for (let j = 0; j < other.length; j += 1) {
      if (holds(reading, other[j] as number) === 0) continue;
      const word = reading * wide + (j >>> 5);
      masks[word] = (masks[word] as number) | (1 << (j & 31));
    }
  }
  for (let i = 0; i < own.length; i += 1) {
    const from = (own[i] as number) * wide;
    for (let w = 0; w < wide; w += 1) rows[i * wide + w] = (rows[i * wide + w] as number) & (masks[from + w] as number);
  }
};

/** @param tables bit rows of the classes, joint after joint */
const merge = (classes: Classes, tables: readonly Uint32Array[]): Classes => {
  const {
    of: to,
    count,
    example,
  } = refine(
    classes.count,
    tables.map((rows) => rowsAlike(rows, classes.count)),
  );
  return { of: classes.of.map((group) => to[group] as number), count, example };
};

/** Which of the rows are alike. */
const rowsAlike = (rows: Uint32Array, count: number): Table<string> => {
  // Two signs to a word, so that rows can be compared as text.
  const signs = new Uint16Array(rows.buffer, rows.byteOffset, rows.length * 2);
  const wide = signs.length / count;
  const numbers = new Map<string, number>();
  const of = new Int32Array(count);
  for (let row = 0; row < count; row += 1) {
    const text = textOf(signs.subarray(row * wide, (row + 1) * wide));
    const number = numbers.get(text) ?? numbers.size;
    numbers.set(text, number);
    of[row] = number;
  }
  return { distinct: [...numbers.keys()], of };
};

/** In pieces: a call takes only so many arguments. */
const textOf = (signs: Uint16Array): string => {
  let text = '';
  for (let at = 0; at < signs.length; at += 8192) text += String.fromCharCode(...signs.subarray(at, at + 8192));
  return text;
};

/** The rows of a joint between merged classes, read off an example of each. */
const between = ({ a, b, fromA, fromB }: Pairing, fine: readonly Classes[], merged: readonly Classes[]): Pairing => ({
  a,
  b,
  fromA: picked(fromA, wordsFor((fine[b] as Classes).count), merged[a] as Classes, merged[b] as Classes),
  fromB: picked(fromB, wordsFor((fine[a] as Classes).count), merged[b] as Classes, merged[a] as Classes),
});

const picked = (rows: Uint32Array, before: number, own: Classes, other: Classes): Uint32Array => {
  const wide = wordsFor(other.count);
  const answer = new Uint32Array(own.count * wide);
  for (let i = 0; i < own.count; i += 1) {
    const from = (own.example[i] as number) * before;
    for (let j = 0; j < other.count; j += 1) {
      const at = other.example[j] as number;
      if (((rows[from + (at >>> 5)] as number) & (1 << (at & 31))) === 0) continue;
      const word = i * wide + (j >>> 5);
      answer[word] = (answer[word] as number) | (1 << (j & 31));
    }
  }
  return answer;
};

/** The rows of a pairing as bytes, row-major by a's class. */
export const bytesOf = ({ a, b, fromA }: Pairing, slots: Mating['slots']): Uint8Array => {
  const [countA, countB] = [slots[a]?.count ?? 0, slots[b]?.count ?? 0];
  const wide = wordsFor(countB);
  const holds = new Uint8Array(countA * countB);
  for (let i = 0; i < countA; i += 1) {
    for (let j = 0; j < countB; j += 1) holds[i * countB + j] = ((fromA[i * wide + (j >>> 5)] as number) >>> (j & 31)) & 1;
  }
  return holds;
};

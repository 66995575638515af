import { type Pairing, Runs, type Side } from '../algebra/pairing.ts';
import type { Joint } from '../atlas/atlas.ts';
import { comparisonsOf } from '../fits/comparisons.ts';
import type { FeatureId } from '../ids.ts';
import type { ReadOf, ReadTable } from './fact-tables.ts';
import { LastAnswers, ofBoth } from './of-both.ts';
import { type Groups, refine } from './refine.ts';
import { type Asked, Between } from './rows-between.ts';

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
 * Parts that read alike at a joint are one row of it, and rows that meet the same rows of the other side are one; parts of a slot in the same rows at all its joints are
 * one class. Where a reading may be any of several facts, a comparison fails only if it fails for every one.
 *
 * @param partsIn by slot, how many parts it has
 */
export const matingOf = (
  partsIn: readonly number[],
  ends: readonly End[],
  slotOf: (feature: FeatureId) => number,
  reads: readonly ReadOf[],
): Mating => {
  const met = ends.map((end) => rowsOf(end, partsIn, slotOf, reads));
  const classes = partsIn.map((count, slot) => {
    const rows = ends.flatMap(({ a, b }, joint) => {
      const { ofA, ofB } = met[joint] as Met;
      return a === slot ? [ofA] : b === slot ? [ofB] : [];
    });
    const [first] = rows;
    return first === undefined ? refine(count, rows) : first.classes.of(rows, () => refine(count, rows));
  });
  const sideOf = (slot: number, side: MetSide): Side => sideIn(classes[slot] as Groups, side);
  return {
    slots: classes.map(({ of, count }) => ({ of, count })),
    joints: ends.map(({ a, b }, joint) => {
      const { ofA, ofB } = met[joint] as Met;
      return { a, b, ofA: sideOf(a, ofA), ofB: sideOf(b, ofB) };
    }),
  };
};

/** Where neither the classes of a slot nor the rows of a joint are others than before, nor is this. */
const sideIn = ofBoth(
  ({ example }: Groups, { of, runs }: MetSide): Side => runs.side(Int32Array.from(example, (part) => of[part] as number)),
);

/** The rows of a joint: of each side which row a part is in, and what each row meets. */
interface Met {
  readonly ofA: MetSide;
  readonly ofB: MetSide;
}

interface MetSide {
  readonly of: Int32Array;
  /** As a table, with as many distinct rows. */
  readonly distinct: { readonly length: number };
  readonly runs: Runs;
  /** Classes of a slot of which this is the first joint, by all its joints. */
  readonly classes: LastAnswers<MetSide, Groups>;
}

/** By the tables of its first comparison, and then by all: what a joint came to stands while what is read there does. */
const metOf = ofBoth((_a: ReadTable, _b: ReadTable) => new LastAnswers<unknown, Met>(4));

const rowsOf = (end: End, partsIn: readonly number[], slotOf: (feature: FeatureId) => number, reads: readonly ReadOf[]): Met => {
  const asked = end.joint.rules.flatMap(comparisonsOf).map((comparison): Asked => {
    const aFirst = slotOf(comparison.first) === end.a;
    const [ofA, ofB] = aFirst ? [comparison.first, comparison.second] : [comparison.second, comparison.first];
    return { comparison, tableA: (reads[end.a] as ReadOf)(ofA), tableB: (reads[end.b] as ReadOf)(ofB), aFirst };
  });
  const [first] = asked;
  if (first === undefined) return rowsAsked(end, partsIn, asked);
  const things = asked.flatMap(({ comparison, tableA, tableB, aFirst }) => [comparison, tableA, tableB, aFirst]);
  return metOf(first.tableA, first.tableB).of(things, () => rowsAsked(end, partsIn, asked));
};

const rowsAsked = (end: End, partsIn: readonly number[], asked: readonly Asked[]): Met => {
  const between = new Between(asked);
  const fine = (side: 'a' | 'b', slot: number): Fine => {
    const { of, count, example } = refine(
      partsIn[slot] as number,
      asked.map(({ tableA, tableB }) => (side === 'a' ? tableA : tableB)),
    );
    const order = between.order(side, example);
    const place = new Int32Array(count);
    order.forEach((row, at) => {
      place[row] = at;
    });
    return { of: of.map((row) => place[row] as number), example: order.map((row) => example[row] as number) };
  };
  const [a, b] = [fine('a', end.a), fine('b', end.b)];
  const [runsA, runsB] = [between.runs('a', a.example, b.example), between.runs('b', b.example, a.example)];
  const [mergedA, mergedB] = [alike(runsA), alike(runsB)];
  return { ofA: merged(a, runsA, mergedA, mergedB), ofB: merged(b, runsB, mergedB, mergedA) };
};

/** Rows that read alike, numbered in the order of `Between`. */
interface Fine {
  readonly of: Int32Array;
  readonly example: Int32Array;
}

/** Rows that meet the same, by the first of them; and how many first ones stand before each row. */
interface Alike {
  readonly of: Int32Array;
  readonly firsts: Int32Array;
  readonly before: Int32Array;
}

const alike = (rows: Runs): Alike => {
  const numbers = new Map<string, number>();
  const of = new Int32Array(rows.rows);
  const firsts: number[] = [];
  const before = new Int32Array(rows.rows + 1);
  for (let row = 0; row < rows.rows; row += 1) {
    const text = textOf(rows.of(row));
    let number = numbers.get(text);
    if (number === undefined) {
      number = firsts.push(row) - 1;
      numbers.set(text, number);
    }
    of[row] = number;
    before[row + 1] = firsts.length;
  }
  return { of, firsts: Int32Array.from(firsts), before };
};

/** Two signs to a number, in pieces: a call takes only so many arguments. */
const textOf = (runs: Int32Array): string => {
  const signs = new Uint16Array(runs.slice().buffer);
  let text = '';
  for (let at = 0; at < signs.length; at += 8192) text += String.fromCharCode(...signs.subarray(at, at + 8192));
  return text;
};

/** A row that is met has the first row like it met too, so that of each run the first rows in it are what is met. */
const merged = ({ of }: Fine, rows: Runs, own: Alike, other: Alike): MetSide => {
  const runs = new Runs();
  for (const row of own.firsts) {
    const met = rows.of(row);
    for (let i = 0; i < met.length; i += 2)
      runs.add(other.before[met[i] as number] as number, other.before[met[i + 1] as number] as number);
    runs.next();
  }
  return { of: of.map((row) => own.of[row] as number), distinct: { length: own.firsts.length }, runs, classes: new LastAnswers(2) };
};

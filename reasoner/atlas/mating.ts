import { type Comparison, comparisonsOf } from '../fits/comparisons.ts';
import { featuresOf } from '../fits/features-of.ts';
import { comparisonFails } from '../fits/judge-rule.ts';
import type { FeatureId } from '../ids.ts';
import type { Fact, Joint, Part } from './atlas.ts';
import type { FactTable } from './compile.ts';

/** How the parts of one slot meet their neighbours, with parts that meet all alike put into one class. */
export interface MatingTable {
  readonly of: Int32Array;
  readonly count: number;
  /** By joint number, for the joints whose port a is of this slot: rows of own classes, columns of the other slot's. */
  readonly holds: ReadonlyMap<number, Uint8Array>;
}

interface End {
  readonly joint: Joint;
  readonly a: number;
  readonly b: number;
}

/**
 * Judges every rule once for each pair of distinct facts it reads, not for each pair of parts: a slot of ten thousand parts has a
 * few dozen recess diameters. Parts are then grouped by what they read, joints decided between groups, and groups that
 * fail alike everywhere merged.
 */
export const matingTables = (
  bySlot: readonly (readonly Part[])[],
  ends: readonly End[],
  slotOf: (feature: FeatureId) => number,
  facts: readonly FactsOf[],
): MatingTable[] => {
  // Which features each slot's parts are read by, over all joints.
  const read = bySlot.map(() => new Set<FeatureId>());
  for (const end of ends) {
    for (const rule of end.joint.rules) for (const feature of featuresOf(rule)) (read[slotOf(feature)] as Set<FeatureId>).add(feature);
  }
  const coarse = bySlot.map((parts, slot) =>
    refine(
      parts.length,
      [...(read[slot] as Set<FeatureId>)].map((feature) => (facts[slot] as FactsOf)(feature)),
    ),
  );
  const fine = ends.map((end) => {
    const a = coarse[end.a] as Classes;
    const b = coarse[end.b] as Classes;
    const holds = new Uint8Array(a.count * b.count).fill(1);
    // A joint fails where one comparison of one rule does (F2), so each is judged by itself, on the few sizes it reads.
    for (const comparison of end.joint.rules.flatMap(comparisonsOf)) {
      const features = [comparison.first, comparison.second];
      const ofA = features.filter((feature) => slotOf(feature) === end.a);
      const ofB = features.filter((feature) => slotOf(feature) === end.b);
      exclude(holds, a, b, comparison, ofA, ofB, facts[end.a] as FactsOf, facts[end.b] as FactsOf);
    }
    return holds;
  });
  // Merge classes that fail alike across every joint of the slot.
  const merged = coarse.map((classes, slot) => merge(classes, slot, ends, fine, coarse));
  return merged.map((own, slot) => {
    const holds = new Map<number, Uint8Array>();
    ends.forEach((end, number) => {
      if (end.a !== slot) return;
      const other = merged[end.b] as Merged;
      const wide = (coarse[end.b] as Classes).count;
      const table = new Uint8Array(own.count * other.count);
      for (let i = 0; i < own.count; i += 1) {
        for (let j = 0; j < other.count; j += 1) {
          table[i * other.count + j] = (fine[number] as Uint8Array)[
            (own.example[i] as number) * wide + (other.example[j] as number)
          ] as number;
        }
      }
      holds.set(number, table);
    });
    return { of: own.of, count: own.count, holds };
  });
};

type FactsOf = (feature: FeatureId) => FactTable;

interface Classes {
  readonly of: Int32Array;
  readonly count: number;
  /** One part of each class. */
  readonly example: readonly number[];
}

/** The coarsest grouping finer than all the given ones. */
const refine = (length: number, tables: readonly FactTable[]): Classes => {
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

/** Clears the pairs of classes that fail one comparison. */
const exclude = (
  holds: Uint8Array,
  a: Classes,
  b: Classes,
  comparison: Comparison,
  ofA: readonly FeatureId[],
  ofB: readonly FeatureId[],
  factsA: FactsOf,
  factsB: FactsOf,
): void => {
  const one = readings(a, ofA, factsA);
  const other = readings(b, ofB, factsB);
  const judged = new Int8Array(one.distinct.length * other.distinct.length).fill(-1);
  for (let i = 0; i < a.count; i += 1) {
    for (let j = 0; j < b.count; j += 1) {
      if (holds[i * b.count + j] === 0) continue;
      const at = (one.of[i] as number) * other.distinct.length + (other.of[j] as number);
      if (judged[at] === -1) {
        const left = one.distinct[one.of[i] as number] as ReadonlyMap<FeatureId, Fact>;
        const right = other.distinct[other.of[j] as number] as ReadonlyMap<FeatureId, Fact>;
        judged[at] = comparisonFails(comparison, (feature) => left.get(feature) ?? right.get(feature)) ? 0 : 1;
      }
      if (judged[at] === 0) holds[i * b.count + j] = 0;
    }
  }
};

/** What the classes say of a few features, distinct readings numbered. */
const readings = (classes: Classes, features: readonly FeatureId[], factsOf: (feature: FeatureId) => FactTable) => {
  const tables = features.map(factsOf);
  const numbers = new Map<string, number>();
  const distinct: Map<FeatureId, Fact>[] = [];
  const of = classes.example.map((part) => {
    const key = tables.map((table) => table.of[part]).join();
    let number = numbers.get(key);
    if (number === undefined) {
      number =
        distinct.push(
          new Map(
            features.map((feature, i) => [feature, (tables[i] as FactTable).distinct[(tables[i] as FactTable).of[part] as number] as Fact]),
          ),
        ) - 1;
      numbers.set(key, number);
    }
    return number;
  });
  return { distinct, of };
};

interface Merged extends Classes {
  /** For each merged class, a class of the finer grouping that stands for it. */
  readonly example: readonly number[];
}

const merge = (classes: Classes, slot: number, ends: readonly End[], fine: readonly Uint8Array[], coarse: readonly Classes[]): Merged => {
  const numbers = new Map<string, number>();
  const example: number[] = [];
  const to = new Int32Array(classes.count);
  for (let group = 0; group < classes.count; group += 1) {
    const key = rowsOf(group, slot, ends, fine, coarse)
      .map((row) => String.fromCharCode(...packed(row)))
      .join('\u0000');
    let number = numbers.get(key);
    if (number === undefined) {
      number = example.push(group) - 1;
      numbers.set(key, number);
    }
    to[group] = number;
  }
  return { of: classes.of.map((group) => to[group] as number), count: example.length, example };
};

/** The rows (or columns) of one class in every joint of its slot. */
const rowsOf = (group: number, slot: number, ends: readonly End[], fine: readonly Uint8Array[], coarse: readonly Classes[]): Uint8Array[] =>
  ends.flatMap((end, number) => {
    const table = fine[number] as Uint8Array;
    const width = (coarse[end.b] as Classes).count;
    if (end.a === slot) return [table.subarray(group * width, (group + 1) * width)];
    if (end.b === slot)
      return [Uint8Array.from({ length: (coarse[end.a] as Classes).count }, (_, i) => table[i * width + group] as number)];
    return [];
  });

/** Fifteen bits to a character code, so that rows can be compared as text. */
const packed = (row: Uint8Array): number[] => {
  const codes: number[] = [];
  for (let i = 0; i < row.length; i += 15) {
    let code = 1;
    for (let k = i; k < Math.min(i + 15, row.length); k += 1) code = code * 2 + (row[k] as number);
    codes.push(code);
  }
  return codes;
};

import type { Fact } from '../atlas/atlas.ts';
import type { Comparison, Difference } from '../fits/comparisons.ts';
import { comparisonFails } from '../fits/judge-rule.ts';
import { limitsOf, nanometres } from '../fits/limits.ts';
import type { ReadTable } from './fact-tables.ts';
import { ofBoth } from './of-both.ts';

/** One comparison of a joint, asked of what the parts of two slots are read to have; readings by their place in the tables of slot a and slot b. */
export interface Meetings {
  /** Whether it fails for one fact of each, by its place in the reading. */
  readonly failsAs: (a: number, atA: number, b: number, atB: number) => boolean;
  /** For each pair of readings, row-major by a's: 0 where it fails for every fact the two may be. */
  readonly holds: () => Uint8Array;
}

/**
 * Made once for two tables: an atlas asks for most of them twice, as parts are made and as they may be found.
 * @param aFirst whether the comparison's first feature is slot a's
 */
export const meetings = (comparison: Comparison, tableA: ReadTable, tableB: ReadTable, aFirst: boolean): Meetings => {
  const made = rememberedOf(tableA, tableB);
  const known = made.get(comparison) ?? make(comparison, tableA, tableB, aFirst);
  made.set(comparison, known);
  return known;
};

const rememberedOf = ofBoth(() => new Map<Comparison, Meetings>());

const make = (comparison: Comparison, tableA: ReadTable, tableB: ReadTable, aFirst: boolean): Meetings => {
  const [a, b] = [placesIn(tableA), placesIn(tableB)];
  const fails = comparison.kind === 'difference' ? differenceFails(comparison, a, b, aFirst) : otherFails(comparison, a, b, aFirst);
  const width = tableB.distinct.length;
  let holds: Uint8Array | undefined;
  return {
    failsAs: (readA, atA, readB, atB) => fails((a.from[readA] as number) + atA, (b.from[readB] as number) + atB),
    holds: () => {
      if (holds !== undefined) return holds;
      holds = new Uint8Array(tableA.distinct.length * width);
      for (let i = 0; i < tableA.distinct.length; i += 1) {
        for (let j = 0; j < width; j += 1) holds[i * width + j] = meet(fails, a.from, i, b.from, j);
      }
      return holds;
    },
  };
};

const meet = (fails: (a: number, b: number) => boolean, fromA: Int32Array, i: number, fromB: Int32Array, j: number): 0 | 1 => {
  for (let x = fromA[i] as number; x < (fromA[i + 1] as number); x += 1) {
    for (let y = fromB[j] as number; y < (fromB[j + 1] as number); y += 1) if (!fails(x, y)) return 1;
  }
  return 0;
};

/** Every fact of every reading in one row, and where each reading's begin; one longer than the readings. */
export interface Places {
  readonly facts: readonly Fact[];
  readonly from: Int32Array;
}

export const placesIn = ({ distinct }: ReadTable): Places => {
  const from = new Int32Array(distinct.length + 1);
  distinct.forEach((facts, i) => {
    from[i + 1] = (from[i] as number) + facts.length;
  });
  return { facts: distinct.flat(), from };
};

/** Sizes are put in nanometres once for each fact, not for each pair. What is not known is NaN, which is neither too small nor too large. */
const differenceFails = ({ per, asked }: Difference, a: Places, b: Places, aFirst: boolean): ((a: number, b: number) => boolean) => {
  const [one, other] = aFirst ? [limitsIn(a, per), limitsIn(b, per)] : [limitsIn(b, per), limitsIn(a, per)];
  const [least, greatest] = [nanometres(asked.least), nanometres(asked.greatest)];
  const { low: lowOne, high: highOne } = one;
  const { low: lowOther, high: highOther } = other;
  const fails = (first: number, second: number): boolean =>
    (highOne[first] as number) - (lowOther[second] as number) < least ||
    (lowOne[first] as number) - (highOther[second] as number) > greatest;
  return aFirst ? fails : (atA, atB) => fails(atB, atA);
};

export const limitsIn = ({ facts }: Places, per: 1 | 2): { readonly low: Float64Array; readonly high: Float64Array } => {
  const low = new Float64Array(facts.length).fill(Number.NaN);
  const high = new Float64Array(facts.length).fill(Number.NaN);
  facts.forEach((fact, i) => {
    if (fact.kind === 'not known') return;
    if (fact.kind !== 'measure') throw new TypeError(`a ${fact.kind} where a fit compares a measure`);
    const limits = limitsOf(fact);
    low[i] = limits.low / per;
    high[i] = limits.high / per;
  });
  return { low, high };
};

const otherFails =
  (comparison: Comparison, a: Places, b: Places, aFirst: boolean): ((a: number, b: number) => boolean) =>
  (atA, atB) => {
    const [first, second] = aFirst ? [a.facts[atA], b.facts[atB]] : [b.facts[atB], a.facts[atA]];
    return comparisonFails(comparison, (feature) => (feature === comparison.first ? first : second));
  };

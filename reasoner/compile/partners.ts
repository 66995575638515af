import type { Joint, Part } from '../atlas/atlas.ts';
import { comparisonsOf } from '../fits/comparisons.ts';
import type { FeatureId, SlotId } from '../ids.ts';
import { factTablesOf, readAsMade } from './fact-tables.ts';
import { meetings } from './meetings.ts';

/**
 * For each of the parts `as` of port a the places of those among `bs` of port b that do not fail there as both are made: those of which
 * `judgeJoint` does not say *will not fit*. Each comparison is asked once for each pair of distinct facts, so that among many parts it takes a
 * small share of the time of judging every pair.
 * @param slotOf the slot a feature is of
 */
export const partnersOf = (
  joint: Joint,
  slots: { readonly a: SlotId; readonly b: SlotId },
  slotOf: (feature: FeatureId) => SlotId,
  as: readonly Part[],
  bs: readonly Part[],
): ((a: number) => readonly number[]) => {
  const [readA, readB] = [readAsMade(factTablesOf(as)), readAsMade(factTablesOf(bs))];
  const asked = joint.rules.flatMap(comparisonsOf).map((comparison) => {
    const aFirst = slotOf(comparison.first) === slots.a;
    const [ofA, ofB] = aFirst ? [comparison.first, comparison.second] : [comparison.second, comparison.first];
    const [tableA, tableB] = [readA(ofA), readB(ofB)];
    return { a: tableA.of, b: tableB.of, wide: tableB.distinct.length, holds: meetings(comparison, tableA, tableB, aFirst).holds() };
  });
  const all = bs.map((_, j) => j);
  return (i) =>
    asked.reduce((left, { a, b, wide, holds }) => {
      const row = (a[i] as number) * wide;
      return left.filter((j) => holds[row + (b[j] as number)] === 1);
    }, all);
};

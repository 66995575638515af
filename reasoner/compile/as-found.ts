import { type ChoiceSpace, spaceOf } from '../algebra/choices.ts';
import type { Fact } from '../atlas/atlas.ts';
import type { Operation } from '../atlas/operation.ts';
import { comparisonsOf } from '../fits/comparisons.ts';
import { type AsFound, changedBy, leftOf, readForLeft } from '../fits/work/left.ts';
import type { FeatureId } from '../ids.ts';
import type { FactTable, ReadOf, ReadTable } from './fact-tables.ts';
import { type End, type Mating, matingOf } from './mating.ts';
import { type Meetings, meetings } from './meetings.ts';
import { refine } from './refine.ts';

/** The distinct ways a feature may be found over the parts of a slot, and whose is which. */
export interface FoundTable {
  readonly distinct: readonly AsFound[];
  readonly of: Int32Array;
  /** Whether an operation could have left some part otherwise than it is made. */
  readonly worked: boolean;
}

/** How parts meet in a unit as found (J1), where any of them may have been machined: two fail where a comparison fails as made and after anything an operation could have left. */
export interface FoundJoints {
  /** By slot number: the mating class of each part, and how many there are. */
  readonly slots: Mating['slots'];
  /** Its pairings are numbered as the joints. */
  readonly space: ChoiceSpace;
  /** The comparisons in which work may count. */
  readonly worked: readonly WorkedMeeting[];
}

/** One comparison of a joint with the features it reads of the parts at port a and port b. Readings are places in `FoundTable.distinct`; of each, place 0 is as made, the others in the order of `left`. */
export interface WorkedMeeting extends Meetings {
  readonly joint: number;
  readonly a: FeatureId;
  readonly b: FeatureId;
}

/** The operations that may change each feature; a feature without any is not among them. */
export type Changing = ReadonlyMap<FeatureId, readonly Operation[]>;

export const changingOf = (operations: readonly Operation[]): Changing => {
  const changing = new Map<FeatureId, Operation[]>();
  for (const operation of operations) {
    for (const feature of new Set(changedBy(operation.does))) {
      const known = changing.get(feature);
      if (known) known.push(operation);
      else changing.set(feature, [operation]);
    }
  }
  return changing;
};

/** The tables of a slot before some of its parts came to say something else. */
export interface EarlierTables {
  readonly factsOf: (feature: FeatureId) => FactTable;
  readonly foundOf: (feature: FeatureId) => FoundTable;
}

/**
 * For each feature of one slot what operations could have left, worked out when first asked for.
 * @param before tables that stand where all the facts they were made of are the very same
 */
export const foundTablesOf = (
  changing: Changing,
  factsOf: (feature: FeatureId) => FactTable,
  before: EarlierTables | null = null,
): ((feature: FeatureId) => FoundTable) => {
  const made = new Map<FeatureId, FoundTable>();
  return (feature) => {
    const known = made.get(feature);
    if (known) return known;
    const operations = changing.get(feature);
    const read = operations ? readForLeft(operations, feature) : [feature];
    const stands = before !== null && read.every((each) => before.factsOf(each) === factsOf(each));
    const anew = () => (operations ? workedTable(operations, feature, factsOf) : plainTable(factsOf(feature)));
    const table = stands ? before.foundOf(feature) : anew();
    made.set(feature, table);
    return table;
  };
};

const plainTable = ({ distinct, of }: FactTable): FoundTable => ({
  distinct: distinct.map((fact) => ({ made: fact, left: [] })),
  of,
  worked: false,
});

const workedTable = (operations: readonly Operation[], feature: FeatureId, factsOf: (feature: FeatureId) => FactTable): FoundTable => {
  const read = readForLeft(operations, feature);
  const tables = read.map(factsOf);
  const [own] = tables as [FactTable];
  // Parts alike in all that is read are worked out once, and ways of being found that come to the same are one.
  const { of, example } = refine(own.of.length, tables);
  const byMeaning = new Map<string, number>();
  const distinct: AsFound[] = [];
  const numbers = Array.from(example, (part) => {
    const facts = new Map(read.map((each, i) => [each, tables[i]?.distinct[tables[i]?.of[part] as number] as Fact]));
    const found: AsFound = { made: facts.get(feature) as Fact, left: leftOf(operations, feature, (each) => facts.get(each)) };
    const meaning = meaningOf(found, own.of[part] as number);
    const number = byMeaning.get(meaning) ?? distinct.push(found) - 1;
    byMeaning.set(meaning, number);
    return number;
  });
  return { distinct, of: of.map((group) => numbers[group] as number), worked: distinct.some(({ left }) => left.length > 0) };
};

/** Not as JSON, which has no word for a size without an end. */
const meaningOf = ({ left }: AsFound, made: number): string =>
  [made, ...left.map(({ operation, fact }) => `${operation} ${Object.values(fact).join(' ')}`)].join('|');

const asFound = new WeakMap<FoundTable, ReadTable>();

export const foundJointsOf = (
  partsIn: readonly number[],
  ends: readonly End[],
  slotOf: (feature: FeatureId) => number,
  foundOf: (slot: number, feature: FeatureId) => FoundTable,
  asMade: readonly ReadOf[],
  changing: Changing,
): FoundJoints => {
  const readOf = (slot: number, feature: FeatureId): ReadTable => {
    if (!changing.has(feature)) return (asMade[slot] as ReadOf)(feature);
    const table = foundOf(slot, feature);
    let answer = asFound.get(table);
    if (answer === undefined) {
      answer = { distinct: table.distinct.map(({ made, left }) => [made, ...left.map(({ fact }) => fact)]), of: table.of };
      asFound.set(table, answer);
    }
    return answer;
  };
  const { slots, joints } = matingOf(
    partsIn,
    ends,
    slotOf,
    partsIn.map((_, slot) => (feature: FeatureId) => readOf(slot, feature)),
  );
  const worked = ends.flatMap((end, joint) =>
    end.joint.rules.flatMap(comparisonsOf).flatMap((comparison): WorkedMeeting[] => {
      const aFirst = slotOf(comparison.first) === end.a;
      const [a, b] = aFirst ? [comparison.first, comparison.second] : [comparison.second, comparison.first];
      if (![a, b].some((feature, i) => changing.has(feature) && foundOf(i === 0 ? end.a : end.b, feature).worked)) return [];
      return [{ joint, a, b, ...meetings(comparison, readOf(end.a, a), readOf(end.b, b), aFirst) }];
    }),
  );
  const space = spaceOf(
    slots.map(({ count }) => count),
    joints,
  );
  return { slots, space, worked };
};

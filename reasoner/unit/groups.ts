import type { Classes } from '../algebra/pairing.ts';
import { keptFor } from '../plain/kept-for.ts';
import type { Meets } from './meets.ts';
import { excludersOf, type FeatureReadings, smallestMeeting, violatedBy } from './readings.ts';

/** Parts of one slot that are alike: in what they disagree with, and how they mate. */
export interface Group {
  /** Evidence each of which alone excludes these parts. */
  readonly violates: readonly number[];
  /** Smallest sets of observations of one dimension that exclude them together: one says it was machined, another that it was not. */
  readonly violatesTogether: readonly (readonly number[])[];
  /** The unit's own mating class. */
  readonly mating: number;
  readonly parts: readonly number[];
}

/** The parts of a slot in groups. */
export interface Grouped {
  readonly groups: readonly Group[];
  /** Group of each part. */
  readonly groupOf: Int32Array;
}

/** Live groups as they are asked about: listed, each by its number, and how many parts they hold together. */
export interface Living {
  readonly live: readonly number[];
  /** Of each group. */
  readonly isLive: Uint8Array;
  readonly liveParts: number;
}

interface Agreeing extends Living {
  /** Their mating classes, each once. */
  readonly classes: Classes;
}

/** The groups that agree with every observation; of groups that stand for many units they are found once. */
export const agreeingIn = keptFor((groups: readonly Group[]): Agreeing => {
  const found: number[] = [];
  for (let i = 0; i < groups.length; i += 1) if (!isExcluded(groups[i] as Group)) found.push(i);
  return { ...livingIn(groups, found), classes: classesOf(groups, found) };
});

export const livingIn = (groups: readonly Group[], live: readonly number[]): Living => {
  const isLive = new Uint8Array(groups.length);
  for (const group of live) isLive[group] = 1;
  return { live, isLive, liveParts: live.reduce((sum, group) => sum + (groups[group] as Group).parts.length, 0) };
};

/** The parts of these groups of a slot, group by group; of those left in it unless others are named. */
export const partsIn = (slot: Pick<Grouped, 'groups'> & Pick<Living, 'live'>, groups: readonly number[] = slot.live): number[] =>
  groups.flatMap((group) => (slot.groups[group] as Group).parts);

const none: readonly never[] = [];

export const isExcluded = ({ violates, violatesTogether }: Pick<Group, 'violates' | 'violatesTogether'>): boolean =>
  violates.length > 0 || violatesTogether.length > 0;

/** The evidence that alone keeps these parts out: set aside, any one of it leaves them candidates. */
export const soleExcluders = ({ violates, violatesTogether }: Pick<Group, 'violates' | 'violatesTogether'>): readonly number[] => {
  if (violatesTogether.length === 0) return violates.length === 1 ? violates : none;
  const [first, ...others] = [...violates.map((label) => [label]), ...violatesTogether];
  return first?.filter((label) => others.every((set) => set.includes(label))) ?? none;
};

export type SlotClasses = Meets['classes'][number];

/** How a slot's parts are grouped stays with what was read of it: the next unit is mostly the same with one entry more, in one slot. */
export const keptGroups = (classes: SlotClasses, readings: readonly FeatureReadings[], absent: number | null): Grouped => {
  const before = groupedBy.get(readings);
  if (before?.classes === classes && before.absent === absent) return before.grouped;
  const grouped = groupsOf(classes, readings, absent);
  groupedBy.set(readings, { classes, absent, grouped });
  return grouped;
};

const groupedBy = new WeakMap<
  readonly FeatureReadings[],
  { readonly classes: SlotClasses; readonly absent: number | null; readonly grouped: Grouped }
>();

/** Parts of a slot, grouped by what they violate and how they mate. Each observation is judged once for each distinct way a feature may be found. */
const groupsOf = (classes: SlotClasses, readings: readonly FeatureReadings[], absent: number | null): Grouped => {
  const telling = readings.map(effectsOf).filter(({ effects }) => effects.length > 1 || effects.some(isExcluded));
  if (absent === null && telling.length === 0) return untouched(classes);
  let groupOf = classes.of;
  const missing = absent === null ? none : [absent];
  let groups: Omit<Group, 'parts'>[] = Array.from({ length: classes.count }, (_, mating) => ({
    violates: missing,
    violatesTogether: none,
    mating,
  }));
  for (const { of, numbers, effects } of telling) {
    const number = new Int32Array(groups.length * effects.length).fill(-1);
    const next: Omit<Group, 'parts'>[] = [];
    const after = effects.map((effect) => withEffect(effect));
    const groupBefore = groupOf;
    groupOf = new Int32Array(groupBefore.length);
    for (let part = 0; part < groupBefore.length; part += 1) {
      const [group, effect] = [groupBefore[part] as number, numbers[of[part] as number] as number];
      const key = group * effects.length + effect;
      if (number[key] === -1) number[key] = next.push((after[effect] as (typeof after)[number])(groups[group] as Omit<Group, 'parts'>)) - 1;
      groupOf[part] = number[key] as number;
    }
    groups = next;
  }
  return { groups: withParts(groups, groupOf), groupOf };
};

const withParts = (groups: readonly Omit<Group, 'parts'>[], groupOf: Int32Array): Group[] => {
  const parts: number[][] = groups.map(() => []);
  groupOf.forEach((group, part) => {
    (parts[group] as number[]).push(part);
  });
  return groups.map(({ violates, violatesTogether, mating }, i) => ({ violates, violatesTogether, mating, parts: parts[i] as number[] }));
};

/** Of slots nothing was read of: one group for each class. Most slots of most units are such, and they are the same for all units of an atlas. */
const untouched = keptFor((classes: SlotClasses): Grouped => {
  const groups = Array.from({ length: classes.count }, (_, mating) => ({ violates: none, violatesTogether: none, mating }));
  return { groups: withParts(groups, classes.of), groupOf: classes.of };
});

type Effect = Pick<Group, 'violates' | 'violatesTogether'>;

/** What the readings of a feature do to a part, by the ways it may be found: the different effects, and which each way of the table has. */
interface Effects {
  readonly of: Int32Array;
  readonly numbers: readonly number[];
  readonly effects: readonly Effect[];
}

const effectsOf = (read: FeatureReadings): Effects => {
  const known = new Map<string, number>();
  const effects: Effect[] = [];
  const numbers = read.table.distinct.map((_, entry) => {
    const violates = violatedBy(read, entry);
    const violatesTogether = read.labels.length > 1 && read.tellsOfWork ? smallestMeeting(excludersOf(read, entry)) : none;
    const key = `${violates.join()}|${violatesTogether.join('|')}`;
    const number = known.get(key) ?? effects.push({ violates, violatesTogether }) - 1;
    known.set(key, number);
    return number;
  });
  return { of: read.table.of, numbers, effects };
};

/** A group with one effect more. Groups that shared what they violate share it still: there are thousands of groups and a few dozen ways to violate something. */
const withEffect = ({ violates, violatesTogether }: Effect): ((group: Omit<Group, 'parts'>) => Omit<Group, 'parts'>) => {
  const alone = keptFor((before: Group['violates']) => [...before, ...violates].sort((a, b) => a - b));
  const together = keptFor((before: Group['violatesTogether']) => [...before, ...violatesTogether]);
  return (group) => ({
    violates: violates.length === 0 ? group.violates : alone(group.violates),
    violatesTogether: violatesTogether.length === 0 ? group.violatesTogether : together(group.violatesTogether),
    mating: group.mating,
  });
};

/** The unit's own mating class of a part. */
export const classOf = (slot: Grouped, part: number): number => (slot.groups[slot.groupOf[part] as number] as Group).mating;

/** The mating classes of some of these groups, each once. */
export const classesOf = (all: readonly Group[], groups: readonly number[]): Classes =>
  Int32Array.from(new Set(groups.map((group) => (all[group] as Group).mating)));

const fewGroups = 16;

/** The same of a slot, of few groups or of thousands. */
export const matingsOf = (slot: Pick<Grouped, 'groups'> & { readonly matingCount: number }, groups: readonly number[]): Classes => {
  // Thousands of names ask for a handful of groups each.
  if (groups.length <= fewGroups) return classesOf(slot.groups, groups);
  const seen = new Uint8Array(slot.matingCount);
  const all = new Int32Array(groups.length);
  let count = 0;
  for (const group of groups) {
    const { mating } = slot.groups[group] as Group;
    if (seen[mating] === 1) continue;
    seen[mating] = 1;
    all[count] = mating;
    count += 1;
  }
  return all.slice(0, count);
};

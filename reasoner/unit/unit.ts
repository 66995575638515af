import { type ChoiceSpace, choosableClasses, type Domains, hasChoice, spaceOf } from '../algebra/choices.ts';
import { dualize } from '../algebra/dualize.ts';
import { type Classes, narrowed, type Pairing, rowMeets } from '../algebra/pairing.ts';
import type { Member } from '../answer/verdict.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import type { SlotId } from '../ids.ts';
import { keptFor } from '../plain/kept-for.ts';
import { type UnlistedNumber, unlistedNumber } from '../plate/unlisted-number.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { type Loosened, type Meets, meetsOf } from './meets.ts';
import { excludersOf, type FeatureReadings, type Held, keptReadings, smallestMeeting, violatedBy } from './readings.ts';

/**
 * One unit held against the atlas: for every slot the listed parts grouped by which observations they violate and how they mate,
 * which slots are doubtful, and which groups some complete choice still has (SPEC, Worlds and statuses).
 */
export interface Unit {
  readonly atlas: CompiledAtlas;
  readonly sheet: Sheet;
  /** What may be held against a part: the observations that are not told, then the absences. A group's `violates` indexes this. */
  readonly evidence: readonly Extract<Member, { kind: 'observation' | 'absent' }>[];
  readonly slots: readonly UnitSlot[];
  /** Minimal sets of slots that cannot all hold listed parts agreeing with their observations. */
  readonly selfConflicts: readonly (readonly number[])[];
  /** How the groups' mating classes meet with every observation kept, pairings numbered as the joints, and with any set aside (J1). */
  readonly space: ChoiceSpace;
  readonly loosened: () => Loosened;
}

export interface UnitSlot {
  readonly of: CompiledSlot;
  readonly groups: readonly Group[];
  /** Group of each part. */
  readonly groupOf: Int32Array;
  /** How many mating classes the unit has here. */
  readonly matingCount: number;
  /** Groups that agree with every observation: C1's listed candidates. */
  readonly agreeing: readonly number[];
  /** Of those, the ones in some complete choice; where the slot is doubtful, all of them. */
  readonly live: readonly number[];
  /** Whether each group is live, and how many parts the live ones hold together. */
  readonly isLive: Uint8Array;
  readonly liveParts: number;
  readonly doubtful: boolean;
  readonly absent: boolean;
  /** The observations of this slot that count as evidence. */
  readonly observations: readonly Observation[];
  /** Of a plate: that it is one of a maker's whose number is not listed (O5). It is a candidate beside the listed parts and fits everything. */
  readonly unlisted: UnlistedNumber | null;
  /** The same, feature by feature, held against every way a part may be found (O2). */
  readonly readings: readonly FeatureReadings[];
}

export interface Group {
  /** Evidence each of which alone excludes these parts. */
  readonly violates: readonly number[];
  /** Smallest sets of observations of one dimension that exclude them together: one says it was machined, another that it was not. */
  readonly violatesTogether: readonly (readonly number[])[];
  /** The unit's own mating class. */
  readonly mating: number;
  readonly parts: readonly number[];
}

/** @throws when the sheet names a slot or feature the atlas does not have: the door should have refused it */
export const unitOf = (atlas: CompiledAtlas, sheet: Sheet): Unit => {
  const { of, slots } = heldAgainst(atlas, sheet);
  return unitOfSlots(of, slots);
};

/** What a sheet says of each slot, before it is asked what of it goes together. @throws as `unitOf` */
export const heldAgainst = (atlas: CompiledAtlas, sheet: Sheet): { readonly of: Ground; readonly slots: readonly HeldSlot[] } => {
  const seen = sheet.observations.filter((observation) => observation.sure.kind !== 'told');
  const evidence: Unit['evidence'] = [
    ...seen.map((observation) => ({ kind: 'observation', observation: observation.id }) as const),
    ...sheet.absent.map((slot) => ({ kind: 'absent', slot }) as const),
  ];
  const held = heldBySlot(atlas, seen);
  const readings = atlas.slots.map((slot, i) => keptReadings(atlas, slot, held[i] as readonly Held[]));
  const { classes, space, loosened } = meetsOf(atlas, readings);
  const grouped = atlas.slots.map((slot, i): HeldSlot => {
    const [own, ofClasses] = [held[i] as readonly Held[], classes[i] as SlotClasses];
    const absent = sheet.absent.indexOf(slot.data.id);
    if (own.length === 0 && absent < 0) return unread(slot)(ofClasses);
    return {
      of: slot,
      absent: absent >= 0,
      observations: own.map(({ observation }) => observation),
      readings: readings[i] as readonly FeatureReadings[],
      unlisted: unlistedIn(atlas, sheet, slot, own.length),
      matingCount: ofClasses.count,
      ...keptGroups(ofClasses, readings[i] as readonly FeatureReadings[], absent < 0 ? null : seen.length + absent),
    };
  });
  return { of: { atlas, sheet, evidence, space, loosened }, slots: grouped };
};

/** Most slots of most units had nothing read of them: such a slot is the same for all units whose entries leave its classes as they are. */
const unread = keptFor((slot: CompiledSlot) =>
  keptFor(
    (classes: SlotClasses): HeldSlot => ({
      of: slot,
      absent: false,
      observations: [],
      readings: [],
      unlisted: null,
      matingCount: classes.count,
      ...untouched(classes),
    }),
  ),
);

/** By slot what was seen of it, each observation under its place among all. */
const heldBySlot = (atlas: CompiledAtlas, seen: readonly Observation[]): readonly (readonly Held[])[] => {
  const held = new Map<SlotId, Held[]>(atlas.slots.map(({ data }) => [data.id, []]));
  for (const [label, observation] of seen.entries()) held.get(observation.slot)?.push({ label, observation });
  return [...held.values()];
};

/** @param seen how many observations of the slot count as evidence */
export const unlistedIn = (atlas: CompiledAtlas, sheet: Sheet, { data: slot }: CompiledSlot, seen: number): UnlistedNumber | null =>
  slot.group === 'plate' && seen > 0 ? unlistedNumber(atlas, sheet) : null;

export type Ground = Pick<Unit, 'atlas' | 'sheet' | 'evidence' | 'space' | 'loosened'>;

/** What was held against each slot's parts, before it is asked what of it goes together. */
export type HeldSlot = Omit<UnitSlot, 'agreeing' | 'live' | 'isLive' | 'liveParts' | 'doubtful'>;

/** The unit these slots make: what agrees, which slots are doubtful, and what of the rest is in some complete choice. */
export const unitOfSlots = (of: Ground, held: readonly HeldSlot[]): Unit => {
  const unit = doubtedUnit(of, held);
  const live = liveGroups(of.space, unit.slots);
  return {
    ...unit,
    slots: unit.slots.map((slot, i) =>
      live[i] === slot.live ? slot : { ...slot, ...livingIn(slot.groups, live[i] as readonly number[]) },
    ),
  };
};

/** The same with every agreeing part left in, whether or not some complete choice has it. */
export const doubtedUnit = (of: Ground, held: readonly HeldSlot[]): Unit => {
  const selfConflicts = selfConflictsOf(
    of,
    held.map(({ unlisted, groups }) => (unlisted === null ? agreeingIn(groups).classes : null)),
  );
  const doubtful = new Set(selfConflicts.flat());
  const slots = held.map(asAgreeing);
  return { ...of, selfConflicts, slots: slots.map((slot, i) => (doubtful.has(i) ? { ...slot, doubtful: true } : slot)) };
};

/** A slot with all that agrees left in it, not doubted. It stays with what was held against the slot, which of most slots is nothing. */
const asAgreeing = keptFor((held: HeldSlot): UnitSlot => {
  const { live, isLive, liveParts } = agreeingIn(held.groups);
  return { ...held, agreeing: live, live, isLive, liveParts, doubtful: false };
});

/** Live groups as they are asked about: listed, each by its number, and how many parts they hold together. */
type Living = Pick<UnitSlot, 'live' | 'isLive' | 'liveParts'>;

interface Agreeing extends Living {
  /** Their mating classes, each once. */
  readonly classes: Classes;
}

/** The groups that agree with every observation; of groups that stand for many units they are found once. */
const agreeingIn = keptFor((groups: readonly Group[]): Agreeing => {
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
export const partsIn = (slot: Pick<UnitSlot, 'groups' | 'live'>, groups: readonly number[] = slot.live): number[] =>
  groups.flatMap((group) => (slot.groups[group] as Group).parts);

export const isExcluded = ({ violates, violatesTogether }: Pick<Group, 'violates' | 'violatesTogether'>): boolean =>
  violates.length > 0 || violatesTogether.length > 0;

/** The evidence that alone keeps these parts out: set aside, any one of it leaves them candidates. */
export const soleExcluders = ({ violates, violatesTogether }: Pick<Group, 'violates' | 'violatesTogether'>): readonly number[] => {
  if (violatesTogether.length === 0) return violates.length === 1 ? violates : none;
  const [first, ...others] = [...violates.map((label) => [label]), ...violatesTogether];
  return first?.filter((label) => others.every((set) => set.includes(label))) ?? none;
};

const none: readonly never[] = [];

type Grouped = Pick<UnitSlot, 'groups' | 'groupOf'>;
type SlotClasses = Meets['classes'][number];

/** How a slot's parts are grouped stays with what was read of it: the next unit is mostly the same with one entry more, in one slot. */
const keptGroups = (classes: SlotClasses, readings: readonly FeatureReadings[], absent: number | null): Grouped => {
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
const untouched = (classes: SlotClasses): Grouped => {
  let grouped = plain.get(classes);
  if (grouped === undefined) {
    const groups = Array.from({ length: classes.count }, (_, mating) => ({ violates: none, violatesTogether: none, mating }));
    grouped = { groups: withParts(groups, classes.of), groupOf: classes.of };
    plain.set(classes, grouped);
  }
  return grouped;
};

const plain = new WeakMap<SlotClasses, Grouped>();

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
  const alone = remembered((before: Group['violates']) => [...before, ...violates].sort((a, b) => a - b));
  const together = remembered((before: Group['violatesTogether']) => [...before, ...violatesTogether]);
  return (group) => ({
    violates: violates.length === 0 ? group.violates : alone(group.violates),
    violatesTogether: violatesTogether.length === 0 ? group.violatesTogether : together(group.violatesTogether),
    mating: group.mating,
  });
};

const remembered = <Given, Made>(make: (given: Given) => Made): ((given: Given) => Made) => {
  const known = new Map<Given, Made>();
  return (given) => {
    let made = known.get(given);
    if (made === undefined) {
      made = make(given);
      known.set(given, made);
    }
    return made;
  };
};

/** How mating classes meet: of a unit with all that was read of it, or (`beside`) with some of that set aside. */
export interface Within {
  readonly space: ChoiceSpace;
  /** By pairing, whether it counts; all do where it is left out. */
  readonly active?: Uint8Array;
}

/** The unit with the observations of some slots set aside, for the question whether a choice exists. */
export const beside = (unit: Unit, slots: ReadonlySet<number>): Within => {
  const { space, pairings } = unit.loosened();
  if (space === unit.space) return unit;
  const gone = labelsOf(unit, slots);
  return { space, active: Uint8Array.from(pairings, ({ needs }) => (needs.some((label) => gone.has(label)) ? 0 : 1)) };
};

/** The same as ground for another unit. */
export const groundBeside = (unit: Unit, slots: ReadonlySet<number>): Pick<Unit, 'space' | 'loosened'> => {
  const { space, pairings } = unit.loosened();
  if (space === unit.space) return unit;
  const gone = labelsOf(unit, slots);
  const left = pairings.flatMap(({ joint, needs }, at) => (needs.some((label) => gone.has(label)) ? [] : [{ joint, needs, at }]));
  // Nothing of what is set aside tells of a joint.
  if (left.length === pairings.length) return unit;
  const counts = unit.slots.map(({ matingCount }) => matingCount);
  const loosened: Loosened = {
    space: spaceOf(
      counts,
      left.map(({ at }) => space.pairings[at] as Pairing),
    ),
    pairings: left.map(({ joint, needs }) => ({ joint, needs })),
  };
  const tight = unit.atlas.joints.map(({ number }) => {
    const ofJoint = left.filter(({ joint }) => joint === number);
    // What readings leave of a joint is part of what it is without them.
    const narrower = ofJoint.filter(({ needs }) => needs.length > 0);
    return (narrower.length > 0 ? narrower : ofJoint).map(({ at }) => space.pairings[at] as Pairing).reduce(inBoth);
  });
  return { space: spaceOf(counts, tight), loosened: () => loosened };
};

const labelsOf = (unit: Unit, slots: ReadonlySet<number>): ReadonlySet<number> => {
  const ids = new Set([...slots].map((slot) => unit.slots[slot]?.of.data.id));
  const slotOf = new Map(unit.sheet.observations.map(({ id, slot }) => [id, slot]));
  return new Set(
    unit.evidence.flatMap((each, label) => (each.kind === 'observation' && ids.has(slotOf.get(each.observation)) ? [label] : [])),
  );
};

/** What meets in both of two pairings of the same slots. */
const inBoth = (one: Pairing, other: Pairing): Pairing =>
  narrowed(one, { group: other.ofA.of }, { group: other.ofB.of }, (rowA, rowB) => rowMeets(other.ofA, rowA, rowB));

/** The unit's own mating class of a part. */
export const classOf = (slot: Pick<UnitSlot, 'groups' | 'groupOf'>, part: number): number =>
  (slot.groups[slot.groupOf[part] as number] as Group).mating;

const domainsWithin = ({ active }: Within, matings: readonly (Classes | null)[]): Domains => ({
  classes: matings,
  ...(active === undefined ? {} : { active }),
});

/** Whether the slots, each given the mating classes it may have (null: free), can be chosen for with no failing joint. */
export const choiceExists = (within: Within, matings: readonly (Classes | null)[]): boolean =>
  hasChoice(within.space, domainsWithin(within, matings));

/** For one slot, which of its mating classes some choice has. */
export const choosable = (within: Within, matings: readonly (Classes | null)[], slot: number): Classes =>
  choosableClasses(within.space, domainsWithin(within, matings))[slot] ?? new Int32Array(0);

/** The mating classes of some of these groups, each once. */
export const classesOf = (all: readonly Group[], groups: readonly number[]): Classes =>
  Int32Array.from(new Set(groups.map((group) => (all[group] as Group).mating)));

const fewGroups = 16;

/** The same of a slot, of few groups or of thousands. */
export const matingsOf = (slot: Pick<UnitSlot, 'groups' | 'matingCount'>, groups: readonly number[]): Classes => {
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

/** Minimal sets of slots that cannot all hold a listed part of these mating classes (null: any that fits). The unlisted part, which fits everything, takes the place of the others. */
export const selfConflictsOf = (within: Within, matings: readonly (Classes | null)[]): number[][] =>
  choiceExists(within, matings)
    ? []
    : dualize(
        matings.length,
        (kept) =>
          choiceExists(
            within,
            matings.map((list, slot) => (kept[slot] === 1 ? list : null)),
          ),
        Number.POSITIVE_INFINITY,
        // A slot with nothing to choose from need not be looked for.
        matings.flatMap((list, slot) => (list?.length === 0 ? [[slot]] : [])),
      ).conflicts;

/** For every slot outside the doubtful ones, the agreeing groups that some complete choice has; where that is every one, the very list. */
const liveGroups = (space: ChoiceSpace, slots: readonly UnitSlot[]): (readonly number[])[] => {
  const held = slots.map(({ doubtful, groups }) => (doubtful ? null : agreeingIn(groups).classes));
  // A plate whose number is not listed fits everything, so that nothing else falls out for want of a listed one.
  const matings = held.map((own, i) => (slots[i]?.unlisted === null ? own : null));
  const all = choosableClasses(space, domainsWithin({ space }, matings));
  return slots.map((slot, i) => {
    const own = held[i] ?? null;
    if (own === null) return slot.agreeing;
    const possible =
      slot.unlisted === null
        ? (all[i] as Classes)
        : choosable(
            { space },
            matings.map((each, other) => (other === i ? own : each)),
            i,
          );
    if (possible.length === own.length) return slot.agreeing;
    const flags = new Uint8Array(slot.matingCount);
    for (const each of possible) flags[each] = 1;
    return slot.agreeing.filter((group) => flags[(slot.groups[group] as Group).mating] === 1);
  });
};

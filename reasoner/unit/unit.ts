import { choosableClasses, classesIn, domainsOf, findChoice } from '../algebra/choices.ts';
import { eliminate, type Table } from '../algebra/eliminate.ts';
import { type Family, labelSets } from '../algebra/label-sets.ts';
import { conflictRing } from '../algebra/network.ts';
import type { Feature } from '../atlas/atlas.ts';
import { type CompiledAtlas, type CompiledSlot, slotAt } from '../atlas/compile.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import type { Member } from '../verdict/verdict.ts';
import { agrees } from './agree.ts';

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
}

export interface UnitSlot {
  readonly of: CompiledSlot;
  readonly groups: readonly Group[];
  /** Group of each part. */
  readonly groupOf: Int32Array;
  /** Groups that agree with every observation: C1's listed candidates. */
  readonly agreeing: readonly number[];
  /** Of those, the ones in some complete choice; where the slot is doubtful, all of them. */
  readonly live: readonly number[];
  readonly doubtful: boolean;
  readonly absent: boolean;
  /** The observations of this slot that count as evidence. */
  readonly observations: readonly Observation[];
}

export interface Group {
  readonly violates: readonly number[];
  readonly mating: number;
  readonly parts: readonly number[];
}

/** @throws when the sheet names a slot or feature the atlas does not have: the door should have refused it */
export const unitOf = (atlas: CompiledAtlas, sheet: Sheet): Unit => {
  const told = sheet.observations.filter((observation) => observation.sure.kind !== 'told');
  const evidence: Unit['evidence'] = [
    ...told.map((observation) => ({ kind: 'observation', observation: observation.id }) as const),
    ...sheet.absent.map((slot) => ({ kind: 'absent', slot }) as const),
  ];
  const grouped = atlas.slots.map((slot) => {
    const held: Held[] = told.flatMap((observation, label) => (observation.slot === slot.slot.id ? [{ label, observation }] : []));
    const absent = sheet.absent.indexOf(slot.slot.id);
    return {
      of: slot,
      absent: absent >= 0,
      observations: held.map(({ observation }) => observation),
      ...groupsOf(atlas, slot, held, absent < 0 ? null : told.length + absent),
    };
  });
  const agreeing = grouped.map(({ groups }) => groups.flatMap((group, i) => (group.violates.length === 0 ? [i] : [])));
  const before = grouped.map(
    (slot, i): UnitSlot => ({ ...slot, agreeing: agreeing[i] as number[], live: agreeing[i] as number[], doubtful: false }),
  );
  const selfConflicts = selfConflictsOf(
    atlas,
    before.map((slot) => matingsOf(slot, slot.agreeing)),
  );
  const doubtful = new Set(selfConflicts.flat());
  const live = liveGroups(atlas, before, doubtful);
  return {
    atlas,
    sheet,
    evidence,
    selfConflicts,
    slots: before.map((slot, i) => ({ ...slot, live: live[i] as readonly number[], doubtful: doubtful.has(i) })),
  };
};

interface Held {
  readonly label: number;
  readonly observation: Observation;
}

/** Parts of a slot, grouped by what they violate and how they mate. Each observation is judged once for each distinct fact. */
const groupsOf = (
  atlas: CompiledAtlas,
  slot: CompiledSlot,
  held: readonly Held[],
  absent: number | null,
): { groups: Group[]; groupOf: Int32Array } => {
  let groupOf = Int32Array.from(slot.matingOf);
  let groups: Omit<Group, 'parts'>[] = Array.from({ length: slot.matingCount }, (_, mating) => ({
    violates: absent === null ? [] : [absent],
    mating,
  }));
  for (const { label, observation } of held) {
    const feature = atlas.features.get(observation.feature) as Feature | undefined;
    if (!feature || feature.slot !== slot.slot.id)
      throw new Error(`observation ${observation.id} is of ${observation.feature}, no feature of ${slot.slot.id}`);
    const facts = slot.factsOf(feature.id);
    const fails = facts.distinct.map((fact) => agrees(feature, fact, observation) === 'fails');
    if (!fails.includes(true)) continue;
    const split = new Map<number, number>();
    const next: Omit<Group, 'parts'>[] = [];
    groupOf = groupOf.map((group, part) => {
      const failing = fails[facts.of[part] as number] as boolean;
      const key = group * 2 + (failing ? 1 : 0);
      let number = split.get(key);
      if (number === undefined) {
        const from = groups[group] as Omit<Group, 'parts'>;
        number = next.push(failing ? { mating: from.mating, violates: [...from.violates, label] } : from) - 1;
        split.set(key, number);
      }
      return number;
    });
    groups = next;
  }
  const parts: number[][] = groups.map(() => []);
  groupOf.forEach((group, part) => {
    (parts[group] as number[]).push(part);
  });
  return { groups: groups.map((group, i) => ({ ...group, parts: parts[i] as number[] })), groupOf };
};

/**
 * The joints as tables over slots given as lists of mating classes. `variableOf` maps a slot to its variable; joints with an end
 * outside are left out (the unlisted part fits everything, J3), and so are joints that hold throughout.
 */
export const jointTables = (
  atlas: CompiledAtlas,
  variableOf: readonly (number | null)[],
  matings: readonly (readonly number[])[],
  holds: Family,
  fails: (joint: number) => Family,
): Table[] =>
  atlas.joints.flatMap((joint): Table[] => {
    const a = variableOf[joint.a] ?? null;
    const b = variableOf[joint.b] ?? null;
    if (a === null || b === null) return [];
    const width = slotAt(atlas, joint.b).matingCount;
    const [rows, columns] = [matings[a] as readonly number[], matings[b] as readonly number[]];
    const worth = new Int32Array(rows.length * columns.length).fill(holds);
    let any = false;
    rows.forEach((row, i) => {
      columns.forEach((column, k) => {
        if (joint.holds[row * width + column] === 1) return;
        worth[i * columns.length + k] = fails(joint.number);
        any = true;
      });
    });
    return any ? [{ scope: [a, b], worth }] : [];
  });

/** Whether the slots, each given the mating classes it may have (null: free), can be chosen for with no failing joint. */
export const choiceExists = (atlas: CompiledAtlas, matings: readonly (readonly number[] | null)[]): boolean =>
  findChoice(atlas.space, domainsOf(atlas.space, matings)) !== null;

/** For one slot, which of its mating classes some choice has. */
export const choosable = (atlas: CompiledAtlas, matings: readonly (readonly number[] | null)[], slot: number): readonly number[] =>
  classesIn(atlas.space, choosableClasses(atlas.space, domainsOf(atlas.space, matings)), slot);

export const variables = <L extends readonly unknown[]>(domains: readonly (L | null)[]): { variableOf: (number | null)[]; lists: L[] } => {
  const lists: L[] = [];
  const variableOf = domains.map((domain) => (domain === null ? null : lists.push(domain) - 1));
  return { variableOf, lists };
};

export const matingsOf = (slot: UnitSlot, groups: readonly number[]): number[] => [
  ...new Set(groups.map((group) => (slot.groups[group] as Group).mating)),
];

/** Minimal sets of slots in conflict with themselves. One value stands for the unlisted part: it costs the slot's label and meets everything. */
export const selfConflictsOf = (atlas: CompiledAtlas, matings: readonly (readonly number[])[]): number[][] => {
  if (choiceExists(atlas, matings)) return [];
  const sets = labelSets(matings.length);
  const ring = conflictRing(sets);
  // The last value of every slot stands for the unlisted part.
  const domains = matings.map((list) => list.length + 1);
  const own = matings.map(
    (list, slot): Table => ({
      scope: [slot],
      worth: Int32Array.from({ length: list.length + 1 }, (_, value) => (value === list.length ? sets.of([slot]) : ring.one)),
    }),
  );
  const listed = jointTables(
    atlas,
    matings.map((_, slot) => slot),
    matings,
    ring.one,
    () => ring.zero,
  ).map(({ scope, worth }): Table => withUnlisted(scope, worth, (matings[scope[1] as number] as readonly number[]).length, ring.one));
  return sets.list(eliminate(domains, [...own, ...listed], ring));
};

/** The same table with one more row and one more column, in which everything holds. */
const withUnlisted = (scope: readonly number[], worth: Int32Array, columns: number, holds: Family): Table => {
  const rows = worth.length / columns;
  const wider = new Int32Array((rows + 1) * (columns + 1)).fill(holds);
  for (let row = 0; row < rows; row += 1) wider.set(worth.subarray(row * columns, (row + 1) * columns), row * (columns + 1));
  return { scope, worth: wider };
};

/** For every slot outside the doubtful ones, the agreeing groups that some complete choice has. */
const liveGroups = (atlas: CompiledAtlas, slots: readonly UnitSlot[], doubtful: ReadonlySet<number>): (readonly number[])[] => {
  const matings = slots.map((slot, i) => (doubtful.has(i) ? null : matingsOf(slot, slot.agreeing)));
  const choosable = choosableClasses(atlas.space, domainsOf(atlas.space, matings));
  return slots.map((slot, i) => {
    if (doubtful.has(i)) return slot.agreeing;
    const possible = new Set(classesIn(atlas.space, choosable, i));
    return slot.agreeing.filter((group) => possible.has((slot.groups[group] as Group).mating));
  });
};

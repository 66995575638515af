import { choosableClasses, classesIn, domainsOf, hasChoice } from '../algebra/choices.ts';
import { dualize } from '../algebra/dualize.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../atlas/compile.ts';
import { type UnlistedNumber, unlistedNumber } from '../plate/unlisted-number.ts';
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
  /** Whether each group is live, and how many parts the live ones hold together. */
  readonly isLive: Uint8Array;
  readonly liveParts: number;
  readonly doubtful: boolean;
  readonly absent: boolean;
  /** The observations of this slot that count as evidence. */
  readonly observations: readonly Observation[];
  /** Of a plate: that it is one of a maker's whose number is not listed (O5). It is a candidate beside the listed parts and fits everything. */
  readonly unlisted: UnlistedNumber | null;
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
  const grouped = atlas.slots.map((slot): HeldSlot => {
    const held: Held[] = told.flatMap((observation, label) => (observation.slot === slot.slot.id ? [{ label, observation }] : []));
    const absent = sheet.absent.indexOf(slot.slot.id);
    return {
      of: slot,
      absent: absent >= 0,
      observations: held.map(({ observation }) => observation),
      unlisted: slot.slot.group === 'plate' && held.length > 0 ? unlistedNumber(atlas, sheet) : null,
      ...groupsOf(atlas, slot, held, absent < 0 ? null : told.length + absent),
    };
  });
  return unitOfSlots({ atlas, sheet, evidence }, grouped);
};

/** What was held against each slot's parts, before it is asked what of it goes together. */
export type HeldSlot = Omit<UnitSlot, 'agreeing' | 'live' | 'isLive' | 'liveParts' | 'doubtful'>;

/** The unit these slots make: what agrees, which slots are doubtful, and what of the rest is in some complete choice. */
export const unitOfSlots = (of: Pick<Unit, 'atlas' | 'sheet' | 'evidence'>, held: readonly HeldSlot[]): Unit => {
  const { atlas } = of;
  const agreeing = held.map(({ groups }) => groups.flatMap((group, i) => (group.violates.length === 0 ? [i] : [])));
  const before = held.map(
    (slot, i): UnitSlot => ({
      ...slot,
      agreeing: agreeing[i] as number[],
      ...livingIn(slot.groups, agreeing[i] as number[]),
      doubtful: false,
    }),
  );
  const selfConflicts = selfConflictsOf(
    atlas,
    before.map((slot) => (slot.unlisted === null ? matingsOf(slot, slot.agreeing) : null)),
  );
  const doubtful = new Set(selfConflicts.flat());
  const live = liveGroups(atlas, before, doubtful);
  return {
    ...of,
    selfConflicts,
    slots: before.map((slot, i) => ({ ...slot, ...livingIn(slot.groups, live[i] as readonly number[]), doubtful: doubtful.has(i) })),
  };
};

/** The live groups as they are asked about: listed, each by its number, and how many parts they hold together. */
export const livingIn = (groups: readonly Group[], live: readonly number[]): Pick<UnitSlot, 'live' | 'isLive' | 'liveParts'> => {
  const isLive = new Uint8Array(groups.length);
  for (const group of live) isLive[group] = 1;
  return { live, isLive, liveParts: live.reduce((sum, group) => sum + (groups[group] as Group).parts.length, 0) };
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

/** Whether the slots, each given the mating classes it may have (null: free), can be chosen for with no failing joint. */
export const choiceExists = (atlas: CompiledAtlas, matings: readonly (readonly number[] | null)[]): boolean =>
  hasChoice(atlas.space, domainsOf(atlas.space, matings));

/** For one slot, which of its mating classes some choice has. */
export const choosable = (atlas: CompiledAtlas, matings: readonly (readonly number[] | null)[], slot: number): readonly number[] =>
  classesIn(atlas.space, choosableClasses(atlas.space, domainsOf(atlas.space, matings)), slot);

export const matingsOf = (slot: UnitSlot, groups: readonly number[]): number[] => [
  ...new Set(groups.map((group) => (slot.groups[group] as Group).mating)),
];

/** Minimal sets of slots that cannot all hold a listed part of these mating classes (null: any that fits). The unlisted part, which fits everything, takes the place of the others. */
export const selfConflictsOf = (atlas: CompiledAtlas, matings: readonly (readonly number[] | null)[]): number[][] =>
  choiceExists(atlas, matings)
    ? []
    : dualize(
        matings.length,
        (kept) =>
          choiceExists(
            atlas,
            matings.map((list, slot) => (kept[slot] === 1 ? list : null)),
          ),
        Number.POSITIVE_INFINITY,
      ).conflicts;

/** For every slot outside the doubtful ones, the agreeing groups that some complete choice has. */
const liveGroups = (atlas: CompiledAtlas, slots: readonly UnitSlot[], doubtful: ReadonlySet<number>): (readonly number[])[] => {
  const held = slots.map((slot, i) => (doubtful.has(i) ? null : matingsOf(slot, slot.agreeing)));
  // A plate whose number is not listed fits everything, so that nothing else falls out for want of a listed one.
  const matings = held.map((own, i) => (slots[i]?.unlisted === null ? own : null));
  const all = choosableClasses(atlas.space, domainsOf(atlas.space, matings));
  return slots.map((slot, i) => {
    if (doubtful.has(i)) return slot.agreeing;
    const possible = new Set(
      slot.unlisted === null
        ? classesIn(atlas.space, all, i)
        : choosable(
            atlas,
            matings.map((own, other) => (other === i ? (held[i] ?? null) : own)),
            i,
          ),
    );
    return slot.agreeing.filter((group) => possible.has((slot.groups[group] as Group).mating));
  });
};

import { type ChoiceSpace, choosableClasses } from '../algebra/choices.ts';
import type { Classes } from '../algebra/pairing.ts';
import type { Member } from '../answer/verdict.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import type { SlotId } from '../ids.ts';
import { keptFor } from '../plain/kept-for.ts';
import { type UnlistedNumber, unlistedNumber } from '../plate/unlisted-number.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { agreeingIn, type Group, type Grouped, keptGroups, type Living, livingIn, type SlotClasses } from './groups.ts';
import { type Loosened, meetsOf } from './meets.ts';
import { type FeatureReadings, type Held, keptReadings } from './readings.ts';
import { choosable, selfConflictsOf } from './within.ts';

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

export interface UnitSlot extends Grouped, Living {
  readonly of: CompiledSlot;
  /** How many mating classes the unit has here. */
  readonly matingCount: number;
  /** Groups that agree with every observation: C1's listed candidates. */
  readonly agreeing: readonly number[];
  /** Of those, the ones in some complete choice; where the slot is doubtful, all of them. */
  readonly live: readonly number[];
  readonly doubtful: boolean;
  readonly absent: boolean;
  /** The observations of this slot that count as evidence. */
  readonly observations: readonly Observation[];
  /** Of a plate: that it is one of a maker's whose number is not listed (O5). It is a candidate beside the listed parts and fits everything. */
  readonly unlisted: UnlistedNumber | null;
  /** The same, feature by feature, held against every way a part may be found (O2). */
  readonly readings: readonly FeatureReadings[];
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
    const unlisted = unlistedIn(atlas, sheet, slot, own.length);
    return slotHeld(slot, ofClasses, own, readings[i] as readonly FeatureReadings[], unlisted, absent < 0 ? null : seen.length + absent);
  });
  return { of: { atlas, sheet, evidence, space, loosened }, slots: grouped };
};

/** @param absent under which label the slot is said to be missing, if it is */
const slotHeld = (
  slot: CompiledSlot,
  classes: SlotClasses,
  held: readonly Held[],
  readings: readonly FeatureReadings[],
  unlisted: UnlistedNumber | null,
  absent: number | null,
): HeldSlot => ({
  of: slot,
  absent: absent !== null,
  observations: held.map(({ observation }) => observation),
  readings,
  unlisted,
  matingCount: classes.count,
  ...keptGroups(classes, readings, absent),
});

/** Most slots of most units had nothing read of them: such a slot is the same for all units whose entries leave its classes as they are. */
const unread = keptFor((slot: CompiledSlot) => keptFor((classes: SlotClasses) => slotHeld(slot, classes, [], [], null, null)));

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

/** For every slot outside the doubtful ones, the agreeing groups that some complete choice has; where that is every one, the very list. */
const liveGroups = (space: ChoiceSpace, slots: readonly UnitSlot[]): (readonly number[])[] => {
  const held = slots.map(({ doubtful, groups }) => (doubtful ? null : agreeingIn(groups).classes));
  // A plate whose number is not listed fits everything, so that nothing else falls out for want of a listed one.
  const matings = held.map((own, i) => (slots[i]?.unlisted === null ? own : null));
  const all = choosableClasses(space, { classes: matings });
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

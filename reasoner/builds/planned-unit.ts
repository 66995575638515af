import { spaceOf } from '../algebra/choices.ts';
import type { Name } from '../answer/verdict.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import { asId, type NameId, type PartId, type SlotId } from '../ids.ts';
import { findRule } from '../names/ladder.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { agreementWith } from '../unit/agreement.ts';
import { type Group, livingIn } from '../unit/groups.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import { slotWith } from '../unit/unit-with.ts';
import type { Swapped } from '../why/swaps-for.ts';

/**
 * The unit a build would be, for the ladder and the ticket (J2): each chosen slot holds its part and nothing else, every other slot whatever
 * agrees with what was seen there and settles nothing, and no joint removes anything. `strangers` are slots whose part in hand is not the one chosen: such a
 * part names nothing. Parts other than the chosen one carry the slot's own label, so that swap sets can be asked for.
 */
export const plannedUnit = (atlas: CompiledAtlas, sheet: Sheet, strangers: ReadonlySet<SlotId>): Unit => ({
  ...groundsOf(atlas).paper,
  sheet,
  evidence: atlas.slots.map(({ data: slot }) => ({ kind: 'observation', observation: asId(`chosen:${slot.id}`) })),
  selfConflicts: [],
  slots: atlas.slots.map((slot) => slotOf(atlas, slot, sheet, strangers)),
});

/** The same unit with its joints kept: what would have to be exchanged so that a name stands and everything goes together (S1). */
export const jointedUnit = (atlas: CompiledAtlas, planned: Unit): Unit => ({ ...planned, atlas, ...groundsOf(atlas).jointed });

/** The plan once one of the parts given is chosen for each of these slots: everything else is as it was, and again nothing falls out (J2). */
export const replanned =
  (planned: Unit): Swapped =>
  (_, parts) => ({
    ...planned,
    slots: planned.slots.map((slot, number) => {
      const put = parts.get(number);
      if (put === undefined) return slot;
      const held = slotWith(slot, put);
      const live = held.groups.flatMap(({ violates }, group) => (violates.length === 0 ? [group] : []));
      return { ...held, agreeing: live, ...livingIn(held.groups, live), doubtful: live.length === 0 };
    }),
  });

const slotOf = (atlas: CompiledAtlas, slot: CompiledSlot, sheet: Sheet, strangers: ReadonlySet<SlotId>): UnitSlot => {
  const { id } = slot.data;
  const chosen = sheet.chosen[id];
  const absent = sheet.absent.includes(id);
  const fits = absent ? () => false : chosen === undefined ? agreeing(atlas, slot, sheet) : (part: PartId) => part === chosen;
  const groups: (Group & { readonly parts: number[] })[] = [];
  const groupOf = new Int32Array(slot.parts.length);
  const numbers = new Map<number, number>();
  const { matingOf } = slot;
  const [nothing, itself] = [[] as const, [slot.number]];
  slot.parts.forEach((part, number) => {
    const holds = fits(part.id);
    const mating = matingOf[number] as number;
    const key = mating * 2 + (holds ? 1 : 0);
    let group = numbers.get(key);
    if (group === undefined) {
      group = groups.push({ violates: holds ? nothing : itself, violatesTogether: nothing, mating, parts: [] }) - 1;
      numbers.set(key, group);
    }
    (groups[group] as Group & { parts: number[] }).parts.push(number);
    groupOf[number] = group;
  });
  const live = groups.flatMap((group, i) => (group.violates.length === 0 ? [i] : []));
  // What nobody has chosen settles no name, even where every listed part would do.
  const doubtful = live.length === 0 || chosen === undefined || strangers.has(id);
  return {
    of: slot,
    groups,
    groupOf,
    matingCount: slot.matingCount,
    agreeing: live,
    ...livingIn(groups, live),
    doubtful,
    absent,
    observations: [],
    readings: [],
    unlisted: null,
  };
};

/** Of a slot nobody has chosen for: what agrees with everything seen of it (C1). */
const agreeing = (atlas: CompiledAtlas, slot: CompiledSlot, sheet: Sheet): ((part: PartId) => boolean) => {
  const seen = sheet.observations.filter((observation) => observation.slot === slot.data.id && observation.sure.kind !== 'told');
  if (seen.length === 0) return () => true;
  return (id) => {
    return seen.every((observation) => {
      const feature = atlas.features.get(observation.feature) as Feature;
      return agreementWith(slot, slot.partNumber.get(id) as number, feature, observation) !== null;
    });
  };
};

/** Joints as all parts are made, or none. */
const meetsAs = (space: Unit['space']): Pick<Unit, 'space' | 'loosened'> => ({
  space,
  loosened: () => ({ space, pairings: space.pairings.map((_, joint) => ({ joint, needs: [] })) }),
});

const remembered = new WeakMap<
  CompiledAtlas,
  { readonly paper: Pick<Unit, 'atlas' | 'space' | 'loosened'>; readonly jointed: Pick<Unit, 'space' | 'loosened'> }
>();

const groundsOf = (atlas: CompiledAtlas) => {
  let made = remembered.get(atlas);
  if (made === undefined) {
    // On paper nothing falls out across a joint (J2).
    const { space } = atlas.made();
    made = { paper: { atlas: { ...atlas, joints: [] }, ...meetsAs(spaceOf(space.counts, [])) }, jointed: meetsAs(space) };
    remembered.set(atlas, made);
  }
  return made;
};

/** The name with this id that a build could carry, hybrids included, or null when the atlas can form none such. */
export const findName = (atlas: CompiledAtlas, sheet: Sheet, id: NameId): Name | null =>
  findRule(plannedUnit(atlas, sheet, new Set()), id)?.name ?? null;

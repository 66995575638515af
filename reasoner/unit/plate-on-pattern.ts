import type { Stamped } from '../answer/plate-reading.ts';
import type { MakerId, ObservationId, PartId, SlotId } from '../ids.ts';
import { readPlate } from '../plate/read-plate.ts';
import { partsIn } from './groups.ts';
import type { Unit, UnitSlot } from './unit.ts';

/** A maker's plate, and whose by what was seen on it. */
export interface MakersPlate {
  /** More than one where the plate leaves it open. */
  readonly makers: readonly MakerId[];
  /** Of the plate: what says so. Empty on paper, where the plate was chosen. */
  readonly observations: readonly ObservationId[];
}

/** A maker's plate riveted to a part that bears no maker's name (O4): no proof of whose the part is. */
export interface PlateOnPattern extends MakersPlate {
  /** What it is riveted to, and the parts that can be. */
  readonly slot: SlotId;
  readonly parts: readonly PartId[];
}

/** The slots a plate is fixed to, across a joint of the atlas. */
export const plateHolders = (unit: Unit): readonly UnitSlot[] => {
  const plate = unit.slots.findIndex(({ of }) => of.data.group === 'plate');
  // On paper joints remove nothing, and the unit has none (J2); the atlas has them all the same.
  const { ports, joints } = unit.atlas.data;
  const slotOf = (port: string): string | undefined => ports.find(({ id }) => id === port)?.slot;
  const id = unit.slots[plate]?.of.data.id;
  if (id === undefined) return [];
  const joined = new Set(
    joints.flatMap(({ a, b }) => {
      const [left, right] = [slotOf(a), slotOf(b)];
      return left === id ? [right] : right === id ? [left] : [];
    }),
  );
  return unit.slots.filter(({ of }) => joined.has(of.data.id));
};

const kept = new WeakMap<Unit, { readonly plate: MakersPlate | null }>();

/** Whose plate the unit bears, by its trade name, else by who makes such numbers; on paper, of the plate chosen. Null where nothing says. */
export const makersPlate = (unit: Unit): MakersPlate | null => {
  let made = kept.get(unit);
  if (made === undefined) {
    made = { plate: readMakers(unit) };
    kept.set(unit, made);
  }
  return made.plate;
};

const readMakers = (unit: Unit): MakersPlate | null => {
  const slot = unit.slots.find(({ of }) => of.data.group === 'plate');
  if (slot === undefined || slot.absent) return null;
  const chosen = unit.sheet.chosen[slot.of.data.id];
  if (chosen !== undefined) {
    const maker = unit.atlas.parts.get(chosen)?.maker ?? null;
    return maker === null ? null : { makers: [maker], observations: [] };
  }
  const { stamped } = readPlate(unit.atlas, unit.sheet);
  const by = (wanted: Stamped['says']) => stamped.filter(({ says, makers }) => says === wanted && makers.length > 0);
  const telling = [by('trade name'), by('part number'), by('serial number')].find((each) => each.length > 0);
  if (telling === undefined) return null;
  return { makers: [...new Set(telling.flatMap(({ makers }) => makers))], observations: telling.map(({ observation }) => observation) };
};

/** That a maker's plate is riveted to a part none of whose candidates bears a maker's name; null where it is not, or not known to be. */
export const plateOnPattern = (unit: Unit): PlateOnPattern | null => {
  const holder = plateHolders(unit).find((slot) => makersLeft(unit, slot)?.every((maker) => maker === null));
  if (holder === undefined) return null;
  const plate = makersPlate(unit);
  if (plate === null) return null;
  const parts = partsIn(holder).flatMap((part) => holder.of.parts[part]?.id ?? []);
  return { ...plate, slot: holder.of.data.id, parts };
};

/** The makers of what is left in a slot; null where it was not looked at, or the slot is doubtful, as it is where nothing is left. */
const makersLeft = (unit: Unit, slot: UnitSlot): (MakerId | null)[] | null => {
  const looked = slot.observations.length > 0 || unit.sheet.chosen[slot.of.data.id] !== undefined;
  if (!looked || slot.doubtful) return null;
  return [...new Set(partsIn(slot).map((part) => slot.of.parts[part]?.maker ?? null))];
};

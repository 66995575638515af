import { groundBeside } from './beside.ts';
import { classOf, type Group } from './groups.ts';
import { type HeldSlot, type Unit, type UnitSlot, unitOfSlots } from './unit.ts';

/**
 * The unit as it would be with other parts put into some slots: each holds one of the parts given for it, whatever was seen there before or missing;
 * what is doubtful and what goes together is worked out anew. A slot given no part holds an unlisted one.
 * @param parts by slot number, part numbers
 */
export const unitWith = (unit: Unit, parts: ReadonlyMap<number, readonly number[]>): Unit =>
  unitOfSlots(
    { ...unit, ...groundBeside(unit, new Set(parts.keys())) },
    unit.slots.map((slot, number) => {
      const put = parts.get(number);
      return put === undefined ? slot : slotWith(slot, put);
    }),
  );

/** What every other part of the slot violates; no label of the evidence. */
const notPutIn: readonly number[] = [-1];
const nothing: readonly never[] = [];

/** The slot with its parts told apart by one thing only: whether they are among those put in. */
export const slotWith = (slot: UnitSlot, put: readonly number[]): HeldSlot => {
  const among = new Set(put);
  const groups: (Group & { readonly parts: number[] })[] = [];
  const numbers = new Map<number, number>();
  const groupOf = Int32Array.from(slot.groupOf, (_, part) => {
    const mating = classOf(slot, part);
    const key = mating * 2 + (among.has(part) ? 1 : 0);
    let group = numbers.get(key);
    if (group === undefined) {
      group = groups.push({ mating, violates: among.has(part) ? nothing : notPutIn, violatesTogether: nothing, parts: [] }) - 1;
      numbers.set(key, group);
    }
    (groups[group] as (typeof groups)[number]).parts.push(part);
    return group;
  });
  return { of: slot.of, groups, groupOf, matingCount: slot.matingCount, absent: false, observations: [], readings: [], unlisted: null };
};

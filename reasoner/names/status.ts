import { choiceExists, matingsOf, type Unit, type UnitSlot } from '../unit/unit.ts';
import type { Status } from '../verdict/verdict.ts';
import type { Demand, NameRule } from './compile-names.ts';

export interface Judged {
  readonly rule: NameRule;
  readonly status: Status;
  /** Slot numbers; see `NameAnswer.unsettled`. */
  readonly unsettled: readonly number[];
}

/** The status of a name for a unit (N1–N3). */
export const judge = (unit: Unit, rule: NameRule): Judged => {
  const held = rule.demands.map((demand, slot) => (demand === null ? null : split(unit.slots[slot] as UnitSlot, demand)));
  if (held.some((each) => each !== null && each.allowed.length === 0)) return { rule, status: 'ruled out', unsettled: [] };
  const unsettled = held.flatMap((each, slot) => (each !== null && (each.others || unit.slots[slot]?.doubtful) ? [slot] : []));
  if (unsettled.length === 0) return { rule, status: 'stands', unsettled };
  const matings = unit.slots.map((slot, i) => {
    const own = held[i];
    if (own) return matingsOf(slot, own.allowed);
    return slot.doubtful ? null : matingsOf(slot, slot.live);
  });
  return choiceExists(unit.atlas, matings) ? { rule, status: 'open', unsettled } : { rule, status: 'ruled out', unsettled: [] };
};

/** The live groups that hold an allowed part, and whether any live part is not allowed. */
const split = (slot: UnitSlot, demand: ReadonlySet<number>): { allowed: number[]; others: boolean } => {
  const allowed: number[] = [];
  let parts = 0;
  // A demand names few of a slot's parts; those it does not name are counted, not met.
  for (const [group, count] of allowedIn(slot, demand)) {
    if (slot.isLive[group] === 0) continue;
    allowed.push(group);
    parts += count;
  }
  return { allowed, others: parts < slot.liveParts };
};

/** How many of each group's parts the demand allows; groups with none are left out. */
export const allowedIn = (slot: UnitSlot, demand: ReadonlySet<number>): Map<number, number> => {
  const counts = new Map<number, number>();
  for (const part of demand) {
    const group = slot.groupOf[part] as number;
    counts.set(group, (counts.get(group) ?? 0) + 1);
  }
  return counts;
};

/** Whether every live part of a slot is in the set, and whether any is. A doubtful slot settles nothing. */
export const liveWithin = (slot: UnitSlot, demand: Demand): { all: boolean; some: boolean } => {
  if (demand === null) return { all: false, some: false };
  const { allowed, others } = split(slot, demand);
  return { all: allowed.length > 0 && !others && !slot.doubtful, some: allowed.length > 0 };
};

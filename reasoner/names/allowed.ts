import type { UnitSlot } from '../unit/unit.ts';

/** What a set of parts comes to in a slot: the live groups that hold one of them, and how many such parts they hold together. */
export interface Allowed {
  readonly allowed: readonly number[];
  readonly parts: number;
}

export const allowedLive = (slot: UnitSlot, demand: ReadonlySet<number>): Allowed => {
  const allowed: number[] = [];
  let parts = 0;
  // A demand names few of a slot's parts; those it does not name are counted, not met.
  for (const [group, count] of allowedIn(slot, demand)) {
    if (slot.isLive[group] === 0) continue;
    allowed.push(group);
    parts += count;
  }
  return { allowed, parts };
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

import type { Name, Rung } from '../answer/verdict.ts';
import type { Slot } from '../atlas/atlas.ts';
import { asId, type FamilyId, type MakerId, type ModelId, type NameId } from '../ids.ts';

/** A name with what it demands of the slots. */
export interface NameRule {
  readonly name: Name;
  /** By slot number the part numbers known to belong there, or null where the name does not care. */
  readonly demands: readonly Demand[];
  /** Slots demanded whose list is not whole (A7), each with the parts known not to belong all the same: of what is in neither set it is not known. */
  readonly open: ReadonlyMap<number, ReadonlySet<number>>;
  /** Names of which this says that it is one, not which: it is ruled out exactly when all of them are (N4). Null for any other name. */
  readonly anyOf: readonly NameRule[] | null;
}
export type Demand = ReadonlySet<number> | null;

const whole: NameRule['open'] = new Map();

export interface NameWords {
  readonly id: string;
  readonly rung: Rung;
  readonly maker: MakerId | null;
  readonly text: string;
  readonly models: readonly ModelId[];
  readonly family: FamilyId | null;
}

export const nameRule = (words: NameWords, demands: readonly Demand[], open: NameRule['open'] = whole): NameRule => ({
  name: { ...words, id: asId<NameId>(words.id), housings: [] },
  demands,
  open,
  anyOf: null,
});

/**
 * What is demanded of a unit that is one of several things, not said which: of a slot only where all of them demand something, and
 * there a part belongs when it belongs to one of them, and is not known to belong when of one of them it is not known (A7, N4).
 */
export const demandsOfAny = (rules: readonly NameRule[]): Pick<NameRule, 'demands' | 'open'> => {
  const [first] = rules as [NameRule, ...NameRule[]];
  const demands = first.demands.map((_, slot): Demand => {
    const sets = rules.map((rule) => rule.demands[slot] ?? null);
    return sets.some((set) => set === null) ? null : union(sets as ReadonlySet<number>[]);
  });
  const open = new Map<number, ReadonlySet<number>>();
  demands.forEach((demand, slot) => {
    if (demand === null || !rules.some((rule) => rule.open.has(slot))) return;
    const barred = rules.flatMap((rule) => rule.open.get(slot) ?? []);
    open.set(slot, new Set([...(barred[0] ?? [])].filter((part) => barred.every((set) => set.has(part)) && !demand.has(part))));
  });
  return { demands, open };
};

export const union = (sets: readonly ReadonlySet<number>[]): ReadonlySet<number> => {
  const all = new Set<number>();
  for (const set of sets) for (const each of set) all.add(each);
  return all;
};

/** Of a slot whose list is open-ended: whether the name's models list nothing there at all. */
export const isSilent = (rule: NameRule, slot: number): boolean =>
  rule.open.get(slot)?.size === 0 && (rule.demands[slot] ?? null)?.size === 0;

/** A slot as far as rules of names ask: its group, its number, and how many parts are listed for it. */
interface NumberedSlot {
  readonly data: Pick<Slot, 'group'>;
  readonly number: number;
  readonly parts: readonly unknown[];
}

/** Whether the name demands anything of the core. What does not says nothing of what spins inside. */
export const demandsCore = ({ slots }: { readonly slots: readonly NumberedSlot[] }, { demands }: NameRule): boolean =>
  slots.some(({ data, number }) => data.group === 'core' && (demands[number] ?? null) !== null);

/** The parts of a slot that do not rule the name out there: null where any part does not, or none is asked for. */
export const notBarred = (slot: NumberedSlot, rule: NameRule): Demand => {
  const demand = rule.demands[slot.number] ?? null;
  const barred = rule.open.get(slot.number);
  if (demand === null || barred === undefined) return demand;
  return barred.size === 0 ? null : new Set([...slot.parts.keys()].filter((part) => !barred.has(part)));
};

import { type Demand, demandsCore, isSilent, type NameRule } from '../compile/name-rule.ts';
import type { UnlistedNumber } from '../plate/unlisted-number.ts';
import type { Group } from '../unit/groups.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import { type Allowed, allowedLive } from './allowed.ts';
import { type ChoicesLeft, choicesLeft } from './choices-left.ts';
import { type HeldNames, holdNames, type Judged, ruledOut } from './demand-table.ts';
import { judgeListed } from './judge-listed.ts';

/** Judges names of one unit; a name that is asked about again, as one of those another name is made of, is answered from memory. */
export const judgeFor = (unit: Unit): ((rule: NameRule) => Judged) => judgeWith(unit, holdNames(unit)).judge;

export interface Judge {
  judge(rule: NameRule): Judged;
  /** A name of the atlas, by its number among those held. */
  numbered(name: number): Judged;
}

/** The same, the names of the atlas held against the unit before. */
export const judgeWith = (unit: Unit, names: HeldNames): Judge => {
  const known = new Map<NameRule, Judged>();
  const choices = choicesLeft(unit);
  const look = lookFor(unit, choices);
  const listed = judgeListed(unit, choices);
  const judgeOne = (rule: NameRule): Judged => {
    const number = names.numberOf.get(rule);
    const before = (number === undefined ? undefined : listed(number)) ?? known.get(rule);
    if (before !== undefined) return before;
    const blocked = names.blocked(rule);
    if (blocked !== null) return blocked;
    const judged = rule.anyOf === null ? judgeAlone(look, rule) : judgeAny(look, rule, rule.anyOf.map(judgeOne));
    known.set(rule, judged);
    return judged;
  };
  return { judge: judgeOne, numbered: (name) => listed(name) ?? judgeOne(names.rules[name] as NameRule) };
};

/** The status of a name for a unit (N1–N3). */
export const judge = (unit: Unit, rule: NameRule): Judged => judgeFor(unit)(rule);

/**
 * A name that says only that the unit is one of several (N4): ruled out when all of them are. It stands where one of them does, or where in every
 * slot it demands only parts remain that belong to some of them.
 */
const judgeAny = (look: Look, rule: NameRule, of: readonly Judged[]): Judged => {
  const left = of.filter(({ status }) => status !== 'ruled out');
  if (left.length === 0) return ruledOut(rule);
  const settled: Judged = { rule, status: 'stands', unsettled: [], lacks: [] };
  if (left.some(({ status }) => status === 'stands')) return settled;
  if (!demandsCore(look.unit.atlas, rule)) {
    const gathered = (slots: (one: Judged) => readonly number[]) => [...new Set(left.flatMap(slots))].sort((a, b) => a - b);
    return { rule, status: 'open', unsettled: gathered(({ unsettled }) => unsettled), lacks: gathered(({ lacks }) => lacks) };
  }
  const { unsettled, lacks } = doubts(look.unit, heldBy(look, rule));
  return unsettled.length + lacks.length === 0 ? settled : { rule, status: 'open', unsettled, lacks };
};

const judgeAlone = (look: Look, rule: NameRule): Judged => {
  const { unit } = look;
  if (hasNone(look, rule)) return ruledOut(rule);
  const held = heldBy(look, rule);
  const { unsettled, lacks } = doubts(unit, held);
  // What demands nothing of the core says nothing of what spins inside: it never stands, the list of parts excepted.
  if (unsettled.length + lacks.length === 0 && (demandsCore(unit.atlas, rule) || rule.name.rung === 'parts'))
    return { rule, status: 'stands', unsettled, lacks };
  const asked = held.map((own) => (own === null || own.free ? null : own.possible));
  return look.goTogether(rule, asked) ? { rule, status: 'open', unsettled, lacks } : ruledOut(rule);
};

/** What a slot the name demands something of may hold. */
interface Held {
  /** Live groups with a part that belongs, or is not known not to (A7). */
  readonly possible: readonly number[];
  /** Whether live parts remain that belong, of which it is not known, and that do not. */
  readonly belongs: boolean;
  readonly notKnown: boolean;
  readonly fails: boolean;
  /** The list is open-ended and the slot may hold an unlisted part: it constrains nothing. */
  readonly free: boolean;
}

const heldBy = (look: Look, rule: NameRule): (Held | null)[] =>
  rule.demands.map((demand, number) => {
    if (demand === null) return null;
    const slot = look.unit.slots[number] as UnitSlot;
    return withUnlisted(slot, rule, ofListed(look, slot, rule, demand));
  });

const ofListed = (look: Look, slot: UnitSlot, rule: NameRule, demand: ReadonlySet<number>): Held => {
  const { allowed, parts } = look.at(slot.of.number, demand);
  const barred = rule.open.get(slot.of.number);
  if (barred === undefined) {
    const fails = parts < slot.liveParts;
    return { possible: allowed, belongs: parts > 0, notKnown: false, fails, free: false };
  }
  const out = look.at(slot.of.number, barred).parts;
  const notKnown = parts + out < slot.liveParts;
  const possible = notKnown ? slot.live.filter((group) => hasOther(slot, group, barred)) : allowed;
  return { possible, belongs: parts > 0, notKnown, fails: out > 0, free: constrainsNothing(slot, rule) };
};

/** O5: a plate whose number is not listed is one candidate more, which fits whatever it is on. */
const withUnlisted = (slot: UnitSlot, rule: NameRule, held: Held): Held => {
  if (slot.unlisted === null) return held;
  return mayBeOf(slot.unlisted, rule) ? { ...held, notKnown: true, free: true } : { ...held, fails: true };
};

/** Whether it is not known, of a plate whose number is not listed, that it is not this name's. */
export const mayBeOf = (plate: UnlistedNumber, { name, anyOf }: NameRule): boolean =>
  anyOf === null ? name.models.some((model) => plate.models.has(model)) : anyOf.some((one) => mayBeOf(plate, one));

/**
 * Whether what the slot holds can never rule the name out: an open-ended list, and a part the atlas does not list, or nothing where the model lists nothing;
 * or a plate whose number is not listed and of which it is not known that it is another's (O5).
 */
export const constrainsNothing = (slot: UnitSlot, rule: NameRule): boolean =>
  (slot.unlisted !== null && ((rule.demands[slot.of.number] ?? null) === null || mayBeOf(slot.unlisted, rule))) ||
  (slot.doubtful && rule.open.has(slot.of.number) && (!slot.absent || isSilent(rule, slot.of.number)));

const hasOther = (slot: UnitSlot, group: number, barred: ReadonlySet<number>): boolean =>
  (slot.groups[group] as Group).parts.some((part) => !barred.has(part));

/** N2: the slots that look could settle, and those where the atlas itself lacks what would. */
const doubts = (unit: Unit, held: readonly (Held | null)[]): Pick<Judged, 'unsettled' | 'lacks'> => {
  const unsettled: number[] = [];
  const lacks: number[] = [];
  for (let slot = 0; slot < held.length; slot += 1) {
    const each = held[slot];
    if (each === null || each === undefined) continue;
    const { belongs, notKnown, fails, free } = each;
    if (unit.slots[slot]?.doubtful || Number(belongs) + Number(notKnown) + Number(fails) > 1) unsettled.push(slot);
    if (notKnown || free) lacks.push(slot);
  }
  return { unsettled, lacks };
};

/** What sets of parts come to in one unit. Names share the sets they demand, so each is looked at once. */
interface Look {
  readonly unit: Unit;
  at(slot: number, parts: ReadonlySet<number>): Allowed;
  /** Whether there is a choice of these groups of each slot; where none are named, of what is left of it, or of a doubtful slot of anything. */
  goTogether(rule: NameRule, groups: readonly (readonly number[] | null)[]): boolean;
}

const lookFor = (unit: Unit, choices: ChoicesLeft): Look => {
  const seen = unit.slots.map(() => new Map<ReadonlySet<number>, Allowed>());
  return {
    unit,
    at: (slot, parts) => {
      const known = seen[slot] as Map<ReadonlySet<number>, Allowed>;
      let found = known.get(parts);
      if (found === undefined) {
        found = allowedLive(unit.slots[slot] as UnitSlot, parts);
        known.set(parts, found);
      }
      return found;
    },
    goTogether: choices.goTogether,
  };
};

/** Whether some slot holds nothing the name could take there: what rules most names out, asked first. */
const hasNone = (look: Look, rule: NameRule): boolean =>
  rule.demands.some((demand, number) => {
    if (demand === null || rule.open.has(number) || look.at(number, demand).parts > 0) return false;
    const { unlisted } = look.unit.slots[number] as UnitSlot;
    return unlisted === null || !mayBeOf(unlisted, rule);
  }) ||
  (rule.open.size > 0 && heldBy(look, rule).some((each) => each !== null && !each.free && each.possible.length === 0));

/** Whether every live part of a slot is in the set, and whether any is. A doubtful slot, as one without a live part is, settles nothing. */
export const liveWithin = (slot: UnitSlot, demand: Demand): { all: boolean; some: boolean } => {
  if (demand === null) return { all: false, some: false };
  const { allowed, parts } = allowedLive(slot, demand);
  return { all: parts === slot.liveParts && !slot.doubtful && slot.unlisted === null, some: allowed.length > 0 };
};

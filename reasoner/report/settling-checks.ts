import type { NameAnswer, SlotAnswer } from '../answer/verdict.ts';
import type { Fact, Feature, Part } from '../atlas/atlas.ts';
import type { CompiledSlot } from '../compile/compiled.ts';
import type { FeatureId, NameId, PartId, SlotId } from '../ids.ts';
import { findRule } from '../names/ladder.ts';
import { sameMark } from '../plain/letters.ts';
import { capital, list } from '../plain/text.ts';
import type { Unit } from '../unit/unit.ts';
import { stripDownMinutes } from '../why/strip-down.ts';
import { factsPhrase } from '../words/phrases.ts';

/** One look or measure that would tell, in one slot, what an open name allows from what else is left there. */
export interface SettlingCheck {
  readonly slot: SlotId;
  readonly feature: FeatureId;
  /** The names it speaks to. */
  readonly names: readonly NameId[];
  /** False where some of what is left would still look alike. */
  readonly settles: boolean;
  readonly sentence: string;
}

/**
 * For every slot that keeps one of these names open, the check the atlas itself knows to tell most of what is left apart; of those
 * alike in that, the one soonest done from a unit as received. Features already entered, or that could not be seen, are not asked for again.
 */
export const settlingChecks = (unit: Unit, slots: readonly SlotAnswer[], open: readonly NameAnswer[]): SettlingCheck[] =>
  unit.atlas.slots.flatMap((slot) => {
    const left = slots.find((each) => each.slot === slot.data.id);
    const names = open.filter(({ unsettled }) => unsettled.includes(slot.data.id));
    if (left === undefined || left.doubtful || names.length === 0) return [];
    const best = featuresToLookAt(unit, slot)
      .map((feature) => ({ feature, ...told(unit, slot, left.candidates, names, feature) }))
      .filter(({ apart }) => apart > 0)
      .sort(
        (a, b) => b.apart - a.apart || minutesTo(unit, a.feature) - minutesTo(unit, b.feature) || (a.feature.id < b.feature.id ? -1 : 1),
      );
    const [first] = best;
    if (first === undefined) return [];
    return [
      {
        slot: slot.data.id,
        feature: first.feature.id,
        names: names.map(({ name }) => name.id),
        settles: first.apart === first.pairs,
        sentence: sentenceOf(unit, slot, first.feature, open, names, first.apart === first.pairs),
      },
    ];
  });

const featuresToLookAt = (unit: Unit, slot: CompiledSlot): Feature[] => {
  const done = new Set<FeatureId>([
    ...unit.sheet.observations.filter(({ sure }) => sure.kind !== 'told').map(({ feature }) => feature),
    ...(unit.sheet.unseen ?? []).map(({ feature }) => feature),
  ]);
  return unit.atlas.data.features.filter((feature) => feature.slot === slot.data.id && !done.has(feature.id));
};

/** Minutes from a unit as received: the strip-down and the look itself. */
const minutesTo = (unit: Unit, feature: Feature): number => stripDownMinutes(unit.atlas, [feature.stage]) + feature.minutes;

/** Over the names: pairs of an allowed part and another that is left, and how many of them the feature tells apart. */
const told = (
  unit: Unit,
  slot: CompiledSlot,
  candidates: readonly PartId[],
  names: readonly NameAnswer[],
  feature: Feature,
): { pairs: number; apart: number } => {
  let [pairs, apart] = [0, 0];
  for (const { name } of names) {
    const allowed = allowedParts(unit, slot, name.id);
    const [ours, others] = [candidates.filter((part) => allowed.has(part)), candidates.filter((part) => !allowed.has(part))];
    for (const one of ours)
      for (const other of others) {
        pairs += 1;
        if (disjoint(feature, factOf(slot, one, feature), factOf(slot, other, feature))) apart += 1;
      }
  }
  return { pairs, apart };
};

const allowedParts = (unit: Unit, slot: CompiledSlot, name: NameId): ReadonlySet<PartId> => {
  const demand = findRule(unit, name)?.demands[slot.number] ?? null;
  return new Set(demand === null ? [] : [...demand].map((part) => (slot.parts[part] as Part).id));
};

const factOf = (slot: CompiledSlot, part: PartId, feature: Feature): Fact =>
  slot.parts[slot.partNumber.get(part) as number]?.facts[feature.id] ?? { kind: 'not known' };

/**
 * Whether no reading could agree with both facts (O2): a measure is taken with the instrument's own doubt, u = resolution / √3
 * (a rectangular distribution of half-width one resolution; GUM, JCGM 100:2008, 4.3.7), at ±2u. What is not known is never apart from anything.
 */
export const disjoint = (feature: Feature, a: Fact, b: Fact): boolean => {
  if (a.kind === 'not known' || b.kind === 'not known') return false;
  switch (a.kind) {
    case 'count':
      return b.kind === 'count' && (a.to < b.from || b.to < a.from);
    case 'measure': {
      if (b.kind !== 'measure') return false;
      const [low, high] = a.nominal + a.lower <= b.nominal + b.lower ? [a, b] : [b, a];
      const wear = (feature.wear?.below ?? 0) + (feature.wear?.above ?? 0);
      const doubt = (4 * (feature.resolution ?? 0)) / Math.sqrt(3);
      return high.nominal + high.lower - (low.nominal + low.upper) - wear > doubt;
    }
    case 'choice':
      return b.kind === 'choice' && !a.anyOf.some((option) => b.anyOf.includes(option));
    case 'presence':
      return b.kind === 'presence' && a.present !== b.present;
    case 'mark':
      return b.kind === 'mark' && !(a.blank && b.blank) && !a.anyOf.some((text) => b.anyOf.some((other) => sameMark(text, other)));
  }
};

/** `(a)`, `(b)`: how open names are spoken of once they have been said in full; nothing where there is one only. */
export const letterOf = (open: readonly NameAnswer[], name: NameId): string =>
  open.length < 2 ? '' : `(${String.fromCharCode(97 + open.findIndex((each) => each.name.id === name))})`;

const sentenceOf = (
  unit: Unit,
  slot: CompiledSlot,
  feature: Feature,
  open: readonly NameAnswer[],
  names: readonly NameAnswer[],
  settles: boolean,
): string => {
  const stage = unit.atlas.stages.get(feature.stage)?.name ?? feature.stage;
  const how = [stage, `${feature.minutes} min`, ...(feature.instrument === undefined ? [] : [feature.instrument])].join(', ');
  const outcomes = new Map<string, string[]>();
  for (const { name } of names) {
    const allowed = allowedParts(unit, slot, name.id);
    const facts = slot.parts.filter(({ id }) => allowed.has(id)).map(({ facts: of }) => of[feature.id] ?? ({ kind: 'not known' } as const));
    const said = factsPhrase(feature, facts);
    const phrase = said.startsWith(`${feature.name} `) ? said.slice(feature.name.length + 1) : said;
    outcomes.set(phrase, [...(outcomes.get(phrase) ?? []), letterOf(open, name.id)]);
  }
  const all = outcomes.size === 1 && names.length === open.length;
  const asked = [...outcomes].map(([phrase, letters]) => (all ? phrase : `${phrase} for ${list(letters, 'or')}`)).join('; ');
  return `${capital(slot.data.name)}: ${settles ? 'settled by' : 'narrowed by'} its ${feature.name} (${how}): ${asked}.`;
};

import type { Conflict } from '../answer/verdict.ts';
import type { Fact } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { NameRule } from '../compile/name-rule.ts';
import type { Unit } from '../unit/unit.ts';
import { usualEffort } from '../why/conflicts-for.ts';
import { conflictsOf } from '../why/explain.ts';
import { hasOneOf } from '../words/has-phrase.ts';
import { roughly } from './by-eye.ts';
import type { DrillLevel, Facts, Showing } from './drill.ts';
import { factsAllowed, factsSeen } from './units.ts';

/** So many reasons are looked for: more than anyone reads. */
const enough = { ...usualEffort, conflicts: 24 };

/** The reasons a name is ruled out for a unit (K1), the most telling first; not all of them where they are many. By eye, no size is said finer than it was taken. */
export const reasonsAgainst = (unit: Unit, rule: NameRule, level: DrillLevel): readonly Conflict[] => {
  const { found } = conflictsOf(unit, rule, enough);
  return level === 'measured' ? found : found.map((reason) => ({ ...reason, sentence: roughSentence(unit, rule, reason) }));
};

/** The sentence with what the atlas says of a size said in whole millimetres. */
const roughSentence = (unit: Unit, rule: NameRule, { sentence, members }: Conflict): string => {
  let said = sentence;
  for (const member of members) {
    const observation = member.kind === 'observation' ? unit.sheet.observations.find(({ id }) => id === member.observation) : undefined;
    const feature = observation === undefined ? undefined : unit.atlas.features.get(observation.feature);
    if (feature?.kind !== 'measure') continue;
    const slot = unit.atlas.slots[unit.atlas.slotNumber.get(feature.slot) as number];
    const facts = [...(rule.demands[slot?.number ?? -1] ?? [])].map((part) => slot?.parts[part]?.facts[feature.id] ?? notKnown);
    said = said.replace(hasOneOf(feature, facts), hasOneOf(feature, facts.map(inWholes)));
  }
  return said;
};

const notKnown: Fact = { kind: 'not known' };
const inWholes = (fact: Fact): Fact =>
  fact.kind === 'measure' ? { kind: 'measure', nominal: Math.round(fact.nominal / roughly.step) * roughly.step, lower: 0, upper: 0 } : fact;

/** Each drawing once, however many reasons rest on it. */
export const eachOnce = (showings: readonly Showing[]): Showing[] => {
  const showingKey = ({ feature, sides }: Showing): string => [feature, ...sides.map(({ label }) => label)].join('\u0000');
  return [...new Map(showings.map((each) => [showingKey(each), each])).values()];
};

/** The features a reason rests on, each drawn as it was seen and as the name would have it. */
export const showingsOf = (
  unit: Unit,
  rule: NameRule,
  { members }: Conflict,
  labels: { readonly seen: string; readonly named: string },
): Showing[] =>
  members.flatMap((member): Showing[] => {
    if (member.kind !== 'observation') return [];
    const observation = unit.sheet.observations.find(({ id }) => id === member.observation);
    if (observation === undefined) return [];
    const seen = factsSeen(unit.sheet.observations.filter(({ slot }) => slot === observation.slot));
    const named = factsAllowed(unit.atlas, rule, observation.slot, observation.feature);
    return [showing(unit.atlas, observation.feature, { label: labels.seen, facts: seen }, { label: labels.named, facts: named })];
  });

const showing = (
  atlas: CompiledAtlas,
  feature: Showing['feature'],
  seen: { label: string; facts: Facts },
  named: { label: string; facts: Facts },
): Showing => ({
  slot: (atlas.features.get(feature) as { slot: Showing['slot'] }).slot,
  feature,
  sides: [seen, ...(Object.keys(named.facts).length === 0 ? [] : [{ label: named.label, facts: sameDrawing(named.facts, seen.facts) }])],
});

/** As much of one side as the other shows, so that two drawings differ in what differs and not in what was looked at. */
const sameDrawing = (facts: Facts, beside: Facts): Facts =>
  Object.fromEntries(Object.entries(facts).filter(([feature]) => feature in beside)) as Facts;

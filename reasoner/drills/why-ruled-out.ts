import type { Conflict } from '../answer/verdict.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { NameRule } from '../compile/name-rule.ts';
import type { Unit } from '../unit/unit.ts';
import { usualEffort } from '../why/conflicts-for.ts';
import { conflictsOf } from '../why/explain.ts';
import type { Facts, Showing } from './drill.ts';
import { factsAllowed, factsSeen } from './units.ts';

/** So many reasons are looked for: more than anyone reads. */
const enough = { ...usualEffort, conflicts: 24 };

/** The reasons a name is ruled out for a unit (K1), the most telling first; not all of them where they are many. */
export const reasonsAgainst = (unit: Unit, rule: NameRule): readonly Conflict[] => conflictsOf(unit, rule, enough).found;

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

import { type Assumptions, startingAssumptions } from '../answer/assumptions.ts';
import type { CheckEffects, CheckOutcome, PossibleReading } from '../answer/odds.ts';
import type { Status } from '../answer/verdict.ts';
import type { Fact, Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import { asId, type FeatureId, type NameId, type ObservationId } from '../ids.ts';
import { honestOf, type Ladder, ladderOf, openAbove } from '../names/ladder.ts';
import type { Observation, Seen, Sheet } from '../sheet/sheet.ts';
import { partsIn, type UnitSlot, unitOf } from '../unit/unit.ts';
import { contradictionsIn } from '../verdict/answer.ts';
import { bestStatus, claimedNames } from '../verdict/claim.ts';
import { readingPhrase, stepSentence } from '../words/check-words.ts';
import { howToCheck, weighingOf } from './odds-of.ts';
import { instrumentUncertainty } from './readings.ts';
import type { Weighed } from './weigh-checks.ts';

/** So many readings of one check are followed, the likeliest. */
const mostReadings = 8;
/** Less likely readings are not followed, but two always are. */
const worthFollowing = 0.01;

/**
 * What one check can come to: for each likely reading, what it would leave of the verdict, whatever the odds. Null when the sheet contradicts itself, or
 * the check is not among those `oddsOf` orders.
 * @throws RangeError as `oddsOf`
 */
export const checkEffects = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  feature: FeatureId,
  assumptions: Assumptions = startingAssumptions,
): CheckEffects | null => {
  if (contradictionsIn(atlas, sheet)) return null;
  const { weighed, checks } = weighingOf(atlas, sheet, assumptions);
  const one = weighed.find((each) => each.feature.id === feature);
  const check = checks.find((each) => each.feature === feature);
  if (one === undefined || check === undefined) return null;

  const unit = unitOf(atlas, sheet);
  const before = ladderOf(unit);
  const claimed = claimedNames(atlas, sheet);
  const followed = one.readings.all
    .map((reading, at) => ({ reading, chance: one.chances[at] as number, left: one.bits[at] as number }))
    .sort((a, b) => b.chance - a.chance)
    .slice(0, mostReadings)
    .filter(({ chance }, at) => chance > 0 && (chance >= worthFollowing || at < 2));
  const outcomes = new Map<string, { outcome: CheckOutcome; bits: number; readings: PossibleReading[] }>();
  for (const { reading, chance, left } of followed) {
    atlas.pulse();
    const after = effectOf(atlas, before, ladderOf(unitOf(atlas, withReading(sheet, one, reading))), claimed);
    const key = JSON.stringify([after.honest, after.rulesOut, after.makesStand, after.open, after.claim]);
    const known = outcomes.get(key);
    if (known) {
      const together = known.outcome.chance + chance;
      known.bits = (known.bits * known.outcome.chance + left * chance) / together;
      known.readings.push(reading);
      known.outcome = { ...known.outcome, chance: together };
    } else outcomes.set(key, { outcome: { ...after, text: '', readings: [], chance, bits: 0 }, bits: left, readings: [reading] });
  }
  return {
    check,
    how: howToCheck(atlas, sheet, check),
    step: stepFor(one.feature, unit.slots[one.slot.number] as UnitSlot),
    outcomes: [...outcomes.values()]
      .map(({ outcome, bits: leaves, readings }) => ({
        ...outcome,
        text: readingPhrase(one.feature, readings),
        readings: readings.map(({ seen, from, to }) => ({
          seen,
          ...(seen?.kind === 'measure' && Number.isFinite(from) ? { from } : {}),
          ...(seen?.kind === 'measure' && Number.isFinite(to) ? { to } : {}),
        })),
        bits: leaves,
      }))
      .sort((a, b) => b.chance - a.chance),
    rest: Math.max(0, 1 - followed.reduce((sum, { chance }) => sum + chance, 0)),
  };
};

type Effect = Omit<CheckOutcome, 'text' | 'readings' | 'chance' | 'bits'>;

const effectOf = (atlas: CompiledAtlas, before: Ladder, after: Ladder, claimed: readonly NameId[]): Effect => {
  // Hybrids are formed as a unit calls for them; their coming and going is no finding.
  const compiled = new Set(atlas.names.map(({ name }) => name.id));
  const was = new Map(before.judged.map(({ rule, status }) => [rule.name.id, status]));
  const now = new Map(after.judged.map(({ rule, status }) => [rule.name.id, status]));
  const said = (ladder: Ladder, picks: (id: NameId, status: Status) => boolean) => {
    const seen = new Set<string>();
    return ladder.judged.flatMap(({ rule: { name }, status }) => {
      // Of a model's three rungs the weakest speaks: its going takes the others with it.
      if (name.rung === 'model' || name.rung === 'model with options' || name.rung === 'parts' || !picks(name.id, status)) return [];
      const text = name.text.replace(/, service parts aside$/, '');
      if (seen.has(text)) return [];
      seen.add(text);
      return [{ name: name.id, text }];
    });
  };
  const honest = honestOf(after);
  return {
    honest: honest.map(({ rule }) => ({ name: rule.name.id, text: rule.name.text })),
    rulesOut: said(before, (id, status) => status !== 'ruled out' && compiled.has(id) && (now.get(id) ?? 'ruled out') === 'ruled out'),
    makesStand: said(after, (id, status) => status === 'stands' && was.get(id) !== 'stands'),
    open: openAbove(after, honest).length,
    claim: bestStatus(claimed.flatMap((name) => now.get(name) ?? [])),
  };
};

/** The sheet with the reading entered; of an entry read again, in its place. */
const withReading = (sheet: Sheet, one: Weighed, reading: PossibleReading): Sheet => {
  const again = new Set(one.again);
  return { ...sheet, observations: [...sheet.observations.filter(({ id }) => !again.has(id)), readingOf(sheet, one, reading)] };
};

/** The reading as it would be entered. What is read again and comes out the same is entered as it was. */
export const readingOf = (sheet: Sheet, one: Weighed, reading: PossibleReading): Observation => {
  const same = sheet.observations.find(({ id, value }) => one.again.includes(id) && isWithin(value, reading));
  return same === undefined ? observationOf(one, reading) : { ...same, id: asId<ObservationId>('next-check') };
};

const isWithin = (value: Seen, { seen, from, to }: PossibleReading): boolean => {
  if (value.kind === 'measure') return value.value >= from && value.value < to;
  if (value.kind === 'count' && seen !== null) return from <= value.from && value.to <= to;
  return seen !== null && JSON.stringify(seen) === JSON.stringify(value);
};

/** The reading as it would be entered of a feature not looked at yet. */
export const observationOf = ({ slot, feature }: { slot: CompiledSlot; feature: Feature }, { seen }: PossibleReading): Observation => ({
  id: asId<ObservationId>('next-check'),
  slot: slot.data.id,
  feature: feature.id,
  value: seen ?? nobodys(feature, slot),
  sure: feature.kind === 'measure' ? { kind: 'measured', u: instrumentUncertainty(feature) || 1e-6 } : { kind: 'seen' },
});

/** A value no listed part has. */
export const nobodys = (feature: Feature, slot: CompiledSlot): Observation['value'] => {
  if (feature.kind === 'mark') return { kind: 'mark', text: 'letters no listed part bears' };
  const greatest = slot.factsOf(feature.id).distinct.reduce((most, fact) => (fact.kind === 'count' ? Math.max(most, fact.to) : most), 0);
  return { kind: 'count', from: greatest + 1, to: greatest + 1 };
};

/**
 * The step an instrument must have for the sizes of the remaining candidates: a reading off by 2u and judged at ±2u keeps two parts apart where their limits leave more than
 * 4u between them, and u = step/√3. Sizes that overlap cannot be told apart by any instrument and ask nothing of it.
 */
const stepFor = (feature: Feature, slot: UnitSlot): CheckEffects['step'] => {
  if (feature.kind !== 'measure') return null;
  const facts = slot.of.factsOf(feature.id);
  const live = new Set(partsIn(slot).map((part) => facts.of[part] as number));
  const limits = [...live]
    .map((at) => facts.distinct[at] as Fact)
    .flatMap((fact) =>
      fact.kind === 'measure'
        ? [[fact.nominal + fact.lower - (feature.wear?.below ?? 0), fact.nominal + fact.upper + (feature.wear?.above ?? 0)] as const]
        : [],
    )
    .sort((a, b) => a[0] - b[0]);
  let gap = Number.POSITIVE_INFINITY;
  let reach = Number.NEGATIVE_INFINITY;
  for (const [least, greatest] of limits) {
    if (least > reach && reach !== Number.NEGATIVE_INFINITY) gap = Math.min(gap, least - reach);
    reach = Math.max(reach, greatest);
  }
  if (!Number.isFinite(gap)) return null;
  const atMost = (gap * Math.sqrt(3)) / 4;
  const enough = feature.resolution !== undefined && feature.resolution <= atMost;
  return { gap, atMost, enough, sentence: stepSentence(feature, gap, atMost) };
};

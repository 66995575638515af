import { type Assumptions, startingAssumptions } from '../answer/assumptions.ts';
import type { Check, CheckEffects, CheckOutcome, PossibleReading, ReadingSeen } from '../answer/odds.ts';
import type { Status } from '../answer/verdict.ts';
import type { Fact, Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import { ruleNamed } from '../compile/name-ids.ts';
import { asId, type FeatureId, type NameId, type ObservationId } from '../ids.ts';
import { honestOf, type Ladder, ladderOf, openAbove } from '../names/ladder.ts';
import type { Observation, Seen, Sheet } from '../sheet/sheet.ts';
import { partsIn } from '../unit/groups.ts';
import { type Unit, type UnitSlot, unitOf } from '../unit/unit.ts';
import { contradictionsIn } from '../verdict/answer.ts';
import { asItIs } from '../words/advice-sentences.ts';
import { readingPhrase, stepSentence } from '../words/check-words.ts';
import { type SaidNow, settlesSentence } from '../words/settles-sentence.ts';
import { briefCheck, howToCheck, type Weighing, weighingOf } from './odds-of.ts';
import { instrumentUncertainty } from './readings.ts';
import { saidOf, sameSaid } from './said.ts';
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
  const weighing = weighingOf(atlas, sheet, assumptions);
  const check = weighing.checks.find((each) => each.feature === feature);
  return check === undefined ? null : effectsOfCheck(weighing, sheet, check);
};

/**
 * @param check of the weighing's features, in the order or beside it
 * @param then what follows where entries read the same again, in words
 */
export const effectsOfCheck = ({ atlas, weighed }: Weighing, sheet: Sheet, check: Check, then = asItIs): CheckEffects => {
  const one = weighed.find((each) => each.feature.id === check.feature) as Weighed;
  const unit = unitOf(atlas, sheet);
  const before = ladderOf(unit);
  const said = saidOf(unit, before.possible);
  const followed = one.readings.all
    .map((reading, at) => ({ reading, chance: one.chances[at] as number, left: one.bits[at] as number }))
    .sort((a, b) => b.chance - a.chance)
    .slice(0, mostReadings)
    .filter(({ chance }, at) => chance > 0 && (chance >= worthFollowing || at < 2));
  const outcomes = new Map<string, { outcome: CheckOutcome; bits: number; readings: PossibleReading[] }>();
  for (const { reading, chance, left } of followed) {
    atlas.pulse();
    const after = effectOf(before, unitOf(atlas, withReading(sheet, one, reading)));
    const key = JSON.stringify([after.honest, after.rulesOut, after.reopens, after.makesStand, after.open, after.claim]);
    const known = outcomes.get(key);
    if (known) {
      const together = known.outcome.chance + chance;
      known.bits = (known.bits * known.outcome.chance + left * chance) / together;
      known.readings.push(reading);
      known.outcome = { ...known.outcome, chance: together };
    } else outcomes.set(key, { outcome: { ...after, text: '', readings: [], chance, bits: 0 }, bits: left, readings: [reading] });
  }
  const all = [...outcomes.values()]
    .map(
      ({ outcome, bits: leaves, readings }): CheckOutcome => ({
        ...outcome,
        text: readingPhrase(one.feature, readings),
        readings: readings.map(({ seen, from, to }) => ({
          seen,
          ...(seen?.kind === 'measure' && Number.isFinite(from) ? { from } : {}),
          ...(seen?.kind === 'measure' && Number.isFinite(to) ? { to } : {}),
        })),
        bits: leaves,
      }),
    )
    .sort((a, b) => b.chance - a.chance);
  // Several entries in whose place one would stand may say otherwise than all of them do.
  const same = all.find(
    (outcome) => outcome.reopens.length === 0 && sameSaid(outcome, said) && outcome.readings.some((reading) => isSame(sheet, one, reading)),
  );
  const now: SaidNow = {
    claimed: sheet.claimed?.trim() || null,
    claim: said.claim,
    honest: said.honest.map(({ name }) => name),
    open: openAbove(before, honestOf(before)).length,
  };
  return {
    check,
    how: howToCheck(atlas, sheet, check),
    brief: briefCheck(atlas, check),
    step: stepFor(one.feature, unit.slots[one.slot.number] as UnitSlot),
    outcomes: all,
    rest: Math.max(0, 1 - followed.reduce((sum, { chance }) => sum + chance, 0)),
    changes: all.some((outcome) => outcome.reopens.length > 0 || !sameSaid(outcome, said)),
    settles: settlesSentence(one.feature, all, now, same === undefined ? null : { outcome: same, then }),
  };
};

/** The statuses of the names that are not ruled out. */
const statusesIn = ({ possible }: Ladder): ReadonlyMap<NameId, Status> =>
  new Map(possible.map(({ rule, status }) => [rule.name.id, status]));

type Effect = Omit<CheckOutcome, 'text' | 'readings' | 'chance' | 'bits'>;

const effectOf = (before: Ladder, unit: Unit): Effect => {
  const { atlas } = unit;
  const after = ladderOf(unit);
  // Hybrids are formed as a unit calls for them; their coming and going is no finding.
  const compiled = (id: NameId): boolean => ruleNamed(atlas, id) !== undefined;
  const was = statusesIn(before);
  const now = statusesIn(after);
  const said = (ladder: Ladder, picks: (id: NameId) => boolean) => {
    const seen = new Set<string>();
    return ladder.possible.flatMap(({ rule: { name } }) => {
      // Of a model's three rungs the weakest speaks: its going takes the others with it.
      if (name.rung === 'model' || name.rung === 'model with options' || name.rung === 'parts' || !picks(name.id)) return [];
      const text = name.text.replace(/, service parts aside$/, '');
      if (seen.has(text)) return [];
      seen.add(text);
      return [{ name: name.id, text }];
    });
  };
  const honest = honestOf(after);
  return {
    ...saidOf(unit, after.possible),
    rulesOut: said(before, (id) => compiled(id) && !now.has(id)),
    reopens: said(after, (id) => compiled(id) && !was.has(id)),
    makesStand: said(after, (id) => now.get(id) === 'stands' && was.get(id) !== 'stands'),
    open: openAbove(after, honest).length,
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

const isSame = (sheet: Sheet, { again }: Weighed, { seen, from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY }: ReadingSeen) =>
  sheet.observations.some(({ id, value }) => again.includes(id) && isWithin(value, { seen, from, to }));

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

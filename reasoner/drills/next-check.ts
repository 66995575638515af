import type { Check, Odds } from '../answer/odds.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { CompiledSlot } from '../compile/compiled.ts';
import type { FeatureId } from '../ids.ts';
import { oddsOf } from '../odds/odds-of.ts';
import { size } from '../plain/sizes.ts';
import type { Sheet, Unseen } from '../sheet/sheet.ts';
import { howToTake } from '../words/check-words.ts';
import type { Choice, Drill, DrillLevel, Ground, Judgement, Kind, Topic } from './drill.ts';
import { inOrder } from './looks.ts';
import { builtAs, foundSheet, looksOf, mayFill, modelsOf, observed, partAt, shownOf } from './units.ts';

type CheckTopic = Extract<Topic, { kind: 'check' }>;

/** A check is as good as the best when what it tells per minute is at least this share of what the best tells. */
export const asGoodAs = 0.9;
/** Nothing between this share and the one above is offered: no choice is nearly right. */
const clearlyLess = 0.6;

/**
 * What would you check next: a unit of which a little has been seen. Right is every check whose expected drop in uncertainty per minute (Q1) is
 * within a tenth of the best there is, the strip-down it needs counted.
 */
export const nextCheck: Kind<CheckTopic> = {
  make: (ground, topic, draw) => {
    const model = draw.any(modelsOf(ground, topic.family));
    const parts = model === undefined ? null : builtAs(ground, model, draw);
    if (parts === null) return null;
    const early = ground.slots.flatMap(({ data: slot, number }) => {
      const part = parts[number] ?? null;
      if (part === null || slot.group === 'plate') return [];
      return looksOf(ground, slot.id, topic.level).flatMap((feature) =>
        mayFill(feature, topic.level) && ground.stages.get(feature.stage)?.minutes === 0
          ? (observed(feature, partAt(ground, number, part).facts[feature.id], draw, topic.level) ?? [])
          : [],
      );
    });
    const observations = inOrder(ground, draw.shuffled(early).slice(0, 2 + draw.below(4)));
    // Letters would settle most units at a glance; more often than not they are gone.
    const gone = draw.chance(0.7);
    const unseen: Unseen[] = gone
      ? ground.data.features.flatMap((feature) =>
          feature.kind === 'mark' || ground.slots.some(({ data: slot }) => slot.group === 'plate' && slot.id === feature.slot)
            ? [{ slot: feature.slot, feature: feature.id, why: 'could not see' as const }]
            : [],
        )
      : [];
    const sheet = foundSheet(observations, { unseen });
    const odds = oddsOf(ground, sheet);
    if (odds.kind !== 'odds') return null;
    const checks = looksIn(ground, odds, topic.level);
    const [best] = checks;
    if (best === undefined || odds.bits < 0.3) return null;
    const less = draw.shuffled(checks.slice(0, 40).filter(({ rate }) => rate < clearlyLess * best.rate));
    const chosen: Check[] = [best];
    for (const check of less) {
      if (chosen.length === 4) break;
      if (chosen.every(({ slot }) => slot !== check.slot) || chosen.length > 2) chosen.push(check);
    }
    if (chosen.length < 3) return null;
    return {
      question: `${gone ? 'No letters can be read and the plate is gone.' : 'This much has been seen.'} ${
        topic.level === 'by eye' ? 'With nothing to measure with, what would you look at next?' : 'What would you check next?'
      }`,
      sheet,
      shown: shownOf(ground, observations),
      respond: { kind: 'one' },
      choices: draw.shuffled(chosen).map((check) => choiceOf(ground, check)),
    };
  },

  judge: (ground, drill, [chosen]) => judgeCheck(ground, drill, chosen as FeatureId),
};

/** What is seen of a drill’s unit is as it is: nothing is read again. By eye, nothing is measured. */
const looksIn = (ground: Ground, { checks }: Odds, level: DrillLevel): readonly Check[] =>
  checks.filter(({ again, feature }) => again.length === 0 && mayFill(ground.features.get(feature) as Feature, level));

const choiceOf = (ground: Ground, check: Check): Choice => {
  const feature = ground.features.get(check.feature) as Feature;
  const slot = ground.slots[ground.slotNumber.get(check.slot) as number] as CompiledSlot;
  return {
    id: check.feature,
    text: howToTake(ground, slot, feature, check),
    subject: { kind: 'feature', id: feature.id, text: `${feature.name}, ${slot.data.name}` },
  };
};

const judgeCheck = (ground: Ground, drill: Drill, chosen: FeatureId): Judgement => {
  const odds = oddsOf(ground, drill.sheet as Sheet);
  if (odds.kind !== 'odds') throw new Error('a drill’s sheet contradicts itself');
  const checks = looksIn(ground, odds, drill.level);
  const [best] = checks;
  const rateOf = (id: string): number => checks.find(({ feature }) => feature === id)?.rate ?? 0;
  const good = (id: string): boolean => best !== undefined && rateOf(id) >= asGoodAs * best.rate;
  const accepted = drill.choices.filter(({ id }) => good(id));
  const mine = checks.find(({ feature }) => feature === chosen);
  const right = good(chosen);
  const say = (check: Check | undefined): string => {
    if (check === undefined) return 'That check tells nothing of the name.';
    const opening = check.openingMinutes === 0 ? '' : `, after ${minutes(check.openingMinutes)} of strip-down`;
    return `${choiceOf(ground, check).subject.text}: expected to settle ${percent(check.drop / odds.bits)} of what is uncertain, in ${minutes(check.minutes)}${opening}.`;
  };
  const first = right ? mine : best;
  const subject = drill.choices.find(({ id }) => id === chosen)?.subject;
  const meant = accepted[0]?.subject;
  return {
    right,
    accepted: accepted.map(({ id }) => [id]),
    sentences: [
      right ? 'Nothing tells more for the time it takes.' : 'Another check tells more for the time it takes.',
      capital(say(first)),
      ...(right
        ? drill.choices.filter(({ id }) => id !== chosen).map(({ id }) => capital(say(checks.find(({ feature }) => feature === id))))
        : [capital(say(mine))]),
    ],
    showings: [
      ...(first === undefined
        ? []
        : [{ slot: first.slot, feature: first.feature, sides: likeliest(ground, odds.ifRight?.slots ?? [], first) }]),
    ],
    confused: right || subject === undefined || meant === undefined ? null : { asked: meant, answered: subject },
  };
};

/** What the check would tell apart: the likeliest two parts of its slot that differ in it. */
const likeliest = (
  ground: Ground,
  slots: readonly { readonly slot: string; readonly parts: readonly { readonly part: string | null }[] }[],
  check: Check,
) => {
  const parts = (slots.find(({ slot }) => slot === check.slot)?.parts ?? []).flatMap(({ part }) => {
    const known = part === null ? undefined : ground.data.parts.find(({ id }) => id === part);
    const fact = known?.facts[check.feature];
    return known === undefined || fact === undefined || fact.kind === 'not known' ? [] : [{ known, key: JSON.stringify(fact) }];
  });
  const [first] = parts;
  const other = parts.find(({ key }) => key !== first?.key);
  return [first, other].flatMap((each) => (each === undefined ? [] : [{ label: each.known.name, facts: each.known.facts }]));
};

const percent = (share: number): string => (share < 0.01 ? 'under 1 %' : `${Math.round(share * 100)} %`);
const minutes = (count: number): string => (count === 1 ? '1 minute' : `${size(count)} minutes`);
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

import type { Assumptions, Atlas, Fact, Feature, Observation, Seen, Sheet } from '../../reasoner/index.ts';
import { Dice } from './dice.ts';
import { randomCase } from './random-atlas.ts';

export interface OddsCase {
  readonly seed: number;
  readonly atlas: Atlas;
  readonly sheet: Sheet;
  readonly assumptions: Assumptions;
}

/**
 * A made-up atlas with what the odds look at besides: instruments with a step and without, wide ranges of counts, more that is not known (now and then a feature
 * nobody knows anything of), things looked for and not seen, and assumptions from never to always.
 */
export const randomOddsCase = (seed: number): OddsCase => {
  const { atlas, sheet } = randomCase(seed);
  const dice = new Dice(seed + 70_000);
  const features = atlas.features.map(
    (feature): Feature =>
      feature.kind === 'measure' && dice.often(75) ? { ...feature, resolution: dice.one([1 / 64, 1 / 16, 1 / 4]) } : feature,
  );
  const silent = new Set(features.filter(() => dice.often(6)).map(({ id }) => id));
  const parts = atlas.parts.map((part) => ({
    ...part,
    facts: Object.fromEntries(
      Object.entries(part.facts).map(([id, fact]) => [id, silent.has(id as Feature['id']) ? notKnown : dimmed(dice, fact)]),
    ),
  }));
  const models = atlas.models.map((model) => {
    const openEnded = atlas.slots.filter(({ group }) => group !== 'plate' && dice.often(12)).map(({ id }) => id);
    return openEnded.length === 0 ? model : { ...model, openEnded };
  });
  // Now and then what was noted is read again, the same or not.
  const again = sheet.observations.flatMap((observation, i): Observation[] => {
    if (!dice.often(20)) return [];
    const other = dice.one(sheet.observations);
    const value = dice.often(70) || other.feature !== observation.feature ? observation.value : other.value;
    return [{ ...observation, id: `again-${i}` as Observation['id'], value: nudged(dice, value) }];
  });
  const unseen = features
    .filter(() => dice.often(8))
    .map(({ id, slot }) => ({ slot, feature: id, why: dice.one(['could not see', 'may not be opened', 'no instrument'] as const) }));
  return {
    seed,
    atlas: { ...atlas, features, parts, models },
    sheet: { ...sheet, observations: [...sheet.observations, ...again], ...(dice.often(50) ? { unseen } : {}) },
    assumptions: {
      stranger: dice.one([0, 0.05, 0.05, 0.5, 1]),
      swapped: dice.one([0, 0.03, 0.08, 0.08, 0.4, 1]),
      unlisted: dice.one([0, 0.2, 0.2, 0.7, 1]),
      misfit: dice.one([0, 0.05, 0.05, 0.4, 0.9]),
      slip: dice.one([0, 0.02, 0.02, 0.1, 0.5]),
    },
  };
};

/** Another hand with the same caliper, or one who miscounts. */
const nudged = (dice: Dice, value: Seen): Seen => {
  if (value.kind === 'measure') return { ...value, value: value.value + dice.whole(-1, 1) / 32 };
  if (value.kind === 'count' && dice.often(30)) return { ...value, from: value.from + 1, to: value.to + 1 };
  return value;
};

const notKnown: Fact = { kind: 'not known' };

const dimmed = (dice: Dice, fact: Fact): Fact => {
  if (dice.often(8)) return notKnown;
  return fact.kind === 'count' && dice.often(30) ? { ...fact, to: fact.to + dice.whole(1, 3) } : fact;
};

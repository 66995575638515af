import type { CompiledAtlas, Fact, FeatureId, Observation, PartId, Plan, Seen, Sheet } from '../../../reasoner/index.ts';

/**
 * What is read of a good example: the middle of limits, the first of alternatives, of letters the latest, since a forerunner’s housing that bears the maker’s first name
 * may have been machined to this one’s sizes. Null where nothing is known.
 */
export const read = (fact: Fact): Seen | null => {
  switch (fact.kind) {
    case 'count':
      return { kind: 'count', from: fact.from, to: fact.from };
    case 'measure':
      return { kind: 'measure', value: fact.nominal + (fact.lower + fact.upper) / 2 };
    case 'choice':
      return { kind: 'choice', option: fact.anyOf[0] ?? '' };
    case 'presence':
      return { kind: 'presence', present: fact.present };
    case 'mark':
      return { kind: 'mark', text: fact.anyOf.at(-1) ?? null };
    case 'not known':
      return null;
  }
};

/** The build as it stands on the bench once its works are done, everything about it measured: a unit found by somebody who knows nothing of the plan. */
export const asBuilt = (atlas: CompiledAtlas, sheet: Sheet, plan: Plan): Sheet => {
  const made = new Map(plan.works.flatMap(({ changes }) => changes.map(({ feature, fact }) => [feature, fact] as const)));
  const observations = atlas.data.slots.flatMap((slot) => {
    const part = atlas.parts.get(sheet.chosen[slot.id] as PartId);
    return Object.entries(part?.facts ?? {}).flatMap(([feature, fact]): Observation[] => {
      const value = read(made.get(feature as FeatureId) ?? fact);
      if (value === null) return [];
      const sure: Observation['sure'] = value.kind === 'measure' ? { kind: 'measured', u: 0.002 } : { kind: 'seen' };
      return [{ id: `read ${feature}` as Observation['id'], slot: slot.id, feature: feature as FeatureId, value, sure }];
    });
  });
  const absent = atlas.data.slots.flatMap(({ id }) => (sheet.chosen[id] === undefined ? [id] : []));
  return { ...sheet, kind: 'found', claimed: null, claimedMaker: null, chosen: {}, unseen: [], observations, absent };
};

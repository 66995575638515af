import { describe, expect, test } from 'vitest';
import { answer, type Fact, type Model, type Observation, type Part, type Seen, type Sheet } from '../../../reasoner/index.ts';
import { demo, demoAtlas } from './demo-atlas.ts';

/**
 * What is seen when a good example is looked at: the middle of limits, the first of alternatives, of letters the latest: a forerunner’s housing that bears the
 * maker’s first name may have been machined to this one’s sizes. Null where nothing is known.
 */
const seen = (fact: Fact): Seen | null => {
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

/** A sheet on which everything the atlas knows of these parts was looked at. */
const wholeLook = (model: Model, parts: readonly Part[]): Sheet => ({
  id: model.id as unknown as Sheet['id'],
  title: model.name,
  story: '',
  kind: 'found',
  claimed: null,
  claimedMaker: null,
  observations: parts.flatMap((part) =>
    Object.entries(part.facts).flatMap(([feature, fact]): Observation[] => {
      const value = seen(fact);
      if (value === null) return [];
      const sure: Observation['sure'] = value.kind === 'measure' ? { kind: 'measured', u: 0.001 } : { kind: 'seen' };
      return [
        { id: `${part.id} ${feature}` as Observation['id'], slot: part.slot, feature: feature as Observation['feature'], value, sure },
      ];
    }),
  ),
  absent: [],
  chosen: {},
});

/** One part a slot: what names the model where something does. */
const ownParts = (model: Model): readonly Part[] =>
  demoAtlas.slots.flatMap((slot) => {
    const listed = model.allowed.filter((each) => each.slot === slot.id);
    const part = (listed.find((each) => each.role === 'names') ?? listed[0])?.part;
    return part === undefined ? [] : (demo.parts.get(part) ?? []);
  });

const honestOf = (model: Model): readonly string[] => {
  const verdict = answer(demo, wholeLook(model, ownParts(model)), { explain: 'none' });
  if (verdict.kind !== 'verdict') throw new Error(`${model.id} contradicts itself`);
  return verdict.honest;
};

describe('[N3] every model of the demo world can be known', () => {
  test.each(demoAtlas.families.map((family) => [family.name, family] as const))(
    '[N3] %s: a unit built as the catalogue says, and looked at all over, stands under its name',
    (_name, family) => {
      for (const model of demoAtlas.models.filter((each) => each.family === family.id)) {
        const honest = honestOf(model);
        if (family.maker !== null) expect(honest, model.id).toEqual([`model:${model.id}`]);
        // Pattern cores that differ in a housing alone are one core.
        else expect(honest, model.id).toContain(`pattern:${model.id}`);
      }
    },
  );
});

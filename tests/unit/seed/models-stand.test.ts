import { describe, expect, test } from 'vitest';
import { answer, type Model, type Observation, type Part, type Sheet } from '../../../reasoner/index.ts';
import { read } from '../builds/as-built.ts';
import { demo, demoAtlas } from './demo-atlas.ts';

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
      const value = read(fact);
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

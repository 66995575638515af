import { expect, test } from 'vitest';
import { Pairs } from '../../../reasoner/builds/pairs.ts';
import { plannerFor } from '../../../reasoner/builds/work-sets.ts';
import type { CompiledAtlas, CompiledJoint } from '../../../reasoner/compile/compiled.ts';
import type { InHand } from '../../../reasoner/fits/judge-joint.ts';
import { type Atlas, asId, compileAtlas, type FeatureId, type Part, type PartId } from '../../../reasoner/index.ts';
import { demo } from '../seed/demo-atlas.ts';

const pairsOf = (atlas: CompiledAtlas, inHand: InHand = new Map()) =>
  new Pairs(atlas, inHand, plannerFor(atlas.data.operations ?? [], 3), 3, 'nothing');

/** The parts of both sides of a joint. */
const sidesOf = (atlas: CompiledAtlas, joint: CompiledJoint): readonly (readonly Part[])[] =>
  [joint.a, joint.b].map((slot) => atlas.slots[slot]?.parts ?? []);

test('[F4] parts that meet alike but of which one is not of what the work takes are told apart', () => {
  const plan = plannerFor(demo.data.operations ?? [], 3);
  let told = 0;
  for (const joint of demo.joints) {
    const [first = [], second = []] = sidesOf(demo, joint);
    const slots = { a: demo.slots[joint.a]?.data.id as Part['slot'], b: demo.slots[joint.b]?.data.id as Part['slot'] };
    for (const a of first.slice(0, 12)) {
      for (const b of second.slice(0, 12)) {
        if (!pairsOf(demo).with(joint, joint.a, a)(b).holds) continue;
        const { fit, plans } = plan({ joint: joint.data, slots, a, b }, new Map());
        const works = plans.flatMap((each) => each.works);
        if (fit.verdict === 'drops in' || works.length === 0) continue;
        // Nothing that could put it right takes such a part any more.
        const takes = (demo.data.operations ?? []).filter(({ id }) => works.some(({ operation }) => operation === id));
        const asked = takes.flatMap((each) => each.takes).map(({ feature }) => feature);
        const refused = (part: Part): Part => {
          const facts = asked.flatMap((feature) =>
            part.facts[feature]?.kind === 'choice' ? [[feature, { kind: 'choice', anyOf: ['nothing like it'] }]] : [],
          );
          return { ...part, id: asId<PartId>(`${part.id}-twin`), facts: { ...part.facts, ...Object.fromEntries(facts) } };
        };
        const [otherA, otherB] = [refused(a), refused(b)];
        const larger: Atlas = { ...demo.data, parts: [...demo.data.parts, otherA, otherB] };
        const compiled = compileAtlas(larger);
        const same = compiled.joints[joint.number] as CompiledJoint;
        const pairs = pairsOf(compiled);
        for (const [one, other] of [
          [a, b],
          [otherA, b],
          [a, otherB],
          [otherA, otherB],
        ] as const) {
          const alone = pairsOf(compileAtlas(larger)).with(same, same.a, one)(other);
          expect(pairs.with(same, same.a, one)(other), `${one.id} ${other.id}`).toEqual(alone);
          if (!alone.holds) told += 1;
        }
      }
    }
  }
  expect(told).toBeGreaterThan(0);
});

test('[F4] a pair is the same from either side, and whatever was asked before', () => {
  // With something in hand, of no part at all, nothing is remembered from one search to the next.
  const unrelated: InHand = new Map([[asId<FeatureId>('of no part'), { kind: 'count', from: 1, to: 1 }]]);
  const remembered = pairsOf(demo);
  let [holding, failing] = [0, 0];
  for (const joint of demo.joints) {
    const [first = [], second = []] = sidesOf(demo, joint).map((parts) => parts.filter((_, i) => i % 9 === 0));
    for (const b of second) {
      for (const a of first) {
        const alone = pairsOf(demo, unrelated).with(joint, joint.a, a)(b);
        expect(remembered.with(joint, joint.b, b)(a), `${a.id} ${b.id}`).toEqual(alone);
        expect(remembered.with(joint, joint.a, a)(b), `${a.id} ${b.id}`).toEqual(alone);
        if (alone.holds) holding += 1;
        else failing += 1;
      }
    }
  }
  expect(Math.min(holding, failing)).toBeGreaterThan(50);
});

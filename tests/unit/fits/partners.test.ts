import { describe, expect, test } from 'vitest';
import { asId, type Fact, type FeatureId, type Joint, judgeJoint, type Part, partnersOf, type SlotId } from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { demoAtlas } from '../seed/demo-atlas.ts';

const slotOf = (feature: FeatureId): SlotId => demoAtlas.features.find(({ id }) => id === feature)?.slot as SlotId;
const slotsOf = (joint: Joint) => {
  const slot = (port: string) => demoAtlas.ports.find(({ id }) => id === port)?.slot as SlotId;
  return { a: slot(joint.a), b: slot(joint.b) };
};

/** As it is said pair by pair. */
const judged = (joint: Joint, as: readonly Part[], bs: readonly Part[]): number[][] =>
  as.map((a) => bs.flatMap((b, j) => (judgeJoint(joint, slotsOf(joint), a, b).verdict === 'will not fit' ? [] : [j])));

const found = (joint: Joint, as: readonly Part[], bs: readonly Part[]): number[][] => {
  const of = partnersOf(joint, slotsOf(joint), slotOf, as, bs);
  return as.map((_, i) => [...of(i)]);
};

describe('[F2] who does not fail at a joint', () => {
  test.each(demoAtlas.joints.map(({ id }) => id))(
    '[F2] at %s: those of whom judging pair by pair does not say that they will not fit',
    (id) => {
      const joint = demoAtlas.joints.find((each) => each.id === id) as Joint;
      const dice = new Dice(7);
      /** Every eighth dimension a little off or not known, so that there are near misses and gaps enough. */
      const spoilt = (fact: Fact): Fact => {
        if (!dice.often(12)) return fact;
        if (dice.often(30) || fact.kind !== 'measure') return { kind: 'not known' };
        return { ...fact, nominal: fact.nominal + dice.whole(-8, 8) / 100 };
      };
      const partsIn = (slot: SlotId): Part[] =>
        demoAtlas.parts
          .filter((part) => part.slot === slot)
          .flatMap((part): Part[] => {
            const facts = Object.fromEntries(Object.entries(part.facts).map(([feature, fact]) => [feature, spoilt(fact)]));
            return [part, { ...part, id: asId(`${part.id}-spoilt`), facts }];
          });
      const [as, bs] = [partsIn(slotsOf(joint).a), partsIn(slotsOf(joint).b)];
      const pairs = judged(joint, as, bs);
      expect(found(joint, as, bs)).toEqual(pairs);
      const meeting = pairs.reduce((sum, row) => sum + row.length, 0);
      expect(meeting).toBeGreaterThan(0);
      expect(meeting).toBeLessThan(as.length * bs.length);
    },
  );

  test('[F2] where a joint asks nothing everybody meets, and of nobody there is nobody', () => {
    const joint = { ...(demoAtlas.joints[0] as Joint), rules: [] };
    const parts = demoAtlas.parts.filter(({ slot }) => slot === slotsOf(joint).a).slice(0, 2);
    expect(found(joint, parts, [parts[0], parts[0], parts[0]] as Part[])).toEqual([
      [0, 1, 2],
      [0, 1, 2],
    ]);
    expect(found(demoAtlas.joints[0] as Joint, parts, [])).toEqual([[], []]);
  });
});

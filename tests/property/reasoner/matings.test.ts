import fc from 'fast-check';
import { expect, it } from 'vitest';
import { meet, type Pairing } from '../../../reasoner/algebra/pairing.ts';
import type { Fact, Joint } from '../../../reasoner/atlas/atlas.ts';
import type { FitRule } from '../../../reasoner/atlas/rule.ts';
import type { ReadTable } from '../../../reasoner/compile/fact-tables.ts';
import { type End, matingOf } from '../../../reasoner/compile/mating.ts';
import { comparisonsOf } from '../../../reasoner/fits/comparisons.ts';
import { comparisonFails } from '../../../reasoner/fits/judge-rule.ts';
import type { FeatureId, JointId, PortId } from '../../../reasoner/ids.ts';

/*
 * A joint is found by sorting and halving; here every two parts are judged, however each may be read. Sizes stand close together and some are written with
 * the deviations that do not add up exactly in binary, so that limits often touch.
 */
const size = fc
  .record({ steps: fc.integer({ min: 0, max: 30 }), lower: fc.integer({ min: -3, max: 2 }), wide: fc.integer({ min: 0, max: 6 }) })
  .map(({ steps, lower, wide }): Fact => ({ kind: 'measure', nominal: 20 + steps / 100, lower: lower / 100, upper: (lower + wide) / 100 }));
const notKnown: Fact = { kind: 'not known' };
const choice = fc.subarray(['left', 'right', 'either'], { minLength: 1 }).map((anyOf): Fact => ({ kind: 'choice', anyOf }));
const orNot = (fact: fc.Arbitrary<Fact>) => fc.oneof({ weight: 6, arbitrary: fact }, { weight: 1, arbitrary: fc.constant(notKnown) });

/** How one part may be found: as it is made, or as any of several works may have left it. */
const read = (fact: fc.Arbitrary<Fact>) => fc.array(orNot(fact), { minLength: 1, maxLength: 3 });

interface PartRead {
  readonly size: readonly Fact[];
  readonly other: readonly Fact[];
  readonly hand: readonly Fact[];
}

const parts = fc.array(fc.record({ size: read(size), other: read(size), hand: read(choice) }) as fc.Arbitrary<PartRead>, {
  minLength: 1,
  maxLength: 14,
});

const featureOf = (slot: number, name: keyof PartRead): FeatureId => `${slot}.${name}` as FeatureId;

/** Rules between slots 0 and 1, the first feature of some of which is slot 1's. */
const ruleNamed: Readonly<Record<string, FitRule>> = {
  pilot: { kind: 'pilot', recess: featureOf(0, 'size'), spigot: featureOf(1, 'size'), min: -0.02, max: 0.05 },
  turned: { kind: 'running clearance', outer: featureOf(1, 'other'), inner: featureOf(0, 'other'), min: 0, max: 0.08 },
  contour: {
    kind: 'wheel to contour',
    pairs: [
      { way: 'radial', housing: featureOf(1, 'size'), wheel: featureOf(0, 'other'), min: -0.01, max: 0.06 },
      { way: 'axial', housing: featureOf(1, 'other'), wheel: featureOf(0, 'size'), min: -0.05, max: 0.1 },
    ],
  } as FitRule,
  hand: { kind: 'direction of rotation', a: featureOf(0, 'hand'), b: featureOf(1, 'hand') },
  clamp: { kind: 'clamp profile', a: featureOf(1, 'hand'), b: featureOf(0, 'hand') },
};

const tableOf = (of: readonly (readonly Fact[])[]): ReadTable => {
  const known = new Map<string, number>();
  const distinct: (readonly Fact[])[] = [];
  const numbers = of.map((facts) => {
    const key = JSON.stringify(facts);
    const number = known.get(key) ?? distinct.push(facts) - 1;
    known.set(key, number);
    return number;
  });
  return { distinct, of: Int32Array.from(numbers) };
};

it('[J1] two parts meet at a joint exactly where some way each may be found fails in none of its comparisons, and parts that meet the same are of one class', () => {
  let [meets, fails, shared] = [0, 0, 0];
  fc.assert(
    fc.property(
      fc.tuple(parts, parts),
      fc.array(fc.subarray(Object.keys(ruleNamed), { minLength: 1 }), { minLength: 1, maxLength: 2 }),
      (slots, joints) => {
        const tables = new Map<FeatureId, ReadTable>();
        slots.forEach((own, slot) => {
          for (const name of ['size', 'other', 'hand'] as const) tables.set(featureOf(slot, name), tableOf(own.map((part) => part[name])));
        });
        const ends = joints.map((names, number): End => {
          const rules = names.map((name) => ruleNamed[name] as FitRule);
          // One joint the other way round.
          const [a, b] = number === 0 ? [0, 1] : [1, 0];
          return { joint: { id: `j${number}` as JointId, name: '', a: '' as PortId, b: '' as PortId, rules } as unknown as Joint, a, b };
        });
        const slotOf = (feature: FeatureId) => Number(feature[0]);
        const readOf = (feature: FeatureId) => tables.get(feature) as ReadTable;
        const mating = matingOf(
          slots.map(({ length }) => length),
          ends,
          slotOf,
          [readOf, readOf],
        );
        const waysOf = (slot: number, part: number, feature: FeatureId): readonly Fact[] => {
          const table = readOf(feature);
          return slotOf(feature) === slot ? (table.distinct[table.of[part] as number] as readonly Fact[]) : [];
        };
        const goes = ({ joint }: End, zero: number, one: number): boolean =>
          joint.rules.flatMap(comparisonsOf).every((comparison) => {
            const ways = (feature: FeatureId) => waysOf(slotOf(feature), slotOf(feature) === 0 ? zero : one, feature);
            return ways(comparison.first).some((first) =>
              ways(comparison.second).some(
                (second) => !comparisonFails(comparison, (feature) => (feature === comparison.first ? first : second)),
              ),
            );
          });
        const neighbours = slots.map((own) => own.map((): string[] => []));
        ends.forEach((end, number) => {
          slots[0].forEach((_, zero) => {
            slots[1].forEach((_each, one) => {
              const [a, b] = end.a === 0 ? [zero, one] : [one, zero];
              const [classA, classB] = [mating.slots[end.a]?.of[a] as number, mating.slots[end.b]?.of[b] as number];
              const expected = goes(end, zero, one);
              if (meet(mating.joints[number] as Pairing, classA, classB) !== expected) expect([number, zero, one]).toBe(expected);
              if (expected) {
                meets += 1;
                neighbours[0]?.[zero]?.push(`${number}:${one}`);
                neighbours[1]?.[one]?.push(`${number}:${zero}`);
              } else fails += 1;
            });
          });
        });
        neighbours.forEach((own, slot) => {
          const of = mating.slots[slot]?.of as Int32Array;
          own.forEach((met, part) => {
            own.forEach((other, each) => {
              if (met.join() === other.join() && part !== each) shared += 1;
              expect(of[part] === of[each]).toBe(met.join() === other.join());
            });
          });
        });
      },
    ),
    { seed: 20261130, numRuns: 250 },
  );
  expect(Math.min(meets, fails)).toBeGreaterThan(3000);
  expect(shared).toBeGreaterThan(1000);
});

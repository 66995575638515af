import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Fact,
  type FeatureId,
  type FitRule,
  type FitVerdict,
  featuresOf,
  type Joint,
  type JointId,
  judgeJoint,
  type Known,
  type Operation,
  type OperationId,
  type Part,
  type PartId,
  type PortId,
  planWork,
  type SlotId,
  type SourceId,
} from '../../../reasoner/index.ts';

/** Random joints of every rule kind, sizes on a grid of thousandths so that limits touch often. */
const runs = { seed: 20261125, numRuns: 600 };
const f = (name: string) => name as FeatureId;
const slots = { a: 'core' as SlotId, b: 'housing' as SlotId };

const thousandths = (min: number, max: number) => fc.integer({ min, max }).map((n) => n / 1000);
const measure: fc.Arbitrary<Fact> = fc
  .record({ nominal: thousandths(9950, 10050), lower: thousandths(-30, 0), upper: thousandths(0, 30) })
  .map((limits) => ({ kind: 'measure', ...limits }));
const choice: fc.Arbitrary<Fact> = fc
  .uniqueArray(fc.constantFrom('M8', 'M8x1', 'M8x1.25', 'G1/8', 'round'), { minLength: 1, maxLength: 3 })
  .map((anyOf) => ({ kind: 'choice', anyOf }));
const count: fc.Arbitrary<Fact> = fc
  .tuple(fc.integer({ min: 4, max: 7 }), fc.integer({ min: 0, max: 1 }))
  .map(([from, more]) => ({ kind: 'count', from, to: from + more }));
const presence: fc.Arbitrary<Fact> = fc.boolean().map((present) => ({ kind: 'presence', present }));
const unknown: Fact = { kind: 'not known' };

const limits = fc.record({ min: thousandths(-60, 60), width: thousandths(0, 120) }).map(({ min, width }) => ({ min, max: min + width }));

/** A rule with facts for it; features named a… are the core's, b… the housing's. */
const ruled: fc.Arbitrary<{ readonly rule: FitRule; readonly facts: Record<string, Fact> }> = fc.oneof(
  fc.tuple(limits, measure, measure).map(([asked, a, b]) => ({
    rule: { kind: 'pilot' as const, spigot: f('a1'), recess: f('b1'), ...asked },
    facts: { a1: a, b1: b },
  })),
  fc.tuple(limits, measure, measure).map(([asked, a, b]) => ({
    rule: { kind: 'running clearance' as const, inner: f('a2'), outer: f('b2'), ...asked },
    facts: { a2: a, b2: b },
  })),
  fc.tuple(limits, measure, measure).map(([asked, a, b]) => ({
    rule: { kind: 'press fit' as const, shaft: f('a3'), bore: f('b3'), ...asked },
    facts: { a3: a, b3: b },
  })),
  fc.tuple(limits, limits, measure, measure, measure).map(([one, other, a, b, c]) => ({
    rule: {
      kind: 'wheel to contour' as const,
      pairs: [
        { wheel: f('a4'), housing: f('b4'), way: 'radial' as const, ...one },
        { wheel: f('a4'), housing: f('b5'), way: 'axial' as const, ...other },
      ],
    },
    facts: { a4: a, b4: b, b5: c },
  })),
  fc.tuple(choice, choice, choice, choice).map(([a, b, c, d]) => ({
    rule: { kind: 'thread' as const, external: { size: f('a6'), hand: f('a7') }, internal: { size: f('b6'), hand: f('b7') } },
    facts: { a6: a, b6: b, a7: c, b7: d },
  })),
  fc.tuple(count, count, measure, measure, choice, choice, thousandths(0, 60)).map(([a, b, c, d, e, g, within]) => ({
    rule: {
      kind: 'bolt circle' as const,
      a: { count: f('a8'), diameter: f('a9'), bolt: f('a10') },
      b: { count: f('b8'), diameter: f('b9'), bolt: f('b10') },
      within,
    },
    facts: { a8: a, b8: b, a9: c, b9: d, a10: e, b10: g },
  })),
  fc.tuple(presence, presence).map(([a, b]) => ({
    rule: { kind: 'services' as const, pairs: [{ needs: f('a11'), offers: f('b11') }] },
    facts: { a11: a, b11: b },
  })),
  fc.tuple(fc.constantFrom('clamp profile' as const, 'direction of rotation' as const), choice, choice).map(([kind, a, b]) => ({
    rule: { kind, a: f('a12'), b: f('b12') },
    facts: { a12: a, b12: b },
  })),
);

interface Meeting {
  readonly rules: readonly FitRule[];
  readonly facts: Readonly<Record<string, Fact>>;
}
const meeting: fc.Arbitrary<Meeting> = fc
  .uniqueArray(ruled, { minLength: 1, maxLength: 3, selector: (each) => each.rule.kind })
  .map((all) => ({
    rules: all.map((each) => each.rule),
    facts: Object.assign({}, ...all.map((each) => each.facts)) as Record<string, Fact>,
  }));

const part = (slot: 'core' | 'housing', facts: Readonly<Record<string, Fact>>): Part => ({
  id: `${slot} part` as PartId,
  slot: slot as SlotId,
  name: slot,
  maker: null,
  numbers: [],
  facts: Object.fromEntries(Object.entries(facts).filter(([name]) => name.startsWith(slot === 'core' ? 'a' : 'b'))),
  source: 'tests' as SourceId,
});
const jointOf = (rules: readonly FitRule[]): Joint => ({
  id: 'joint' as JointId,
  name: 'joint',
  a: 'a' as PortId,
  b: 'b' as PortId,
  rules,
  source: 'tests' as SourceId,
});
const judge = ({ rules, facts }: Meeting) => judgeJoint(jointOf(rules), slots, part('core', facts), part('housing', facts));

/** The same rule with its two sides exchanged, where a rule has sides that may be named in either order. */
const turned = (rule: FitRule): FitRule => {
  switch (rule.kind) {
    case 'bolt circle':
    case 'clamp profile':
    case 'direction of rotation':
    case 'same':
      return { ...rule, a: rule.b, b: rule.a } as FitRule;
    default:
      return rule;
  }
};

const good: readonly FitVerdict[] = ['drops in', 'after work'];

describe('fits over random joints', () => {
  test('[F2] a fit does not depend on which part is named first, nor on which side a rule or joint names first', () => {
    fc.assert(
      fc.property(meeting, ({ rules, facts }) => {
        const [core, housing] = [part('core', facts), part('housing', facts)];
        const joint = jointOf(rules);
        const fit = judgeJoint(joint, slots, core, housing);
        expect(judgeJoint(joint, slots, housing, core)).toEqual(fit);
        const back = judgeJoint({ ...joint, a: joint.b, b: joint.a, rules: rules.map(turned) }, { a: slots.b, b: slots.a }, core, housing);
        expect(back.verdict).toBe(fit.verdict);
        expect(back.findings.map((finding) => finding.share)).toEqual(fit.findings.map((finding) => finding.share));
      }),
      runs,
    );
  });

  test('[F2] tightening a tolerance never turns drops in into anything else, nor will not fit into anything else', () => {
    const shares = fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })), {
      minLength: 20,
      maxLength: 20,
    });
    fc.assert(
      fc.property(meeting, shares, (found, cuts) => {
        const tightened = Object.fromEntries(
          Object.entries(found.facts).map(([name, fact], i) => {
            const [low, high] = cuts[i % cuts.length] as [number, number];
            if (fact.kind === 'measure')
              return [
                name,
                { ...fact, lower: Math.round(fact.lower * low * 1000) / 1000, upper: Math.round(fact.upper * high * 1000) / 1000 },
              ];
            if (fact.kind === 'choice')
              return [name, { ...fact, anyOf: fact.anyOf.slice(0, 1 + Math.floor(low * (fact.anyOf.length - 1))) }];
            if (fact.kind === 'count') return [name, { ...fact, to: high < 0.5 ? fact.from : fact.to }];
            return [name, fact];
          }),
        );
        const before = judge(found).verdict;
        const after = judge({ ...found, facts: tightened }).verdict;
        if (before === 'drops in' || before === 'will not fit') expect(after).toBe(before);
      }),
      runs,
    );
  });

  test('[A5] making a fact unknown never gives drops in or after work where it was not, and never turns what fits into will not fit', () => {
    fc.assert(
      fc.property(meeting, fc.nat(), (found, pick) => {
        const names = found.rules.flatMap(featuresOf);
        const name = names[pick % names.length] as string;
        const before = judge(found).verdict;
        const after = judge({ ...found, facts: { ...found.facts, [name]: unknown } });
        if (good.includes(after.verdict)) expect(before).toBe(after.verdict);
        if (after.verdict === 'will not fit') expect(before).toBe('will not fit');
        if (after.verdict === 'not known') expect(after.findings.flatMap((finding) => finding.missing)).toContain(name);
      }),
      runs,
    );
  });

  test('[F2] a rule added to a joint never improves it', () => {
    const order: readonly FitVerdict[] = ['will not fit', 'not known', 'after work', 'drops in'];
    fc.assert(
      fc.property(meeting, (found) => {
        const fewer = judge({ ...found, rules: found.rules.slice(1) }).verdict;
        expect(order.indexOf(judge(found).verdict)).toBeLessThanOrEqual(order.indexOf(fewer));
      }),
      runs,
    );
  });

  test('[F2] drops in, after work and will not fit are what they say of every pair of sizes: all, some, none', () => {
    fc.assert(
      fc.property(limits, measure, measure, (asked, spigot, recess) => {
        if (spigot.kind !== 'measure' || recess.kind !== 'measure') throw new Error('measures');
        const rule: FitRule = { kind: 'pilot', spigot: f('a1'), recess: f('b1'), ...asked };
        const ends = (fact: typeof spigot) => [fact.lower, fact.upper].map((deviation) => Math.round((fact.nominal + deviation) * 1000));
        const [from, to] = [Math.round(asked.min * 1000), Math.round(asked.max * 1000)];
        const [spigotLow, spigotHigh] = ends(spigot) as [number, number];
        const [recessLow, recessHigh] = ends(recess) as [number, number];
        let fitting = 0;
        let pairs = 0;
        for (let s = spigotLow; s <= spigotHigh; s += 1) {
          for (let r = recessLow; r <= recessHigh; r += 1) {
            pairs += 1;
            if (r - s >= from && r - s <= to) fitting += 1;
          }
        }
        const said = judge({ rules: [rule], facts: { a1: spigot, b1: recess } }).verdict;
        expect(said).toBe(fitting === pairs ? 'drops in' : fitting === 0 ? 'will not fit' : 'after work');
      }),
      runs,
    );
  });
});

describe('work over random pilots and contours', () => {
  const cut = (feature: string, slot: SlotId, way: 'larger' | 'smaller', grade: number): Operation => ({
    id: `${way} ${feature}` as OperationId,
    name: 'cut',
    slot,
    does: {
      kind: 'cut',
      cuts: [
        {
          feature: f(feature),
          way,
          most: 0.2,
          holds: { kind: 'grade', grade },
          metal: [{ feature: f(`${feature[0]}wall`), per: 2, leaves: 1 }],
          moves: [],
        },
      ],
    },
    takes: [],
    hours: 1,
    turning: false,
    cautions: [],
    source: 'tests' as SourceId,
  });
  const operations = [
    cut('a1', slots.a, 'smaller', 6),
    cut('b1', slots.b, 'larger', 6),
    cut('a4', slots.a, 'smaller', 6),
    cut('b4', slots.b, 'larger', 6),
    cut('b5', slots.b, 'larger', 7),
    cut('b5', slots.b, 'smaller', 7),
  ];
  const wall: fc.Arbitrary<Fact> = fc.oneof(
    fc.constant<Fact>(unknown),
    thousandths(950, 1300).map((nominal): Fact => ({ kind: 'measure', nominal, lower: -0.05, upper: 0.05 })),
  );
  const walled = fc
    .tuple(meeting, wall, wall)
    .map(([found, a, b]): Meeting => ({ ...found, facts: { ...found.facts, awall: a, bwall: b } }));

  test('[F2] after the work named, done anywhere within its tolerance, the joint is as promised; and the metal left is what must be', () => {
    let offered = 0;
    fc.assert(
      fc.property(walled, fc.double({ min: 0, max: 1, noNaN: true }), ({ rules, facts }, where) => {
        const [core, housing] = [part('core', facts), part('housing', facts)];
        const { fit, plans, verdict } = planWork(jointOf(rules), slots, core, housing, operations);
        if (fit.verdict === 'drops in' || fit.verdict === 'not known') expect(plans).toEqual([]);
        for (const plan of plans) {
          offered += 1;
          const made = new Map<FeatureId, Known>();
          for (const work of plan.works) {
            for (const size of work.sizes) {
              const value = size.nominal + size.lower + where * (size.upper - size.lower);
              made.set(size.feature, { kind: 'measured', value, u: 0 });
              expect(size.removes.least).toBeGreaterThanOrEqual(0);
              expect(size.removes.greatest).toBeLessThanOrEqual(0.2);
            }
            if (work.allowed === 'holds') for (const metal of work.metal) expect(metal.leaves).toBeGreaterThanOrEqual(metal.mustLeave);
          }
          const done = judgeJoint(jointOf(rules), slots, core, housing, made).verdict;
          if (plan.after.verdict === 'drops in') expect(done).toBe('drops in');
          else expect(done).not.toBe('will not fit');
        }
        if (fit.verdict === 'will not fit' && verdict === 'after work') expect(plans.some((plan) => plan.allowed === 'holds')).toBe(true);
      }),
      { ...runs, numRuns: 2000 },
    );
    expect(offered).toBeGreaterThan(50);
  });
});

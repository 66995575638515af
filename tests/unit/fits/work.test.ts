import { describe, expect, test } from 'vitest';
import {
  type Doing,
  type FeatureId,
  type FitRule,
  fitCautions,
  type Operation,
  type OperationId,
  planWork,
  type SlotId,
  type SourceId,
} from '../../../reasoner/index.ts';
import { choice, count, type Facts, f, jointOf, measure, partOf, slots, unknown } from './helpers.ts';

/** A Tern core and a Tarnwick housing whose recess is a little small for it. Every figure is invented. */
const pilot: FitRule = { kind: 'pilot', spigot: f('core spigot'), recess: f('recess'), min: 0.02, max: 0.1 };
const core = (facts: Facts = {}) => partOf('core', { 'core spigot': measure(72, -0.03, 0), ...facts });
const housing = (facts: Facts = {}) => partOf('housing', { recess: measure(71, 0, 0.03), 'recess wall': measure(5, -0.3, 0.3), ...facts });

const operation = (id: string, does: Doing, more: Partial<Operation> = {}): Operation => ({
  id: id as OperationId,
  name: id,
  slot: 'housing' as SlotId,
  does,
  takes: [],
  hours: 1.5,
  turning: false,
  cautions: [],
  source: 'tests' as SourceId,
  ...more,
});

const open = (more: Partial<Extract<Doing, { kind: 'cut' }>['cuts'][number]> = {}, of: Partial<Operation> = {}) =>
  operation(
    'open the recess',
    {
      kind: 'cut',
      cuts: [
        {
          feature: f('recess'),
          way: 'larger',
          most: 3,
          holds: { kind: 'grade', grade: 7 },
          metal: [{ feature: f('recess wall'), per: 2, leaves: 3.5 }],
          moves: [],
          ...more,
        },
      ],
    },
    of,
  );

const plan = (operations: Operation[], a = core(), b = housing(), rules: FitRule[] = [pilot]) =>
  planWork(jointOf(...rules), slots, a, b, operations);

describe('a recess too small for the spigot', () => {
  test('[F2] opening it names operation, part, finished size and tolerance, what comes off and what is left', () => {
    const { fit, verdict, plans } = plan([open()]);
    expect(fit.verdict).toBe('will not fit');
    expect(verdict).toBe('after work');
    expect(plans).toHaveLength(1);
    // Recess must lie in 72.02..72.07; IT7 of 72 mm is 0.030.
    expect(plans[0]?.works[0]).toMatchObject({
      operation: 'open the recess',
      part: 'housing-part',
      sizes: [
        {
          feature: 'recess',
          nominal: 72.02,
          lower: 0,
          upper: 0.03,
          from: { least: 71, greatest: 71.03 },
          removes: { least: 0.99, greatest: 1.05 },
        },
      ],
      metal: [{ feature: 'recess wall', leaves: 4.175, mustLeave: 3.5 }],
      allowed: 'holds',
      hours: 1.5,
    });
    expect(plans[0]?.after).toMatchObject({ verdict: 'drops in', findings: [{ found: { least: 0.02, greatest: 0.08 } }] });
  });

  test('[F2] metal that is not there refuses it; metal nobody knows leaves it not known; metal some castings have is to be measured', () => {
    const thin = plan([open()], core(), housing({ 'recess wall': measure(3.8, -0.3, 0.1) }));
    expect(thin).toMatchObject({
      verdict: 'will not fit',
      plans: [],
      refused: [{ because: { kind: 'not enough metal', leaves: 2.975, mustLeave: 3.5 } }],
    });
    const silent = plan([open()], core(), housing({ 'recess wall': unknown }));
    expect(silent).toMatchObject({ verdict: 'not known', plans: [{ allowed: 'not known', missing: ['recess wall'] }] });
    const varied = plan([open()], core(), housing({ 'recess wall': measure(4.2, -0.3, 0.3) }));
    expect(varied).toMatchObject({ verdict: 'not known', plans: [{ missing: ['recess wall'] }] });
  });

  test('[F2] metal to the last micrometre: what is left may be just what must be, and what comes off just what may', () => {
    // 1.05 mm at most come off the recess, so 0.525 off its wall, of which 3.5 must be left.
    const wall = (low: number, high: number) => plan([open()], core(), housing({ 'recess wall': measure(4, low - 4, high - 4) }));
    expect(wall(4.025, 4.2)).toMatchObject({ verdict: 'after work', plans: [{ allowed: 'holds', missing: [] }] });
    expect(wall(4.024, 4.2), 'some castings lack a micrometre: measure').toMatchObject({
      plans: [{ allowed: 'not known', missing: ['recess wall'] }],
    });
    expect(wall(3.9, 4.025), 'the thickest have just enough: measure').toMatchObject({
      plans: [{ allowed: 'not known', missing: ['recess wall'] }],
    });
    expect(wall(3.9, 4.024), 'none has it').toMatchObject({ plans: [], refused: [{ because: { kind: 'not enough metal' } }] });
    expect(plan([open({ most: 1.05 })]).verdict).toBe('after work');
    expect(plan([open({ most: 1.049 })]).refused).toMatchObject([{ because: { kind: 'too much', removes: 1.05, most: 1.049 } }]);
  });

  test('[F2] an operation that holds its size too coarsely, or takes too much, or cuts the wrong way, is refused with its reason', () => {
    expect(plan([open({ holds: { kind: 'grade', grade: 9 } })]).refused).toMatchObject([
      { because: { kind: 'too coarse', window: 0.05, tolerance: 0.074 } },
    ]);
    expect(plan([open({ most: 1 })]).refused).toMatchObject([{ because: { kind: 'too much', removes: 1.05, most: 1 } }]);
    expect(plan([open()], core(), housing({ recess: measure(73, 0, 0.03) })).refused).toMatchObject([{ because: { kind: 'wrong way' } }]);
    expect(plan([open()], core(), housing({ recess: measure(71.9, 0, 0.3) })).refused).toMatchObject([
      { because: { kind: 'some are past it' } },
    ]);
  });

  test('[F2] which parts can take an operation is asked of the part', () => {
    const iron = open({}, { takes: [{ feature: f('casting'), anyOf: ['aluminium'] }] });
    expect(plan([iron], core(), housing({ casting: choice('aluminium') })).verdict).toBe('after work');
    expect(plan([iron], core(), housing({ casting: choice('iron') }))).toMatchObject({
      verdict: 'will not fit',
      refused: [{ because: { kind: 'not this part', feature: 'casting' } }],
    });
    expect(plan([iron])).toMatchObject({ verdict: 'not known', plans: [{ missing: ['casting'] }] });
  });

  test('[F2] the spigot may be turned down instead, and the fewer hours come first; both together are never offered', () => {
    const turn = operation(
      'turn the spigot',
      {
        kind: 'cut',
        cuts: [{ feature: f('core spigot'), way: 'smaller', most: 2, holds: { kind: 'grade', grade: 7 }, metal: [], moves: [] }],
      },
      { slot: 'core' as SlotId, hours: 1 },
    );
    const { plans } = plan([open(), turn]);
    expect(plans.map((each) => each.works.map((work) => work.operation))).toEqual([['turn the spigot'], ['open the recess']]);
    expect(plans[0]?.works[0]?.sizes).toMatchObject([{ nominal: 70.98, lower: -0.03, upper: 0 }]);
    expect(plans[0]?.after.verdict).toBe('drops in');
  });

  test('[F2] a size outside the ISO 286 tables has no grade, and may be given a tolerance in mm', () => {
    const big = { 'core spigot': measure(600, -0.03, 0) };
    const wide = housing({ recess: measure(599, 0, 0.03) });
    expect(plan([open()], core(big), wide).refused).toMatchObject([{ because: { kind: 'no tolerance' } }]);
    expect(plan([open({ holds: { kind: 'tolerance', tolerance: 0.04 } })], core(big), wide).verdict).toBe('after work');
  });

  test('[F2] what straddles may be worked as well, and no work is offered where nothing is wrong', () => {
    const straddling = plan([open({ holds: { kind: 'grade', grade: 6 } })], core(), housing({ recess: measure(72.01, 0, 0.02) }));
    expect(straddling).toMatchObject({
      fit: { verdict: 'after work' },
      verdict: 'after work',
      plans: [{ after: { verdict: 'drops in' } }],
    });
    expect(plan([open()], core(), housing({ recess: measure(72.03, 0, 0.03) }))).toMatchObject({
      verdict: 'drops in',
      plans: [],
      refused: [],
    });
    expect(plan([open()], core({ 'core spigot': unknown }))).toMatchObject({ verdict: 'not known', plans: [] });
  });

  test('[F2] a measured part is worked to what was measured', () => {
    const inHand = new Map([
      [f('core spigot'), { kind: 'measured', value: 71.99, u: 0.001 } as const],
      [f('recess wall'), { kind: 'measured', value: 4.1, u: 0.02 } as const],
    ]);
    const found = planWork(jointOf(pilot), slots, core(), housing({ 'recess wall': unknown }), [open()], { inHand });
    expect(found).toMatchObject({ verdict: 'after work', plans: [{ works: [{ sizes: [{ nominal: 72.02, upper: 0.03 }] }] }] });
    expect(found.plans[0]?.works[0]?.metal[0]?.leaves).toBeCloseTo(4.1 - 0.04 - 0.525, 6);
  });
});

describe('other operations', () => {
  test('[F2] a ring stands in a recess too large only where there is room for its wall', () => {
    const ring = operation('ring the recess', {
      kind: 'ring',
      feature: f('recess'),
      way: 'smaller',
      wall: 1.5,
      holds: { kind: 'grade', grade: 7 },
    });
    const large = plan([ring], core(), housing({ recess: measure(76, 0, 0.03) }));
    expect(large).toMatchObject({
      verdict: 'after work',
      plans: [{ works: [{ sizes: [{ feature: 'recess', nominal: 72.07, lower: -0.03, upper: 0 }] }] }],
    });
    expect(large.plans[0]?.works[0]?.cautions).toContain(fitCautions.press);
    const small = plan([ring], core(), housing({ recess: measure(73, 0, 0.03) }));
    expect(small.verdict).toBe('will not fit');
    expect(small.refused[0]?.because).toMatchObject({ kind: 'ring too thin', least: 1.5 });
    expect(plan([ring]).refused).toMatchObject([{ because: { kind: 'wrong way' } }]);
    // To 72.07 at most: a recess of 75.07 leaves the wall its 1.5 mm all round, to the micrometre.
    expect(plan([ring], core(), housing({ recess: measure(75.07, 0, 0.03) })).verdict).toBe('after work');
    expect(plan([ring], core(), housing({ recess: measure(75.069, 0, 0.03) })).refused[0]?.because).toMatchObject({
      kind: 'ring too thin',
    });
  });

  const contour: FitRule = {
    kind: 'wheel to contour',
    pairs: [
      { wheel: f('inducer'), housing: f('inlet contour'), way: 'radial', min: 0.15, max: 0.4 },
      { wheel: f('tip height'), housing: f('contour height'), way: 'axial', min: 0.15, max: 0.45 },
    ],
  };
  const larger = (feature: string, moves: readonly { feature: FeatureId; times: number }[] = []) => ({
    feature: f(feature),
    way: 'larger' as const,
    most: 4,
    holds: { kind: 'tolerance' as const, tolerance: 0.1 },
    metal: [{ feature: f('contour wall'), per: 2 as const, leaves: 2 }],
    moves,
  });
  const recontour = operation(
    're-contour to the wheel',
    { kind: 'cut', cuts: [larger('inlet contour'), larger('contour height')] },
    { hours: 3 },
  );
  const wheel = { inducer: measure(44, -0.05, 0), 'tip height': measure(5, -0.05, 0.05) };

  test('[F2] re-contouring cuts every dimension that fouls in one setting, and leaves alone what has room', () => {
    const both = plan(
      [recontour],
      core(wheel),
      housing({ 'inlet contour': measure(42, 0, 0.1), 'contour height': measure(5, -0.05, 0.05), 'contour wall': measure(6, -0.5, 0.5) }),
      [contour],
    );
    expect(both).toMatchObject({ verdict: 'after work', plans: [{ hours: 3, after: { verdict: 'drops in' } }] });
    expect(both.plans[0]?.works[0]?.sizes.map((size) => size.feature)).toEqual(['inlet contour', 'contour height']);
    const one = plan(
      [recontour],
      core(wheel),
      housing({ 'inlet contour': measure(42, 0, 0.1), 'contour height': measure(5.3, -0.05, 0.05), 'contour wall': measure(6, -0.5, 0.5) }),
      [contour],
    );
    expect(one.plans[0]?.works[0]?.sizes.map((size) => size.feature)).toEqual(['inlet contour']);
    expect(one.plans[0]?.works[0]?.metal).toEqual([{ feature: 'contour wall', leaves: 4.3, mustLeave: 2 }]);
  });

  test('[F2] a cut that spoils another dimension of the joint is not offered', () => {
    // Skimming the face to bring the contour nearer the tip also shortens the pilot's depth here.
    const skim = (times: number) =>
      operation('skim the face', {
        kind: 'cut',
        cuts: [
          {
            feature: f('contour height'),
            way: 'smaller',
            most: 2,
            holds: { kind: 'tolerance', tolerance: 0.04 },
            metal: [],
            moves: [{ feature: f('recess'), times }],
          },
        ],
      });
    const high = housing({
      recess: measure(72.03, 0, 0.03),
      'inlet contour': measure(44.4, 0, 0.1),
      'contour height': measure(6, -0.05, 0.05),
    });
    const rules = [pilot, contour];
    expect(plan([skim(0)], core(wheel), high, rules)).toMatchObject({ verdict: 'after work', plans: [{ after: { verdict: 'drops in' } }] });
    expect(plan([skim(-1)], core(wheel), high, rules)).toMatchObject({ verdict: 'will not fit', plans: [] });
  });

  const circle: FitRule = {
    kind: 'bolt circle',
    a: { count: f('studs'), diameter: f('stud circle'), bolt: f('stud') },
    b: { count: f('holes'), diameter: f('hole circle'), bolt: f('bolt') },
    within: 0.3,
  };
  const drill = operation('drill a circle', {
    kind: 'drill a circle',
    count: f('holes'),
    diameter: f('hole circle'),
    bolt: f('bolt'),
    land: { inner: f('land inside'), outer: f('land outside') },
    holes: { M6: 6.6, M8: 9 },
    edge: 2,
    within: 0.1,
  });
  const studs = { studs: count(6), 'stud circle': measure(90, -0.1, 0.1), stud: choice('M8') };
  const flange = (facts: Facts = {}) =>
    housing({
      holes: count(4),
      'hole circle': measure(88, -0.1, 0.1),
      bolt: choice('M8'),
      'land inside': measure(70, -0.2, 0.2),
      'land outside': measure(108, -0.2, 0.2),
      ...facts,
    });

  test('[F2] a circle is drilled between the old holes, to the other part’s count, circle and bolt', () => {
    const found = plan([drill], core(studs), flange(), [circle]);
    expect(found).toMatchObject({ verdict: 'after work', plans: [{ after: { verdict: 'drops in' }, allowed: 'holds' }] });
    expect(found.plans[0]?.works[0]?.changes).toEqual([
      { feature: 'holes', fact: { kind: 'count', from: 6, to: 6 } },
      { feature: 'hole circle', fact: { kind: 'measure', nominal: 90, lower: -0.1, upper: 0.1 } },
      { feature: 'bolt', fact: { kind: 'choice', anyOf: ['M8'] } },
    ]);
    // Four holes and six: 15° apart at best, on 88 and 90 mm: 11.7 mm between centres, less a 9 mm hole and the doubt of the circles.
    expect(found.plans[0]?.works[0]?.metal[0]?.leaves).toBeCloseTo(2.61, 1);
  });

  test('[F2] old holes in the way, a land too narrow, a bolt not worked with, or an unknown land each stop it', () => {
    const because = (facts: Facts) => plan([drill], core(studs), flange(facts), [circle]).refused[0]?.because.kind;
    expect(because({ holes: count(5) })).toBe('old holes in the way');
    expect(because({ 'land outside': measure(100, 0, 0) })).toBe('off the land');
    expect(because({ 'land inside': measure(80, 0, 0) })).toBe('off the land');
    // Holes of 9 mm on 90 mm, to a tenth, with 2 mm of land round them: from 76.9 to 103.1 mm.
    expect(because({ 'land outside': measure(103.1, 0, 1) })).toBeUndefined();
    expect(because({ 'land outside': measure(103.099, 0, 1) })).toBe('off the land');
    expect(because({ 'land inside': measure(76.9, -1, 0) })).toBeUndefined();
    expect(because({ 'land inside': measure(76.901, -1, 0) })).toBe('off the land');
    expect(plan([drill], core({ ...studs, stud: choice('M10') }), flange(), [circle]).refused[0]?.because.kind).toBe('not offered');
    expect(plan([drill], core({ ...studs, studs: count(20) }), flange(), [circle]).refused[0]?.because.kind).toBe('old holes in the way');
    expect(plan([drill], core({ ...studs, studs: count(28) }), flange({ holes: count(0) }), [circle]).refused[0]?.because.kind).toBe(
      'holes too close',
    );
    expect(plan([drill], core(studs), flange({ 'land inside': unknown }), [circle])).toMatchObject({
      verdict: 'not known',
      plans: [{ missing: ['land inside'] }],
    });
    expect(plan([drill], core(studs), flange({ holes: count(0) }), [circle]).plans[0]?.works[0]?.metal).toEqual([]);
  });

  test('[F2] a swapped flange takes the other part’s profile where the shop has it; a plumbed port meets a need', () => {
    const rules: FitRule[] = [
      { kind: 'clamp profile', a: f('core clamp'), b: f('housing clamp') },
      { kind: 'services', pairs: [{ needs: f('core needs water'), offers: f('water ports') }] },
    ];
    const swap = operation('swap the flange', {
      kind: 'remake',
      offers: [{ feature: f('housing clamp'), kind: 'choice', anyOf: ['round', 'square'] }],
    });
    const plumb = operation(
      'tap two water ports',
      { kind: 'remake', offers: [{ feature: f('water ports'), kind: 'presence' }] },
      { hours: 4 },
    );
    const dry: Facts = {
      'core clamp': choice('square'),
      'housing clamp': choice('round'),
      'core needs water': { kind: 'presence', present: true },
      'water ports': { kind: 'presence', present: false },
    };
    expect(plan([swap], core(dry), housing(dry), rules).verdict).toBe('will not fit');
    const done = plan([swap, plumb], core(dry), housing(dry), rules);
    expect(done).toMatchObject({ verdict: 'after work', plans: [{ hours: 5.5, after: { verdict: 'drops in' } }] });
    expect(done.plans).toHaveLength(1);
    expect(plan([swap, plumb], core({ ...dry, 'core clamp': choice('triangular') }), housing(dry), rules).refused).toMatchObject([
      { because: { kind: 'not offered' } },
    ]);
  });

  test('[F5] work on a part that turns says that it must be balanced', () => {
    const skimmed = open({}, { turning: true, cautions: ['Mind the seal groove.'] });
    const cautions = plan([skimmed]).plans[0]?.works[0]?.cautions;
    expect(cautions?.[0]).toBe('Mind the seal groove.');
    expect(cautions).toContain(fitCautions.balance);
    expect(plan([open()]).plans[0]?.works[0]?.cautions).not.toContain(fitCautions.balance);
  });
});

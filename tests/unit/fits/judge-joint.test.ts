import { describe, expect, test } from 'vitest';
import type { FitRule } from '../../../reasoner/atlas/rule.ts';
import { judgeJoint, judgeRule } from '../../../reasoner/index.ts';
import { choice, count, f, has, jointOf, measure, partOf, slots, unknown } from './helpers.ts';

const pilot: FitRule = { kind: 'pilot', spigot: f('spigot'), recess: f('recess'), min: 0, max: 0.06 };
const judge = (rule: FitRule, facts: Parameters<typeof partOf>[1]) => judgeRule(rule, (feature) => facts[feature]);

describe('pilot: spigot of the core in the recess of a compressor housing', () => {
  test('[F2] limits wholly inside what is asked drop in, touching the limit included', () => {
    const found = judge(pilot, { spigot: measure(70, -0.03, 0), recess: measure(70, 0, 0.03) });
    expect(found).toMatchObject({
      verdict: 'drops in',
      found: { least: 0, greatest: 0.06 },
      asked: { least: 0, greatest: 0.06 },
      missing: [],
    });
    expect(found.decidedBy).toEqual(['recess', 'spigot']);
    expect(found.share).toBeGreaterThan(0.9999);
  });

  test('[F2] limits that straddle are after work, with the share of pairs that go together', () => {
    const found = judge(pilot, { spigot: measure(70, -0.02, 0.02), recess: measure(70, -0.02, 0.02) });
    expect(found.verdict).toBe('after work');
    expect(found.found).toEqual({ least: -0.04, greatest: 0.04 });
    expect(found.share).toBeCloseTo(0.5, 3);
  });

  test('[F2] limits wholly outside will not fit, too tight or too loose', () => {
    expect(judge(pilot, { spigot: measure(70.2, -0.02, 0), recess: measure(70, 0, 0.03) }).verdict).toBe('will not fit');
    const loose = judge(pilot, { spigot: measure(70, -0.02, 0), recess: measure(71.5, 0, 0.03) });
    expect(loose).toMatchObject({ verdict: 'will not fit', found: { least: 1.5, greatest: 1.55 } });
  });

  test('[A5] a missing or unknown dimension is not known, never zero, and is named', () => {
    expect(judge(pilot, { spigot: measure(70, 0, 0) })).toMatchObject({
      verdict: 'not known',
      missing: ['recess'],
      asked: { least: 0, greatest: 0.06 },
    });
    expect(judge(pilot, { spigot: unknown, recess: unknown }).missing).toEqual(['recess', 'spigot']);
  });

  test('[F2] limits that touch on the drawing touch here, whatever binary fractions say', () => {
    // 0.3 − 0.1 is 0.19999999999999998 in binary.
    const rule: FitRule = { ...pilot, min: 0.2, max: 0.2 };
    expect(judge(rule, { spigot: measure(0.1, 0, 0), recess: measure(0.3, 0, 0) }).verdict).toBe('drops in');
  });
});

describe('the other kinds of rule', () => {
  test('[F1] running clearance is outer less inner; a press fit is shaft less bore', () => {
    const running: FitRule = { kind: 'running clearance', inner: f('journal'), outer: f('bearing bore'), min: 0.02, max: 0.05 };
    expect(judge(running, { journal: measure(8, -0.01, 0), 'bearing bore': measure(8.03, 0, 0.01) })).toMatchObject({
      verdict: 'drops in',
      found: { least: 0.03, greatest: 0.05 },
    });
    const press: FitRule = { kind: 'press fit', shaft: f('race seat'), bore: f('race bore'), min: 0.002, max: 0.012 };
    expect(judge(press, { 'race seat': measure(9, 0.006, 0.01), 'race bore': measure(9, 0, 0.004) })).toMatchObject({
      verdict: 'drops in',
      found: { least: 0.002, greatest: 0.01 },
    });
    expect(judge(press, { 'race seat': measure(9, -0.006, -0.001), 'race bore': measure(9, 0, 0.004) }).verdict).toBe('will not fit');
  });

  const contour: FitRule = {
    kind: 'wheel to contour',
    pairs: [
      { wheel: f('inducer'), housing: f('contour inlet'), way: 'radial', min: 0.15, max: 0.35 },
      { wheel: f('tip width'), housing: f('contour width'), way: 'axial', min: 0.1, max: 0.5 },
    ],
  };
  const wheel = { inducer: measure(41, -0.05, 0), 'tip width': measure(4, -0.05, 0.05) };

  test('[F1] wheel to contour halves diameters and not widths', () => {
    const found = judge(contour, { ...wheel, 'contour inlet': measure(41.5, 0, 0.05), 'contour width': measure(4.3, -0.05, 0.05) });
    expect(found.verdict).toBe('drops in');
    expect(found.points.map((point) => point.found)).toEqual([
      { least: 0.25, greatest: 0.3 },
      { least: 0.2, greatest: 0.4 },
    ]);
    // The inducer has 0.05 to spare, the width 0.1.
    expect(found).toMatchObject({ found: { least: 0.25, greatest: 0.3 }, asked: { least: 0.15, greatest: 0.35 } });
  });

  test('[F1] a housing that looks right and fouls the wheel at one place will not fit, and says where', () => {
    const found = judge(contour, { ...wheel, 'contour inlet': measure(41.5, 0, 0.05), 'contour width': measure(3.9, -0.05, 0.05) });
    expect(found).toMatchObject({
      verdict: 'will not fit',
      decidedBy: ['contour width', 'tip width'],
      found: { least: -0.2, greatest: 0 },
    });
  });

  test('[F2] a point that fails decides though another dimension is not known', () => {
    const found = judge(contour, { ...wheel, 'contour inlet': unknown, 'contour width': measure(3.9, -0.05, 0.05) });
    expect(found).toMatchObject({ verdict: 'will not fit', missing: [] });
  });

  const thread: FitRule = {
    kind: 'thread',
    external: { size: f('stud'), hand: f('stud hand') },
    internal: { size: f('nut'), hand: f('nut hand') },
  };

  test('[F1] a left-hand nut does not go on a right-hand stud of the same size', () => {
    const right = { stud: choice('M6x1'), 'stud hand': choice('right'), nut: choice('M6x1') };
    expect(judge(thread, { ...right, 'nut hand': choice('right') }).verdict).toBe('drops in');
    expect(judge(thread, { ...right, 'nut hand': choice('left') })).toMatchObject({
      verdict: 'will not fit',
      decidedBy: ['stud hand', 'nut hand'],
    });
  });

  test('[F2] options that meet without being one and the same must be looked at', () => {
    const found = judge(thread, {
      stud: choice('M6x1', 'M7x1'),
      'stud hand': choice('left'),
      nut: choice('M6x1'),
      'nut hand': choice('left'),
    });
    expect(found).toMatchObject({ verdict: 'after work', decidedBy: ['stud', 'nut'] });
  });

  const circle: FitRule = {
    kind: 'bolt circle',
    a: { count: f('holes'), diameter: f('circle'), bolt: f('bolt') },
    b: { count: f('studs'), diameter: f('stud circle'), bolt: f('stud') },
    within: 0.2,
  };
  const flange = { holes: count(6), circle: measure(92, -0.1, 0.1), bolt: choice('M8x1.25') };

  test('[F1] a bolt circle needs the same count, diameter and bolt', () => {
    expect(judge(circle, { ...flange, studs: count(6), 'stud circle': measure(92, -0.1, 0.1), stud: choice('M8x1.25') }).verdict).toBe(
      'drops in',
    );
    expect(judge(circle, { ...flange, studs: count(8), 'stud circle': measure(92, -0.1, 0.1), stud: choice('M8x1.25') })).toMatchObject({
      verdict: 'will not fit',
      decidedBy: ['holes', 'studs'],
    });
    expect(judge(circle, { ...flange, studs: count(6), 'stud circle': measure(92.3, -0.05, 0.05), stud: choice('M8x1.25') })).toMatchObject(
      {
        verdict: 'after work',
        found: { least: -0.45, greatest: -0.15 },
      },
    );
    expect(judge(circle, { ...flange, studs: count(5, 6), 'stud circle': measure(92, 0, 0), stud: choice('M8x1.25') }).verdict).toBe(
      'after work',
    );
  });

  test('[F1] services: a need not met fails, and a need that is not there is met by anything', () => {
    const water: FitRule = { kind: 'services', pairs: [{ needs: f('needs water'), offers: f('water ports') }] };
    expect(judge(water, { 'needs water': has(true), 'water ports': has(false) }).verdict).toBe('will not fit');
    expect(judge(water, { 'needs water': has(false), 'water ports': unknown }).verdict).toBe('drops in');
    expect(judge(water, { 'needs water': unknown, 'water ports': has(true) }).verdict).toBe('drops in');
    expect(judge(water, { 'needs water': unknown, 'water ports': has(false) })).toMatchObject({
      verdict: 'not known',
      missing: ['needs water'],
    });
    expect(judge(water, { 'needs water': has(true) })).toMatchObject({ verdict: 'not known', missing: ['water ports'] });
    expect(judge(water, {}).missing).toEqual(['needs water', 'water ports']);
  });

  test('[F1] clamp profile, direction of rotation and entry must be the same', () => {
    const rules: FitRule[] = [
      { kind: 'clamp profile', a: f('left'), b: f('right') },
      { kind: 'direction of rotation', a: f('left'), b: f('right') },
      { kind: 'same', what: 'entry', a: f('left'), b: f('right') },
    ];
    for (const rule of rules) {
      expect(judge(rule, { left: choice('one'), right: choice('one') }).verdict).toBe('drops in');
      expect(judge(rule, { left: choice('one'), right: choice('two') }).verdict).toBe('will not fit');
      expect(judge(rule, { left: choice('one') }).missing).toEqual(['right']);
    }
  });

  test('[T1] a fact of the wrong kind is a bug past the door and never an answer', () => {
    expect(() => judge(pilot, { spigot: count(6), recess: measure(70, 0, 0) })).toThrow(/spigot is a count where a fit compares a measure/);
  });
});

describe('a joint of several rules', () => {
  const joint = jointOf(pilot, { kind: 'direction of rotation', a: f('core turns'), b: f('housing turns') });
  const core = partOf('core', { spigot: measure(70, -0.03, 0), 'core turns': choice('clockwise') });
  const housing = (recess: number, turns: string) =>
    partOf('housing', { recess: measure(recess, 0, 0.03), 'housing turns': choice(turns) });

  test('[F2] one rule that fails decides for the joint; all are reported', () => {
    const fit = judgeJoint(joint, slots, core, housing(70, 'anticlockwise'));
    expect(fit.verdict).toBe('will not fit');
    expect(fit.findings.map((finding) => finding.verdict)).toEqual(['drops in', 'will not fit']);
  });

  test('[F2] the answer does not depend on which part is named first', () => {
    const other = housing(70.02, 'clockwise');
    expect(judgeJoint(joint, slots, other, core)).toEqual(judgeJoint(joint, slots, core, other));
    expect(judgeJoint(joint, slots, other, core)).toMatchObject({ a: 'core-part', b: 'housing-part' });
  });

  test('[F2] parts of other slots are refused', () => {
    expect(() => judgeJoint(joint, slots, core, core)).toThrow(/between core and housing/);
  });
});

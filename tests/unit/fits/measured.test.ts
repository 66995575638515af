import { describe, expect, test } from 'vitest';
import { type FitRule, judgeJoint, judgeRule, type Known } from '../../../reasoner/index.ts';
import { f, jointOf, measure, partOf, slots } from './helpers.ts';

const pilot: FitRule = { kind: 'pilot', spigot: f('spigot'), recess: f('recess'), min: 0.01, max: 0.05 };
const taken = (value: number, u: number): Known => ({ kind: 'measured', value, u });
const judge = (facts: Record<string, Known>) => judgeRule(pilot, (feature) => facts[feature]);

describe('parts measured in the shop', () => {
  test('[O2] a measured size is held to lie within ±2u', () => {
    expect(judge({ spigot: taken(70, 0.002), recess: taken(70.03, 0.003) })).toMatchObject({
      verdict: 'drops in',
      found: { least: 0.02, greatest: 0.04 },
    });
  });

  test('[F2] two measured sizes whose doubt straddles a limit are not known until measured better', () => {
    const found = judge({ spigot: taken(70, 0.004), recess: taken(70.015, 0.004) });
    expect(found).toMatchObject({ verdict: 'not known', missing: ['recess', 'spigot'] });
    // The odds are told all the same: clearance 0.015, its uncertainty √2·0.004.
    expect(found.share).toBeCloseTo(0.81, 2);
    expect(judge({ spigot: taken(70, 0.0005), recess: taken(70.015, 0.0005) }).verdict).toBe('drops in');
  });

  test('[F2] one part in hand and one from the catalogue: a straddle still means choosing the other', () => {
    expect(judge({ spigot: taken(70, 0.001), recess: measure(70, 0, 0.03) }).verdict).toBe('after work');
  });

  test('[F2] what was measured takes the place of the catalogue at a joint', () => {
    const joint = jointOf(pilot);
    const core = partOf('core', { spigot: measure(70, -0.03, 0) });
    const housing = partOf('housing', { recess: measure(70, 0, 0.03) });
    expect(judgeJoint(joint, slots, core, housing).verdict).toBe('after work');
    const inHand = new Map([
      [f('spigot'), taken(69.985, 0.001)],
      [f('recess'), taken(70.01, 0.001)],
    ]);
    expect(judgeJoint(joint, slots, core, housing, inHand)).toMatchObject({
      verdict: 'drops in',
      findings: [{ found: { least: 0.021, greatest: 0.029 } }],
    });
  });
});

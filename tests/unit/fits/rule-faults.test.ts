import { expect, test } from 'vitest';
import { type Feature, type FeatureId, type FitRule, featuresOf, jointFaults, type SlotId, type StageId } from '../../../reasoner/index.ts';
import { f, jointOf, slots } from './helpers.ts';

const feature = (id: string, slot: string, kind: Feature['kind'], unit?: string): Feature => ({
  id: f(id),
  slot: slot as SlotId,
  name: id,
  kind,
  ...(unit && { unit }),
  stage: 'core stripped' as StageId,
  minutes: 1,
});
const known = [
  feature('spigot', 'core', 'measure', 'mm'),
  feature('recess', 'housing', 'measure', 'mm'),
  feature('cutback', 'housing', 'measure', 'deg'),
  feature('blades', 'housing', 'count'),
  feature('plate width', 'nameplate', 'measure', 'mm'),
  feature('nose', 'core', 'measure', 'mm'),
];
const faults = (rule: FitRule) => jointFaults(jointOf(rule), slots, (id: FeatureId) => known.find((each) => each.id === id));
const pilot = (spigot: string, recess: string, min = 0, max = 0.1): FitRule => ({
  kind: 'pilot',
  spigot: f(spigot),
  recess: f(recess),
  min,
  max,
});

test('[A6] a joint that can be judged has no fault', () => {
  expect(faults(pilot('spigot', 'recess'))).toEqual([]);
});

test.each([
  [pilot('spigot', 'groove'), /core-to-housing, rule 1 \(pilot\): there is no feature groove/],
  [pilot('spigot', 'blades'), /blades is a count; expected a measure/],
  [pilot('spigot', 'cutback'), /cutback is in deg; expected mm/],
  [pilot('spigot', 'plate width'), /plate width is of nameplate; expected one of core and housing/],
  [pilot('spigot', 'nose'), /nose and spigot are both of core/],
  [pilot('spigot', 'recess', 0.2, 0.1), /asks for 0.2 to 0.1; expected the smaller first/],
])('[§10] what is wrong with a rule is said at the door: %#', (rule, sentence) => {
  expect(faults(rule)).toHaveLength(1);
  expect(faults(rule)[0]).toMatch(sentence);
});

test('[F1] the features a rule reads are named once each, so that parts can be grouped by them', () => {
  const pair = { wheel: f('wheel'), housing: f('contour'), way: 'radial' as const, min: 0, max: 1 };
  expect(featuresOf({ kind: 'wheel to contour', pairs: [pair, { ...pair, housing: f('throat') }] })).toEqual([
    'contour',
    'wheel',
    'throat',
  ]);
  expect(featuresOf(pilot('spigot', 'recess'))).toEqual(['recess', 'spigot']);
});

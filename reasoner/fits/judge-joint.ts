import type { Joint, Part } from '../atlas/atlas.ts';
import type { FeatureId, SlotId } from '../ids.ts';
import type { Fit } from './fit.ts';
import { judgeRule } from './judge-rule.ts';
import type { Known } from './known.ts';
import { worstOf } from './worst-of.ts';

/** What was seen or measured on the parts in hand; it takes the place of what the atlas says of them. */
export type InHand = ReadonlyMap<FeatureId, Known>;

/**
 * Judges two parts at a joint (F2). `slots` are those of the joint's ports a and b. The parts may be named in either order:
 * the answer always has the part of port a first. Parts of other slots are a bug of the caller and throw.
 */
export const judgeJoint = (
  joint: Joint,
  slots: { readonly a: SlotId; readonly b: SlotId },
  one: Part,
  other: Part,
  inHand?: InHand,
): Fit => {
  const [a, b] = one.slot === slots.a ? [one, other] : [other, one];
  if (a.slot !== slots.a || b.slot !== slots.b) {
    throw new TypeError(
      `joint ${joint.id} is between ${slots.a} and ${slots.b}; found ${one.id} (${one.slot}) and ${other.id} (${other.slot})`,
    );
  }
  const findings = joint.rules.map((rule) => judgeRule(rule, (feature) => inHand?.get(feature) ?? a.facts[feature] ?? b.facts[feature]));
  return { joint: joint.id, a: a.id, b: b.id, verdict: worstOf(findings.map((finding) => finding.verdict)), findings };
};

import type { Feature, FeatureKind, Joint } from '../atlas/atlas.ts';
import type { FeatureId, SlotId } from '../ids.ts';
import { type Comparison, comparisonsOf } from './comparisons.ts';

/** What is wrong with a joint's rules, one sentence each, for the door: empty when every rule can be judged. */
export const jointFaults = (
  joint: Joint,
  slots: { readonly a: SlotId; readonly b: SlotId },
  featureOf: (id: FeatureId) => Feature | undefined,
): readonly string[] =>
  joint.rules.flatMap((rule, i) => {
    const place = `joint ${joint.id}, rule ${i + 1} (${rule.kind})`;
    return comparisonsOf(rule).flatMap((comparison) => faultsOf(comparison, slots, featureOf).map((fault) => `${place}: ${fault}`));
  });

const faultsOf = (
  comparison: Comparison,
  slots: { readonly a: SlotId; readonly b: SlotId },
  featureOf: (id: FeatureId) => Feature | undefined,
): readonly string[] => {
  const faults: string[] = [];
  const kind = kinds[comparison.kind];
  const features = [comparison.first, comparison.second].map(featureOf);
  [comparison.first, comparison.second].forEach((id, i) => {
    const feature = features[i];
    if (!feature) faults.push(`there is no feature ${id}`);
    else {
      if (feature.kind !== kind) faults.push(`${id} is a ${feature.kind}; expected a ${kind}`);
      else if (kind === 'measure' && feature.unit !== 'mm') faults.push(`${id} is in ${feature.unit ?? 'no unit'}; expected mm`);
      if (feature.slot !== slots.a && feature.slot !== slots.b)
        faults.push(`${id} is of ${feature.slot}; expected one of ${slots.a} and ${slots.b}`);
    }
  });
  if (features[0] && features[1] && features[0].slot === features[1].slot) {
    faults.push(`${comparison.first} and ${comparison.second} are both of ${features[0].slot}; expected one of each side`);
  }
  if (comparison.kind === 'difference' && !(comparison.asked.least <= comparison.asked.greatest)) {
    faults.push(`asks for ${comparison.asked.least} to ${comparison.asked.greatest}; expected the smaller first`);
  }
  return faults;
};

const kinds: Readonly<Record<Comparison['kind'], FeatureKind>> = {
  difference: 'measure',
  'same choice': 'choice',
  'same thread': 'choice',
  'same count': 'count',
  service: 'presence',
};

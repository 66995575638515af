import type { FeatureId, FitRule } from '../../../reasoner/index.ts';
import { groupBy } from '../../plain/group-by.ts';
import { type Warning, warning } from '../warnings.ts';
import type { Finding, Ground } from './ground.ts';

/** Joints of which no part of the pack has what they ask on one side: across it nothing can be known, whatever is found. */
function* find({ own, joints, features, slotOfPort, slotName, asked, read, at, beside }: Ground): Generator<Warning> {
  const { featuresOf } = asked;
  if (featuresOf === undefined) return;
  const partsIn = groupBy(own, ({ slot }) => slot);
  const known = new Set<FeatureId>();
  for (const { facts } of own)
    for (const feature of Object.keys(facts) as FeatureId[]) if (facts[feature]?.kind !== 'not known') known.add(feature);
  for (const joint of joints)
    for (const port of [joint.a, joint.b]) {
      const slot = slotOfPort(port);
      const parts = slot === undefined ? [] : (partsIn.get(slot) ?? []);
      if (slot === undefined || parts.length === 0) continue;
      const asks = [...new Set(joint.rules.flatMap((rule: FitRule) => featuresOf(rule)))].filter((id) => features.get(id)?.slot === slot);
      const missing = asks.filter((id) => !known.has(id));
      if (missing.length === 0) continue;
      const names = missing.map((id) => features.get(id)?.name ?? id);
      const index = read.lists.files.joints.findIndex(({ id }) => id === joint.id);
      const many = parts.length === 1 ? `the one ${slotName(slot)}` : `none of the ${parts.length} ${slotName(slot)} parts`;
      yield warning(
        index === -1 ? { file: 'facts.csv' } : at.entry('joints', [index]),
        `${many} of the pack ${parts.length === 1 ? 'has no figure' : 'has a figure'} for the ${names.length === 1 ? names[0] : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`}`,
        `${cap(joint.name)} is then not known for any of them${beside.parts.some((part) => part.slot === slot) ? ', whatever other packs say of theirs' : ''}.`,
      );
    }
}

const cap = (text: string): string => `Whether there is a fit at “${text}”`;

export const unmeasuredJoints: Finding = {
  about: 'unmeasured joint',
  rests: ['parts.csv', 'facts.csv', 'joints.json', 'features.json', 'ports.json', 'slots.json'],
  find,
};

import type { FeatureKind, FitRule, Id, Joint } from '../../reasoner/index.ts';
import type { At, Faults } from '../read/faults.ts';
import type { Lookups } from './lookups.ts';

/** Two ports of two slots, and rules whose dimensions are of the kinds they need, one on each side. */
export const checkJoint = (joint: Joint, at: At, find: Lookups, faults: Faults): void => {
  const [a, b] = [find.port.get(joint.a), find.port.get(joint.b)];
  if (a === undefined || b === undefined) return;
  if (a.slot === b.slot) {
    faults.add(at(['b']), `a port of ${b.slot}, like a`, 'a port of another slot');
    return;
  }
  joint.rules.forEach((rule, index) => {
    for (const { path, id, kinds, across } of dimensionsOf(rule)) {
      const place = at(['rules', index, ...path]);
      const feature = find.feature.find(id, place, faults);
      if (feature === undefined) continue;
      if (!kinds.includes(feature.kind)) faults.add(place, `the ${feature.kind} ${JSON.stringify(id)}`, `a ${kinds.join(' or ')}`);
      if (feature.slot !== a.slot && feature.slot !== b.slot)
        faults.add(place, `a feature of ${feature.slot}`, `a feature of ${a.slot} or ${b.slot}`);
      else if (find.feature.get(across)?.slot === feature.slot)
        faults.add(place, `a feature of ${feature.slot}, like its counterpart`, 'a feature of the other part');
    }
  });
};

interface Dimension {
  readonly path: readonly PropertyKey[];
  readonly id: Id<'feature'>;
  readonly kinds: readonly FeatureKind[];
  /** The feature it is held against, which must be the other part's. */
  readonly across: Id<'feature'>;
}

/** Every feature a rule names, with the kinds it may be of. */
const dimensionsOf = (rule: FitRule): Dimension[] => {
  const pair = (
    kinds: readonly FeatureKind[],
    [pathA, a]: [PropertyKey[], Id<'feature'>],
    [pathB, b]: [PropertyKey[], Id<'feature'>],
  ): Dimension[] => [
    { path: pathA, id: a, kinds, across: b },
    { path: pathB, id: b, kinds, across: a },
  ];
  switch (rule.kind) {
    case 'pilot':
      return pair(['measure'], [['spigot'], rule.spigot], [['recess'], rule.recess]);
    case 'running clearance':
      return pair(['measure'], [['inner'], rule.inner], [['outer'], rule.outer]);
    case 'press fit':
      return pair(['measure'], [['shaft'], rule.shaft], [['bore'], rule.bore]);
    case 'wheel to contour':
      return rule.pairs.flatMap(({ wheel, housing }, k) =>
        pair(['measure'], [['pairs', k, 'wheel'], wheel], [['pairs', k, 'housing'], housing]),
      );
    case 'thread':
      return (['size', 'hand'] as const).flatMap((field) =>
        pair(['choice'], [['external', field], rule.external[field]], [['internal', field], rule.internal[field]]),
      );
    case 'bolt circle':
      return [
        ...pair(['count'], [['a', 'count'], rule.a.count], [['b', 'count'], rule.b.count]),
        ...pair(['measure'], [['a', 'diameter'], rule.a.diameter], [['b', 'diameter'], rule.b.diameter]),
        ...pair(['choice'], [['a', 'bolt'], rule.a.bolt], [['b', 'bolt'], rule.b.bolt]),
      ];
    case 'services':
      return rule.pairs.flatMap(({ needs, offers }, k) =>
        pair(['presence'], [['pairs', k, 'needs'], needs], [['pairs', k, 'offers'], offers]),
      );
    case 'clamp profile':
    case 'direction of rotation':
    case 'same':
      return pair(['choice'], [['a'], rule.a], [['b'], rule.b]);
  }
};

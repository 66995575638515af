import type { Fact, FeatureId, FitRule, Joint, JointId, Part, PartId, PortId, SlotId, SourceId } from '../../../reasoner/index.ts';

/** Features, facts and parts in the fewest words. Names in these tests are plain English and serve as ids. */
export const f = (name: string): FeatureId => name as FeatureId;
export const measure = (nominal: number, lower: number, upper: number): Fact => ({ kind: 'measure', nominal, lower, upper });
export const choice = (...anyOf: string[]): Fact => ({ kind: 'choice', anyOf });
export const count = (from: number, to = from): Fact => ({ kind: 'count', from, to });
export const has = (present: boolean): Fact => ({ kind: 'presence', present });
export const unknown: Fact = { kind: 'not known' };

export type Facts = Record<string, Fact>;
export const slots = { a: 'core' as SlotId, b: 'housing' as SlotId };

export const partOf = (slot: string, facts: Facts): Part => ({
  id: `${slot}-part` as PartId,
  slot: slot as SlotId,
  name: `a ${slot}`,
  maker: null,
  numbers: [],
  facts,
  source: 'tests' as SourceId,
});

export const jointOf = (...rules: FitRule[]): Joint => ({
  id: 'core-to-housing' as JointId,
  name: 'core to housing',
  a: 'core-face' as PortId,
  b: 'housing-face' as PortId,
  rules,
  source: 'tests' as SourceId,
});

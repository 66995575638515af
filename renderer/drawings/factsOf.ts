import type { Fact, FeatureId } from '../../reasoner/index.ts';
import type { Facts } from './reading.ts';

/** A page's list of facts by feature. */
export const factsOf = (facts: readonly { readonly feature: FeatureId; readonly fact: Fact }[]): Facts =>
  Object.fromEntries(facts.map(({ feature, fact }) => [feature, fact]));

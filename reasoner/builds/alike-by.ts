import type { Part } from '../atlas/atlas.ts';
import type { FeatureId } from '../ids.ts';

/** What is known of some features of a part, as one text. */
export const factsText = (part: Part, features: readonly FeatureId[]): string =>
  features.length === 0 ? '' : JSON.stringify(features.map((feature) => part.facts[feature] ?? null));

/** A number for each part, the same for those of which these features are known alike. */
export const alikeBy = (features: readonly FeatureId[]): ((part: Part) => number) => {
  const numbers = new Map<string, number>();
  return (part) => {
    const text = factsText(part, features);
    const number = numbers.get(text) ?? numbers.size;
    numbers.set(text, number);
    return number;
  };
};

import type { ObservationId } from '../ids.ts';
import { keptFor } from '../plain/kept-for.ts';
import { type Entered, enteredOf } from './entered.ts';
import { type Chances, entriesIn, partChances } from './posterior.ts';
import type { EnteredFeature } from './slot-likelihood.ts';

/**
 * P(every entry is a true reading | entries) = (1 − s)^k · L₀ / L_s over k entries, with L₀ and L_s how likely they are without slips and with them.
 * @param right the odds of the same entries without slips; null where the entries could never all be right
 */
export const allRight = (mixture: Chances, right: Chances | null): number => {
  if (right === null) return 0;
  const { slip } = mixture.assumptions;
  if (slip === 0) return 1;
  return Math.min(1, Math.exp(entriesIn(mixture).length * Math.log1p(-slip) + right.support - mixture.support));
};

export interface SlipChance {
  readonly observation: ObservationId;
  readonly chance: number;
}

/** How likely each entry is a slip, the likeliest first: s · L / L_s with L how likely the other entries are. In the order of the sheet where they are alike. */
export const slipChances = (mixture: Chances): SlipChance[] => {
  const { slip } = mixture.assumptions;
  if (slip === 0) return [];
  return mixture.slots
    .flatMap((slot) => {
      if (slot.entered.length === 0) return [];
      const parts = partChances(mixture, slot.slot.number);
      const unlisted = parts.at(-1) as number;
      return slot.entered.flatMap((feature) => {
        const ofFact = new Float64Array(feature.likelihood.length);
        feature.facts.of.forEach((fact, part) => {
          ofFact[fact] = (ofFact[fact] as number) + (parts[part] as number);
        });
        const others = othersOf(feature);
        return feature.entries.map(
          ({ id }, at): SlipChance => ({
            observation: id,
            chance: Math.min(1, slip * without(feature, others[at] as Entered, ofFact, unlisted)),
          }),
        );
      });
    })
    .sort((a, b) => b.chance - a.chance);
};

/** For each entry the others, held against the same facts. */
const othersOf = keptFor(({ feature, facts, entries, slip }: EnteredFeature): readonly Entered[] =>
  entries.map((_, at) =>
    enteredOf(
      feature,
      facts,
      entries.filter((_each, i) => i !== at),
      slip,
    ),
  ),
);

/**
 * How likely all entries but one are, over how likely all of them are: the mean of that ratio for each part, as likely as the parts are.
 * @param others the entries but one @param ofFact by distinct fact, how likely the part has it @param unlisted how likely the part is none that is listed
 */
const without = ({ likelihood, silent }: EnteredFeature, others: Entered, ofFact: Float64Array, unlisted: number): number => {
  // With slips no entry is impossible of any part: nothing is divided by nothing.
  let sum = (unlisted * others.silent) / silent;
  for (let fact = 0; fact < ofFact.length; fact += 1)
    sum += ((ofFact[fact] as number) * (others.likelihood[fact] as number)) / (likelihood[fact] as number);
  return sum;
};

import type { ObservationId } from '../ids.ts';
import { enteredOf } from './entered.ts';
import { type Chances, chanceBySeat, entriesIn } from './posterior.ts';
import { type EnteredFeature, type SlotLikelihood, totalsOf } from './slot-likelihood.ts';

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
      const bySeat = chanceBySeat(mixture, slot.slot.number);
      return slot.entered.flatMap((feature) =>
        feature.entries.map(
          ({ id }, at): SlipChance => ({ observation: id, chance: Math.min(1, slip * without(slot, feature, at, bySeat, slip)) }),
        ),
      );
    })
    .sort((a, b) => b.chance - a.chance);
};

/** How likely all entries but one are, over how likely all of them are. */
const without = (
  slot: SlotLikelihood,
  { feature, facts, entries, likelihood, silent }: EnteredFeature,
  at: number,
  bySeat: Float64Array,
  slip: number,
): number => {
  const others = enteredOf(
    feature,
    facts,
    entries.filter((_, i) => i !== at),
    slip,
  );
  // With slips no entry is impossible of any part: nothing is divided by nothing.
  const ratio = likelihood.map((all, fact) => (others.likelihood[fact] as number) / all);
  const ofPart = slot.ofPart.map((all, part) => all * (ratio[facts.of[part] as number] as number));
  const totals = totalsOf(slot, slot.before, ofPart, (slot.ofUnlisted * others.silent) / silent);
  return totals.reduce((sum, total, seat) => sum + total * (bySeat[seat] as number), 0);
};

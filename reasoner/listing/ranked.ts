import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { SlotId } from '../ids.ts';
import type { Seen } from '../sheet/sheet.ts';
import { slipOf } from '../slips/slips.ts';
import type { Becomes, Find } from './listing.ts';

export interface Scored {
  readonly feature: Feature;
  readonly value: Seen;
  /** Greater is likelier; it only orders what is offered. */
  readonly score: number;
}

/** At most so many features are offered for one find. */
const most = 8;

/**
 * Readings of one place as a find, likeliest first; null where there are none. Settled when the first is plainly ahead. Readings that are impossible or
 * implausible are left out, and where there are no others, the likeliest says why it is not taken (O7).
 */
export const asFind = (text: string, from: number, to: number, scored: readonly Scored[]): Find | null => {
  const ranked = eachOnce([...scored].sort((a, b) => b.score - a.score));
  const [first, second, ...others] = ranked.filter(({ feature, value }) => slipOf(feature, value).kind === 'plausible').slice(0, most);
  if (first === undefined) {
    const [likeliest] = ranked;
    return likeliest === undefined ? null : { from, to, text: text.slice(from, to), becomes: [notTaken(likeliest)], settled: false };
  }
  const told = ({ feature, value }: Scored): Becomes => ({ kind: 'told', slot: feature.slot, feature: feature.id, value });
  return {
    from,
    to,
    text: text.slice(from, to),
    becomes: [told(first), ...(second === undefined ? [] : [second, ...others]).map(told)],
    settled: second === undefined || first.score > second.score * 1.1,
  };
};

/** What is found by two of its names in one place is one meaning, the likelier. */
const eachOnce = (ranked: readonly Scored[]): readonly Scored[] => {
  const said = new Set<string>();
  return ranked.filter(({ feature, value }) => {
    const key = JSON.stringify([feature.id, value]);
    return !said.has(key) && said.add(key);
  });
};

const notTaken = ({ feature, value }: Scored): Becomes => {
  const slip = slipOf(feature, value);
  const sentence =
    slip.kind === 'plausible'
      ? ''
      : [slip.sentence, ...(slip.kind === 'implausible' ? slip.likely.map((one) => `It would be ${one.sentence}.`) : [])].join(' ');
  return { kind: 'not taken', slot: feature.slot, feature: feature.id, value, sentence };
};

/** What being in this slot makes of a score, where some slots are spoken of and others not. */
export const slotFactor = (spoken: ReadonlyMap<SlotId, number>, slot: SlotId): number => {
  if (spoken.size === 0) return 0.8;
  if (spoken.has(slot)) return 1;
  return Math.max(...spoken.values()) === 1 ? 0.1 : 0.4;
};

/** Half as likely when no part of the atlas comes near such a size or count. */
export const likelihood = (atlas: CompiledAtlas, feature: Feature, value: Seen): number => {
  const said = value.kind === 'measure' ? value.value : value.kind === 'count' ? value.from : null;
  if (said === null) return 1;
  let [least, greatest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const fact of atlas.slots[atlas.slotNumber.get(feature.slot) ?? -1]?.factsOf(feature.id).distinct ?? []) {
    const [low, high] =
      fact.kind === 'measure' ? [fact.nominal + fact.lower, fact.nominal + fact.upper] : fact.kind === 'count' ? [fact.from, fact.to] : [];
    if (low !== undefined && high !== undefined) [least, greatest] = [Math.min(least, low), Math.max(greatest, high)];
  }
  return least > greatest || (said >= least * 0.9 && said <= greatest * 1.1) ? 1 : 0.5;
};

import type { Chain, ChainId } from '../atlas/chain.ts';
import type { FeatureId } from '../ids.ts';
import type { FitVerdict, Span } from './fit.ts';
import { type FactOf, known } from './known.ts';
import { judgeSum, type Limits, limitsOf, millimetres, sumOf } from './limits.ts';
import { type Draws, type Statistics, simulate } from './simulate.ts';

export interface ChainFinding {
  readonly chain: ChainId;
  readonly verdict: FitVerdict;
  readonly asked: Span;
  /** Features the atlas does not know; where there are any, there are no numbers. */
  readonly missing: readonly FeatureId[];
  readonly numbers: ChainNumbers | null;
}

/** What the stack leaves, in mm. */
export interface ChainNumbers {
  /** Every length at the limit that hurts most. */
  readonly worst: Span;
  /** Middle ± root of the sum of squares of the half-widths: nearly all stacks when each length is normal with its limits at ±3 standard deviations. */
  readonly rss: Span;
  /**
   * The same with the half-width made greater by `factor`, for lengths that are not as well centred as the statistics would like. Neither is ever wider
   * than `worst`: no stack of good parts can be.
   */
  readonly inflated: Span & { readonly factor: number };
  /** Share of stacks within what is asked, 0..1. */
  readonly share: number;
  readonly statistics: Statistics;
  /** Greatest first: how much each length may move the whole either way, and its part of the whole's variance, 0..1. */
  readonly contributions: readonly { readonly feature: FeatureId; readonly half: number; readonly ofVariance: number }[];
}

/**
 * Judges a chain (F2): the verdict rests on the worst case alone, as everywhere. Without `draws` the share is the closed form for normal
 * lengths; with them it is simulated. A length standing twice in the chain is one length, not two.
 *
 * Inflation factor 1 + ½·(worst − rss)/(rss·(√n − 1)): Drake, *Dimensioning and Tolerancing Handbook*, 1999, ch. 9. Of two lengths it alone would
 * pass the worst case, so it ends at worst/rss.
 */
export const judgeChain = (chain: Chain, factOf: FactOf, draws?: Draws): ChainFinding => {
  const asked: Span = { least: chain.min, greatest: chain.max };
  const times = new Map<FeatureId, number>();
  for (const link of chain.links) times.set(link.feature, (times.get(link.feature) ?? 0) + link.times);
  const links = [...times].map(([feature, each]) => ({ feature, times: each, size: known(factOf, feature, 'measure') }));
  const missing = links.filter((link) => link.size === null).map((link) => link.feature);
  const sized = links.flatMap((link) =>
    link.size === null ? [] : [{ ...link, limits: limitsOf(link.size), measured: link.size.kind === 'measured' }],
  );
  if (missing.length > 0) return { chain: chain.id, verdict: 'not known', asked, missing, numbers: null };
  const judged = judgeSum(sized, asked);
  const simulated = draws && simulate([{ terms: sized, asked }], draws);
  const doubtful = judged.verdict === 'after work' && sized.every((link) => link.measured);
  return {
    chain: chain.id,
    verdict: doubtful ? 'not known' : judged.verdict,
    asked,
    missing: doubtful ? sized.map((link) => link.feature) : [],
    numbers: {
      worst: judged.found,
      ...statisticalSpans(sized, judged.found),
      share: simulated?.share ?? judged.share,
      statistics: simulated?.statistics ?? { method: 'closed form', spread: 'normal' },
      contributions: contributionsOf(sized),
    },
  };
};

interface Link {
  readonly feature: FeatureId;
  readonly times: number;
  readonly limits: Limits;
}

const half = (link: Link): number => (Math.abs(link.times) * (link.limits.high - link.limits.low)) / 2;

const statisticalSpans = (links: readonly Link[], within: Span): Pick<ChainNumbers, 'rss' | 'inflated'> => {
  const { mean } = sumOf(links);
  const halves = links.map(half);
  const worst = halves.reduce((sum, each) => sum + each, 0);
  const rss = Math.hypot(...halves);
  const factor =
    rss === 0 || links.length < 2 ? 1 : Math.min(1 + (0.5 * (worst - rss)) / (rss * (Math.sqrt(links.length) - 1)), worst / rss);
  // Held to the worst case also where only binary arithmetic would pass it.
  const about = (width: number): Span => ({
    least: Math.max(within.least, millimetres(mean - width)),
    greatest: Math.min(within.greatest, millimetres(mean + width)),
  });
  return { rss: about(rss), inflated: { ...about(rss * factor), factor } };
};

const contributionsOf = (links: readonly Link[]): ChainNumbers['contributions'] => {
  const variance = links.reduce((sum, link) => sum + (link.times * link.limits.sd) ** 2, 0);
  return links
    .map((link) => ({
      feature: link.feature,
      half: millimetres(half(link)),
      ofVariance: variance === 0 ? 0 : (link.times * link.limits.sd) ** 2 / variance,
    }))
    .sort((a, b) => b.half - a.half);
};

import type { FeatureId, JointId, PartId } from '../ids.ts';
import type { Truth } from '../truth.ts';
import type { FitRule } from './rule.ts';

/** How two parts meet at a joint (F2). */
export type FitVerdict = 'drops in' | 'after work' | 'will not fit' | 'not known';

/** One rule of a joint judged for one pair of parts, with its numbers. */
export interface RuleFinding {
  readonly rule: FitRule;
  readonly verdict: FitVerdict;
  /** Worst-case clearance (interference for a press fit) in mm, where the rule has one: [least, greatest]. */
  readonly found?: { readonly least: number; readonly greatest: number };
  /** What the rule asks, same meaning as `found`. */
  readonly asked?: { readonly least: number; readonly greatest: number };
  /** The features that decide it. */
  readonly decidedBy: readonly FeatureId[];
  /** The features the atlas does not know and would need to. */
  readonly missing: readonly FeatureId[];
}

export interface Fit {
  readonly joint: JointId;
  readonly a: PartId;
  readonly b: PartId;
  readonly verdict: FitVerdict;
  readonly findings: readonly RuleFinding[];
}

/**
 * As found, the unit is together (J1): a joint that holds only after work may have been worked, so it does not
 * remove a candidate; what is not known does not either (A5).
 */
export const asFound = (verdict: FitVerdict): Truth => {
  switch (verdict) {
    case 'drops in':
    case 'after work':
      return 'holds';
    case 'will not fit':
      return 'fails';
    case 'not known':
      return 'not known';
  }
};

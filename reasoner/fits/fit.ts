import type { FitRule } from '../atlas/rule.ts';
import type { FeatureId, JointId, PartId } from '../ids.ts';
import type { ThreadMeeting } from './threads.ts';

/**
 * How two parts meet at a joint (F2). *drops in*: every good example of one goes onto every good example of the other.
 * *after work*: some pairs do and some do not, so they are measured and chosen; or an operation makes them (`work/`).
 * *will not fit*: no pair within the limits of both parts does. *not known*: a dimension it hangs on is not in the atlas.
 */
export type FitVerdict = 'drops in' | 'after work' | 'will not fit' | 'not known';

/** From the least to the greatest, both included; mm on the diameter unless the rule says otherwise. */
export interface Span {
  readonly least: number;
  readonly greatest: number;
}

/** What a point of a rule compares. */
export type PointKind =
  | 'clearance'
  | 'interference'
  | 'radial clearance'
  | 'axial clearance'
  | 'thread'
  | 'hand of thread'
  | 'hole count'
  | 'circle diameter'
  | 'bolt'
  | 'clamp profile'
  | 'service'
  | 'direction of rotation'
  | 'agreement';

/** One comparison inside a rule: a bolt circle has three, a wheel to contour one for each pair of dimensions. */
export interface FitPoint {
  readonly what: PointKind;
  readonly verdict: FitVerdict;
  /** What the limits of the two parts give at worst. Of a circle diameter: a's less b's. */
  readonly found?: Span;
  readonly asked?: Span;
  /** Share of pairs within `asked`, 0..1, by the statistics of SPEC F2. */
  readonly share?: number;
  /** Of two threads that do not mate: in what they differ, and whether one may be taken for the other. */
  readonly thread?: ThreadMeeting;
  /** The features compared; of a clearance or interference the first less the second. */
  readonly features: readonly FeatureId[];
  /** Those of them the atlas does not know and that would have to be known. */
  readonly missing: readonly FeatureId[];
}

/** One rule of a joint judged for one pair of parts, with its numbers. */
export interface RuleFinding {
  readonly rule: FitRule;
  readonly verdict: FitVerdict;
  /** Every comparison the rule makes, in the rule's order. */
  readonly points: readonly FitPoint[];
  /** Worst-case clearance (interference for a press fit) in mm, where the rule has one: [least, greatest]. */
  readonly found?: Span;
  /** What the rule asks, same meaning as `found`. */
  readonly asked?: Span;
  /** Share of pairs within `asked`, 0..1; `found`, `asked` and `share` are those of the point that decides. */
  readonly share?: number;
  /** The features that decide it. */
  readonly decidedBy: readonly FeatureId[];
  /** The features the atlas does not know and would need to; empty unless the verdict is *not known*. */
  readonly missing: readonly FeatureId[];
}

export interface Fit {
  readonly joint: JointId;
  readonly a: PartId;
  readonly b: PartId;
  readonly verdict: FitVerdict;
  readonly findings: readonly RuleFinding[];
}

import type { Fact } from '../../atlas/atlas.ts';
import type { OperationId } from '../../atlas/operation.ts';
import type { FeatureId, PartId, SlotId } from '../../ids.ts';
import type { Truth } from '../../truth.ts';
import type { Fit, FitVerdict, Span } from '../fit.ts';

/** One operation on one part, sized (F2). */
export interface Work {
  readonly operation: OperationId;
  readonly slot: SlotId;
  readonly part: PartId;
  readonly sizes: readonly FinishedSize[];
  readonly metal: readonly MetalLeft[];
  /** What the part is afterwards, for every feature the work changes. */
  readonly changes: readonly { readonly feature: FeatureId; readonly fact: Fact }[];
  /** Whether the metal allows it. `not known`: a wall or old hole the atlas does not know, or that must be measured on the part. */
  readonly allowed: Truth;
  readonly missing: readonly FeatureId[];
  readonly hours: number;
  readonly cautions: readonly string[];
}

/** A dimension to be made: what it is by the catalogue, the limits to finish it to, and what that takes off (or puts on), mm. */
export interface FinishedSize {
  readonly feature: FeatureId;
  readonly from: Span;
  readonly nominal: number;
  readonly lower: number;
  readonly upper: number;
  readonly removes: Span;
}

/** What is left of a wall or stock at worst, and what must be, mm. */
export interface MetalLeft {
  readonly feature: FeatureId;
  readonly leaves: number;
  readonly mustLeave: number;
}

/** Why an operation that touches what is wrong does not mend it. Lengths in mm. */
export type Refusal =
  | { readonly kind: 'not this part'; readonly feature: FeatureId }
  | { readonly kind: 'wrong way'; readonly feature: FeatureId }
  /** Some parts within the catalogue's limits are already past the finished size. */
  | { readonly kind: 'some are past it'; readonly feature: FeatureId }
  /** The size would have to be held within `window`; the operation holds `tolerance`. */
  | { readonly kind: 'too coarse'; readonly feature: FeatureId; readonly window: number; readonly tolerance: number }
  | { readonly kind: 'too much'; readonly feature: FeatureId; readonly removes: number; readonly most: number }
  | { readonly kind: 'not enough metal'; readonly feature: FeatureId; readonly leaves: number; readonly mustLeave: number }
  | { readonly kind: 'ring too thin'; readonly feature: FeatureId; readonly wall: number; readonly least: number }
  | { readonly kind: 'off the land'; readonly feature: FeatureId }
  | { readonly kind: 'old holes in the way'; readonly feature: FeatureId; readonly metal: number; readonly mustLeave: number }
  | { readonly kind: 'holes too close'; readonly feature: FeatureId; readonly metal: number; readonly mustLeave: number }
  | { readonly kind: 'not offered'; readonly feature: FeatureId }
  /** The other part's dimension is not known, or not one value, so there is nothing to work to. */
  | { readonly kind: 'nothing to work to'; readonly feature: FeatureId }
  /** The size lies outside the ISO 286 tables, so its grade says nothing. */
  | { readonly kind: 'no tolerance'; readonly feature: FeatureId; readonly sentence: string };

/** Works that together make a joint go together, with the joint judged again afterwards. */
export interface WorkPlan {
  readonly works: readonly Work[];
  readonly hours: number;
  /** The joint with the works done. *after work* here means: finished, parts still have to be measured and chosen. */
  readonly after: Fit;
  readonly allowed: Truth;
  readonly missing: readonly FeatureId[];
}

/** A joint judged with what the shop can do (F2). */
export interface WorkedFit {
  readonly fit: Fit;
  /** The joint's verdict given the operations. */
  readonly verdict: FitVerdict;
  /** Fewest hours first. None holds a work it could do without. */
  readonly plans: readonly WorkPlan[];
  readonly refused: readonly { readonly operation: OperationId; readonly part: PartId; readonly because: Refusal }[];
  /** Plans of more works than this were not looked for. */
  readonly atMost: number;
}

import type { FeatureId, ObservationId, SheetId } from '../ids.ts';
import type { Seen } from '../sheet/sheet.ts';

/** What was seen or measured at the counter of one feature of a part whose number is known. What was only told is none. */
export interface Sample {
  readonly feature: FeatureId;
  readonly value: Seen;
  /** Standard uncertainty in the feature's unit; null of what is no measure. */
  readonly u: number | null;
  /** The case it comes from: one unit, and so one specimen of the part. */
  readonly sheet: SheetId;
  readonly entry: ObservationId;
}

/** One part in the hand, by all its readings of one measure. */
export interface Specimen {
  readonly sheet: SheetId;
  readonly value: number;
  /** Standard uncertainty of the value. */
  readonly u: number;
  readonly entries: readonly ObservationId[];
}

/** What n specimens say of a measure, in the feature's unit. What so few cannot say is null, never zero. */
export interface MeasureStatistics {
  readonly n: number;
  readonly mean: number;
  /** Sample standard deviation, that of measuring included; null of one specimen. */
  readonly spread: number | null;
  /** How much of the spread measuring alone would give: root mean square of the standard uncertainties. */
  readonly measuring: number;
  /** Two-sided normal tolerance limits mean ± k·spread: 0.95 of such parts lie within, with 0.95 confidence. */
  readonly limits: { readonly lower: number; readonly upper: number; readonly k: number } | null;
  /** Why there are none. */
  readonly noLimits: 'too few' | 'all alike' | null;
  /** Places among the specimens; null where they are too few to call one an outlier. They are counted in until somebody takes them out. */
  readonly outliers: readonly number[] | null;
}

/** What was seen, and of which specimens. */
export interface Tally {
  readonly value: Seen;
  readonly sheets: readonly SheetId[];
}

/** What the samples of one feature of a part say. */
export type FeatureSamples =
  | {
      readonly kind: 'measure';
      readonly feature: FeatureId;
      readonly specimens: readonly Specimen[];
      readonly statistics: MeasureStatistics;
    }
  | { readonly kind: 'seen'; readonly feature: FeatureId; readonly tallies: readonly Tally[] };

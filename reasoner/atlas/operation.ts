import type { FeatureId, Id, SlotId, SourceId } from '../ids.ts';

export type OperationId = Id<'operation'>;

/**
 * What a shop can do to a part so that it fits (F2), as data: a new operation needs no code. Lengths are mm, on the feature as the
 * feature is given (a diameter stays a diameter).
 */
export interface Operation {
  readonly id: OperationId;
  /** As the shop says it: `open the recess`, `re-contour the housing to the wheel`. */
  readonly name: string;
  /** Whose part it is done to. */
  readonly slot: SlotId;
  readonly does: Doing;
  /** Only a part that is one of these in every one of these choices can take it: the metal of its casting, say. */
  readonly takes: readonly { readonly feature: FeatureId; readonly anyOf: readonly string[] }[];
  readonly hours: number;
  /** The part turns in service: it must be balanced again. */
  readonly turning: boolean;
  /** What must be said with this operation beside what is always said. */
  readonly cautions: readonly string[];
  readonly source: SourceId;
}

export type Doing =
  /** Metal taken off one or more dimensions in one setting: a bore opened, a spigot turned down, a face skimmed, a contour cut to a wheel. */
  | { readonly kind: 'cut'; readonly cuts: readonly Cut[] }
  /** A ring pressed in (the feature gets smaller) or on (larger), and finished to size. */
  | {
      readonly kind: 'ring';
      readonly feature: FeatureId;
      readonly way: 'larger' | 'smaller';
      /** The thinnest ring that stands. */
      readonly wall: number;
      readonly holds: Holding;
    }
  /** A new circle of holes between the old ones, on the land between an inner and an outer diameter. */
  | {
      readonly kind: 'drill a circle';
      readonly count: FeatureId;
      readonly diameter: FeatureId;
      readonly bolt: FeatureId;
      readonly land: { readonly inner: FeatureId; readonly outer: FeatureId };
      /** Hole drilled for each bolt the shop works with, by the bolt's option. */
      readonly holes: Readonly<Record<string, number>>;
      /** Metal left between a hole and the edge of the land, and between two holes. */
      readonly edge: number;
      /** How far the finished circle's diameter may be off either way. */
      readonly within: number;
    }
  /** A face made anew to meet the other part: a flange swapped, a thread insert, a port drilled and tapped. */
  | { readonly kind: 'remake'; readonly offers: readonly Offer[] };

export interface Cut {
  readonly feature: FeatureId;
  readonly way: 'larger' | 'smaller';
  /** The most that may come off the feature. */
  readonly most: number;
  readonly holds: Holding;
  /** Walls and stocks the cut eats into: removed / `per` of each (2 when a diameter eats into a wall), and what must be left of it. */
  readonly metal: readonly { readonly feature: FeatureId; readonly per: 1 | 2; readonly leaves: number }[];
  /** Other dimensions that change with it: by `times` what is removed. Skimming a face brings what lies behind it nearer. */
  readonly moves: readonly { readonly feature: FeatureId; readonly times: number }[];
}

/** How closely an operation holds its size: a standard tolerance grade (ISO 286), or a tolerance in mm where sizes lie outside the tables. */
export type Holding = { readonly kind: 'grade'; readonly grade: number } | { readonly kind: 'tolerance'; readonly tolerance: number };

/** What a remade face can be. Measures are finished at the middle of the other part's limits, ± `within`. */
export type Offer =
  | { readonly feature: FeatureId; readonly kind: 'choice'; readonly anyOf: readonly string[] }
  | { readonly feature: FeatureId; readonly kind: 'count'; readonly from: number; readonly to: number }
  | { readonly feature: FeatureId; readonly kind: 'measure'; readonly from: number; readonly to: number; readonly within: number }
  | { readonly feature: FeatureId; readonly kind: 'presence' };

import type { FeatureId } from '../ids.ts';

/**
 * A rule between the dimensions of two ports (F1), as data. Every id names a feature; which side it belongs to
 * follows from the feature's slot. Clearances and interferences are millimetres on the diameter unless said otherwise.
 */
export type FitRule =
  /** Spigot in recess: clearance = recess − spigot must lie in [min, max]. */
  | { readonly kind: 'pilot'; readonly spigot: FeatureId; readonly recess: FeatureId; readonly min: number; readonly max: number }
  /** Two parts that turn past each other: clearance = outer − inner in [min, max]. */
  | { readonly kind: 'running clearance'; readonly inner: FeatureId; readonly outer: FeatureId; readonly min: number; readonly max: number }
  /** Pressed together: interference = shaft − bore in [min, max]. */
  | { readonly kind: 'press fit'; readonly shaft: FeatureId; readonly bore: FeatureId; readonly min: number; readonly max: number }
  /** Wheel in contour: for each pair, radial clearance = (housing − wheel)/2 for diameters (`radial`), housing − wheel for widths (`axial`). */
  | {
      readonly kind: 'wheel to contour';
      readonly pairs: readonly {
        readonly wheel: FeatureId;
        readonly housing: FeatureId;
        readonly way: 'radial' | 'axial';
        readonly min: number;
        readonly max: number;
      }[];
    }
  /** External and internal thread: designations (`M8x1`) and hands must be the same. Choice features. */
  | {
      readonly kind: 'thread';
      readonly external: { readonly size: FeatureId; readonly hand: FeatureId };
      readonly internal: { readonly size: FeatureId; readonly hand: FeatureId };
    }
  /** Same hole count, circle diameters within `within`, same bolt (a choice). */
  | {
      readonly kind: 'bolt circle';
      readonly a: { readonly count: FeatureId; readonly diameter: FeatureId; readonly bolt: FeatureId };
      readonly b: { readonly count: FeatureId; readonly diameter: FeatureId; readonly bolt: FeatureId };
      readonly within: number;
    }
  /** Clamp profiles (V-band and the like) must be the same choice. */
  | { readonly kind: 'clamp profile'; readonly a: FeatureId; readonly b: FeatureId }
  /** What one part needs the other must offer: pairs of presences (oil feed, water ports). Not needed is met by anything. */
  | { readonly kind: 'services'; readonly pairs: readonly { readonly needs: FeatureId; readonly offers: FeatureId }[] }
  /** Both must turn the same way, seen from the same end. Choice features. */
  | { readonly kind: 'direction of rotation'; readonly a: FeatureId; readonly b: FeatureId }
  /** Two choices that must agree for another reason; `what` says which ("entry", "weld pattern"). */
  | { readonly kind: 'same'; readonly what: string; readonly a: FeatureId; readonly b: FeatureId };

export type FitRuleKind = FitRule['kind'];

import type { FeatureId, MakerId, ObservationId, PartId, SheetId, SlotId } from '../ids.ts';

/** One unit's observations. A found unit is together; a planned build is on paper (J1, J2). */
export interface Sheet {
  readonly id: SheetId;
  readonly title: string;
  readonly story: string;
  readonly kind: 'found' | 'planned';
  /** The name it is offered under, as written, or null. */
  readonly claimed: string | null;
  /** The unit's serial number as it is stamped, wherever that is. It says which unit this is and nothing of what it is: no answer rests on it. */
  readonly serial?: string;
  /** Whose name it is said to be, where the claim says so. */
  readonly claimedMaker: MakerId | null;
  readonly observations: readonly Observation[];
  /** What somebody went to look at and could not settle, so that it is not asked for again. It is never evidence of anything. */
  readonly unseen?: readonly Unseen[];
  /** Slots that hold nothing: a core offered without housings. */
  readonly absent: readonly SlotId[];
  /** A planned build's chosen parts. Empty for a found unit. */
  readonly chosen: Readonly<Record<SlotId, PartId>>;
}

export interface Unseen {
  readonly slot: SlotId;
  readonly feature: FeatureId;
  readonly why: (typeof unseenReasons)[number];
}

/** Looked and could not tell; would have to open what may not be opened; has nothing to measure it with. */
export const unseenReasons = ['could not see', 'may not be opened', 'no instrument'] as const;

export interface Observation {
  readonly id: ObservationId;
  readonly slot: SlotId;
  readonly feature: FeatureId;
  readonly value: Seen;
  readonly sure: Sure;
  /** Asked whether this is what was read, since it is far from anything usual, somebody said yes (O7). */
  readonly confirmed?: true;
  /** What it was measured with, by name, for the record; the uncertainty stands in `sure`. */
  readonly instrument?: string;
  readonly note?: string;
}

/** What was seen. Measures are in mm or degrees whatever the window shows. */
export type Seen =
  /** "ten", or "ten or eleven": any whole number from `from` to `to`. */
  | { readonly kind: 'count'; readonly from: number; readonly to: number }
  | { readonly kind: 'measure'; readonly value: number }
  | { readonly kind: 'choice'; readonly option: string }
  | { readonly kind: 'presence'; readonly present: boolean }
  /** The letters, or null for "looked, and there are none". */
  | { readonly kind: 'mark'; readonly text: string | null };

/**
 * How sure (O1). `u` is a standard uncertainty in the feature's unit; agreement is judged at ±2u (O2).
 * A measure is always *measured* or *told*. What is told is a claim to test, never evidence.
 */
export type Sure = { readonly kind: 'seen' } | { readonly kind: 'measured'; readonly u: number } | { readonly kind: 'told' };

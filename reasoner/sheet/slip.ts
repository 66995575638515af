import type { Seen } from './sheet.ts';

/** How a figure may have come to be written wrong. */
export type SlipHow =
  /** Read in inches, taken for millimetres. */
  | 'inches'
  /** Read in millimetres, taken for inches. */
  | 'millimetres'
  | 'decimal point'
  /** One figure written twice: 111 for 11. */
  | 'figure twice'
  /** Two neighbouring figures in the other order: 75.2 for 57.2. */
  | 'swapped'
  /** Of a count: one figure more than was meant: 120 for 12. */
  | 'figure too many'
  /** Of a year: 87 for 1987. */
  | 'century'
  /** The radius written where a diameter is wanted. */
  | 'radius'
  /** The diameter written where a radius is wanted. */
  | 'diameter';

export interface LikelySlip {
  readonly how: SlipHow;
  /** What may have been meant. */
  readonly value: Seen;
  /** `if the decimal point slipped`, to stand behind the value. */
  readonly why: string;
  /** Both: `57.2 mm, if the decimal point slipped`. */
  readonly sentence: string;
}

/** What is to be said of an entry's figures at the door (O7). */
export type Slip =
  | { readonly kind: 'plausible' }
  /** Refused, whoever confirms it. */
  | { readonly kind: 'impossible'; readonly of: 'figure' | 'uncertainty'; readonly sentence: string }
  /** Asked about once; taken where it is confirmed. `likely` holds two at most, likeliest first. */
  | { readonly kind: 'implausible'; readonly sentence: string; readonly likely: readonly LikelySlip[] };

/** Why a figure can be none of a part. */
export type Wrong =
  | 'no figure'
  | 'absurd'
  | 'not above zero'
  | 'more than a turn'
  | 'below zero'
  | 'not whole'
  | 'runs down'
  | 'uncertainty';

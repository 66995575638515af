import type { SlotId } from '../ids.ts';

/** How a maker makes the numbers it stamps: pieces read from left to right, as a grammar's tokens are (A4). Data of the maker (A6). */
export interface NumberPattern {
  readonly id: string;
  /** What it is called when a number is explained: `serial number from 1992`. */
  readonly name: string;
  readonly says: 'part number' | 'serial number';
  /** Years the maker numbered so; null where that is not known, or goes on. */
  readonly from: number | null;
  readonly to: number | null;
  readonly pieces: readonly NumberPiece[];
}

/** `before` is what is stamped between this piece and the one before; reading passes over all such signs, as it does with marks. */
export type NumberPiece = { readonly before: string } & (
  | { readonly kind: 'fixed'; readonly text: string }
  /** Which slot's part it is: the code, and the slot it stands for. */
  | { readonly kind: 'slot'; readonly codes: Readonly<Record<string, SlotId>> }
  /** So many figures: a running number, say; or, where it is said, the issue of a drawing. Numbers that differ in their issue alone are of parts for the same models. */
  | { readonly kind: 'digits'; readonly name: string; readonly count: number; readonly issue?: true }
  /** So many letters out of these. */
  | { readonly kind: 'letters'; readonly name: string; readonly among: string; readonly count: number }
  /** The year of make in two or four figures. Two figures are of a year the pattern was in use. */
  | { readonly kind: 'year'; readonly figures: 2 | 4 }
  /** One letter for each year, beginning with `first`. */
  | { readonly kind: 'year letter'; readonly letters: string; readonly first: number }
  /** The month in two figures. */
  | { readonly kind: 'month' }
  | { readonly kind: 'month letter'; readonly letters: string }
  | CheckDigit
);

/**
 * A figure that follows from those before it: weights are laid over all figures that stand before, from the left and again from the
 * first when they run out; products are added and divided by the modulus. What is stamped is the remainder, or what it lacks to the
 * modulus (0 for none); `ten` stands for 10.
 */
export interface CheckDigit {
  readonly kind: 'check digit';
  readonly weights: readonly number[];
  readonly modulus: number;
  readonly stamps: 'remainder' | 'complement';
  readonly ten: string;
}

/** A number as a pattern reads it. */
export interface NumberRead {
  readonly pattern: NumberPattern;
  /** The text of every piece, as stamped. */
  readonly texts: readonly string[];
  /** The slot its code stands for, where it has one. */
  readonly slot: SlotId | null;
  /** When it was stamped, as far as it says: its year, else the years the pattern was in use. */
  readonly made: Era;
  readonly month: number | null;
  /** The check digit as stamped and as it should be, where it has one. */
  readonly check: { readonly stamped: string; readonly wanted: string } | null;
}

/** Years, both included; null is open. */
export interface Era {
  readonly from: number | null;
  readonly to: number | null;
}

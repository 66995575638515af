import type { Independent } from '../answer/verdict.ts';
import type { SheetId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
import type { ReasonKind } from '../why/order-of-reasons.ts';

/** Many sheets judged and put in order of how plainly their claims fail (SPEC, Many listings). */
export interface Listings {
  readonly edition: string;
  /** Plainest failure first; every sheet handed in is one of them. */
  readonly rows: readonly ListingsRow[];
  /** False when it was stopped before every sheet was judged; those left are among the rows, and say so. */
  readonly complete: boolean;
  /** They stand with every row that was judged (F5). */
  readonly cautions: readonly string[];
}

/** What became of one claim, plainest failure first. */
export const standings = [
  'no name',
  'ruled out',
  'open',
  'stands',
  'nothing claimed',
  'contradiction',
  'planned build',
  'unreadable',
  'not reached',
] as const;
export type Standing = (typeof standings)[number];

export interface ListingsRow {
  /** Where the sheet came from: a file, and within a table its unit. */
  readonly source: string;
  /** Null for what could not be read as a sheet. */
  readonly sheet: SheetId | null;
  readonly title: string;
  readonly claimed: string | null;
  readonly standing: Standing;
  /** How plainly a claim is ruled out; null for every other standing. */
  readonly plainness: Plainness | null;
  /** The first thing to be said, in a sentence; of an unreadable sheet, its faults in turn. */
  readonly sentences: readonly string[];
  /** What the unit may be described as, by what was entered; null where nothing was judged. */
  readonly may: string | null;
}

export interface Plainness {
  /** What the first reason (K1) rests on. */
  readonly restsOn: ReasonKind;
  /** Members of that reason: how little has to be held against each other. */
  readonly members: number;
  /** Minutes of strip-down to see all of it. */
  readonly minutes: number;
  /** Reasons that share no entry. */
  readonly reasons: Independent;
}

/** A sheet to be judged, or why there is none. */
export type ListingsItem =
  | { readonly source: string; readonly sheet: Sheet }
  | { readonly source: string; readonly faults: readonly string[] };

export interface ListingsProgress {
  readonly judged: number;
  readonly of: number;
}

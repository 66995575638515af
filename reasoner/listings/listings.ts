import type { Independent } from '../answer/verdict.ts';
import type { SheetId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
import type { ReasonKind } from '../why/order-of-reasons.ts';

/** Many listings and sheets judged and put in order of how plainly their claims fail (SPEC, Many listings). */
export interface Listings {
  readonly edition: string;
  /** Plainest failure first; everything handed in is one of them. */
  readonly rows: readonly ListingsRow[];
  /** False when it was stopped before everything was judged; what is left is among the rows, and says so. */
  readonly complete: boolean;
  /** They stand with every row that was judged (F5). */
  readonly cautions: readonly string[];
}

/** What became of one claim, plainest failure first. */
export const standings = [
  'no name',
  'ruled out',
  'own words against it',
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
  /** Where it came from: a file, and within a table its row or its unit. */
  readonly source: string;
  /** Null for what could not be read. */
  readonly sheet: SheetId | null;
  readonly title: string;
  readonly claimed: string | null;
  readonly standing: Standing;
  /** How plainly a claim is ruled out, or would be were its own words true; null for every other standing. */
  readonly plainness: Plainness | null;
  /** The first thing to be said, in a sentence; of what could not be read, its faults in turn. */
  readonly sentences: readonly string[];
  /** Where to look first, a sentence; null where nothing is claimed that a look would settle. */
  readonly lookFirst: string | null;
  /** What the unit may be described as, by what was entered; null where nothing was judged, and of a listing, of which nothing was seen. */
  readonly may: string | null;
  /** What stood beside the words in a table of listings; null for a sheet. */
  readonly offer: Beside | null;
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

/** What a row of a table of listings says beside its words: told, and kept as it was written. */
export interface Beside {
  readonly price: string | null;
  readonly link: string | null;
  /** Columns nothing is made of. */
  readonly carried: readonly { readonly heading: string; readonly text: string }[];
}

/** One row of a table of listings. */
export interface Offer extends Beside {
  /** As a spreadsheet counts; from it the sheet gets its id. */
  readonly row: number;
  readonly title: string;
  /** The title and all else that is read. */
  readonly words: string;
  /** What is wrong beside the words, and keeps nobody from reading them; sentences. */
  readonly notes: readonly string[];
}

/** Something to be judged, or why there is nothing. */
export type ListingsItem =
  | { readonly source: string; readonly sheet: Sheet }
  | { readonly source: string; readonly offer: Offer }
  | { readonly source: string; readonly faults: readonly string[]; readonly beside?: Beside };

export interface ListingsProgress {
  readonly judged: number;
  readonly of: number;
}

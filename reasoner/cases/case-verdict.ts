import type { Rung, Status } from '../answer/verdict.ts';
import type { FitVerdict } from '../fits/fit.ts';
import type { NameId, PartId, SlotId } from '../ids.ts';

/**
 * What a case keeps of an answer: enough to read years later what was said, under which edition of the atlas, and why, and to be
 * compared with what the same entries mean today. It holds texts beside ids, because a later atlas may have dropped what the ids named.
 */
export type CaseVerdict = CaseJudged | CaseContradicted;

export interface CaseJudged {
  readonly kind: 'verdict';
  readonly edition: string;
  /** The highest names that stood. */
  readonly honest: readonly KeptName[];
  /** The names that were open above them. */
  readonly open: readonly KeptName[];
  readonly claim: KeptClaim | null;
  /** Every name that was not ruled out. A name that is missing here was ruled out, or was not judged. */
  readonly names: readonly KeptName[];
  /** What was left in each slot. Of a planned build: the part chosen. */
  readonly slots: readonly KeptSlot[];
  /** Of a planned build: whether it goes together (F2); null for a found unit. */
  readonly fit: FitVerdict | null;
  /** Why, as it was said: the claim first, then its conflicts, the unit's own, and the findings. */
  readonly sentences: readonly string[];
  /** The cautions that stood with it (N3, F5); they belong to the verdict wherever it is read. */
  readonly cautions: readonly string[];
  /** The words for the ticket (W1). Not there in what was kept before they were. */
  readonly ticket?: { readonly may: readonly string[]; readonly mustNot: readonly string[] };
}

/** O6: the entries contradicted each other, so nothing was judged. */
export interface CaseContradicted {
  readonly kind: 'contradiction';
  readonly edition: string;
  readonly sentences: readonly string[];
}

export interface KeptName {
  readonly id: NameId;
  readonly text: string;
  readonly rung: Rung;
  readonly status: Status;
}

export interface KeptClaim {
  /** As it was written. */
  readonly text: string;
  /** The name it was judged as, or null when it is no model of the atlas. */
  readonly name: NameId | null;
  readonly status: Status;
}

export interface KeptSlot {
  readonly slot: SlotId;
  readonly name: string;
  /** How many listed parts remained. */
  readonly left: number;
  /** Which, where they are few enough to be read; null where they are more than `readable`. */
  readonly parts: readonly { readonly id: PartId; readonly name: string }[] | null;
  readonly absent: boolean;
  readonly doubtful: boolean;
}

/** More parts than this in one slot are counted and not listed: nobody reads them, and every entry of every case would carry them. */
export const readable = 12;

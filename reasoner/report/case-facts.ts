import type { ObservationId, SlotId } from '../ids.ts';
import type { ShopWord } from '../plain/shop-word.ts';

/** What the shop knows of the case a sheet belongs to, as the report needs it. Everything may be missing; nothing is made up for it. */
export interface CaseFacts {
  /** The shop's own number. */
  readonly number?: string;
  /** The day the case was opened, as an ISO date. */
  readonly date?: string;
  readonly customer?: string;
  readonly lookedBy?: string;
  /** What the shop or the maker decided beside the verdict, where that holds. */
  readonly word?: ShopWord;
  readonly photographs?: readonly CasePhotograph[];
}

/** A photograph, named by its contents; the picture itself is the printer's to fetch. */
export interface CasePhotograph {
  readonly hash: string;
  readonly caption: string;
  /** What it shows, where that was said: a slot, and of it one observation. */
  readonly slot: SlotId | null;
  readonly observation: ObservationId | null;
  /** Pixels. */
  readonly width: number;
  readonly height: number;
}

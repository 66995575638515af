import type { CaseVerdict, ObservationId, Sheet, SheetId, SlotId, Status } from '../../reasoner/index.ts';
import type { GivenElsewhere } from '../../reasoner/plain/shared-letter.ts';
import type { ShopWord } from '../../reasoner/plain/shop-word.ts';
import type { Version } from '../plain/version.ts';

export type { ShopWord };

/** Every sheet the shop saves is a case: what it was, who brought it, who looked, what was seen, and what was said of it on which day. */
export interface CaseFile {
  readonly sheet: SheetId;
  /** The counter's letter, year and running number, `A-2026-0007`; given when the sheet is first saved, never changed, and never given to another. */
  readonly number: string;
  /** `YYYY-MM-DD`, by the shop's own clock. */
  readonly openedOn: string;
  readonly title: string;
  readonly kind: Sheet['kind'];
  /** Whom it is for, as the shop writes it: a name, an order number, a berth. */
  readonly customer: string;
  /** Who looked at the unit. */
  readonly lookedBy: string;
  readonly notes: string;
  /** Of customer, who looked and notes: what writing them anew is made against (H5). */
  readonly version: Version;
  /** ISO time they were written at. */
  readonly describedAt: string;
  /** Who wrote them; empty where nobody said. */
  readonly describedBy: string;
  /** Oldest first. */
  readonly photos: readonly CasePhoto[];
  /** Oldest first. Empty only for a sheet saved before cases were kept and not saved since. */
  readonly history: readonly CaseEntry[];
  /** What the shop or the maker decided, beside every verdict; oldest first. The last is what holds. */
  readonly words: readonly Saying[];
  /** Where it was left as it was told though a newer atlas would say otherwise; oldest first. */
  readonly left: readonly LeftAsTold[];
  /** The numbers it had in other shops, the first one first; taken in last by the last. Empty for a case opened here. */
  readonly origins: readonly CaseOrigin[];
  /** The instant (ISO) it is shown as of, or null for today. */
  readonly asOf: string | null;
}

/** That a case stays as it was told, and why. */
export interface LeftAsTold {
  /** ISO time, and who decided it; empty where nobody said. */
  readonly at: string;
  readonly who: string;
  readonly reason: string;
  /** Which entry of its history was told, from 1. */
  readonly entry: number;
}

/** Where a case came from. */
export interface CaseOrigin {
  /** Its number there. */
  readonly number: string;
  /** When it was taken in, ISO time, and by whom; empty where nobody said. */
  readonly at: string;
  readonly who: string;
}

/** What a file that holds a case says of it, before it is taken in. */
export interface ParcelSeen
  extends Pick<
    CaseSummary,
    'sheet' | 'number' | 'openedOn' | 'title' | 'kind' | 'customer' | 'claimed' | 'status' | 'honest' | 'observations' | 'photos'
  > {
  /** How many states of it were saved. */
  readonly entries: number;
  /** ISO time it was saved last; null where nothing of its history was kept. */
  readonly savedAt: string | null;
  /** The case that is here under the same sheet; null where there is none. */
  readonly here: CaseSummary | null;
  /** Its number has this counter's letter and was not given here; null where that is not so. */
  readonly elsewhere: GivenElsewhere | null;
}

/** A case that was taken in: its sheet's id here and its number here, with what `ParcelSeen` says of the one it came with. */
export type TakenInCase = Pick<ParcelSeen, 'sheet' | 'number' | 'elsewhere'>;

/** A number stamped on a unit, as it is written there. */
export interface UnitNumber {
  readonly says: 'serial number' | 'part number';
  readonly text: string;
}

/** Other cases that have a number of this unit's: the unit, or its plate, was here before. Nothing is concluded from it. */
export interface HereBefore {
  readonly same: readonly {
    readonly sheet: SheetId;
    readonly number: string;
    readonly openedOn: string;
    readonly title: string;
    /** The number both have, as the other case has it. A part number is on every unit of its kind. */
    readonly by: UnitNumber;
  }[];
  /** How many others have only the part number. */
  readonly more: number;
}

/** A photograph of a case. Its bytes are asked for apart, by `id`. */
export interface CasePhoto {
  /** SHA-256 of the stored bytes, in hex: the same picture is the same photograph, whichever cases it is in. */
  readonly id: PhotoId;
  readonly type: PhotoType;
  /** How many bytes are stored. */
  readonly bytes: number;
  /** In pixels, as stored; a picture lying on its side says so in its orientation, which is kept. */
  readonly width: number;
  readonly height: number;
  readonly caption: string;
  readonly about: PhotoAbout | null;
  /** Of caption and what it shows (H5). */
  readonly version: Version;
  /** ISO time. */
  readonly addedAt: string;
}

export type PhotoId = string & { readonly photo: unique symbol };
export type PhotoType = 'image/jpeg' | 'image/png' | 'image/webp';

/** What a photograph shows: a slot, or one entry of the sheet. */
export type PhotoAbout =
  | { readonly kind: 'slot'; readonly slot: SlotId }
  | { readonly kind: 'observation'; readonly observation: ObservationId };

/** One state of the sheet with the verdict it had; kept each time it is saved with something changed. */
export interface CaseEntry {
  /** ISO time. */
  readonly at: string;
  /** Who saved it; empty where nobody said. */
  readonly who: string;
  /** The edition of the atlas it was judged under: every pack with its edition. */
  readonly edition: string;
  readonly sheet: Sheet;
  readonly verdict: CaseVerdict;
}

/** The shop's word as it was written down on an occasion; each is kept. */
export interface Saying {
  /** ISO time. */
  readonly at: string;
  /** Who wrote it down; empty where nobody said. */
  readonly who: string;
  /** Null: what was said before is taken back. */
  readonly word: ShopWord | null;
  /** Which saying it is (H5): whoever says another says which he has seen last. */
  readonly version: Version;
}

/** A line of the list of cases. */
export interface CaseSummary {
  readonly sheet: SheetId;
  readonly number: string;
  readonly openedOn: string;
  readonly title: string;
  readonly kind: Sheet['kind'];
  readonly customer: string;
  readonly lookedBy: string;
  readonly notes: string;
  readonly claimed: string | null;
  /** Of the claim, when it was last saved: null where nothing was claimed, or nothing could be judged. */
  readonly status: Status | null;
  /** The names that stood then; empty where entries contradicted each other, or no verdict was kept yet. */
  readonly honest: readonly string[];
  readonly open: readonly string[];
  /** Null for a case whose verdict was not kept yet. */
  readonly edition: string | null;
  readonly observations: number;
  readonly photos: number;
  /** What is stamped on the unit: its serial number first, then what its plate says. */
  readonly numbers: readonly UnitNumber[];
  /** What the shop or the maker decided, where that holds: never a part of the verdict. */
  readonly word: ShopWord | null;
  /** ISO time. */
  readonly savedAt: string;
}

/** Which cases are asked for; what is left out does not narrow. */
export interface CaseFilter {
  /** Words that must all be found, in number (here or where it came from), title, customer, notes, claimed name or who looked, or in a number stamped on the unit, however that is written; case and accents do not count. */
  readonly text?: string;
  /** First and last day they were opened on, `YYYY-MM-DD`. */
  readonly from?: string;
  readonly to?: string;
  /** Of the claim; `none` where nothing was claimed or nothing could be judged. */
  readonly status?: Status | 'none';
  readonly lookedBy?: string;
}

/** What may be written on a case beside its sheet. */
export interface CaseDetails {
  readonly customer: string;
  readonly lookedBy: string;
  readonly notes: string;
}

import type { Id, PartId, SourceId } from '../../reasoner/index.ts';
import { firstCounterLetter } from '../../reasoner/plain/counter-letter.ts';
import type { LengthUnit } from '../../reasoner/plain/units.ts';
import type { Version } from '../plain/version.ts';

/** A file the shop keeps: SHA-256 of its bytes, in hex. */
export type FileId = Id<'file'>;

/** A picture for the head of what is printed. Width and height in pixels. */
export interface Logo {
  readonly file: FileId;
  readonly type: 'image/jpeg' | 'image/png';
  readonly width: number;
  readonly height: number;
}

/** What stands at the head of reports and tickets. Without a name there is no letterhead. */
export interface Letterhead {
  readonly name: string;
  /** Address, telephone: as they are printed, one below the other. */
  readonly lines: readonly string[];
  readonly logo: Logo | null;
}

/** How the shop writes money, and what it asks for an hour. */
export interface ShopMoney {
  /** Three capital letters, as ISO 4217 has them. */
  readonly code: string;
  /** What stands beside the figures: `€`, `crowns`. Empty: the code. */
  readonly written: string;
  readonly before: boolean;
  /** Digits after the point, as ISO 4217 gives them for the money: 0, 2 or 3. */
  readonly decimals: number;
  /** Null where it was not said. */
  readonly hour: number | null;
}

/** How measures are shown where a person has not chosen otherwise, and which sign stands before decimals. */
export interface ShopMeasures {
  readonly unit: LengthUnit;
  readonly comma: boolean;
}

export interface ShopPeople {
  readonly names: readonly string[];
}

/** Which of the shop's counters this is: what stands first in the numbers of the cases opened at it. */
export interface ShopCounter {
  /** One of `counterLetters`. */
  readonly letter: string;
}

/** Everything the shop says of itself, by key. */
export interface ShopSettings {
  readonly letterhead: Letterhead;
  /** Null where nobody said. */
  readonly money: ShopMoney | null;
  readonly measures: ShopMeasures;
  readonly people: ShopPeople;
  readonly counter: ShopCounter;
}

export type SettingKey = keyof ShopSettings;

/** A setting as it is kept; of one that nobody has said anything of, what is taken instead and no version. */
export interface KeptSetting<T> {
  readonly value: T;
  readonly version: Version | null;
  /** ISO time, and who; null and empty where nobody said anything. */
  readonly at: string | null;
  readonly who: string;
}

export type KeptSettings = { readonly [Key in SettingKey]: KeptSetting<ShopSettings[Key]> };

/** What is taken where nobody said anything. */
export const unsaid: ShopSettings = {
  letterhead: { name: '', lines: [], logo: null },
  money: null,
  measures: { unit: 'mm', comma: false },
  people: { names: [] },
  counter: { letter: firstCounterLetter },
};

/** What a paper is about. */
export type DocumentAbout = { readonly kind: 'source'; readonly id: SourceId } | { readonly kind: 'part'; readonly id: PartId };

/** A paper beside a source or a part, without its bytes. */
export interface ShopDocument {
  readonly about: DocumentAbout;
  readonly file: FileId;
  readonly n: number;
  /** Of the file it came in. */
  readonly name: string;
  /** What it is, in words; empty where nobody said. */
  readonly title: string;
  /** ISO time, and who put it there. */
  readonly at: string;
  readonly who: string;
  /** What it is by its bytes, and how many; null where they were lost with a damaged atlas. */
  readonly type: string | null;
  readonly size: number | null;
}

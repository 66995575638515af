import type { Id, PartId, SlotId } from '../../reasoner/index.ts';
import type { StockCondition } from '../../reasoner/plain/stock-condition.ts';
import type { Version } from '../plain/version.ts';

export type StockLineId = Id<'stock line'>;

/** One line of the stock list. */
export interface StockLine {
  /** A part of the atlas; null for one that is told in words. */
  readonly part: PartId | null;
  /** What it is called; of a part of the atlas the name it had there when it was written down. */
  readonly words: string;
  /** A number on it, where it is told in words; else empty. */
  readonly number: string;
  /** How many there are. */
  readonly many: number;
  readonly condition: StockCondition;
  /** Of one, with the money it is in (ISO 4217). Null: not known; never 0. */
  readonly price: { readonly amount: number; readonly money: string } | null;
  readonly place: string;
  readonly note: string;
}

export interface KeptStockLine extends StockLine {
  readonly id: StockLineId;
  readonly version: Version;
  /** Which state of the line this is, from 1. */
  readonly state: number;
  /** ISO time of this state, and who wrote it. */
  readonly at: string;
  readonly who: string;
  /** What it is called now: its name in the atlas, or the words. */
  readonly name: string;
  /** Its numbers in the atlas, or the one that was written. */
  readonly numbers: readonly string[];
  /** Its slot in the atlas; null where it is told in words, or the atlas no longer has the part. */
  readonly slot: SlotId | null;
}

/** A state of a line of stock; `line` is null where it was taken off the list. */
export interface StockState {
  readonly at: string;
  readonly who: string;
  readonly line: StockLine | null;
}

/** What a table of stock would do, or did. */
export interface StockTable {
  readonly fresh: number;
  readonly changed: number;
  /** Lines that say what is there already. */
  readonly same: number;
}

/** What is asked for a part: by the shop's own list, and beside it by the rates packs bring. */
export interface PartPrice {
  readonly own: ShopPrice | null;
  readonly packs: readonly { readonly rates: string; readonly amount: number; readonly money: string }[];
}

/** What is asked for a part, as it is said. */
export interface PriceSaid {
  readonly amount: number;
  /** ISO 4217. */
  readonly money: string;
  readonly note: string;
}

/** What the shop asks for a part, by its own list. */
export interface ShopPrice extends PriceSaid {
  readonly part: PartId;
  /** Its name in the atlas; null where the atlas no longer has it. */
  readonly name: string | null;
  /** Its numbers in the atlas. */
  readonly numbers: readonly string[];
  /** Which price of the part this is, from 1. */
  readonly state: number;
  /** ISO time since when it is asked, and who said so. */
  readonly at: string;
  readonly who: string;
  readonly version: Version;
}

/** What was asked for a part from a time on; `price` is null where it was taken off the list. */
export interface PriceState {
  readonly at: string;
  readonly who: string;
  readonly price: PriceSaid | null;
}

/** What a table of prices would do, or did. */
export interface PriceTable {
  readonly fresh: number;
  readonly changed: number;
  /** Taken off the list. */
  readonly off: number;
  /** Rows that say what is asked already. */
  readonly same: number;
}

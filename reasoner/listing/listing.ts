import type { Reading } from '../answer/verdict.ts';
import type { FeatureId, MakerId, ModelId, PartId, SlotId } from '../ids.ts';
import type { Seen } from '../sheet/sheet.ts';

/** What the text of an offer says, as far as it could be made out (O1): every find a claim to test, none of it evidence. */
export interface Listing {
  /** In the order they stand in the text; no two overlap. */
  readonly finds: readonly Find[];
}

/** One thing picked out of the text, and what it could become on the sheet. */
export interface Find {
  /** Where it stands: the text from `from` up to and without `to`, in UTF-16 units. */
  readonly from: number;
  readonly to: number;
  readonly text: string;
  /** Likeliest first, never empty. */
  readonly becomes: readonly [Becomes, ...Becomes[]];
  /** False where the text leaves open which of them is meant: somebody must choose. */
  readonly settled: boolean;
}

export type Becomes =
  /** The name it is offered under, as written, without the maker. */
  | {
      readonly kind: 'claim';
      readonly text: string;
      readonly maker: MakerId | null;
      readonly model: ModelId | null;
      readonly verdict: Reading['verdict'];
    }
  /** Whose name it is said to be. */
  | { readonly kind: 'maker'; readonly maker: MakerId }
  /** An observation that is only told. */
  | { readonly kind: 'told'; readonly slot: SlotId; readonly feature: FeatureId; readonly value: Seen }
  /** Figures no such part has (O7): refused, with the likely slip; whoever believes them enters them by hand and says so. Never settled. */
  | { readonly kind: 'not taken'; readonly slot: SlotId; readonly feature: FeatureId; readonly value: Seen; readonly sentence: string }
  /** The unit's serial number, as the offer gives it. It says which unit it is and nothing of what it is. */
  | { readonly kind: 'serial'; readonly number: string }
  /** A part number the atlas knows, for which the sheet has no place but its story. */
  | { readonly kind: 'part number'; readonly number: string; readonly parts: readonly { readonly id: PartId; readonly name: string }[] };

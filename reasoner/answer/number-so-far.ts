import type { Era } from '../atlas/number-pattern.ts';
import type { MakerId, ModelId, PartId, SlotId } from '../ids.ts';

/** What a number means as far as it is typed (O5): read by every maker's patterns, with what is still to come, or where it cannot be so. */
export interface NumberSoFar {
  /**
   * - `whole`: some pattern reads all of it, though perhaps not its check digit
   * - `begun`: some pattern goes on from it
   * - `wrong`: every pattern that begins so breaks off
   * - `none`: none begins so
   */
  readonly state: 'whole' | 'begun' | 'wrong' | 'none';
  /** The likeliest first, all of that state; of those that break off, those that come furthest. */
  readonly readings: readonly ReadSoFar[];
  /** Makers of whom nobody has said how they make such numbers: those named beside it, else all there are. */
  readonly silent: readonly MakerId[];
  /** Parts of the atlas with the number. */
  readonly parts: readonly PartSoFar[];
  /** Of a number that is whole and of no part: models it may be of, as far as the plate tells; empty where nothing says. */
  readonly mayBeOf: readonly { readonly id: ModelId; readonly name: string }[];
}

export interface ReadSoFar {
  readonly maker: MakerId;
  /** As the maker's pattern is called: `part number of Lisle Air Engines`. */
  readonly pattern: string;
  /** Whether a trade name beside it is another maker's. */
  readonly ofAnother: boolean;
  readonly pieces: readonly PieceSoFar[];
  /** What part its code says it is of; null where it has none, or none yet. */
  readonly slot: SlotId | null;
  /** When it was stamped, as far as it says; null where it tells nothing. */
  readonly made: Era | null;
  /** 1 to 12. */
  readonly month: number | null;
}

/** One piece of the number, in the order they are stamped. Places are of the text as typed, in UTF-16 units; what is still to come stands at its end. */
export interface PieceSoFar {
  readonly from: number;
  readonly to: number;
  readonly text: string;
  /** What it is: `running number`, `slot`, `year`. */
  readonly name: string;
  /** What it says, where it says something: `nameplate`, `2003`, `July`. */
  readonly means: string | null;
  /** `wrong` tells what can stand there in `wanted`; so do `begun` and `to come`. */
  readonly state: 'read' | 'begun' | 'to come' | 'wrong';
  /** `5 figures`, `01 to 12`, `2`; null for what is read. */
  readonly wanted: string | null;
}

export interface PartSoFar {
  readonly part: PartId;
  readonly name: string;
  readonly slot: SlotId;
  readonly maker: MakerId | null;
  /** Models it may sit in, with when they were built where that is known. */
  readonly models: readonly { readonly id: ModelId; readonly name: string; readonly built: Era | null }[];
  /** The last part that took its place; null where nothing has. */
  readonly supersededBy: { readonly part: PartId; readonly name: string; readonly number: string | null } | null;
}

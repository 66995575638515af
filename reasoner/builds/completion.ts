import type { Rates } from '../atlas/atlas.ts';
import type { OperationId } from '../atlas/operation.ts';
import type { FeatureId, JointId, MakerId, NameId, PartId, RatesId, SlotId } from '../ids.ts';
import type { Seen } from '../sheet/sheet.ts';

/** What a completed build must keep to. */
export interface BuildConstraints {
  /** Parts that are added are this maker's. */
  readonly maker?: MakerId;
  /** Works in all; without it as many as it takes. */
  readonly atMost?: number;
  /** This name must stand for the whole. */
  readonly keep?: NameId;
  /** Parts added to a slot must be known to have this, as they come: my manifold's flange, say. */
  readonly require?: readonly { readonly slot: SlotId; readonly feature: FeatureId; readonly value: Seen }[];
  /** Parts the shop has: they cost nothing. */
  readonly stock?: readonly PartId[];
  /** Nothing is bought: parts that are added come from stock. */
  readonly onlyStock?: boolean;
  readonly rates?: RatesId | Rates;
  /**
   * What may be left open at a joint or in a chain: nothing (every pair drops in, as it comes or after work; the default), parts still to be measured
   * and chosen, or that and what is not known. What is left open counts against a build.
   */
  readonly mayLeave?: 'nothing' | 'measuring' | 'unknowns';
}

export interface CompletedBuild {
  /** Every slot with its part, those given included. */
  readonly chosen: Readonly<Record<SlotId, PartId>>;
  readonly works: readonly { readonly operation: OperationId; readonly part: PartId; readonly joint: JointId }[];
  readonly hours: number;
  /** Labour and known prices; null where the atlas has no rates. What has no price comes on top. */
  readonly cost: number | null;
  readonly unpriced: readonly PartId[];
  readonly operations: number;
  /** Joints and chains left to measuring, or not known. */
  readonly open: number;
  /** What it may honestly be called, and where that stands on the ladder (0 is best). */
  readonly names: readonly { readonly id: NameId; readonly text: string }[];
  readonly rank: number;
  /** Parts that would do as well in a slot: the same sizes, price and name. Each may be taken in place of the one chosen. */
  readonly alike: readonly { readonly slot: SlotId; readonly parts: readonly PartId[] }[];
}

export interface Completion {
  /** None is beaten by another in hours, cost, operations, name and what is left open together; best name first, then by cost. */
  readonly builds: readonly CompletedBuild[];
  /** Whether these are all of them. */
  readonly complete: boolean;
  /** Why not: stopped by the asker, more builds than asked for, or more choices than it may look at. */
  readonly stopped: null | 'cancelled' | 'too many builds' | 'too many choices';
  /** Choices of a part that were looked at. */
  readonly looked: number;
  /** Slots for which no part meets the constraints, whatever the others hold. */
  readonly empty: readonly SlotId[];
}

export interface CompletionProgress {
  readonly looked: number;
  /** 0..1, of the choices there are; grows unevenly. */
  readonly share: number;
  readonly found: number;
}

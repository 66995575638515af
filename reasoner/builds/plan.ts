import type { ClaimAnswer, Contradicted, NameAnswer, Reason, SwapSets } from '../answer/verdict.ts';
import type { ChainId } from '../atlas/chain.ts';
import type { ChainFinding } from '../fits/chain.ts';
import type { Fit, FitVerdict } from '../fits/fit.ts';
import type { WarmClearance } from '../fits/warm.ts';
import type { WorkedFit, WorkPlan } from '../fits/work/work.ts';
import type { FeatureId, JointId, NameId, ObservationId, PartId, RatesId, SheetId, SlotId } from '../ids.ts';
import type { BuildWork } from './work-sets.ts';

/** What the reasoner answers about a build on paper (J2, F2–F5): joints, works, cost and name in one answer (F4). */
export type PlanAnswer = Contradicted | Plan;

export interface Plan {
  readonly kind: 'plan';
  readonly sheet: SheetId;
  readonly edition: string;
  /** Of all joints and chains together, with the works done (F2); *drops in* where there is nothing to judge yet. */
  readonly verdict: FitVerdict;
  /** The verdict in one sentence. */
  readonly sentence: string;
  readonly slots: readonly SlotPlan[];
  /** Joints with both parts chosen, in the atlas's order. */
  readonly joints: readonly JointPlan[];
  /** Joints that wait for a part to be chosen. */
  readonly waiting: readonly JointId[];
  readonly chains: readonly ChainPlan[];
  /** What has to be done, in the order of the joints that ask for it. */
  readonly works: readonly PlannedWork[];
  /** Other sets of works that lead as far, by hours and number; the one chosen has fewest hours. */
  readonly otherWays: readonly { readonly works: readonly PlannedWork[]; readonly hours: number }[];
  readonly cost: BuildCost;
  readonly names: readonly NameAnswer[];
  readonly honest: readonly NameId[];
  /** Names still to be had by what is put into the slots not chosen yet. */
  readonly open: readonly NameId[];
  readonly claim: ClaimAnswer | null;
  /** Of the claimed name, where the parts chosen rule it out: what to exchange so that it stands and everything still goes together (S1). */
  readonly swaps: SwapSets | null;
  readonly ticket: { readonly may: readonly BuildClause[]; readonly mustNot: readonly BuildClause[] };
  readonly findings: readonly { readonly observation: ObservationId; readonly sentence: string }[];
  /** F5: they stand with the answer wherever it is shown, printed or written. */
  readonly cautions: readonly string[];
}

/**
 * What is to be done with the part of a slot so that it goes on (F4). *After work* only of a part that is worked on itself; what it then meets drops in. Of a pair
 * that goes together for some examples only neither part is worked on: both are measured and chosen.
 */
export type SlotMark = FitVerdict | 'measure and choose';

export interface SlotPlan {
  readonly slot: SlotId;
  readonly part: PartId | null;
  /** The part with what is done to it, as the ticket names it: `Tarnwick Alder III compressor housing, machined`. Null while nothing is chosen. */
  readonly text: string | null;
  readonly machined: boolean;
  /** What its joints and the works ask of this very part; null while no joint of it has both parts. */
  readonly mark: SlotMark | null;
  readonly absent: boolean;
  /** What was seen of the part in hand is not what the atlas says of the part chosen, worn or not: it names nothing. */
  readonly stranger: boolean;
}

export interface JointPlan {
  readonly joint: JointId;
  readonly a: PartId;
  readonly b: PartId;
  /** With the works: *after work* where one is done at this joint or the parts have to be measured and chosen. */
  readonly verdict: FitVerdict;
  /** As the parts are. */
  readonly fit: Fit;
  /** With every work of the build done; the same as `fit` where none touches it. */
  readonly after: Fit;
  /** What could be done at this joint taken by itself, fewest hours first, and why other operations do not help. */
  readonly plans: readonly WorkPlan[];
  readonly refused: WorkedFit['refused'];
  /** Which of the build's works are done for it: places in `works`. */
  readonly works: readonly number[];
  readonly warm: readonly WarmPoint[];
  /** One sentence first, then one for each comparison that decides, is not known or is worked at. */
  readonly sentences: readonly string[];
  readonly cautions: readonly string[];
}

/** A clearance in service beside the cold one; null where a size, a metal or its figures are not known. */
export interface WarmPoint {
  readonly features: readonly FeatureId[];
  readonly clearance: WarmClearance | null;
  readonly missing: readonly FeatureId[];
  readonly sentence: string;
}

export interface ChainPlan {
  readonly chain: ChainId;
  readonly name: string;
  /** As the parts are, and with the works done. */
  readonly before: ChainFinding;
  readonly after: ChainFinding;
  readonly sentence: string;
}

export interface PlannedWork extends BuildWork {
  /** Operation, part, finished size with its tolerance, and what metal is left. */
  readonly sentence: string;
}

/** Hours are those of the operations; putting together the same slots takes the same time for every build. */
export interface BuildCost {
  readonly hours: number;
  /** Whose rates; null where the atlas has none, and then no money is named. */
  readonly rates: RatesId | null;
  readonly money: string | null;
  readonly labour: number | null;
  /** Parts to be bought: chosen and not in stock. `price` null: not known, which is not nothing. */
  readonly parts: readonly { readonly part: PartId; readonly price: number | null }[];
  /** Labour and known prices; what is still without a price comes on top. */
  readonly atLeast: number | null;
  readonly unpriced: readonly PartId[];
}

/** A clause of the ticket (W1); beside a found unit's reasons a build has its choices and its works. */
export interface BuildClause {
  readonly text: string;
  readonly because: readonly BuildReason[];
}

export type BuildReason = Reason | { readonly kind: 'chosen'; readonly slot: SlotId } | { readonly kind: 'work'; readonly index: number };

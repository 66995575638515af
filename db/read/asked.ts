import type { Feature, FeatureId, FitRule, Joint, Maker, Operation, Part, Seen, Slip, SlotId, Sure } from '../../reasoner/index.ts';

/** Deviations of an ISO 286 code such as `H7` or `p6`, for a nominal size in mm; or why there are none. */
export type ExpandCode = (nominal: number, code: string) => { readonly lower: number; readonly upper: number } | { readonly error: string };

/** What is wrong with the name of a listed model as its maker's grammar reads it (A4), or null. */
export type FaultOfName = (maker: Maker, name: string) => { readonly found: string; readonly expected: string } | null;

/** What is to be said of an entry's figures (O7); `slipOf` of the reasoner. */
export type SlipOf = (feature: Feature, value: Seen, sure: Sure) => Slip;

interface Ends {
  readonly a: SlotId;
  readonly b: SlotId;
}

/** For each of the parts `as` of port a the places of those among `bs` that do not fail there as both are made. */
export type PartnersOf = (
  joint: Joint,
  slots: Ends,
  slotOf: (feature: FeatureId) => SlotId,
  as: readonly Part[],
  bs: readonly Part[],
) => (a: number) => readonly number[];

/** Whether two parts do not fail at a joint once what the shop can do was done to them (F2). */
export type GoesAfterWork = (joint: Joint, slots: Ends, one: Part, other: Part, operations: readonly Operation[]) => boolean;

/** What this room asks the reasoner by, since it knows none of it itself. */
export interface Asked {
  /** Expands ISO 286 codes; without it every code is a fault. */
  readonly expandCode?: ExpandCode;
  /** Reads the names of listed models; without it no name is held against its maker's grammar. */
  readonly faultOfName?: FaultOfName;
  /** Looks for slips in the entries of sheets that come in; without it none are looked for. */
  readonly slipOf?: SlipOf;
  /** Judge joints; without all three of them a check says nothing of models nobody can build, nor of joints nobody measured. */
  readonly partnersOf?: PartnersOf;
  readonly goesAfterWork?: GoesAfterWork;
  /** Every feature a rule reads. */
  readonly featuresOf?: (rule: FitRule) => readonly FeatureId[];
}

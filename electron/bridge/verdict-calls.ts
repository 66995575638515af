import { z } from 'zod';
import { sheetSchema } from '../../db/sheets/schema.ts';
import type {
  ClaimAnswer,
  ClaimRead,
  Conflict,
  Conflicts,
  Contradicted,
  FeatureId,
  NameAnswer,
  NameId,
  PartId,
  ReplacementNeed,
  SlotAnswer,
  SlotCounts,
  SlotId,
  Status,
  SwapSet,
  SwapSets,
  Verdict,
} from '../../reasoner/index.ts';
import { id, longCall } from './call.ts';

/** Some of a long list, in its order, and how many it has in all. */
export interface Page<Row> {
  readonly count: number;
  readonly rows: readonly Row[];
}

/** The most telling of the conflicts, in their order, those that are counted aloud among them; `verdict.reasons` has every one. */
export interface ConflictsTold extends Conflicts {
  /** How many were found in all. */
  readonly lines: number;
}

/** A slot whose part is replaced; `verdict.replacements` has the parts. */
export interface ReplacementsTold {
  readonly slot: SlotId;
  /** How many listed parts are known to do it. */
  readonly count: number;
}

export interface SwapTold extends Omit<SwapSet, 'parts'> {
  readonly parts: readonly ReplacementsTold[];
}

/** The cheapest of the swap sets; `verdict.swaps` has every one. */
export interface SwapsTold extends Omit<SwapSets, 'found'> {
  readonly found: readonly SwapTold[];
  /** How many were found in all. */
  readonly ways: number;
}

/** A name as it is told: its conflicts and swap sets are the first of them. */
export interface NameTold extends Omit<NameAnswer, 'conflicts' | 'swaps'> {
  readonly conflicts: ConflictsTold | null;
  readonly swaps: SwapsTold | null;
}

/** A slot in numbers; `verdict.parts` has the parts. */
export type SlotTold = SlotCounts;

/** The claim, with the first of the sentences about it and of the other models that bear the name; `verdict.readings` has every one. */
export interface ClaimTold extends ClaimAnswer {
  /** How many other models bear the name in all. */
  readonly readings: number;
}

/**
 * A verdict as it is told after every entry: what the window shows of it at once, and how many there are of everything, so that it stays as small over a large atlas as over a small
 * one. The rest is asked for a page at a time, by the calls below, and is not judged anew for that. Its `names` are those it speaks of: honest, claimed, or named by the words for the ticket.
 */
export interface VerdictAtOnce extends Omit<Verdict, 'slots' | 'unit' | 'names' | 'open' | 'claim'> {
  readonly slots: readonly SlotTold[];
  readonly unit: ConflictsTold;
  readonly names: readonly NameTold[];
  /** How many names stand, are open and are ruled out in all. */
  readonly counts: Readonly<Record<Status, number>>;
  /** How many names are open on the highest level above the honest one that has any. */
  readonly open: number;
  readonly claim: ClaimTold | null;
}
export type AnswerAtOnce = Contradicted | VerdictAtOnce;

/** A name of the list of names. */
export type NameListed = Omit<NameAnswer, 'conflicts' | 'swaps'>;

/** Which parts of a slot: `left` by entries and joints; fell out across a joint (`beside`); left only if `machined`; left though the atlas is `silent` on something. */
export const partsOfSlot = ['left', 'beside', 'machined', 'silent'] as const;
export type PartsOfSlot = (typeof partsOfSlot)[number];

export interface PartTold {
  readonly part: PartId;
  readonly name: string;
  /** What removed it, of those that fell out across a joint. */
  readonly because: SlotAnswer['removedByJoints'][number]['because'] | null;
  /** On what the atlas is silent. */
  readonly features: readonly FeatureId[];
}

/** A part that may go into a slot, and what is to be done before it goes on; none: it drops in. */
export interface ReplacementTold extends Pick<PartTold, 'part' | 'name'> {
  readonly needs: ReplacementNeed['sentences'];
}

const statuses = ['stands', 'open', 'ruled out'] as const satisfies readonly Status[];
const sheet = { sheet: sheetSchema };
/** Rows from the one so counted, the first being 0. */
const page = { from: z.int().min(0), count: z.int().min(1).max(500) };
const ofName = { ...sheet, name: id<NameId>(), all: z.boolean().exactOptional() };

export const verdictCalls = {
  /** The verdict on a sheet as it stands in the window, saved or not. Conflicts and swaps are there for the claimed name; of any other name they are asked for by `verdict.explain`. */
  'verdict.of': longCall(z.strictObject(sheet)).returns<AnswerAtOnce>(),
  /** The names judged for the sheet that have one of these statuses and hold every word of `text`, best rung first; with how many of each status hold the words. */
  'verdict.names': longCall(
    z.strictObject({ ...sheet, ...page, statuses: z.array(z.enum(statuses)).max(3).readonly(), text: z.string().max(200) }),
  ).returns<Page<NameListed> & { readonly counts: Readonly<Record<Status, number>> }>(),
  /** The listed parts of a slot. */
  'verdict.parts': longCall(z.strictObject({ ...sheet, ...page, slot: id<SlotId>(), of: z.enum(partsOfSlot) })).returns<Page<PartTold>>(),
  /** The readings of a claimed name that several models bear, after the first. */
  'verdict.readings': longCall(z.strictObject({ ...sheet, ...page })).returns<Page<ClaimRead>>(),
  /** Conflicts and swap sets of any one name, whatever its rung: its conflicts up to a thousand, or `all` of them, which may take seconds; the first of them are told. */
  'verdict.explain': longCall(z.strictObject(ofName)).returns<NameTold>(),
  /** The conflicts of a name, or (null) of the unit with itself; `all` as `verdict.explain` has it. */
  'verdict.reasons': longCall(z.strictObject({ ...ofName, ...page, name: id<NameId>().nullable() })).returns<Page<Conflict>>(),
  /** The swap sets of a name, cheapest first. */
  'verdict.swaps': longCall(z.strictObject({ ...sheet, ...page, name: id<NameId>() })).returns<Page<SwapTold>>(),
  /** The parts for one slot of the swap set of a name that is of just these slots: those that drop in first. */
  'verdict.replacements': longCall(
    z.strictObject({ ...sheet, ...page, name: id<NameId>(), slots: z.array(id<SlotId>()).min(1).max(200).readonly(), slot: id<SlotId>() }),
  ).returns<Page<ReplacementTold>>(),
} as const;

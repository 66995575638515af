import type { OperationId } from '../atlas/operation.ts';
import type { FitVerdict } from '../fits/fit.ts';
import type {
  FamilyId,
  FeatureId,
  GrammarTokenId,
  JointId,
  MakerId,
  ModelId,
  NameId,
  ObservationId,
  PartId,
  SheetId,
  SlotId,
  StageId,
} from '../ids.ts';
import type { Truth } from '../truth.ts';
import type { PlateDisagreement } from './plate-reading.ts';

/**
 * What the reasoner answers about a found unit. All of it is data; `sentence` fields are made in `words/`
 * from the same data, so a text can never disagree with its proof.
 */
export type Answer = Contradicted | Verdict;

/** O6: two observations of one feature that cannot both hold. Nothing is concluded until they are settled; what each would mean is said. */
export interface Contradicted {
  readonly kind: 'contradiction';
  readonly sheet: SheetId;
  readonly edition: string;
  readonly contradictions: readonly Contradiction[];
}

export interface Contradiction {
  readonly observations: readonly [ObservationId, ObservationId];
  readonly sentence: string;
  /** What each of the two would mean, in their order; null where that was not asked, or too many entries disagree to judge each. */
  readonly meanings: readonly [IfKept, IfKept] | null;
}

/** What would follow were one of the disagreeing entries the true one. No status of the sheet as it stands rests on it. */
export interface IfKept {
  /** The entry kept. */
  readonly observation: ObservationId;
  /** The entries set aside for it: the other of the pair, and those of every other disagreement. */
  readonly aside: readonly ObservationId[];
  readonly honest: readonly { readonly name: NameId; readonly text: string; readonly rung: Rung }[];
  /** Null where nothing is claimed. */
  readonly claim: { readonly name: NameId | null; readonly status: Status } | null;
  /** How many listed parts of the slot remain; null for a build on paper. */
  readonly left: number | null;
  /** Of a build on paper, whether it goes together. */
  readonly fit: FitVerdict | null;
  readonly sentence: string;
}

export interface Verdict {
  readonly kind: 'verdict';
  readonly sheet: SheetId;
  readonly edition: string;
  readonly findings: readonly Finding[];
  readonly slots: readonly SlotAnswer[];
  /** Conflicts of the observations and joints among themselves, whatever the name: some part is unlisted, or an observation is wrong. */
  readonly unit: Conflicts;
  /** Every name judged, best rung first; hybrids only where the unit calls for them (SPEC, Names). */
  readonly names: readonly NameAnswer[];
  /** False when more hybrids were open than are formed. */
  readonly namesComplete: boolean;
  /** The highest rung that stands; several names when their parts are the same. */
  readonly honest: readonly NameId[];
  /**
   * The open names on the highest level above the honest one that has any (the three model rungs are one level); of a model
   * open on several rungs, its best. Empty when none is open above it.
   */
  readonly open: readonly NameId[];
  readonly claim: ClaimAnswer | null;
  readonly ticket: { readonly may: readonly Clause[]; readonly mustNot: readonly Clause[] };
  readonly cautions: readonly string[];
}

/** A verdict as it is told at once, as large over a large atlas as over a small one but for its names: counts in place of its long lists. */
export interface BriefVerdict extends Omit<Verdict, 'names' | 'slots'> {
  /** The names it speaks of: the honest ones, those open above them, and those claimed. */
  readonly spoken: readonly NameAnswer[];
  /** How many names stand, are open and are ruled out. */
  readonly counts: Readonly<Record<Status, number>>;
  readonly slots: readonly SlotCounts[];
}

export type Status = 'ruled out' | 'open' | 'stands';

/** The ladder of names (N4), best first. */
export const rungs = [
  'model',
  'model with options',
  'model with service parts replaced',
  'all parts',
  'hybrid',
  'core',
  'family',
  'pattern core',
  'pattern family',
  'family parts',
  'parts',
] as const;
export type Rung = (typeof rungs)[number];

/** Where a housing on a named core comes from: the core's own model, another model of its family, another family, or nobody knows. */
export type HousingOrigin =
  | { readonly kind: 'own' }
  | { readonly kind: 'own family'; readonly family: FamilyId }
  | { readonly kind: 'family'; readonly family: FamilyId }
  | { readonly kind: 'unidentified' };

/** A name the parts might carry. */
export interface Name {
  readonly id: NameId;
  readonly rung: Rung;
  /** Whose name the unit gets; null where it gets none: of pattern cores, of all parts of a model, of parts of no one model, of a list of parts. */
  readonly maker: MakerId | null;
  /** In words: `Merrowby Petrel 13 Cartridge`, `core of Merrowby Tern 4 with a compressor housing of Tarnwick Rowan`. */
  readonly text: string;
  /** The models it speaks of; several where their rules at this rung are the same (a shared core). */
  readonly models: readonly ModelId[];
  readonly family: FamilyId | null;
  readonly housings: readonly { readonly slot: SlotId; readonly origin: HousingOrigin }[];
}

export interface NameAnswer {
  readonly name: Name;
  readonly status: Status;
  /** For an open name: the naming slots that are doubtful, or where candidates remain that differ in whether the name allows them. */
  readonly unsettled: readonly SlotId[];
  /** For an open name: the naming slots where the atlas's list is open-ended and does not say whether what may be there belongs (A7). */
  readonly lacks: readonly SlotId[];
  /** For a name ruled out, when asked for. */
  readonly conflicts: Conflicts | null;
  /** For a name ruled out, when asked for. */
  readonly swaps: SwapSets | null;
}

/** A member of a conflict (K1). `rule` is the name's demand on one slot; `absent` is a slot that holds nothing. */
export type Member =
  | { readonly kind: 'observation'; readonly observation: ObservationId }
  | { readonly kind: 'absent'; readonly slot: SlotId }
  | { readonly kind: 'joint'; readonly joint: JointId }
  | { readonly kind: 'rule'; readonly name: NameId; readonly slot: SlotId };

export interface Conflict {
  readonly members: readonly Member[];
  readonly slots: readonly SlotId[];
  /** Minutes of strip-down to see all of it. */
  readonly minutes: number;
  /** The last strip-down stage among its observations. */
  readonly stage: StageId | null;
  readonly sentence: string;
}

export interface Conflicts {
  /** In the order of K1: the most telling first. */
  readonly found: readonly Conflict[];
  /** False when the search stopped at one of its bounds; then there may be others. */
  readonly complete: boolean;
  /** How many of them can be told that share no entry, all absences being one; not exact: at least so many. */
  readonly independent: Independent;
}

export interface Independent {
  readonly count: number;
  readonly exact: boolean;
}

/** The parts given for a slot whose part is replaced: those that drop in first, then those that need something, as `needs` has them. */
export interface Replacements {
  readonly slot: SlotId;
  readonly parts: readonly PartId[];
  /** What the parts that do not simply drop in need, those that need the same together. */
  readonly needs: readonly ReplacementNeed[];
}

/**
 * How a replacement goes on beside every part that may be its neighbour (F2). *measure and choose*: some pairs do. *depends*: it is one with some of the neighbours that remain, and
 * another with others. *not looked into*: there were too many pairs to judge.
 */
export type ReplacementFit = 'measure and choose' | 'after work' | 'depends' | 'not known' | 'not looked into' | 'will not fit';

export interface ReplacementNeed {
  readonly parts: readonly PartId[];
  readonly fit: ReplacementFit;
  /** Minutes of the works that have to be done whatever the neighbours are, the cheapest at each joint; 0 where none has. */
  readonly minutes: number;
  /** One for each joint that does not simply drop in: what is to be done, on which part, and how long it takes. */
  readonly sentences: readonly string[];
}

export interface SwapSet {
  /** The slots whose parts are replaced, or whose plate is to be confirmed; minimal. */
  readonly slots: readonly SlotId[];
  /** For each slot whose part is replaced, every named part that some honouring choice puts there; none: no listed part is known to do it. */
  readonly parts: readonly Replacements[];
  /** Nameplates among the slots: never exchanged. Only the maker can confirm or issue one. */
  readonly plates: readonly SlotId[];
  /** Stated cost model (S1): strip-down minutes to reach every slot whose part is replaced, shared stages once, plus the exchange of each, plus `work`. */
  readonly minutes: number;
  /** Minutes of the work it takes at the least; 0 where some of the parts given may go on without any. */
  readonly work: number;
  /** What the name is afterwards, judged anew with the swap made. Ruled out: what was in doubt before the swap then speaks against it, and the swap is not enough by itself. */
  readonly leaves: Status;
}

export interface SwapSets {
  readonly found: readonly SwapSet[];
  readonly complete: boolean;
}

export interface SlotAnswer {
  readonly slot: SlotId;
  /** Listed parts that remain after the observations and the joints. The unlisted part always remains beside them (C1). */
  readonly candidates: readonly PartId[];
  /** How many listed parts of this slot the atlas holds, and how many the observations of the slot removed. */
  readonly listed: number;
  readonly removedByObservations: number;
  /** Fell out across a joint (J1), with the joint and slot that had no partner for it. `together`: no single joint removes it, the whole does. */
  readonly removedByJoints: readonly {
    readonly part: PartId;
    readonly because: { readonly kind: 'joint'; readonly joint: JointId; readonly other: SlotId } | { readonly kind: 'together' };
  }[];
  /** Remaining candidates that have been machined, if one of them is what the slot holds: what was read of it is not as the part is made (O2). */
  readonly machined: readonly MachinedCandidate[];
  /** Remaining candidates the atlas is silent about for at least one observed feature (O3). */
  readonly silent: readonly { readonly part: PartId; readonly features: readonly FeatureId[] }[];
  /** Of a plate with a well-formed number that is not listed: whose it can be. It is a candidate beside the listed parts (O5); null where it is none. */
  readonly numberNotListed: readonly MakerId[] | null;
  /** The slot takes part in a conflict of the unit with itself, so its part may be an unlisted one. Where the atlas lists no part of it there is nothing to doubt: `listed` says so. */
  readonly doubtful: boolean;
  readonly absent: boolean;
}

/** The same of a slot, counted. */
export interface SlotCounts extends Omit<SlotAnswer, 'candidates' | 'removedByJoints' | 'machined' | 'silent'> {
  readonly left: number;
  /** The only part left; null where there are none or several. */
  readonly only: PartId | null;
  readonly removedByJoints: number;
  readonly machined: number;
  readonly silent: number;
}

export interface MachinedCandidate {
  readonly part: PartId;
  /** For each dimension that is not as made, what was read of it and what could have left it so; of several operations, any. */
  readonly told: readonly { readonly observations: readonly ObservationId[]; readonly operations: readonly OperationId[] }[];
}

/** Two slots whose parts do not go together as made, whatever is left of them: one was machined, or (`slots` names one only) that one was (J1). */
export interface MachinedAtJoint {
  readonly joint: JointId;
  readonly slots: readonly SlotId[];
  readonly operations: readonly OperationId[];
}

/** Something to be said beside the names, each with what it rests on. */
export type Finding =
  /** A told claim tested (O1). `holds`: every candidate agrees; `fails`: none does. */
  | {
      readonly kind: 'told claim';
      readonly observation: ObservationId;
      readonly truth: Exclude<Truth, 'not known'>;
      readonly sentence: string;
    }
  /** All that was told and that nothing seen confirms or denies (O1). */
  | { readonly kind: 'not confirmed'; readonly observations: readonly ObservationId[]; readonly sentence: string }
  /**
   * Letters on a part that but for them agrees with parts the atlas knows only without, or only with, a maker's name (O4); or a maker's
   * plate, of which the observation is, riveted to a part without a name.
   */
  | {
      readonly kind: 'mark';
      readonly observation: ObservationId;
      readonly slot: SlotId;
      /** What the part would be but for the letters; under a plate, what it is. */
      readonly wouldBe: readonly PartId[];
      readonly reading:
        | 'maker’s name on a pattern part'
        | 'no name where the maker casts one'
        | 'other letters'
        | 'maker’s plate on a pattern part';
      readonly sentence: string;
    }
  /** Plate number, serial, trade name and era that disagree with each other, with the bearing housing or with the claim (O5); what the plate reader named carries it. */
  | {
      readonly kind: 'plate';
      readonly observations: readonly ObservationId[];
      readonly disagreement?: PlateDisagreement;
      readonly sentence: string;
    }
  /** Something seen that tells of work done or of condition, not of origin, in the atlas's own words. */
  | { readonly kind: 'remark'; readonly observation: ObservationId; readonly sentence: string }
  /**
   * The part has been machined, whatever is left of what it can be (O2, J1): what was read of it is not as it is made, or at the joint it goes together with
   * nothing as it is made. Of two slots one has been; which, is not told.
   */
  | {
      readonly kind: 'machined';
      readonly slots: readonly SlotId[];
      readonly operations: readonly OperationId[];
      readonly observations: readonly ObservationId[];
      readonly joint: JointId | null;
      readonly sentence: string;
    }
  /** No listed part agrees with everything seen on this slot. */
  | { readonly kind: 'unlisted part'; readonly slot: SlotId; readonly sentence: string };

/** A4, N6: the claimed name read by its grammar. */
export interface Reading {
  readonly maker: MakerId | null;
  /** `no rule to read it by`: not listed, and the maker (where none is named, some maker) has no grammar; whether it is a name is not known. */
  readonly verdict:
    | 'a model of the atlas'
    | 'well formed, not in the atlas'
    | 'no name of this maker'
    | 'no maker’s name'
    | 'no rule to read it by';
  readonly model: ModelId | null;
  readonly tokens: readonly {
    readonly token: GrammarTokenId;
    readonly text: string;
    /** What the token promises, tested against the observations. */
    readonly promises: readonly { readonly feature: FeatureId; readonly sentence: string; readonly truth: Truth }[];
  }[];
  /** Where the reading broke off or which demand it breaks. */
  readonly faults: readonly string[];
  /** Names that exist, nearest first. */
  readonly nearest: readonly ModelId[];
}

/** One reading of a claim, judged. */
export interface ClaimRead {
  readonly reading: Reading;
  /** The weakest rung on which the claimed model's name could be carried, or null when the claim is no model. */
  readonly name: NameId | null;
  readonly status: Status;
  /** Of a claim ruled out, the entries each of which everything against it rests on: judged anew without that one, it is no longer ruled out (O7). */
  readonly restsOn: readonly ObservationId[];
  /** Why, one sentence first; before it, where there are such, the entries everything against it rests on. */
  readonly sentences: readonly string[];
}

/**
 * The claim as a whole. A name several makers list is judged for each (A4): the reading that fares best is the claim's own, so that the claim is ruled out
 * only when every one is, and `others` are the rest. Its `sentences` then begin with what became of each.
 */
export interface ClaimAnswer extends ClaimRead {
  readonly text: string;
  /** Empty but for a name that several models bear. */
  readonly others: readonly ClaimRead[];
}

/** One clause of a ticket text, a whole sentence, with what it rests on (W1). */
export interface Clause {
  readonly text: string;
  readonly because: readonly Reason[];
}

export type Reason =
  | Member
  | { readonly kind: 'name'; readonly name: NameId }
  | { readonly kind: 'claim' }
  | { readonly kind: 'finding'; readonly index: number }
  | { readonly kind: 'caution'; readonly index: number };

import type { FeatureId, ModelId, NameId, ObservationId, PartId, SheetId, SlotId, StageId } from '../ids.ts';
import type { Seen } from '../sheet/sheet.ts';
import type { Assumptions } from './assumptions.ts';
import type { Contradicted, Status } from './verdict.ts';

/**
 * What is likely, and what to look at next (Q1). Chances are 0..1 and exact under `assumptions`; entropies are bits. They order suggestions and nothing else:
 * no status rests on them. Lists are cut to what is worth reading; `rest` is the chance of what was left out.
 */
export type OddsAnswer = Odds | Contradicted;

/** One voice: what is likely if every entry is right never names what the verdict rules out; and how likely that is not so is said beside it. */
export interface Odds {
  readonly kind: 'odds';
  readonly sheet: SheetId;
  readonly edition: string;
  readonly assumptions: Assumptions;
  /** Given that every entry is a true reading; null where under the assumptions they cannot all be. */
  readonly ifRight: IfRight | null;
  /** Given that at least one entry is a slip; null where nothing is entered, or nothing is taken to slip. */
  readonly ifWrong: IfWrong | null;
  /** Uncertainty about the honest name, whether the entries are right or not. */
  readonly bits: number;
  /** Checks that would tell something, the next one first: looks not made yet, and entries read again. Whether the entries are right or not. */
  readonly checks: readonly Check[];
}

/** The odds given that every entry is right, of what the verdict leaves. */
export interface IfRight {
  /** How likely it is that every entry is right. */
  readonly chance: number;
  /** What the names are among; or, where there are none, why. */
  readonly among: Among;
  /** What its parts could honestly be called if all were known, likeliest first: of the names the verdict does not rule out, with whether the verdict says that it stands. Empty but where they are among names. */
  readonly names: readonly (NameChance & { readonly stands: boolean })[];
  /** How many names are as likely as the first, itself among them; more than are listed where the list was cut. */
  readonly namesAlike: number;
  readonly namesRest: number;
  /** What it was built as, before anything was swapped, likeliest first; null: as a model the atlas does not list. */
  readonly built: readonly { readonly model: ModelId | null; readonly text: string; readonly chance: number }[];
  /** How many are as likely as the first, itself among them. */
  readonly builtAlike: number;
  readonly builtRest: number;
  /** Of the parts the verdict leaves. */
  readonly slots: readonly SlotOdds[];
}

/** What the odds of names are among (Q1, one voice). */
export interface Among {
  readonly kind: 'names' | 'nothing entered' | 'no name can stand' | 'no name is left';
  readonly sentence: string;
}

/** The odds given that some entry is wrong. */
export interface IfWrong {
  /** How likely it is that some entry is. */
  readonly chance: number;
  /** How likely each is the wrong one, or one of them, the likeliest first; those too unlikely to be read are left out, but never all. */
  readonly entries: readonly SuspectEntry[];
  /** What its parts could then honestly be called, likeliest first; the entries as they stand may rule it out. */
  readonly names: readonly (NameChance & { readonly ruledOutNow: boolean })[];
}

/** An entry that may be the wrong one. */
export interface SuspectEntry {
  readonly observation: ObservationId;
  readonly slot: SlotId;
  readonly feature: FeatureId;
  /** `the blade count of the turbine wheel, entered as 11 blades` */
  readonly text: string;
  readonly chance: number;
}

export interface NameChance {
  /** Names met together; empty for a list of parts. */
  readonly names: readonly NameId[];
  readonly text: string;
  readonly chance: number;
}

export interface SlotOdds {
  readonly slot: SlotId;
  /** Likeliest first; null is the unlisted part, which is always among them. */
  readonly parts: readonly { readonly part: PartId | null; readonly chance: number }[];
  /** How many parts are as likely as the first, itself among them. */
  readonly alike: number;
  readonly rest: number;
  /** How well the atlas covers what was seen here: of its observations, how many the likely parts have a known fact for (0..1); null where nothing was seen. */
  readonly covered: number | null;
}

export interface Check {
  readonly slot: SlotId;
  readonly feature: FeatureId;
  /** The entries of the feature, to be read again; none where it is a look not made yet. */
  readonly again: readonly ObservationId[];
  /** Expected drop of uncertainty about the honest name, bits. */
  readonly drop: number;
  /** Minutes of the check itself. */
  readonly minutes: number;
  /** Stages of strip-down still to be reached for it, in the atlas's order, and their minutes. */
  readonly opening: readonly StageId[];
  readonly openingMinutes: number;
  /** The part of the opening laid to this check; the rest is shared by the others it makes possible. */
  readonly openingShare: number;
  /** Drop per minute, the opening's share counted: the order. */
  readonly rate: number;
}

/** The check to make next. */
export interface NextCheck {
  readonly check: Check;
  /** Where to look, with what, at which stage. */
  readonly how: string;
  /** The same in few words, without a full stop. */
  readonly brief: string;
}

/** What to do next, said in one voice with the verdict and the odds (Q1): a check with what it would settle, or that one may stop, never both. */
export type Advice = { readonly doubt: Doubt | null } & (
  | (NextCheck & {
      readonly kind: 'look' | 'read again';
      readonly settles: string;
      /** What looking on could come to, all checks together; null where that is not proved. */
      readonly towards: string | null;
    })
  | { readonly kind: 'stop' | 'nothing more'; readonly sentence: string }
);

/** An entry likely to be wrong, beside the check asked for, where reading it otherwise would change the name or the claim. */
export interface Doubt {
  readonly slot: SlotId;
  readonly feature: FeatureId;
  readonly sentence: string;
}

/** What one check can come to, and what each reading would do to the verdict; of an entry read again, in its place. */
export interface CheckEffects extends NextCheck {
  /** Of a measure: the step the instrument must have to tell the sizes of the remaining candidates apart; null where nothing is to be told apart. */
  readonly step: { readonly gap: number; readonly atMost: number; readonly enough: boolean; readonly sentence: string } | null;
  /** Likeliest first; readings that do the same stand together. */
  readonly outcomes: readonly CheckOutcome[];
  /** Chance of the readings not shown. */
  readonly rest: number;
  /** Whether any of the outcomes changes the honest name or what becomes of the claim, or brings back a name that is ruled out. */
  readonly changes: boolean;
  /** What the outcomes would settle, in one sentence; nothing is said of readings not shown. */
  readonly settles: string;
}

export interface CheckOutcome {
  /** `10 or 11 blades` */
  readonly text: string;
  readonly readings: readonly ReadingSeen[];
  readonly chance: number;
  /** The honest name it would leave. */
  readonly honest: readonly { readonly name: NameId; readonly text: string }[];
  /** Names open or standing now that it would rule out. */
  readonly rulesOut: readonly { readonly name: NameId; readonly text: string }[];
  /** Names ruled out now that would no longer be: of an entry that reads otherwise. */
  readonly reopens: readonly { readonly name: NameId; readonly text: string }[];
  /** Names open now that would stand. */
  readonly makesStand: readonly { readonly name: NameId; readonly text: string }[];
  /** Of the names above the honest one: how many would still be open. */
  readonly open: number;
  readonly claim: Status | null;
  /** Uncertainty it would leave, bits. */
  readonly bits: number;
}

/** A value as it could be seen; null: one no listed part has. `from` and `to` bound a measure's reading; absent where it has no bound. */
export interface ReadingSeen {
  readonly seen: Seen | null;
  readonly from?: number;
  readonly to?: number;
}

/** A whole course of checks, the next one chosen anew after each reading. */
export type CheckPlan = PlanCheck | PlanEnd;

export interface PlanCheck {
  readonly kind: 'check';
  readonly check: Check;
  /** Minutes from here to the end, on average. */
  readonly expectedMinutes: number;
  readonly branches: readonly { readonly text: string; readonly chance: number; readonly after: CheckPlan }[];
  /** Chance of readings too unlikely to be followed. */
  readonly rest: number;
}

export interface PlanEnd {
  readonly kind: 'end';
  readonly expectedMinutes: 0;
  readonly because: 'settled' | 'nothing more tells' | 'far enough';
  readonly bits: number;
  /** The likeliest names, the first of them; and how many are as likely as the first, itself among them. */
  readonly names: readonly NameChance[];
  readonly alike: number;
}

/** `seen` is null for a value no listed part has. A measure's reading is everything between two cuts; `seen` is the size in the middle of the sizes there. */
export interface PossibleReading {
  readonly seen: Seen | null;
  /** Of a measure: from where to where, in the feature's unit; ±Infinity at the ends. Of a count: first and last. */
  readonly from: number;
  readonly to: number;
}

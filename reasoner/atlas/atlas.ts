import type {
  FamilyId,
  FeatureId,
  GenerationId,
  GrammarTokenId,
  InstrumentId,
  JointId,
  MakerId,
  MetalId,
  ModelId,
  PartId,
  PortId,
  RatesId,
  SlotId,
  SourceId,
  StageId,
  TermId,
  WarmthId,
} from '../ids.ts';
import type { Seen } from '../sheet/sheet.ts';
import type { Chain } from './chain.ts';
import type { SlotDrawing } from './drawing.ts';
import type { NumberPattern } from './number-pattern.ts';
import type { Operation } from './operation.ts';
import type { FitRule } from './rule.ts';

/**
 * The atlas as data: what a pack holds and what the store hands over. Plain JSON values,
 * already validated at the door; `compileAtlas` turns it into the form that is reasoned over.
 * Lengths are millimetres, angles degrees, times minutes, years calendar years.
 */
export interface Atlas {
  /** Which state of the data this is; kept with every verdict. */
  readonly edition: string;
  readonly sources: readonly Source[];
  readonly stages: readonly Stage[];
  readonly slots: readonly Slot[];
  readonly ports: readonly Port[];
  readonly features: readonly Feature[];
  readonly joints: readonly Joint[];
  readonly makers: readonly Maker[];
  readonly families: readonly Family[];
  readonly generations: readonly Generation[];
  readonly models: readonly Model[];
  readonly parts: readonly Part[];
  /** What the shop can do to a part (F2); none where a pack brings none, as with the lists below. */
  readonly operations?: readonly Operation[];
  /** Stacks of lengths over several parts (F1, axial chain). */
  readonly chains?: readonly Chain[];
  readonly rates?: readonly Rates[];
  readonly metals?: readonly Metal[];
  /** What runs warm, and how warm. */
  readonly warmth?: readonly Warmth[];
  /** What the shop measures with. */
  readonly instruments?: readonly Instrument[];
  /** Which drawing shows the parts of a slot, and from which features. */
  readonly drawings?: readonly SlotDrawing[];
  /** The words of the trade, each with what it means. */
  readonly terms?: readonly TradeTerm[];
}

export interface Source {
  readonly id: SourceId;
  readonly title: string;
  readonly kind: 'invented' | 'measured in the shop' | 'published' | 'common practice, no source';
}

/** A strip-down stage (A1). `after` lists the stages that must be reached first; housings come off in either order. */
export interface Stage {
  readonly id: StageId;
  readonly name: string;
  readonly minutes: number;
  readonly after: readonly StageId[];
}

/** A place a part sits. The ten slots of a turbocharger are data like all else (A6). */
export interface Slot {
  readonly id: SlotId;
  readonly name: string;
  /** Other words the trade has for it, for finding it by what somebody types or a listing says. */
  readonly alsoCalled?: readonly string[];
  /** The core is what is left when both housings are off; the plate speaks for the bearing housing (O5). */
  readonly group: 'core' | 'housing' | 'plate';
  /** The stage at which the part itself can be exchanged, and the minutes the exchange takes from there. */
  readonly stage: StageId;
  readonly swapMinutes: number;
}

/** A mating face of every part of one slot. Its dimensions are the features that name it. */
export interface Port {
  readonly id: PortId;
  readonly slot: SlotId;
  readonly name: string;
}

export type FeatureKind = 'count' | 'measure' | 'choice' | 'presence' | 'mark';

/** Something that can be seen or measured on the parts of one slot (A1). */
export interface Feature {
  readonly id: FeatureId;
  readonly slot: SlotId;
  /** As the trade says it, to stand after "the turbine wheel's …": `blade count`, `inducer diameter`. */
  readonly name: string;
  /** Other words the trade has for it, for finding it by what somebody types or a listing says. */
  readonly alsoCalled?: readonly string[];
  readonly kind: FeatureKind;
  /** Of a measure: mm or deg. Of a count: what is counted, in the plural ("blades"), or `year` for a year. */
  readonly unit?: string;
  /** Of a choice: what can be chosen. `said`: how it stands after "the shaft has …", as `a left-hand stub thread`. */
  readonly options?: readonly {
    readonly id: string;
    readonly name: string;
    readonly alsoCalled?: readonly string[];
    readonly said?: string;
  }[];
  /** What letters or a year of this feature say of the unit, where they say it of the plate's maker and time (O5). */
  readonly says?: 'part number' | 'serial number' | 'trade name' | 'year of make';
  readonly stage: StageId;
  readonly minutes: number;
  /** The name of an instrument, one of the atlas's or any other. */
  readonly instrument?: string;
  /** Smallest step the instrument tells apart, in the feature's unit. */
  readonly resolution?: number;
  /** How far a used part may lie below and above its limits, in the feature's unit, both ≥ 0 (O2). */
  readonly wear?: { readonly below: number; readonly above: number };
  /**
   * Of a measure or a count: what a reading of it may be without being asked about, in the feature's unit, both ends included (O7). A length whose range
   * begins above zero can be no zero and nothing less.
   */
  readonly plausible?: { readonly from: number; readonly to: number };
  /** The mating face this is a dimension of, where it is one. */
  readonly port?: PortId;
  /** What to say when this is seen, where it tells of work done or of condition and not of origin. */
  readonly remarks?: readonly { readonly value: Seen; readonly sentence: string; readonly source: SourceId }[];
}

/** What the atlas knows of one feature of one part. `not known` is said, never left to be guessed (A5). */
export type Fact =
  /** Any whole number from `from` to `to`, both included. */
  | { readonly kind: 'count'; readonly from: number; readonly to: number }
  /** Limits [nominal + lower, nominal + upper]. `code` keeps an ISO 286 code they were expanded from (F3). */
  | { readonly kind: 'measure'; readonly nominal: number; readonly lower: number; readonly upper: number; readonly code?: string }
  /** One or more options found on good examples of the part. */
  | { readonly kind: 'choice'; readonly anyOf: readonly string[] }
  | { readonly kind: 'presence'; readonly present: boolean }
  /** Letters it may bear (any one of them), and whether good examples may bear none. */
  | { readonly kind: 'mark'; readonly anyOf: readonly string[]; readonly blank: boolean }
  | { readonly kind: 'not known' };

export interface Part {
  readonly id: PartId;
  readonly slot: SlotId;
  /** What the shop calls it. */
  readonly name: string;
  /** None for a pattern part. */
  readonly maker: MakerId | null;
  /** All numbers it was ever sold under. */
  readonly numbers: readonly string[];
  /** The part it is a pattern of, for a part made to another maker's pattern. */
  readonly patternOf?: PartId;
  /** The part this one took the place of: it may sit wherever that one may. */
  readonly supersedes?: PartId;
  readonly facts: Readonly<Record<FeatureId, Fact>>;
  readonly source: SourceId;
  /** Facts whose source is another than the part's. */
  readonly factSources?: Readonly<Record<FeatureId, SourceId>>;
}

/** Two ports that meet, and the rules that must all hold between their dimensions (F1). */
export interface Joint {
  readonly id: JointId;
  readonly name: string;
  readonly a: PortId;
  readonly b: PortId;
  readonly rules: readonly FitRule[];
  readonly source: SourceId;
}

export interface Maker {
  readonly id: MakerId;
  readonly name: string;
  /** Successive trade names; `to` is null while it is in use. Years inclusive. */
  readonly tradeNames: readonly { readonly name: string; readonly from: number; readonly to: number | null }[];
  /** Whether a model of this maker may carry its name only with its own nameplate (N3). */
  readonly plateRule: boolean;
  readonly grammar: Grammar | null;
  /** How it makes the numbers it stamps; what is not here is not known. */
  readonly numbering?: readonly NumberPattern[];
  readonly source: SourceId;
}

/** How a maker's model names are made (A4). Tokens are read left to right. */
export interface Grammar {
  readonly tokens: readonly GrammarToken[];
  readonly demands: readonly GrammarDemand[];
}

export interface GrammarToken {
  readonly id: GrammarTokenId;
  /** What the token is called when the reading is explained: `size step`. */
  readonly name: string;
  /** What stands before it: a space, a dash, nothing. Runs of white space count as one space. */
  readonly before: string;
  readonly optional: boolean;
  readonly reads:
    | { readonly kind: 'word'; readonly words: readonly string[] }
    | { readonly kind: 'whole number'; readonly from: number; readonly to: number }
    | { readonly kind: 'roman numeral'; readonly from: number; readonly to: number }
    | { readonly kind: 'letters'; readonly length: number }
    /** The same sign, so many times: a prime for the second generation. */
    | { readonly kind: 'sign'; readonly sign: string; readonly from: number; readonly to: number };
  readonly promises: readonly TokenPromise[];
}

/**
 * What a token says about a part (A4, A6): its number is a measure or a count, or its text stands for a choice, a count or, by a
 * table, a measure in the feature's unit. `within` is how far either way the part may be off. A text its table lacks promises nothing.
 */
export type TokenPromise =
  | { readonly feature: FeatureId; readonly kind: 'number'; readonly within: number }
  | { readonly feature: FeatureId; readonly kind: 'measure'; readonly of: Readonly<Record<string, number>>; readonly within: number }
  | { readonly feature: FeatureId; readonly kind: 'choice'; readonly of: Readonly<Record<string, readonly string[]>> }
  | { readonly feature: FeatureId; readonly kind: 'count'; readonly of: Readonly<Record<string, number>> };

/** `when` a token reads one of these, another must (or must not) be there. */
export interface GrammarDemand {
  readonly when: { readonly token: GrammarTokenId; readonly is: readonly string[] };
  readonly then: { readonly token: GrammarTokenId; readonly present: boolean };
  readonly because: string;
}

export interface Family {
  readonly id: FamilyId;
  readonly name: string;
  /** None for a group of pattern units known only by what it makes. */
  readonly maker: MakerId | null;
  readonly from: number | null;
  readonly to: number | null;
  readonly descendsFrom: readonly FamilyId[];
  readonly succeeds: readonly FamilyId[];
  readonly patternOf: readonly FamilyId[];
  /** One line for the trainer: what sets it apart. */
  readonly about: string;
  readonly source: SourceId;
}

export interface Generation {
  readonly id: GenerationId;
  readonly family: FamilyId;
  readonly name: string;
  readonly from: number | null;
  readonly to: number | null;
  readonly succeeds: GenerationId | null;
  readonly source: SourceId;
}

/** *names*: swap it and the name goes. *option*: a catalogued alternative. *service*: may be replaced freely (A3). */
export type Role = 'names' | 'option' | 'service';

export interface Model {
  readonly id: ModelId;
  /** As the maker's grammar writes it, without the maker. */
  readonly name: string;
  readonly family: FamilyId;
  readonly generation: GenerationId | null;
  /** For a pattern core: the model it is a pattern of. */
  readonly patternOf: ModelId | null;
  readonly from: number | null;
  readonly to: number | null;
  /** Every part that may sit in every slot, with its role. A slot with no *names* and no *option* is a service slot. */
  readonly allowed: readonly { readonly slot: SlotId; readonly part: PartId; readonly role: Role }[];
  /**
   * Core and housing slots whose list is said not to be whole (A7): whether a part that is not listed there may sit there is not known. A core or
   * housing slot nothing is listed for is open-ended whether it stands here or not.
   */
  readonly openEnded?: readonly SlotId[];
  readonly source: SourceId;
}

/** One shop's rates: what an hour of work costs, and parts where it has a price for them. A part without a price is not free. */
export interface Rates {
  readonly id: RatesId;
  readonly name: string;
  /** The money all prices are in: `crowns`. */
  readonly money: string;
  readonly hour: number;
  readonly parts: readonly { readonly part: PartId; readonly price: number }[];
  readonly source: SourceId;
}

/** What a casting or forging is made of. */
export interface Metal {
  readonly id: MetalId;
  readonly name: string;
  /** Mean linear expansion, millionths per K. */
  readonly expansion: number;
  /** Of a wheel, for its growth at speed: kg/m³, GPa, Poisson's ratio. */
  readonly disc?: { readonly density: number; readonly young: number; readonly poisson: number };
  readonly source: SourceId;
}

/** A joint whose clearances change in service: what each side is made of (a choice whose options are metals) and how warm it gets. */
export interface Warmth {
  readonly id: WarmthId;
  readonly joint: JointId;
  readonly sides: readonly WarmSide[];
  readonly source: SourceId;
}

export interface WarmSide {
  readonly slot: SlotId;
  readonly metal: FeatureId;
  /** K above the temperature sizes are measured at (20 °C). */
  readonly rise: number;
  /** Of the side that turns: rev/min, and its bore where it has one. */
  readonly turns?: { readonly speed: number; readonly bore?: FeatureId };
}

/** A word of the trade, in plain words and with a picture. */
export interface TradeTerm {
  readonly id: TermId;
  readonly name: string;
  /** Other forms under which it is met and found. */
  readonly alsoCalled?: readonly string[];
  /** One sentence, for where it appears. */
  readonly short: string;
  /** What else one should know. */
  readonly more: string;
  /** The feature whose drawing shows it, what to look at in that drawing, and which part shows it best where not any will do. */
  readonly drawn?: { readonly feature: FeatureId; readonly look: string; readonly best?: BestShown };
  readonly near?: readonly TermId[];
  /** One reads past it in a sentence: there it is not pointed out. */
  readonly everyday?: true;
}

/** One with an option whose id has this in it, one that has the thing, or the one with most of it. */
export type BestShown = { readonly option: string } | { readonly present: true } | { readonly most: true };

/** Something a shop measures with, and how far off one reading of it may be. */
export interface Instrument {
  readonly id: InstrumentId;
  readonly name: string;
  /** Other words the trade has for it. */
  readonly alsoCalled?: readonly string[];
  readonly unit: 'mm' | 'deg';
  /** Smallest step it tells apart, in its unit. */
  readonly resolution: number;
  /** Standard uncertainty of one reading, in its unit. */
  readonly u: number;
  /** What u is made of. */
  readonly basis: string;
  readonly source: SourceId;
}

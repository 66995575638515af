import type {
  Fact,
  FamilyId,
  Feature,
  FeatureId,
  Fit,
  GenerationId,
  Instrument,
  Joint,
  JointId,
  Maker,
  MakerId,
  ModelId,
  PartId,
  Port,
  Role,
  Sheet,
  SheetId,
  Slot,
  SlotDrawing,
  SlotId,
  Source,
  SourceId,
  Stage,
  TradeTerm,
} from '../reasoner/index.ts';
import type { Version } from './plain/version.ts';
import type { Trouble } from './trouble.ts';

export type * from './backups/backup.ts';
export type * from './edits/seen.ts';
export type * from './packs/held-pack.ts';
export type * from './packs/mapped-word.ts';
export type { Version } from './plain/version.ts';
export * from './shop/case.ts';
export * from './shop/learning.ts';
export * from './shop/samples.ts';
export * from './shop/settings.ts';
export * from './shop/stock.ts';
export type * from './signing/keyring.ts';

/** What the graph store answers (issue: graph queries that users need). Plain data for the window and the command line. */

/** Everything the window must know before anything is entered: sent once. */
export interface Vocabulary {
  readonly edition: string;
  /** `parts`: whether it has parts of its own; without them it is words alone. */
  readonly packs: readonly {
    readonly id: string;
    readonly title: string;
    readonly edition: string;
    readonly invented: boolean;
    readonly parts: boolean;
  }[];
  readonly counts: { readonly makers: number; readonly families: number; readonly models: number; readonly parts: number };
  readonly stages: readonly Stage[];
  readonly slots: readonly Slot[];
  readonly ports: readonly Port[];
  readonly features: readonly Feature[];
  readonly joints: readonly Joint[];
  readonly makers: readonly Omit<Maker, 'grammar' | 'numbering'>[];
  readonly instruments: readonly Instrument[];
  readonly drawings: readonly SlotDrawing[];
  readonly terms: readonly TradeTerm[];
  readonly families: readonly { readonly id: FamilyId; readonly name: string; readonly maker: MakerId | null }[];
  readonly models: readonly { readonly id: ModelId; readonly name: string; readonly family: FamilyId }[];
  readonly sources: readonly Source[];
}

export type NodeRef =
  | { readonly kind: 'maker'; readonly id: MakerId; readonly name: string }
  | { readonly kind: 'family'; readonly id: FamilyId; readonly name: string }
  | { readonly kind: 'generation'; readonly id: GenerationId; readonly name: string }
  | { readonly kind: 'model'; readonly id: ModelId; readonly name: string }
  | { readonly kind: 'part'; readonly id: PartId; readonly name: string };

export interface SearchHit {
  readonly node: NodeRef;
  /** A second line: maker and slot of a part, maker of a family. */
  readonly detail: string;
  /** The number or name that matched, as stored. */
  readonly matched: string;
  /** Whether it is of a pack in which everything is made up. */
  readonly invented: boolean;
}

export interface PartPage {
  readonly part: NodeRef;
  readonly slot: SlotId;
  readonly maker: MakerId | null;
  readonly numbers: readonly string[];
  /** `packSays`: there where the shop says otherwise than the pack the part is of; null where that says nothing of the feature. */
  readonly facts: readonly {
    readonly feature: FeatureId;
    readonly fact: Fact;
    readonly source: SourceId;
    readonly packSays?: { readonly fact: Fact; readonly source: SourceId } | null;
  }[];
  readonly patternOf: NodeRef | null;
  readonly patterns: readonly NodeRef[];
  /** Oldest first; the part itself is in it. One element when nothing supersedes it and it supersedes nothing. */
  readonly supersession: readonly NodeRef[];
  /** `inPlaceOf`: it may sit there because it supersedes, in any number of steps, this part that is listed. */
  readonly sitsIn: readonly { readonly model: NodeRef; readonly role: Role; readonly inPlaceOf?: NodeRef }[];
  readonly source: SourceId;
}

export interface ModelPage {
  readonly model: NodeRef;
  readonly family: NodeRef;
  readonly maker: NodeRef | null;
  readonly generation: NodeRef | null;
  readonly patternOf: NodeRef | null;
  readonly from: number | null;
  readonly to: number | null;
  /** `inPlaceOf`: not listed itself, but supersedes this part that is. */
  readonly slots: readonly {
    readonly slot: SlotId;
    readonly parts: readonly { readonly part: NodeRef; readonly role: Role; readonly inPlaceOf?: NodeRef }[];
  }[];
  /** Core and housing slots of which it is not known what else may sit there (A7): the model lists nothing, or its pack says that the list is not whole. */
  readonly openEnded: readonly SlotId[];
  /** Models one core may be right for: in every core slot that names either, some part may sit in both. */
  readonly sharesCore: readonly NodeRef[];
  readonly source: SourceId;
}

export interface FamilyPage {
  readonly family: NodeRef;
  readonly maker: NodeRef | null;
  readonly about: string;
  readonly from: number | null;
  readonly to: number | null;
  readonly descendsFrom: readonly NodeRef[];
  readonly descendants: readonly NodeRef[];
  readonly succeeds: readonly NodeRef[];
  readonly succeededBy: readonly NodeRef[];
  readonly patternOf: readonly NodeRef[];
  readonly patterns: readonly NodeRef[];
  readonly generations: readonly NodeRef[];
  readonly models: readonly NodeRef[];
  readonly source: SourceId;
}

export interface MakerPage {
  readonly maker: NodeRef;
  readonly tradeNames: readonly { readonly name: string; readonly from: number; readonly to: number | null }[];
  readonly families: readonly NodeRef[];
  readonly plateRule: boolean;
  /** How a name is built, one line a token, from the grammar. */
  readonly grammar: readonly string[];
  readonly source: SourceId;
}

/** What the atlas knows of a part number. */
export interface NumbersAnswer {
  /** The number as it was compared: letters and digits alone. */
  readonly typed: string;
  /** Every part that was sold under it; several where makers use one number. */
  readonly parts: readonly NumberedPart[];
  /** Where no part has it: numbers that may be meant. */
  readonly near: readonly NearNumber[];
}

export interface NumberedPart {
  readonly part: NodeRef;
  /** As the atlas writes it. */
  readonly number: string;
  readonly maker: MakerId | null;
  readonly slot: SlotId;
  readonly numbers: readonly string[];
  readonly sitsIn: PartPage['sitsIn'];
  /** Oldest first. */
  readonly tookThePlaceOf: readonly NodeRef[];
  /** The nearer step first. */
  readonly replacedBy: readonly NodeRef[];
  /** What else may sit in its slot of those models, each with where. */
  readonly others: readonly { readonly part: NodeRef; readonly in: readonly { readonly model: NodeRef; readonly role: Role }[] }[];
  /** Other parts with the same dimensions at every joint; null where that is not known. */
  readonly alike: readonly NodeRef[] | null;
}

export interface NearNumber {
  readonly part: NodeRef;
  readonly number: string;
  /** What is wrong with the number that was typed, if this one was meant; null where this one only begins so. */
  readonly slip: 'two signs changed places' | 'one sign is another' | 'one sign is missing' | 'one sign is too many' | null;
}

/** "What else does this part fit": a partner across a joint, with the engine's verdict. */
export interface FitsAnswer {
  readonly part: NodeRef;
  readonly partners: readonly { readonly joint: JointId; readonly slot: SlotId; readonly part: NodeRef; readonly fit: Fit }[];
}

/** The shortest reason two nodes are related: steps from one to the other, each readable in its direction. */
export interface RelatedAnswer {
  readonly steps: readonly { readonly from: NodeRef; readonly to: NodeRef; readonly how: string }[] | null;
}

/** The whole tree at once, in the order of the atlas. A year is null where it is not known; an end of null is "today or not known". */
export interface TreeAnswer {
  readonly makers: readonly {
    readonly id: MakerId;
    readonly name: string;
    readonly tradeNames: readonly { readonly name: string; readonly from: number; readonly to: number | null }[];
  }[];
  readonly families: readonly {
    readonly id: FamilyId;
    readonly name: string;
    readonly maker: MakerId | null;
    readonly from: number | null;
    readonly to: number | null;
    readonly descendsFrom: readonly FamilyId[];
    readonly succeeds: readonly FamilyId[];
    readonly patternOf: readonly FamilyId[];
  }[];
  readonly generations: readonly {
    readonly id: GenerationId;
    readonly name: string;
    readonly family: FamilyId;
    readonly from: number | null;
    readonly to: number | null;
    readonly succeeds: GenerationId | null;
  }[];
  readonly models: readonly {
    readonly id: ModelId;
    readonly name: string;
    readonly family: FamilyId;
    readonly generation: GenerationId | null;
    readonly patternOf: ModelId | null;
    readonly from: number | null;
    readonly to: number | null;
  }[];
  readonly shared: readonly TreeShared[];
}

/** Parts that name models of several families, or are options of theirs: all that are found in exactly these families, of one group. */
export interface TreeShared {
  readonly group: 'core' | 'housing';
  readonly families: readonly FamilyId[];
  /** The models that list any of them, as naming part or option. */
  readonly models: readonly ModelId[];
  readonly slots: readonly SlotId[];
  readonly parts: readonly PartId[];
}

/** What may sit in one model, slot by slot. */
export interface TreeParts {
  readonly model: ModelId;
  readonly slots: readonly {
    readonly slot: SlotId;
    readonly parts: readonly { readonly id: PartId; readonly name: string; readonly role: Role }[];
  }[];
}

export interface DescentAnswer {
  /** Every ancestor by descent or succession, nearest first, with the edge that leads to it. */
  readonly ancestors: readonly { readonly family: NodeRef; readonly via: NodeRef; readonly how: 'descends from' | 'succeeds' }[];
  readonly descendants: readonly { readonly family: NodeRef; readonly via: NodeRef; readonly how: 'descends from' | 'succeeds' }[];
}

export interface SheetSummary {
  readonly id: SheetId;
  readonly title: string;
  readonly kind: 'found' | 'planned';
  readonly claimed: string | null;
  readonly observations: number;
  /** Where it came from: a pack's sample, or the shop's own. */
  readonly origin: 'sample' | 'own';
  /** ISO time it was last saved; null for an untouched sample. */
  readonly savedAt: string | null;
}

/** A sheet as it stands, with what saving or removing it is made against (H5). */
export interface OpenedSheet {
  readonly sheet: Sheet;
  /** Of the sheet, or of the sample it is still. */
  readonly version: Version;
  /** Of the sheet with all of its case that goes when it is removed; null for a sample, which stays. */
  readonly whole: Version | null;
  /** When this state of it was saved (ISO), by whom (empty where nobody said), and the number of its case; null for a sample. */
  readonly saved: { readonly at: string; readonly who: string; readonly number: string | null } | null;
}

/** What a saved sheet is now, with what the next save of it is made against. */
export interface SavedSheet extends SheetSummary {
  readonly version: Version;
  /** Of its case; null where it was removed again meanwhile. */
  readonly number: string | null;
}

/** A place in a file of a pack. */
export interface FindingPlace {
  readonly file: string;
  /** Row as a spreadsheet counts them, of a CSV; its line, of JSON. */
  readonly row: number | null;
  /** Column of a CSV; path within a JSON file. */
  readonly column: string | null;
  /** Line of the text and character of it, both from 1, as an editor counts them. */
  readonly line: number | null;
  readonly character: number | null;
}

/** What the check of a pack found, each said once: where one cause is met in many places, with how many and some of them. */
export interface PackFinding extends Trouble, FindingPlace {
  readonly found: string;
  readonly many: number;
  /** A few of the other places, in the order of the pack. */
  readonly also: readonly FindingPlace[];
}

/** What cannot be right: the pack would not be loaded. */
export interface PackFault extends PackFinding {
  readonly expected: string;
}

/** What is only suspicious. */
export interface PackWarning extends PackFinding {
  /** Which rule of the check it is by. */
  readonly about: string;
  /** What follows from it, as a whole sentence. */
  readonly means: string;
  /** What may have been meant, as a whole sentence. */
  readonly likely: string | null;
}

/** A pack, read and held against the atlas it would be loaded into. */
export interface PackChecked {
  /** Whether it would be loaded. */
  readonly sound: boolean;
  readonly sentence: string;
  /** What its head says; null where that cannot be read. */
  readonly pack: {
    readonly id: string;
    readonly title: string;
    readonly edition: string;
    readonly invented: boolean;
    readonly note: string;
  } | null;
  readonly counts: {
    readonly makers: number;
    readonly families: number;
    readonly models: number;
    readonly parts: number;
    readonly sheets: number;
  };
  readonly faults: readonly PackFault[];
  readonly warnings: readonly PackWarning[];
  /** The packs it was held against; null where it was read alone, with what it leans on beside it. */
  readonly into: readonly { readonly id: string; readonly edition: string }[] | null;
  /** The edition of it the atlas holds, and whether that is exactly this one. */
  readonly held: { readonly edition: string; readonly same: boolean } | null;
}

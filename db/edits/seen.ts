import type { ModelId, PartId, Role, SlotId } from '../../reasoner/index.ts';
import type { Version } from '../plain/version.ts';
import type { Trouble } from '../trouble.ts';

/** What is said: plain JSON, never null. */
export type Said = string | number | boolean | readonly unknown[] | Readonly<Record<string, unknown>>;

/** How many things of one sort a change adds, alters and removes. */
export interface Count {
  /** A list (`parts`), the lines of a field of one (`parts.facts`), `allowed`, `sheets`, or `pack`: what the pack says of itself. */
  readonly of: string;
  readonly added: number;
  readonly altered: number;
  readonly removed: number;
}

/** Something that is no fault, and what follows from it. */
export interface Suspicious extends Trouble {
  readonly file: string;
  readonly row: number | null;
  readonly column: string | null;
  readonly found: string;
  readonly means: string;
}

/** A list whose entries somebody may edit, as the atlas calls it: `makers`, `parts`. */
export type EditedList = string;

/** One thing the shop says (H2). Several are one change; of two about one thing the later counts. */
export type Edit =
  /** The entry is to say this, whole, and to be there where it is not yet. As its list's schema has it; a part as the atlas has it. */
  | { readonly list: EditedList; readonly put: Readonly<Record<string, unknown>> }
  /** `into`: the entry that stands in its place from then on, and takes over what the shop keeps of it. Without it, that stays under the old id. */
  | { readonly list: EditedList; readonly drop: string; readonly into?: string }
  | { readonly allow: { readonly model: ModelId; readonly slot: SlotId; readonly part: PartId; readonly role: Role } }
  | { readonly disallow: { readonly model: ModelId; readonly part: PartId } };

/** What the journal ended with when something was looked at: the guard a change is made on (H4). The empty text: nothing was ever changed. */
export type HeadId = Version | '';

/** Something that keeps edits from being made. */
export interface EditFault {
  /** Which of the edits, from 0; null where none of them says what is wrong: it is then wrong of what they come to. */
  readonly edit: number | null;
  /** Or `allowed`, `pack`, `sheets`. */
  readonly list: EditedList;
  /** Of the entry; of what is allowed, the model's. */
  readonly id: string | null;
  /** The way to it in the entry: `numbering[0].pieces[2].text`, `facts.bore`. */
  readonly field: string | null;
  readonly found: string;
  /** To stand after "expected". */
  readonly expected: string;
  readonly sentence: string;
}

/** One cell a change alters. What is null says nothing. */
export interface AlteredSeen {
  /** Whose entry it is. */
  readonly pack: string;
  /** Whether it is the shop's own entry; otherwise the shop says otherwise than the pack. */
  readonly own: boolean;
  /** Or `allowed`, `pack`, `sheets`. */
  readonly list: EditedList;
  readonly id: string;
  /** Null: that the entry is there. Of what is allowed, the part's id. */
  readonly field: string | null;
  /** Of a field with keyed lines, the line: a feature, a part with a price. */
  readonly line: string | null;
  readonly before: Said | null;
  readonly after: Said | null;
  /** What the pack itself says; of the shop's own entry, what the shop says. */
  readonly said: Said | null;
  /** The list whose ids are said, where ids are all that is said. */
  readonly leadsTo: EditedList | null;
}

/** What an entry is called. */
export interface EntryCalled {
  readonly list: EditedList;
  readonly id: string;
  readonly name: string;
}

/** What the shop keeps in rows of their own under an id of the atlas: samples of a part; states of lines of its stock, and of what is asked for it; papers beside a part or a source. */
export type RowSort = 'samples' | 'stock' | 'prices' | 'papers';
/** What it keeps that names ids of the atlas within a text: courses about families; how columns of spreadsheets are matched. */
export type TextSort = 'courses' | 'templates';
export type KeptSort = RowSort | TextSort;

/** What cannot stand beside what the other has, and so stays under the id that goes: a price where the other has one, a paper that lies beside both. */
export type StaysSeen =
  | {
      readonly of: 'prices';
      readonly amount: number;
      readonly money: string;
      readonly kept: { readonly amount: number; readonly money: string };
    }
  | { readonly of: 'papers'; readonly title: string };

/** What of the shop's own goes with a change from one id to another. */
export interface CarriedSeen {
  readonly list: EditedList;
  readonly from: string;
  readonly to: string;
  /** How many of each, where there are any: of stock the lines, of prices one. */
  readonly rows: readonly { readonly of: KeptSort; readonly many: number }[];
  readonly stays: readonly StaysSeen[];
}

/** What tells a row from others of its sort under one id: a sample's id, a line of stock and its state, the number of a price's state, a paper's file. */
export type RowKey = readonly (string | number)[];

/** The same to the row, as it is kept of a change, so that undoing takes back just that. */
export interface CarriedRecord {
  readonly list: EditedList;
  readonly from: string;
  readonly to: string;
  readonly moved: {
    /** Each by its key under the one id, then under the other. */
    readonly rows: readonly (readonly [of: RowSort, key: RowKey, as: RowKey])[];
    /** Each by its key, with what it said before and after. */
    readonly texts: readonly (readonly [of: TextSort, key: string, before: string, after: string])[];
  };
  /** What stood under the other id already, or named it. */
  readonly there: readonly (readonly [of: KeptSort, key: RowKey])[];
  readonly seen: CarriedSeen;
}

/** What edits would come to, before they are made (H3). */
export interface ChangeSeen {
  readonly head: HeadId;
  readonly counts: readonly Count[];
  /** The first of them. */
  readonly cells: readonly AlteredSeen[];
  readonly cellsInAll: number;
  /** What the change calls the entries these cells speak of; of one that goes, what it was called. Of all others the atlas tells. */
  readonly called: readonly EntryCalled[];
  readonly faults: readonly EditFault[];
  /** What is only suspicious. */
  readonly warnings: readonly Suspicious[];
  /** What the shop keeps under other ids from then on. */
  readonly carried: readonly CarriedSeen[];
}

export interface ChangeMade {
  /** What the change is called from now on; null where there was nothing to change. */
  readonly change: number | null;
  readonly head: HeadId;
  readonly counts: readonly Count[];
  readonly carried: readonly CarriedSeen[];
}

export type ChangeKind = 'pack loaded' | 'pack removed' | 'edited' | 'undone';

/** An entry that a change alters. `name` is null where the change does not say what it is called. */
export interface EntryAltered {
  readonly list: EditedList;
  readonly id: string;
  readonly name: string | null;
}

/** One change of the history: an entry of the journal, or several that were made as one. */
export interface ChangeEntry {
  readonly change: number;
  /** ISO time. */
  readonly at: string;
  readonly kind: ChangeKind;
  /** Ids of the packs whose entries it alters. */
  readonly packs: readonly string[];
  readonly who: string | null;
  readonly why: string | null;
  readonly source: string | null;
  readonly cells: number;
  /** The first few of the entries it alters, what it called them where it said so; of what alters more than anybody reads through, and of packs put in or taken out, none. */
  readonly of: readonly EntryAltered[];
  readonly ofInAll: number;
  /** The change it undoes. */
  readonly undoes: number | null;
  /** The change that has undone it last. */
  readonly undoneBy: number | null;
}

/** A change with what it altered. */
export interface ChangeWhole extends ChangeEntry {
  readonly counts: readonly Count[];
  /** The first of them. */
  readonly altered: readonly Omit<AlteredSeen, 'said'>[];
  readonly alteredInAll: number;
  /** As in `ChangeSeen`. */
  readonly called: readonly EntryCalled[];
  readonly carried: readonly CarriedSeen[];
}

/** An entry as it stood at a time, and as it is now; null where it is not there. */
export interface StoodEntry {
  readonly entry: Readonly<Record<string, unknown>> | null;
  readonly now: Readonly<Record<string, unknown>> | null;
}

/** The atlas as it stood at a time. */
export interface StoodAtlas {
  readonly packs: readonly {
    readonly id: string;
    readonly title: string;
    readonly edition: string;
    readonly parts: number;
    readonly models: number;
  }[];
  /** What led from there to what is now, sort by sort. */
  readonly since: readonly Count[];
}

/** A cell that says neither what a change was made of nor what it would make of it (H4): somebody must decide. */
export interface DisputeSeen extends Omit<AlteredSeen, 'said' | 'leadsTo'> {
  /** What stands there now. */
  readonly present: Said | null;
}

/** What undoing a change would come to. */
export interface UndoSeen extends ChangeSeen {
  /** What stands in the way: cells something later rests on. The rest can be undone. */
  readonly disputes: readonly DisputeSeen[];
}

/** An entry as the atlas has it, and whose it is. */
export interface EntrySeen {
  readonly head: HeadId;
  readonly entry: Readonly<Record<string, unknown>>;
  /** The packs that hold it: one, or several of a list that packs share. */
  readonly packs: readonly { readonly id: string; readonly title: string; readonly own: boolean }[];
  /** Where the shop says otherwise than the pack. */
  readonly words: readonly {
    readonly pack: string;
    readonly field: string | null;
    readonly line: string | null;
    readonly own: Said | null;
    readonly said: Said | null;
  }[];
}

/** Where the shop said otherwise than the edition of a pack that is held, and a newer one says a third thing. Where no field is named, it is about the whole entry. */
export interface WordDispute {
  readonly pack: string;
  /** What names it when it is decided. */
  readonly cell: string;
  readonly list: EditedList;
  readonly id: string;
  readonly field: string | null;
  readonly line: string | null;
  readonly own: Said | null;
  /** What the edition that is held says, and what the newer one does. */
  readonly before: Said | null;
  readonly after: Said | null;
}

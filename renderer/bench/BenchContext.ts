import { createContext, useContext } from 'react';
import type { OpenedSheet } from '../../db/answers.ts';
import type { FeatureId, Sheet, SheetId, SlotId } from '../../reasoner/index.ts';
import type { Edit } from './sheetEdits.ts';
import type { Unit } from './unit.ts';

/** The open unit that is shown, as it is now, shared by every screen. Who reads it renders with every entry. */
export interface Bench {
  readonly unit: Unit;
  readonly sheet: Sheet;
  readonly unsaved: boolean;
  /** What became of its stored copy elsewhere since it was opened here, where that is known; null while nothing did. */
  readonly elsewhere: 'changed' | 'removed' | null;
  /** Where the editor for a new entry is open; null when it is not. */
  readonly entering: EntryPlace | null;
}

/** An open unit as lists of them name it. */
export interface OpenUnit {
  readonly id: SheetId;
  readonly title: string;
  readonly kind: Sheet['kind'];
  /** Of its case, where it has one and that is known. */
  readonly number: string | null;
  readonly unsaved: boolean;
  /** Its stored copy was changed or removed elsewhere, or could not be saved: it has something to be told. */
  readonly elsewhere: boolean;
}

/** The open units in their order. Who reads this renders when one is opened, closed, turned to, named or saved, not with every entry. */
export interface OpenUnits {
  readonly units: readonly OpenUnit[];
  readonly shown: SheetId;
}

/** What can be done with them. The same for as long as the window stands, so that what only acts renders once. */
export interface BenchActions {
  /** Edits the unit that is shown. `typing` names the text field the edit comes from, so that a word is one step of undo. */
  edit(edit: Edit, typing?: string): void;
  /** Opens the editor at a feature of a slot, or closes it. From outside the sheet, `useOpenEntry`. */
  openEntry(place: EntryPlace | null): void;
  undo(): void;
  redo(): void;
  /** Saves the unit that is shown; tells whether it was kept. */
  save(): Promise<boolean>;
  /** Shows what is here and what is stored elsewhere, to be decided. */
  seeBoth(): void;
  /** Opens a sheet beside those that are open, or turns to it where it is one of them. `stored`: what is kept under its id; null for a new one. */
  takeUp(sheet: Sheet, stored: OpenedSheet | null): void;
  /** Shows an open unit, on the screen for its kind. */
  turnTo(id: SheetId): void;
  /** The next or the one before, round and round. */
  step(by: 1 | -1): void;
  /** Asks first where something of it is not saved. */
  close(id: SheetId): void;
  /** The open unit of a sheet as it is at this moment; null where it is not open. */
  openUnit(id: SheetId): Unit | null;
  /** The stored copy of a sheet is gone. */
  keptNoMore(id: SheetId): void;
}

/** The place of one entry on the sheet: the editor is open there. */
export interface EntryPlace {
  readonly slot: SlotId;
  readonly feature: FeatureId;
}

export const BenchContext = createContext<Bench | null>(null);
export const OpenUnitsContext = createContext<OpenUnits | null>(null);
export const BenchActionsContext = createContext<BenchActions | null>(null);

export function useBench(): Bench {
  const bench = useContext(BenchContext);
  if (bench === null) throw new Error('useBench is called outside BenchContext');
  return bench;
}

export function useBenchActions(): BenchActions {
  const actions = useContext(BenchActionsContext);
  if (actions === null) throw new Error('useBenchActions is called outside BenchActionsContext');
  return actions;
}

export function useOpenUnits(): OpenUnits {
  const open = useContext(OpenUnitsContext);
  if (open === null) throw new Error('useOpenUnits is called outside OpenUnitsContext');
  return open;
}

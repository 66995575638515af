import { createContext, useContext } from 'react';
import type { OpenedSheet } from '../../db/answers.ts';
import type { FeatureId, Sheet, SlotId } from '../../reasoner/index.ts';
import type { Edit } from './sheetEdits.ts';
import type { Unit } from './unit.ts';

/** The unit on the bench as it is now, shared by every screen. Who reads it renders with every entry. */
export interface Bench {
  readonly unit: Unit;
  readonly sheet: Sheet;
  readonly unsaved: boolean;
  /** What became of its stored copy elsewhere since it was opened here, where that is known; null while nothing did. */
  readonly elsewhere: 'changed' | 'removed' | null;
  /** Where the editor for a new entry is open; null when it is not. */
  readonly entering: EntryPlace | null;
}

/** What can be done with it. The same for as long as the window stands, so that what only acts renders once. */
export interface BenchActions {
  /** `typing` names the text field the edit comes from, so that a word is one step of undo. */
  edit(edit: Edit, typing?: string): void;
  /** Opens the editor at a feature of a slot, or closes it. From outside the sheet, `useOpenEntry`. */
  openEntry(place: EntryPlace | null): void;
  undo(): void;
  redo(): void;
  /** Saves; tells whether it was kept. */
  save(): Promise<boolean>;
  /** Shows what is here and what is stored elsewhere, to be decided. */
  seeBoth(): void;
  /** Puts another sheet on the bench, asking first when the present one has unsaved entries. `stored`: what is kept under its id; null for a new one. */
  takeUp(sheet: Sheet, stored: OpenedSheet | null): void;
  /** The stored copy of this sheet is gone. */
  keptNoMore(): void;
}

/** The place of one entry on the sheet: the editor is open there. */
export interface EntryPlace {
  readonly slot: SlotId;
  readonly feature: FeatureId;
}

export const BenchContext = createContext<Bench | null>(null);
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

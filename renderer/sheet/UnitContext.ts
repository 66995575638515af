import { createContext, useContext } from 'react';
import type { Sheet } from '../../reasoner/index.ts';
import type { EntryPlace } from './openEntry.ts';
import type { Edit } from './sheetEdits.ts';
import type { Unit } from './unit.ts';

/** The unit on the bench and what can be done with it, shared by every screen. */
export interface Bench {
  readonly unit: Unit;
  readonly sheet: Sheet;
  readonly unsaved: boolean;
  /** `typing` names the text field the edit comes from, so that a word is one step of undo. */
  edit(edit: Edit, typing?: string): void;
  /** Where the editor for a new entry is open; null when it is not. */
  readonly entering: EntryPlace | null;
  /** Opens the editor at a feature of a slot, or closes it. From outside the sheet, `useOpenEntry`. */
  openEntry(place: EntryPlace | null): void;
  undo(): void;
  redo(): void;
  /** Saves; tells whether it was kept. */
  save(): Promise<boolean>;
  /** Puts another sheet on the bench, asking first when the present one has unsaved entries. `kept` when it is the stored copy. */
  takeUp(sheet: Sheet, kept: boolean): void;
  /** The stored copy of this sheet is gone. */
  keptNoMore(): void;
}

export const BenchContext = createContext<Bench | null>(null);

export function useBench(): Bench {
  const bench = useContext(BenchContext);
  if (bench === null) throw new Error('useBench is called outside BenchContext');
  return bench;
}

import type { OpenedSheet, Version } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { Sheet } from '../../reasoner/index.ts';
import { sameValue } from '../../reasoner/plain/same-value.ts';
import { beginning, changed, type History, redone, undone } from './history.ts';
import type { Edit } from './sheetEdits.ts';

/** The stored copy of a sheet: what the next save of it is made against (H5). */
export interface Kept {
  readonly sheet: Sheet;
  readonly version: Version;
  /** Whether it is the shop's own; else a sample, and saving it makes it a case. */
  readonly own: boolean;
  /** Of its case, where that is known: what is told should it be gone. */
  readonly number: string | null;
}

export const keptOf = ({ sheet, version, saved }: OpenedSheet): Kept => ({
  sheet,
  version,
  own: saved !== null,
  number: saved?.number ?? null,
});

/** The unit on the bench: its sheet with history, and how it stands against what is kept. */
export interface Unit {
  readonly history: History<Sheet>;
  /** The sheet as last opened or saved; null for a new one never saved. */
  readonly kept: Kept | null;
  readonly saving: Saving;
  /** Told when entries were brought back after the window was lost. */
  readonly recovered: boolean;
}

export type Saving =
  | { readonly state: 'rest' }
  | { readonly state: 'saving' }
  | { readonly state: 'saved'; readonly at: string | null }
  | { readonly state: 'trouble'; readonly trouble: Trouble };

export type UnitAction =
  | { readonly do: 'take up'; readonly sheet: Sheet; readonly kept: Kept | null; readonly recovered?: boolean }
  | { readonly do: 'edit'; readonly edit: Edit; readonly typing: string | null }
  | { readonly do: 'undo' }
  | { readonly do: 'redo' }
  | { readonly do: 'saving' }
  | { readonly do: 'saved'; readonly kept: Kept; readonly at: string | null }
  | { readonly do: 'not saved'; readonly trouble: Trouble }
  /** Another state is stored than the one this was made of, and this is what is made of both: one step back leads to what was here before. */
  | { readonly do: 'join'; readonly sheet: Sheet; readonly kept: Kept }
  /** The kept copy is gone (removed from the shelf); what is on the bench is now the only one. */
  | { readonly do: 'kept no more' };

export const unitOf = (sheet: Sheet, kept: Kept | null, recovered = false): Unit => ({
  history: beginning(sheet),
  kept,
  saving: { state: 'rest' },
  recovered,
});

export function unitAfter(unit: Unit, action: UnitAction): Unit {
  switch (action.do) {
    case 'take up':
      return unitOf(action.sheet, action.kept, action.recovered ?? false);
    case 'edit':
      return { ...unit, history: changed(unit.history, action.edit(unit.history.present), action.typing) };
    case 'undo':
      return { ...unit, history: undone(unit.history) };
    case 'redo':
      return { ...unit, history: redone(unit.history) };
    case 'saving':
      return { ...unit, saving: { state: 'saving' } };
    case 'saved':
      // Another sheet may have been put on the bench while this one was on its way.
      if (action.kept.sheet.id !== unit.history.present.id) return unit;
      return { ...unit, kept: action.kept, saving: { state: 'saved', at: action.at }, recovered: false };
    case 'not saved':
      return { ...unit, saving: { state: 'trouble', trouble: action.trouble } };
    case 'join':
      return { ...unit, history: changed(unit.history, action.sheet), kept: action.kept, saving: { state: 'rest' } };
    case 'kept no more':
      return { ...unit, kept: null };
  }
}

/** Whether anything on the bench is not yet kept. A new sheet with nothing entered has nothing to lose. */
export const isUnsaved = (unit: Unit): boolean => {
  const { present } = unit.history;
  if (unit.kept !== null) return present !== unit.kept.sheet && !sameValue(present, unit.kept.sheet);
  return (
    present.title !== '' ||
    present.story !== '' ||
    present.claimed !== null ||
    present.claimedMaker !== null ||
    present.serial !== undefined ||
    present.observations.length > 0 ||
    present.unseen !== undefined ||
    present.absent.length > 0
  );
};

import type { Trouble } from '../../electron/bridge/contract.ts';
import type { Sheet } from '../../reasoner/index.ts';
import { beginning, changed, type History, redone, undone } from './history.ts';
import type { Edit } from './sheetEdits.ts';

/** The unit on the bench: its sheet with history, and how it stands against what is kept. */
export interface Unit {
  readonly history: History<Sheet>;
  /** The sheet as last opened or saved; null for a new one never saved. */
  readonly kept: Sheet | null;
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
  | { readonly do: 'take up'; readonly sheet: Sheet; readonly kept: Sheet | null; readonly recovered?: boolean }
  | { readonly do: 'edit'; readonly edit: Edit; readonly typing: string | null }
  | { readonly do: 'undo' }
  | { readonly do: 'redo' }
  | { readonly do: 'saving' }
  | { readonly do: 'saved'; readonly sheet: Sheet; readonly at: string | null }
  | { readonly do: 'not saved'; readonly trouble: Trouble }
  /** The kept copy is gone (removed from the shelf); what is on the bench is now the only one. */
  | { readonly do: 'kept no more' };

export const unitOf = (sheet: Sheet, kept: Sheet | null, recovered = false): Unit => ({
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
      return { ...unit, kept: action.sheet, saving: { state: 'saved', at: action.at }, recovered: false };
    case 'not saved':
      return { ...unit, saving: { state: 'trouble', trouble: action.trouble } };
    case 'kept no more':
      return { ...unit, kept: null };
  }
}

/** Whether anything on the bench is not yet kept. A new sheet with nothing entered has nothing to lose. */
export const isUnsaved = (unit: Unit): boolean => {
  const { present } = unit.history;
  if (unit.kept !== null) return present !== unit.kept && JSON.stringify(present) !== JSON.stringify(unit.kept);
  return (
    present.title !== '' ||
    present.story !== '' ||
    present.claimed !== null ||
    present.claimedMaker !== null ||
    present.observations.length > 0 ||
    present.unseen !== undefined ||
    present.absent.length > 0
  );
};

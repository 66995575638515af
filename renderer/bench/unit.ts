import type { OpenedSheet, Version } from '../../db/answers.ts';
import type { Trouble } from '../../electron/bridge/contract.ts';
import type { Sheet, SheetId } from '../../reasoner/index.ts';
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

/** That another state is stored than the one a sheet was made of (H5). */
export type Met =
  | { readonly how: 'changed'; readonly theirs: OpenedSheet }
  /** `sample`: the sample that shows again in its place; saving makes a case of it anew. */
  | { readonly how: 'removed'; readonly sample: OpenedSheet | null };

/** An open unit: its sheet with history, and how it stands against what is kept. */
export interface Unit {
  readonly history: History<Sheet>;
  /** The sheet as last opened or saved; null for a new one never saved. */
  readonly kept: Kept | null;
  readonly saving: Saving;
  /** Told when entries were brought back after the window was lost. */
  readonly recovered: boolean;
  /** What became of its stored copy elsewhere since it was opened here, where that is known and nothing was saved since. */
  readonly elsewhere: Met | null;
  /** What waits to be decided: the question is put as soon as the unit is shown. */
  readonly asks: Met | null;
}

export type Saving =
  | { readonly state: 'rest' }
  | { readonly state: 'saving' }
  | { readonly state: 'saved'; readonly at: string | null }
  | { readonly state: 'trouble'; readonly trouble: Trouble };

export type UnitAction =
  | { readonly do: 'edit'; readonly edit: Edit; readonly typing: string | null }
  | { readonly do: 'undo' }
  | { readonly do: 'redo' }
  | { readonly do: 'saving' }
  | { readonly do: 'saved'; readonly kept: Kept; readonly at: string | null }
  | { readonly do: 'not saved'; readonly trouble: Trouble }
  /** A save was refused for what is there; nothing was saved. */
  | { readonly do: 'met'; readonly met: Met }
  /** What is there was looked at: `against` is what was held against it, `there` null where it is as it was. */
  | { readonly do: 'looked'; readonly against: Kept; readonly there: Met | null }
  /** What is known of elsewhere is to be decided. */
  | { readonly do: 'see both' }
  /** It was decided, or is left for later. */
  | { readonly do: 'asked' }
  /** Another state is stored than the one this was made of, and this is what is made of both: one step back leads to what was here before. */
  | { readonly do: 'join'; readonly sheet: Sheet; readonly kept: Kept | null }
  /** The kept copy is gone (removed from the shelf); what is open here is now the only one. */
  | { readonly do: 'kept no more' };

export const unitOf = (sheet: Sheet, kept: Kept | null, recovered = false): Unit => ({
  history: beginning(sheet),
  kept,
  saving: { state: 'rest' },
  recovered,
  elsewhere: null,
  asks: null,
});

export function unitAfter(unit: Unit, action: UnitAction): Unit {
  switch (action.do) {
    case 'edit':
      return { ...unit, history: changed(unit.history, action.edit(unit.history.present), action.typing) };
    case 'undo':
      return { ...unit, history: undone(unit.history) };
    case 'redo':
      return { ...unit, history: redone(unit.history) };
    case 'saving':
      return { ...unit, saving: { state: 'saving' } };
    case 'saved':
      return { ...unit, kept: action.kept, saving: { state: 'saved', at: action.at }, recovered: false, elsewhere: null };
    case 'not saved':
      return { ...unit, saving: { state: 'trouble', trouble: action.trouble } };
    case 'met':
      return { ...unit, saving: { state: 'trouble', trouble: toldOf(action.met) }, asks: action.met };
    case 'looked':
      // It may have been saved here while it was looked at.
      return unit.kept === action.against && unit.elsewhere !== action.there ? { ...unit, elsewhere: action.there } : unit;
    case 'see both':
      return { ...unit, asks: unit.elsewhere };
    case 'asked':
      return { ...unit, asks: null };
    case 'join':
      return { ...unit, history: changed(unit.history, action.sheet), kept: action.kept, saving: { state: 'rest' }, elsewhere: null };
    case 'kept no more':
      return { ...unit, kept: null, elsewhere: null };
  }
}

const toldOf = ({ how }: Met): Trouble => ({
  code: 'changed-since',
  place: null,
  sentence:
    how === 'removed'
      ? 'The sheet was removed elsewhere since it was opened here. Save it again to decide whether it shall be there.'
      : 'The sheet was changed elsewhere since it was opened here. Save it again to see both and decide.',
});

export const idOf = (unit: Unit): SheetId => unit.history.present.id;

/** Whether anything of it is not yet kept. A new sheet with nothing entered has nothing to lose. */
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
    present.absent.length > 0 ||
    Object.keys(present.chosen).length > 0
  );
};

/** Whether it is a sheet never saved, with nothing on it: whatever is opened may take its place. */
export const isBlank = (unit: Unit): boolean => unit.kept === null && !isUnsaved(unit);

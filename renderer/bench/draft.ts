import type { Sheet } from '../../reasoner/index.ts';
import { recall, remember } from '../look/preference.ts';
import { windowName } from './thisWindow.ts';
import type { Kept } from './unit.ts';

/** What is on the bench and not saved, kept on this computer with every change, so that a window that is lost loses nothing typed. */
export interface Draft {
  readonly sheet: Sheet;
  /** The stored copy it was made from; null for a new sheet. */
  readonly kept: Kept | null;
}

/** Of this window alone: another window of the same browser has a bench of its own. */
const name = () => draftName(windowName());
export const draftName = (window: string): string => `draft ${window}`;

/** @param draft null when there is nothing to lose any more */
export const keepDraft = (draft: Draft | null): void => remember(name(), draft === null ? null : JSON.stringify(draft));

/** The draft of a window that was lost; null where there is none, or none that can be read: the next one overwrites it. */
export const recallDraft = (): Draft | null => draftIn(recall(name()));

/** No version is this one: what is saved against it is held against what is there first. */
const unknownVersion = '0'.repeat(64) as Kept['version'];

/** A draft as it was kept; one from before versions were kept with it was made against nobody knows what. */
export const draftIn = (text: string | null): Draft | null => {
  if (text === null) return null;
  try {
    const { sheet, kept } = JSON.parse(text) as { readonly sheet: Sheet; readonly kept: Kept | Sheet | null };
    if (!Array.isArray(sheet.observations) || typeof sheet.id !== 'string') return null;
    if (kept === null || 'version' in kept) return { sheet, kept };
    return { sheet, kept: { sheet: kept, version: unknownVersion, own: true, number: null } };
  } catch {
    return null;
  }
};

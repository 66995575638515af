import type { Sheet } from '../../reasoner/index.ts';
import { recall, remember } from '../look/preference.ts';

/** What is on the bench and not saved, kept on this computer with every change, so that a window that is lost loses nothing typed. */
export interface Draft {
  readonly sheet: Sheet;
  /** The stored copy it was made from; null for a new sheet. */
  readonly kept: Sheet | null;
}

/** @param draft null when there is nothing to lose any more */
export const keepDraft = (draft: Draft | null): void => remember('draft', draft === null ? null : JSON.stringify(draft));

/** The draft of a window that was lost; null where there is none, or none that can be read: the next one overwrites it. */
export function recallDraft(): Draft | null {
  const draft = recall('draft');
  if (draft === null) return null;
  try {
    const { sheet, kept } = JSON.parse(draft) as Draft;
    return Array.isArray(sheet.observations) && typeof sheet.id === 'string' ? { sheet, kept } : null;
  } catch {
    return null;
  }
}

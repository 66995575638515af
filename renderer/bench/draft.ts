import type { Sheet, SheetId } from '../../reasoner/index.ts';
import { recall, remember, remembered } from '../look/preference.ts';
import { asId } from '../route/asId.ts';
import type { OpenList } from './benches.ts';
import { windowName } from './thisWindow.ts';
import type { Kept } from './unit.ts';

/** What is open and not saved, kept on this computer with every change, so that a window that is lost loses nothing typed. */
export interface Draft {
  readonly sheet: Sheet;
  /** The stored copy it was made from; null for a new sheet. */
  readonly kept: Kept | null;
}

/** Of this window alone, and of one sheet: another window of the same browser has units of its own. */
export const draftName = (window: string, sheet: SheetId): string => `${onlyDraftName(window)} ${sheet}`;
/** The draft of the time when a window had one unit. */
export const onlyDraftName = (window: string): string => `draft ${window}`;
export const openListName = (window: string): string => `open ${window}`;

/** @param draft null when there is nothing of it to lose any more */
export const keepDraft = (sheet: SheetId, draft: Draft | null): void =>
  remember(draftName(windowName(), sheet), draft === null ? null : JSON.stringify(draft));

/** The drafts of a window that was lost, one of a sheet; what cannot be read is left where it is. */
export const recallDrafts = (): readonly Draft[] => {
  const only = onlyDraftName(windowName());
  const names = remembered().filter((one) => one === only || one.startsWith(`${only} `));
  return onePerSheet(names.sort().flatMap((one) => draftIn(recall(one)) ?? []));
};

/** What a window kept when it had one unit is kept as one of several by now. */
export const forgetOnlyDraft = (): void => {
  const only = onlyDraftName(windowName());
  if (draftIn(recall(only)) !== null) remember(only, null);
};

const onePerSheet = (drafts: readonly Draft[]): readonly Draft[] => [...new Map(drafts.map((one) => [one.sheet.id, one])).values()];

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

export const keepOpenList = (list: OpenList): void => remember(openListName(windowName()), JSON.stringify(list));

/** What was open in this window, or in a lost one. */
export const recallOpenList = (): OpenList | null => openListIn(recall(openListName(windowName())));

export const openListIn = (text: string | null): OpenList | null => {
  if (text === null) return null;
  try {
    const { order, found, planned } = JSON.parse(text) as Readonly<Record<keyof OpenList, unknown>>;
    if (!Array.isArray(order)) return null;
    const id = (one: unknown): SheetId[] => (typeof one === 'string' ? [asId<SheetId>(one)] : []);
    return { order: [...new Set(order.flatMap(id))], found: id(found)[0] ?? null, planned: id(planned)[0] ?? null };
  } catch {
    return null;
  }
};

/** The sheet that was open last on this computer: for a window that has nothing of its own to go on with. */
export const recallLast = (): OpenList | null => {
  const last = recall('last sheet');
  if (last === null) return null;
  const id = asId<SheetId>(last);
  return { order: [id], found: id, planned: id };
};

import type { MakerId, Observation, ObservationId, Sheet, SheetId, SlotId } from '../../reasoner/index.ts';
import { asId } from '../route/asId.ts';

/** Every change a sheet can take, as a pure function from sheet to sheet. */
export type Edit = (sheet: Sheet) => Sheet;

export const blankSheet = (id: SheetId): Sheet => ({
  id,
  title: '',
  story: '',
  kind: 'found',
  claimed: null,
  claimedMaker: null,
  observations: [],
  absent: [],
  chosen: {},
});

export const withTitle =
  (title: string): Edit =>
  (sheet) => ({ ...sheet, title });

export const withStory =
  (story: string): Edit =>
  (sheet) => ({ ...sheet, story });

/** A claim that is only white space is no claim. */
export const withClaim =
  (text: string): Edit =>
  (sheet) => ({ ...sheet, claimed: text.trim() === '' ? null : text });

export const withClaimedMaker =
  (claimedMaker: MakerId | null): Edit =>
  (sheet) => ({ ...sheet, claimedMaker });

export const withObservation =
  (observation: Observation): Edit =>
  (sheet) => ({ ...sheet, observations: [...sheet.observations, observation] });

export const withObservationChanged =
  (observation: Observation): Edit =>
  (sheet) => ({ ...sheet, observations: sheet.observations.map((one) => (one.id === observation.id ? observation : one)) });

export const withoutObservation =
  (id: ObservationId): Edit =>
  (sheet) => ({ ...sheet, observations: sheet.observations.filter((one) => one.id !== id) });

/** Marks a slot as not with the unit, or takes the mark back. Entries already made stay on the sheet. */
export const withAbsent =
  (slot: SlotId, absent: boolean): Edit =>
  (sheet) => ({
    ...sheet,
    absent: absent ? [...sheet.absent.filter((one) => one !== slot), slot] : sheet.absent.filter((one) => one !== slot),
  });

/** The next free observation id of a sheet: o1, o2, … in order of entry, never one in use. */
export function nextObservationId(sheet: Sheet): ObservationId {
  const used = new Set<string>(sheet.observations.map((one) => one.id));
  let number = sheet.observations.length + 1;
  while (used.has(`o${number}`)) number += 1;
  return asId<ObservationId>(`o${number}`);
}

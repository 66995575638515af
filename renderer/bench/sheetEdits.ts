import type { FeatureId, MakerId, Observation, ObservationId, Sheet, SheetId, SlotId, Unseen } from '../../reasoner/index.ts';
import { asId } from '../route/asId.ts';

/** Every change a sheet can take, as a pure function from sheet to sheet. */
export type Edit = (sheet: Sheet) => Sheet;

export const newSheetId = (): SheetId => asId<SheetId>(`sheet-${crypto.randomUUID()}`);

export const withTitle =
  (title: string): Edit =>
  (sheet) => ({ ...sheet, title });

export const withStory =
  (story: string): Edit =>
  (sheet) => ({ ...sheet, story });

/** One that is only white space is none; a sheet without one says nothing of it. */
export const withSerial =
  (text: string): Edit =>
  ({ serial: _, ...sheet }) =>
    text.trim() === '' ? sheet : { ...sheet, serial: text };

/** A claim that is only white space is no claim. */
export const withClaim =
  (text: string): Edit =>
  (sheet) => ({ ...sheet, claimed: text.trim() === '' ? null : text });

export const withClaimedMaker =
  (claimedMaker: MakerId | null): Edit =>
  (sheet) => ({ ...sheet, claimedMaker });

export const withObservation = (observation: Observation): Edit => withObservations([observation]);

/** Several entries as one step. What was seen after all is no longer unseen; what is only told leaves that answer as it is. */
export const withObservations =
  (observations: readonly Observation[]): Edit =>
  (sheet) => {
    const settled = new Set(observations.flatMap(({ feature, sure }) => (sure.kind === 'told' ? [] : [feature])));
    const unseen = sheet.unseen?.filter(({ feature }) => !settled.has(feature));
    return withUnseenList({ ...sheet, observations: [...sheet.observations, ...observations] }, unseen);
  };

/** Says why a feature could not be told; a later answer for the same feature takes the place of an earlier one. */
export const withUnseen =
  (unseen: Unseen): Edit =>
  (sheet) =>
    withUnseenList(sheet, [...(sheet.unseen ?? []).filter(({ feature }) => feature !== unseen.feature), unseen]);

export const withoutUnseen =
  (feature: FeatureId): Edit =>
  (sheet) =>
    withUnseenList(
      sheet,
      sheet.unseen?.filter((one) => one.feature !== feature),
    );

/** A sheet with nothing unseen says nothing of it, so that it is the same sheet as before anything was. */
const withUnseenList = (sheet: Sheet, unseen: readonly Unseen[] | undefined): Sheet => {
  const { unseen: _, ...rest } = sheet;
  return unseen === undefined || unseen.length === 0 ? rest : { ...rest, unseen };
};

/** Changes made together, as one step back. */
export const together =
  (edits: readonly Edit[]): Edit =>
  (sheet) =>
    edits.reduce((now, edit) => edit(now), sheet);

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
export const nextObservationId = (sheet: Sheet): ObservationId => nextObservationIds(sheet, 1)[0] as ObservationId;

/** So many free ids, each for one entry. */
export function nextObservationIds(sheet: Sheet, count: number): readonly ObservationId[] {
  const used = new Set<string>(sheet.observations.map((one) => one.id));
  const free: ObservationId[] = [];
  for (let number = sheet.observations.length + 1; free.length < count; number += 1) {
    if (!used.has(`o${number}`)) free.push(asId<ObservationId>(`o${number}`));
  }
  return free;
}

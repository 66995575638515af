import type { PhotoAbout } from '../../db/answers.ts';
import type { CaseVerdict, KeptName, Sheet } from '../../reasoner/index.ts';
import type { Words } from '../bridge/words.ts';
import { sayDayOf, sayInstantOf } from '../values/days.ts';
import { sayObservation } from '../values/sayings.ts';

/** `4 Mar 2026, 12:05`, by this computer's clock. */
export const sayInstant = (iso: string): string => sayInstantOf(new Date(iso));

/** `4 Mar 2026` for a day written `2026-03-04`, which is no instant and has no zone. */
export const sayDay = (day: string): string => {
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number);
  return sayDayOf(new Date(year, month - 1, date));
};

/** Today by this computer's clock, `YYYY-MM-DD`. */
export const today = (): string => {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
};

/** The last instant of a day by this computer's clock, as ISO time. */
export const endOfDay = (day: string): string => {
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number);
  return new Date(new Date(year, month - 1, date + 1).getTime() - 1).toISOString();
};

export const sayNames = (names: readonly Pick<KeptName, 'text'>[]): string => names.map(({ text }) => text).join(' or ');

/** The verdict of an entry in a few words. */
export const sayVerdict = (verdict: CaseVerdict): string =>
  verdict.kind === 'contradiction' ? 'entries contradict each other' : sayNames(verdict.honest);

/** What a photograph shows; an entry taken back since is still named as what it was tied to. */
export const sayAbout = (about: PhotoAbout | null, sheet: Sheet | null, words: Words): string => {
  if (about === null) return '';
  if (about.kind === 'slot') return words.slotName(about.slot);
  const observation = sheet?.observations.find(({ id }) => id === about.observation);
  return observation === undefined
    ? 'an entry no longer on the sheet'
    : `${words.slotName(observation.slot)}: ${sayObservation(words.feature(observation.feature), observation, words.unit)}`;
};

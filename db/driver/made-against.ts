import { TroubleError, trouble } from '../trouble.ts';
import { type Version, versionOf } from './version.ts';

/** What a save was made against: the version that was read, null for a thing that was not there. Left out, what is there is not asked about. */
export type MadeAgainst = Version | null | undefined;

/**
 * Holds a save to what it was made against (H5). Throws `changed-since`; not where what is there says already what is saved, as after an answer that was lost on its way.
 * @param there what is there now; null for nothing
 * @param what as sentences call it: `The sheet "…"`
 * @param saved what would take its place; undefined for nothing
 */
export const checkMadeAgainst = (madeAgainst: MadeAgainst, there: unknown, place: string, what: string, saved?: unknown): void => {
  if (madeAgainst === undefined) return;
  const is = there === null ? null : versionOf(there);
  if (madeAgainst === is || (is !== null && saved !== undefined && is === versionOf(saved))) return;
  throw new TroubleError(trouble('changed-since', place, `${what} ${happened(madeAgainst, there)}`));
};

const happened = (madeAgainst: Version | null, there: unknown): string => {
  if (madeAgainst === null) return 'was made elsewhere in the meantime, so this was not saved over it. Look at both, then decide.';
  return there === null
    ? 'was removed elsewhere since it was opened here, so it was not saved. Decide whether it shall be there again.'
    : 'was changed elsewhere since it was opened here, so this was not saved over it. Look at both, then decide.';
};

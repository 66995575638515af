import { TroubleError, trouble } from '../trouble.ts';
import { type Version, versionOf } from './version.ts';

/** What a save was made against: the version that was read, null for a thing that was not there. Left out, what is there is not asked about. */
export type MadeAgainst = Version | null | undefined;

/**
 * Holds a save to what it was made against (H5). Throws `changed-since`.
 * @param there what is there now; null for nothing
 * @param what as sentences call it: `The sheet "…"`
 */
export const checkMadeAgainst = (madeAgainst: MadeAgainst, there: unknown, place: string, what: string): void => {
  if (madeAgainst === undefined || madeAgainst === (there === null ? null : versionOf(there))) return;
  throw new TroubleError(trouble('changed-since', place, `${what} ${happened(madeAgainst, there)}`));
};

const happened = (madeAgainst: Version | null, there: unknown): string => {
  if (madeAgainst === null) return 'was made elsewhere in the meantime, so this was not saved over it. Look at both, then decide.';
  return there === null
    ? 'was removed elsewhere since it was opened here, so it was not saved. Decide whether it shall be there again.'
    : 'was changed elsewhere since it was opened here, so this was not saved over it. Look at both, then decide.';
};

import { statSync } from 'node:fs';
import { trouble } from '../trouble.ts';

/** Which file stands in a place: no two at the same time have the same answer, whatever they are called. Null where none does. */
export const fileAt = (place: string): string | null => {
  const found = statSync(place, { bigint: true, throwIfNoEntry: false });
  return found === undefined ? null : `${found.dev} ${found.ino}`;
};

/** Told of a change to a file that no longer stands where it was opened. */
export const movedAway = (file: string) =>
  trouble(
    'atlas-moved',
    file,
    `The atlas file was put aside or replaced while this program had it open, as mending and restoring do. This was not saved, for it would have gone into the file that was put aside. Close the program, start it again, and enter it there: ${file}`,
  );

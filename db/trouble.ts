/**
 * An expected failure: what is wrong, where, and a sentence for the person at the counter.
 * It crosses the bridge as it is. Bugs are not troubles; they throw.
 */
export interface Trouble {
  readonly code: string;
  /** File and row, field path, or screen entry it concerns. */
  readonly place: string | null;
  readonly sentence: string;
  /** Where one reading found several faults: all of them, this one first, up to the reader's limit. */
  readonly all?: readonly Trouble[];
}

/** The codes this room gives. The desk may add its own. */
export type DatabaseTroubleCode =
  | 'not-found'
  | 'database-locked'
  | 'database-read-only'
  | 'database-full'
  | 'database-damaged'
  | 'database-newer'
  | 'database-foreign'
  | 'database-cannot-open'
  | 'database-io'
  /** A new atlas stands beside the place of the old one: mending was broken off before it was put there (P3). */
  | 'mend-unfinished'
  | 'pack-unreadable'
  | 'pack-invalid'
  | 'pack-older'
  | 'pack-same-edition'
  | 'pack-clash'
  | 'pack-needed'
  /** A newer edition says otherwise of what the shop has its own word on (H4), and nobody has said whose holds. */
  | 'pack-disputed'
  /** Edits of the atlas that cannot be made, each fault with its place. */
  | 'edit-invalid'
  | 'edit-unreadable'
  /** A change cannot be undone as it is: something later rests on it. */
  | 'undo-disputed'
  | 'pack-cannot-write'
  /** A pack has a signature that is none of it: something was altered since (P15). */
  | 'pack-signature'
  /** A pack is signed, or no longer signed, by another than the shop takes it from (P15). */
  | 'pack-signer'
  /** There is a key to sign with already. */
  | 'key-exists'
  | 'key-cannot-write'
  /** No key where there should be one, or a text or file that is none; a passphrase that does not open it. */
  | 'key-unreadable'
  /** More than may be brought in as one pack. */
  | 'pack-too-large'
  | 'sheet-unreadable'
  | 'sheet-invalid'
  /** Somebody has yet to say that a figure hard to believe is what was read (O7). */
  | 'sheet-doubted'
  | 'sheet-unknown'
  | 'sheet-is-sample'
  | 'drill-answered'
  /** The atlas changed between the judging of a sheet and its saving. */
  | 'atlas-changed'
  /** What is saved was made against another version than the one that is there (H5). */
  | 'changed-since'
  /** A backup could not be made, or is not what it was made of; what it was to go before was not done. */
  | 'backup-failed'
  /** A backup that was named cannot be used. */
  | 'backup-unreadable'
  /** The atlas file was put aside or replaced while it was open (P3). */
  | 'atlas-moved'
  /** There was an atlas here, and its file is gone or empty: somebody has to say what is to become of it. */
  | 'atlas-missing'
  | 'photo-too-large'
  | 'photo-unreadable'
  | 'photo-damaged'
  /** The bytes that are kept of a photograph are no longer those it was saved with (P3). */
  | 'photo-altered'
  | 'photos-too-many'
  /** The one file that holds a case (P9): no such file or a damaged one; one that says what cannot be; more than may come in; and a case that is here already. */
  | 'case-file-unreadable'
  | 'case-file-invalid'
  | 'case-file-too-large'
  | 'case-is-here'
  /** A spreadsheet or a CSV: none, or a damaged one; and more than may come in. */
  | 'table-unreadable'
  | 'table-too-large'
  /** A table of stock that cannot be read as one, or more than may come in. */
  | 'stock-table-invalid'
  /** A paper that is of no kind that can be kept, one that is too large, and one too many. */
  | 'document-unreadable'
  | 'document-too-large'
  | 'documents-too-many'
  /** Fewer lie on the shelf than were to be taken. */
  | 'stock-short'
  /** A price, where the shop has not said in what money. */
  | 'money-unsaid'
  /** Nothing that could be a sample, or of another slot than the part. */
  | 'sample-unfit';

export type Outcome<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly trouble: Trouble };

export const done = <T>(value: T): Outcome<T> => ({ ok: true, value });

export const trouble = (code: DatabaseTroubleCode, place: string | null, sentence: string, all?: readonly Trouble[]): Trouble =>
  all === undefined || all.length < 2 ? { code, place, sentence } : { code, place, sentence, all };

export const failed = (found: Trouble): { readonly ok: false; readonly trouble: Trouble } => ({ ok: false, trouble: found });

/** Carries a trouble out of the depth of a call to the nearest door, where it becomes a value again. */
export class TroubleError extends Error {
  readonly trouble: Trouble;
  constructor(found: Trouble, cause?: unknown) {
    super(found.sentence, cause === undefined ? undefined : { cause });
    this.name = 'TroubleError';
    this.trouble = found;
  }
}

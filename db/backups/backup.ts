import type { GivenElsewhere } from '../../reasoner/plain/shared-letter.ts';
import type { Version } from '../driver/version.ts';

/** Why a backup was made. Those before a change are what one goes back to when the change was a mistake. */
export type BackupReason = 'hourly' | 'asked' | 'before-migration' | 'before-pack' | 'before-mend' | 'before-restore';

export interface BackupCounts {
  readonly packs: number;
  /** The shop's own, without samples of packs. */
  readonly sheets: number;
  readonly cases: number;
  readonly photographs: number;
  readonly learners: number;
  /** Drills that were answered. */
  readonly answers: number;
}

export type BackupState =
  | { readonly kind: 'sound'; readonly counts: BackupCounts /** Number of the schema it is of. */; readonly schema: number }
  /** It is there and may still be of use to somebody, but this program cannot read it. */
  | { readonly kind: 'unreadable'; readonly why: string };

/** One file of the folder of backups. */
export interface Backup {
  /** Name of its file, which says when and why it was made. */
  readonly name: string;
  /** ISO. */
  readonly at: string;
  readonly reason: BackupReason;
  readonly bytes: number;
  readonly state: BackupState;
}

export interface Backups {
  readonly folder: string;
  /** Newest first. */
  readonly backups: readonly Backup[];
  /** All of them together take no more than so many bytes, but for the newest sound one, which is always kept. */
  readonly atMost: number;
  /** The last one that could not be made since the program was started, and why. */
  readonly failed: { readonly at: string; readonly sentence: string } | null;
}

/** What of one kind a restore brings back, takes away, and puts back as it was, by name; of many only the first. */
export interface Named {
  readonly count: number;
  readonly names: readonly string[];
}

export type HeldKind = 'packs' | 'sheets' | 'cases' | 'photographs' | 'learners' | 'courses' | 'other';

export interface Difference {
  readonly what: HeldKind;
  /** How many there are, and how many there would be. */
  readonly now: number;
  readonly afterwards: number;
  readonly comesBack: Named;
  readonly goes: Named;
  readonly differs: Named;
}

/** What restoring a backup would come to. */
export interface RestorePreview {
  readonly backup: Backup;
  /** What was compared with: the state of the atlas, to be named when it is restored. Null where there is no atlas that can be read. */
  readonly madeAgainst: Version | null;
  /** Nothing would be altered. */
  readonly same: boolean;
  /** It is of an older schema and will be brought up to this program's. */
  readonly migrates: boolean;
  readonly differences: readonly Difference[];
  /** Cases of it whose numbers have this counter's letter and were not given here; null where it has none. */
  readonly elsewhere: GivenElsewhere | null;
}

export interface Restored {
  readonly from: string;
  /** The backup of what was there before; null where there was nothing that could be copied. */
  readonly before: string | null;
  /** Where a damaged or empty atlas that was in its place stands now. */
  readonly aside: string | null;
}

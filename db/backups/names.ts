import { stampOf, timeIn } from '../plain/files.ts';
import type { BackupReason } from './backup.ts';

/** A compiler's check that every reason is here. */
const reasons: Readonly<Record<BackupReason, true>> = {
  hourly: true,
  asked: true,
  'before-migration': true,
  'before-pack': true,
  'before-mend': true,
  'before-restore': true,
};

/** `2026-03-04T12-00-00-000Z-asked.sqlite`: an instant as every file system takes it, and why. */
export const backupName = (at: Date, reason: BackupReason): string => `${stampOf(at)}-${reason}.sqlite`;

/** What the name of a backup says, or null for any other file. */
export const readBackupName = (name: string): { readonly at: string; readonly reason: BackupReason } | null => {
  const reason = /^[\dT-]{23}Z-([a-z-]+)\.sqlite$/.exec(name)?.[1] ?? '';
  const at = timeIn(name.slice(0, 24));
  return at !== null && Object.hasOwn(reasons, reason) && !Number.isNaN(Date.parse(at)) ? { at, reason: reason as BackupReason } : null;
};

/** A backup that is not done yet: out of the way of who looks for backups, and named after the program that makes it. */
export const unfinishedName = (name: string, process: number): string => `.${name}.${process}.part`;

/** The program that made an unfinished file, or something beside one; null for any other file. */
export const unfinishedBy = (name: string): number | null => {
  const found = /^\..+\.(\d+)\.part(-journal|-wal|-shm)?$/.exec(name);
  return found === null ? null : Number(found[1]);
};

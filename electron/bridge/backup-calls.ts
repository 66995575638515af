import { z } from 'zod';
import type { Backup, Backups, Restored, RestorePreview } from '../../db/answers.ts';
import { isWellFormed } from '../../reasoner/plain/well-formed.ts';
import { call, nothing } from './call.ts';

/** The name of a backup's file, as the list gives it. */
const name = z.string().min(1).max(100).refine(isWellFormed, { error: 'text without half a surrogate pair' });

export const backupCalls = {
  'backups.list': call(nothing).returns<Backups>(),
  'backups.make': call(nothing).returns<Backup>(),
  /** What restoring it would come to. */
  'backups.preview': call(z.strictObject({ name })).returns<RestorePreview>(),
  /** Puts it back, unless the atlas has changed since that preview. */
  'backups.restore': call(z.strictObject({ name, madeAgainst: z.string().regex(/^[0-9a-f]{64}$/) })).returns<Restored>(),
} as const;

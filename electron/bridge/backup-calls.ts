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
  /** Puts it back, unless the atlas has changed since that preview. `madeAgainst`: as the preview told it; null where there was no atlas. */
  'backups.restore': call(
    z.strictObject({
      name,
      madeAgainst: z
        .string()
        .regex(/^[0-9a-f]{64}$/)
        .nullable(),
    }),
  ).returns<Restored>(),
  /** Begins a new atlas where the one there was is gone; where there is one, nothing is done. */
  'backups.anew': call(nothing).returns<null>(),
} as const;

import path from 'node:path';
import { lookInto, lookIntoCopy } from '../driver/copies.ts';
import { migrations } from '../migrations/index.ts';
import { backupsIn } from './folder.ts';
import { holdingsOf } from './held.ts';
import type { BackupPlace } from './make-backup.ts';

/** Whether an atlas holds something else than its newest sound backup. One of an older schema is another thing, and so is none. */
export const hasChanged = async ({ file, folder }: BackupPlace): Promise<boolean> => {
  const newest = (await backupsIn(folder)).find(({ state }) => state.kind === 'sound');
  if (newest?.state.kind !== 'sound' || newest.state.schema < migrations.length) return true;
  const then = await lookIntoCopy(path.join(folder, newest.name), 'nothing', holdingsOf);
  return then.read.version !== (await lookInto(file, holdingsOf)).version;
};

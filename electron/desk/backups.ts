import type { Store, Version } from '../../db/index.ts';
import type { Calls } from '../bridge/desk.ts';

export const backupCalls = (store: Store): Calls<'backups'> => ({
  'backups.list': () => store.backups.list(),
  'backups.make': () => store.backups.make('asked'),
  'backups.preview': ({ name }) => store.backups.preview(name),
  'backups.restore': ({ name, madeAgainst }) => store.backups.restore(name, madeAgainst as Version),
});

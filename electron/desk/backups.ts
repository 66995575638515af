import type { Store, Version } from '../../db/index.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';

export const backupCalls = (store: Store): Calls<'backups'> => ({
  'backups.list': () => store.backups.list(),
  'backups.make': () => store.backups.make('asked'),
  'backups.preview': ({ name }) => store.backups.preview(name),
  'backups.restore': async ({ name, madeAgainst }) =>
    madeAgainst === null
      ? refusal(
          'changed-since',
          name,
          'There is an atlas here by now, so no backup was put in its place. Look again at what it would come to.',
        )
      : store.backups.restore(name, madeAgainst as Version),
  'backups.anew': async () => well(null),
});

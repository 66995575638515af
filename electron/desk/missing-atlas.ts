import { backupsInPlace, type Outcome, type Trouble, TroubleError } from '../../db/index.ts';
import { contract } from '../bridge/contract.ts';
import type { Calls, Desk } from '../bridge/desk.ts';
import { refusal } from '../bridge/reply.ts';
import { backupPlace } from './data-folder.ts';
import { missingFrom } from './open-house.ts';

/** Opens the atlas of the folder as at any start; `anew`: where there is none, one is made. */
type OpenAgain = (anew: boolean) => Promise<Outcome<null>>;

/**
 * The desk of a folder whose atlas is gone: what backups there are, what one of them would bring back, that one put back, or a new atlas begun. Whatever else is asked is
 * answered with why there is no atlas. Nothing in the folder is deleted by any of it.
 * @param open called once something is in the atlas's place; from then on this desk is not asked any more
 */
export const missingDesk = (folder: string, missing: Trouble, now: () => Date, open: OpenAgain): Desk => {
  const place = backupPlace(folder, now);
  const backups = backupsInPlace(place);
  let working = false;
  /** One hand at a time, and only while there is nothing there: what another window or program has put in meanwhile is not written over. */
  const settling = async <Value>(what: string, settle: () => Promise<Outcome<Value>>): Promise<Outcome<Value>> => {
    if (working) return refusal('changed-since', folder, `${what}: another window is at it. Look again in a moment.`);
    working = true;
    try {
      if ((await missingFrom(folder)) !== null) return await settle();
      const opened = await open(false);
      return opened.ok ? refusal('changed-since', folder, `${what}: there is an atlas here by now, and it was opened as it is.`) : opened;
    } finally {
      working = false;
    }
  };
  const answered = {
    'backups.list': () => backups.list(),
    'backups.preview': async ({ name }) => ((await listed(name)) ? backups.preview(name) : noSuchBackup(name)),
    'backups.restore': ({ name }) =>
      settling('Nothing was put back', async () => {
        if (!(await listed(name))) return noSuchBackup(name);
        const restored = await backups.restore(name);
        if (!restored.ok) return restored;
        const opened = await open(false);
        return opened.ok ? restored : opened;
      }),
    'backups.anew': () => settling('No atlas was begun', () => open(true)),
  } satisfies Partial<Calls<'backups'>>;
  /** A window names what the list names, never a path. */
  const listed = async (name: string): Promise<boolean> => {
    if (name === 'newest') return true;
    const list = await backups.list();
    if (!list.ok) throw new TroubleError(list.trouble);
    return list.value.backups.some((one) => one.name === name);
  };
  const refused = () => Promise.resolve({ ok: false, trouble: missing } as const);
  return { ...(Object.fromEntries(Object.keys(contract).map((name) => [name, refused])) as unknown as Desk), ...answered };
};

const noSuchBackup = (name: string) => refusal('not-found', name, `There is no such backup: ${name}. Nothing was changed.`);

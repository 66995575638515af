import { recall, remember, remembered } from '../look/preference.ts';

/** Where a window keeps its own name for as long as it is open, through reloads. */
const kept = 'kinplate.window';
/** The draft of the time when a browser had one for all its windows. */
const oldDraft = 'draft';

let own = 'only';

/** What this window is called on this computer: no other that is open has the same. */
export const windowName = (): string => own;

/**
 * Gives this window its name, and what a window that is gone left unsaved: called once, before anything is drawn. Whether another window is open is told by a lock it holds for as
 * long as it is; a window that was copied has the name of its original, and takes another.
 */
export const nameWindow = async (): Promise<void> => {
  const before = session()?.getItem(kept) ?? null;
  own = before !== null && (await held(before)) ? before : await freshName();
  session()?.setItem(kept, own);
  const gone = new Set<string>();
  for (const name of new Set(remembered().flatMap((one) => ownerOf(one) ?? []))) if (name !== own && (await isGone(name))) gone.add(name);
  for (const name of remembered()) {
    const owner = ownerOf(name);
    if (name === oldDraft) takeOver(name, `draft ${own}`);
    else if (owner !== null && gone.has(owner)) takeOver(name, name.replace(owner, own));
  }
};

/** Which window a draft is of: `draft <window> <sheet>`, `words <window> <sheet>`, `open <window>`; and `draft <window>` of the time when a window had one unit. */
const ownerOf = (name: string): string | null => /^(?:draft|words|open) (\S+)/.exec(name)?.[1] ?? null;

/** What this window has of its own goes first; the other waits for a window that has none. */
const takeOver = (name: string, as: string): void => {
  if (recall(as) !== null) return;
  remember(as, recall(name));
  remember(name, null);
};

const freshName = async (): Promise<string> => {
  const name = crypto.randomUUID();
  await held(name);
  return name;
};

const lockOf = (name: string): string => `kinplate window ${name}`;

/** A page that is loaded anew waits this long for the one it takes the place of, in milliseconds. */
const patience = 400;

/** Holds the window's lock until it is gone; false where another window holds it. Without locks there is nobody to ask. */
const held = (name: string): Promise<boolean> =>
  new Promise((resolve) => {
    if (locks() === null) return resolve(true);
    const forever = new Promise<never>(() => undefined);
    locks()
      ?.request(lockOf(name), { signal: AbortSignal.timeout(patience) }, () => {
        resolve(true);
        return forever;
      })
      .catch(() => resolve(false));
  });

const isGone = async (name: string): Promise<boolean> => {
  if (locks() === null) return true;
  return (await locks()?.request(lockOf(name), { ifAvailable: true }, (lock) => lock !== null)) ?? true;
};

const locks = (): LockManager | null => navigator.locks ?? null;

function session(): Storage | null {
  try {
    return window.sessionStorage;
  } catch {
    return null;
  }
}

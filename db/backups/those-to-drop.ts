import type { Backup } from './backup.ts';

const hour = 3_600_000;
const day = 24 * hour;
/** All of so long ago are kept. */
const allOf = day;
/** Of each day so long ago the last is kept; and whole, those made before a change, those asked for, and those that cannot be read. */
const dailyFor = 30 * day;
/** Of each month so long ago the last is kept. */
const monthlyFor = 365 * day;

/** As `names.ts` and a look into the file tell them. */
export type Dated = Pick<Backup, 'name' | 'at' | 'reason' | 'bytes'> & { readonly sound: boolean };

/**
 * Names of the backups that are kept no longer, oldest first: by age, then by size. The newest sound one is never among them.
 *
 * By age: all of the last 24 hours are kept, the last of each day for 30 days and the last of each month for 365, days and months as UTC has them; those made before a change, asked
 * for, or unreadable for 30 days. Only a sound one stands for its day or month. One of a time to come, made before the clock was set back, is as young as can be.
 * By size: while what is kept takes more than `atMost` bytes the oldest goes, those made before a migration or a pack's change, and not yet 30 days old, after all others.
 */
export const thoseToDrop = (all: readonly Dated[], now: Date, atMost: number): string[] => {
  const newestFirst = [...all].sort((a, b) => (a.at === b.at ? (a.name < b.name ? 1 : -1) : a.at < b.at ? 1 : -1));
  const sound = newestFirst.filter((one) => one.sound);
  // What the future is said to hold was made while the clock was wrong: it does not stand for what there is now.
  const newestSound = sound.find(({ at }) => Date.parse(at) <= now.getTime()) ?? sound[0];
  const days = new Set<string>();
  const months = new Set<string>();
  const firstIn = (seen: Set<string>, key: string): boolean => !seen.has(key) && seen.add(key) !== null;

  const kept = newestFirst.filter((one) => {
    const age = now.getTime() - Date.parse(one.at);
    // Asked of every sound one, so that the last of a day is the last there was.
    const lastOfDay = one.sound && firstIn(days, one.at.slice(0, 10));
    const lastOfMonth = one.sound && firstIn(months, one.at.slice(0, 7));
    if (one === newestSound || age <= allOf) return true;
    if (age <= dailyFor && (lastOfDay || !one.sound || one.reason !== 'hourly')) return true;
    return age <= monthlyFor && lastOfMonth;
  });

  const gone = new Set(all.filter((one) => !kept.includes(one)));
  const guarded = ({ at, reason }: Dated): boolean =>
    (reason === 'before-migration' || reason === 'before-pack') && now.getTime() - Date.parse(at) <= dailyFor;
  const oldestFirst = kept.reverse();
  const inTurn = [...oldestFirst.filter((one) => !guarded(one)), ...oldestFirst.filter(guarded)];
  let bytes = kept.reduce((sum, one) => sum + one.bytes, 0);
  for (const one of inTurn) {
    if (bytes <= atMost) break;
    if (one === newestSound) continue;
    gone.add(one);
    bytes -= one.bytes;
  }
  return newestFirst
    .reverse()
    .filter((one) => gone.has(one))
    .map(({ name }) => name);
};

import { sayDayOf, sayTimeOf } from './days.ts';

/** `at 12:05` today, else `on 4 Mar 2026 at 12:05`, by this computer's clock. */
export const sayWhen = (iso: string, now: Date = new Date()): string => {
  const then = new Date(iso);
  const time = sayTimeOf(then);
  return then.toDateString() === now.toDateString() ? `at ${time}` : `on ${sayDayOf(then)} at ${time}`;
};

import type { CallResult } from '../../electron/bridge/contract.ts';

/** How the day stands, in a line: what was done, and what is left. */
export const sayToday = ({ answered, right, due, fresh }: CallResult<'drills.next'>['today']): string => {
  const done = answered === 0 ? 'Nothing answered yet today' : `Today: ${answered} answered, ${right} of them right`;
  const left = [due === 0 ? null : `${due} to be asked again`, fresh === 0 ? null : `${fresh} not asked before`].filter(
    (each) => each !== null,
  );
  return `${done}. ${left.length === 0 ? 'Nothing is left to ask now.' : `Left for today: ${left.join(', ')}.`}`;
};

/** A time to come, as one says it after “asked again”. */
export const sayDue = (iso: string): string => {
  const minutes = Math.round((new Date(iso).getTime() - Date.now()) / 60_000);
  if (minutes <= 1) return 'today, in a minute or two';
  if (minutes < 60) return `today, in ${minutes} minutes`;
  const days = Math.round(minutes / 1440);
  return days < 1 ? `in ${Math.round(minutes / 60)} hours` : days === 1 ? 'tomorrow' : `in ${days} days`;
};

import { months } from './months.ts';

/** An ISO date (or time, of which the day is taken) as a letter has it: `25 November 2026`. Anything else is left as it stands. */
export const dayInWords = (iso: string): string => {
  const match = /^(\d{4})-(\d{2})-(\d{2})(?:T|$)/.exec(iso);
  const month = months[Number(match?.[2]) - 1];
  return match === null || month === undefined ? iso : `${Number(match[3])} ${month} ${match[1]}`;
};

/** Days and times as the computer's language writes them. Each is made once: making one takes longer than a screen may. */
const day = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium' });
const time = new Intl.DateTimeFormat(undefined, { timeStyle: 'short' });
const instant = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' });

/** `4 Mar 2026`, by this computer's clock. */
export const sayDayOf = (at: Date): string => day.format(at);

/** `12:05`, by this computer's clock. */
export const sayTimeOf = (at: Date): string => time.format(at);

/** `4 Mar 2026, 12:05`, by this computer's clock. */
export const sayInstantOf = (at: Date): string => instant.format(at);

import { plain, roundedTo } from '../values/figures.ts';

/** `12 min`, `1 h 35 min`. */
export const sayMinutes = (minutes: number): string => {
  const whole = roundedTo(minutes, 1);
  if (whole < 60) return `${plain(whole, 1)} min`;
  const rest = Math.round(whole % 60);
  return `${Math.floor(whole / 60)} h${rest === 0 ? '' : ` ${rest} min`}`;
};

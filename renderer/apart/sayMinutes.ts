/** `12 min`, `1 h 35 min`. */
export const sayMinutes = (minutes: number): string => {
  const whole = Math.round(minutes * 10) / 10;
  if (whole < 60) return `${whole} min`;
  const rest = Math.round(whole % 60);
  return `${Math.floor(whole / 60)} h${rest === 0 ? '' : ` ${rest} min`}`;
};

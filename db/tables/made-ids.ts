/** A text as an id: small letters and figures with dashes between. */
export const idFor = (...texts: readonly string[]): string =>
  texts
    .join(' ')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 80)
    .replace(/-+$/, '') || 'entry';

/** The same, or with the first number behind it that makes it nobody else’s. */
export const freeId = (wanted: string, isTaken: (id: string) => boolean): string => {
  if (!isTaken(wanted)) return wanted;
  let count = 2;
  while (isTaken(`${wanted}-${count}`)) count += 1;
  return `${wanted}-${count}`;
};

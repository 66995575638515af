/** Figures as the window writes them; the one place that knows the shop’s sign before decimals. No other file of the window makes a figure into text (`tests/unit/house/figures.test.ts`). */

let decimalSign: '.' | ',' = '.';

export const signOfDecimals = (): '.' | ',' => decimalSign;

/** Which sign stands before decimals in what the window itself writes: the shop’s setting, said once it is known. Both are always read. */
export const writeDecimalsWith = (sign: '.' | ','): void => {
  decimalSign = sign;
};

/** A figure written with a point, with the shop’s sign. */
export const withSign = (figure: string): string => figure.replace('.', decimalSign);

/** For a figure that is worked on, and said by none of these: so many decimals at most. */
export const roundedTo = (value: number, decimals: number): number => Number(value.toFixed(decimals));

/** At most so many decimals, and none that say nothing. */
export const plain = (value: number, decimals: number): string => withSign(String(roundedTo(value, decimals)).replace('-', '−'));

/** Always so many decimals, so that columns line up; what rounds to nought has no minus. */
export const fixed = (value: number, decimals: number): string =>
  withSign(`${roundedTo(value, decimals) < 0 ? '−' : ''}${Math.abs(value).toFixed(decimals)}`);

/** `1,234,567`; with a decimal comma `1 234 567`, since a comma would then be taken for one. */
export const sayWhole = (value: number): string =>
  String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, decimalSign === ',' ? '\u202f' : ',');

/** Of so many bytes: `12 KiB`, `3.1 MiB`. */
export const sayBytes = (bytes: number): string => {
  if (bytes < 1024 ** 2) return `${Math.max(1, Math.round(bytes / 1024))} KiB`;
  return bytes < 1024 ** 3 ? `${fixed(bytes / 1024 ** 2, 1)} MiB` : `${fixed(bytes / 1024 ** 3, 1)} GiB`;
};

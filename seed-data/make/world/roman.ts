/** Roman numeral of a whole number from 1 to 10, as size steps are written. */
export const roman = (value: number): string => {
  const numeral = ['I', 'II', 'III', 'IV', 'V', 'VI', 'VII', 'VIII', 'IX', 'X'][value - 1];
  if (numeral === undefined) throw new Error(`no size step ${value}`);
  return numeral;
};

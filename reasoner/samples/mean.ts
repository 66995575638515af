/** Of one value or more. Taken from the first on, so that values far from zero lose no digits. */
export const meanOf = (values: readonly number[]): number => {
  const [first = Number.NaN] = values;
  return first + values.reduce((sum, value) => sum + (value - first), 0) / values.length;
};

/** The sample standard deviation, with n − 1. Of two values or more. */
export const spreadOf = (values: readonly number[]): number => {
  const mean = meanOf(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
};

/** A column as a spreadsheet calls it, from 0: A, B … Z, AA. */
export const columnName = (column: number): string => {
  let [name, rest] = ['', column + 1];
  for (; rest > 0; rest = Math.floor((rest - 1) / 26)) name = String.fromCharCode(65 + ((rest - 1) % 26)) + name;
  return name;
};

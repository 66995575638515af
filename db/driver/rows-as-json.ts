/**
 * Rows as one text, an array of arrays, for `jsonb_each`: to bind a value takes longer than to read it, and a statement of some thousand question marks is read anew each time.
 * Null where any of them would reach the table as another value than it does bound, or may be refused as a binding: half a surrogate pair, a text with a NUL, at which SQLite ends
 * what it reads of JSON, and numbers of more places than SQLite is sure to read as JavaScript does, which is to the nearest.
 */
export const rowsAsJson = (rows: readonly (readonly unknown[])[]): string | null => {
  for (const row of rows) for (const value of row) if (!isPlain(value)) return null;
  const text = JSON.stringify(rows);
  return /\\u(?:0000|d[89a-f])/.test(text) ? null : text;
};

/** The columns of such a row, in a select over `jsonb_each`. */
export const columnsOfJson = (many: number): string => Array.from({ length: many }, (_, at) => `value ->> ${at}`).join(', ');

const isPlain = (value: unknown): boolean => value === null || typeof value === 'string' || (typeof value === 'number' && isShort(value));

const whole31 = 2 ** 31;

/** A whole number below 2^31, or one of up to four decimals: between two that SQLite could take for each other lie many more places. */
const isShort = (value: number): boolean =>
  Math.abs(value) < whole31 && Math.round(value * 10_000) / 10_000 === value && !Object.is(value, -0);

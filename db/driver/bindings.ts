import { isWellFormed } from '../../reasoner/plain/well-formed.ts';
/** What may be bound to a placeholder. Everything else is bound silently wrong by the driver and is refused here. */
export type Binding = string | number | null | Buffer;

const whole31 = 2 ** 31;

/**
 * Throws a TypeError, naming the placeholder, for a value sqlite3 would alter on its way in: `undefined` and bigint
 * become NULL, an object becomes `[object Object]`, a whole number past 2^31 becomes REAL, half a surrogate pair becomes U+FFFD.
 */
export const checkBindings = (values: readonly unknown[], sql: string): Binding[] =>
  values.map((value, index) => {
    const fault = faultOf(value);
    if (fault !== null) throw new TypeError(`binding ${index + 1} of "${sql.slice(0, 120)}" is ${fault}`);
    return value as Binding;
  });

const faultOf = (value: unknown): string | null => {
  if (value === null || Buffer.isBuffer(value)) return null;
  switch (typeof value) {
    case 'string':
      return isWellFormed(value) ? null : 'a string with half a surrogate pair';
    case 'number':
      if (!Number.isFinite(value)) return `${value}, which is no number SQLite can hold`;
      return Number.isInteger(value) && Math.abs(value) >= whole31 ? `${value}, a whole number past 2^31` : null;
    case 'object':
      return 'an object';
    default:
      return `of type ${typeof value}`;
  }
};

/**
 * Throws for a result the driver could not hand over whole: a column named like an array index would move to the
 * front of the row, and a whole number past 2^53 has lost digits by now.
 */
export const checkRows = (rows: readonly Readonly<Record<string, unknown>>[], sql: string): void => {
  const names = Object.keys(rows[0] ?? {});
  for (const name of names) {
    if (/^(0|[1-9]\d*)$/.test(name)) throw new TypeError(`column "${name}" of "${sql.slice(0, 120)}" must have a name that is no number`);
  }
  for (const row of rows) {
    for (const name of names) {
      const value = row[name];
      if (typeof value === 'number' && (value > Number.MAX_SAFE_INTEGER || value < Number.MIN_SAFE_INTEGER)) {
        throw new TypeError(`column "${name}" of "${sql.slice(0, 120)}" holds ${value}, past what a number can hold exactly`);
      }
    }
  }
};

import type { Statement } from '../driver/driver.ts';
import type { SalvagedRow } from '../salvage/salvage.ts';

/** Puts a row of a file into a table as it is, column by column. */
export const rowInserted = (table: string, row: SalvagedRow, or: '' | 'or ignore' = ''): Statement => {
  const columns = Object.keys(row).filter((column) => row[column] !== undefined);
  return {
    sql: `insert ${or} into ${table} (${columns.map((column) => `"${column}"`).join(', ')}) values (${columns.map(() => '?').join(', ')})`,
    params: columns.map((column) => row[column]),
  };
};

/** No value a driver would refuse to bind; of those every row was made that was ever saved. */
export const canBePut = (row: SalvagedRow): boolean =>
  Object.values(row).every(
    (value) => typeof value !== 'number' || (Number.isInteger(value) ? Math.abs(value) < 2 ** 31 : Number.isFinite(value)),
  );

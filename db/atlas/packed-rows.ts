import type { Reader } from '../driver/driver.ts';
import type { Columns } from './columns.ts';
import type { Packed } from './list.ts';

/** How many rows are read at once where nobody says. */
export const rowsAtOnce = 20_000;

/**
 * Rows of a table by primary key, a page at a time: all of its columns, or those of these names. Rows by themselves cross from the driver at about a hundred a
 * millisecond, each cell an object of its own; so they are packed into one row of JSON texts, a text for each column, and come ten times as fast.
 */
export async function* packedPages(
  connection: Reader,
  columns: Columns,
  where: string,
  values: readonly unknown[],
  page: number = rowsAtOnce,
  names: readonly string[] = columns.names,
): AsyncGenerator<Packed> {
  const { table, key } = columns;
  const read = [...new Set([...key, ...names])];
  const inOrder = key.join(', ');
  const further = `(${inOrder}) > (${key.map(() => '?').join(', ')})`;
  let last: readonly unknown[] = [];
  let packed: Packed;
  do {
    const rows = `select ${read.join(', ')} from ${table} where ${where}${last.length === 0 ? '' : ` and ${further}`} order by ${inOrder} limit ?`;
    packed = await packedRows(
      connection,
      rows,
      [...values, ...last, page],
      read.map((name) => ({ name, real: columns.isReal(name) })),
    );
    yield packed;
    last = packed.rows === 0 ? last : key.map((name) => packed.of(name)[packed.rows - 1]);
  } while (packed.rows === page);
}

interface Column {
  readonly name: string;
  /** Whether it holds numbers that need not be whole. */
  readonly real: boolean;
}

/** What a select gives, by these columns of it. Its order is kept. */
const packedRows = async (connection: Reader, select: string, values: readonly unknown[], columns: readonly Column[]): Promise<Packed> => {
  const [row] = await connection.all<Record<string, string | number>>(
    `select count(*) as rows_in_all, ${columns.map((column) => `json_group_array(${asText(column)}) as ${column.name}`).join(', ')} from (${select})`,
    values,
  );
  if (row === undefined) throw new Error('a count without a row');
  const read = new Map<string, readonly unknown[]>();
  for (const { name, real } of columns) {
    const found = JSON.parse(row[name] as string) as unknown[];
    if (real && !exactly(found)) read.set(name, await asTheyAre(connection, select, values, name));
    else read.set(name, found);
  }
  return {
    rows: row.rows_in_all as number,
    of: (name) => {
      const found = read.get(name);
      if (found === undefined) throw new Error(`no column ${name} was read`);
      return found;
    },
  };
};

/**
 * A number as text would lose its last bits: SQLite writes fifteen digits of it. So it crosses as a whole number of millionths, or, as a string, of billionths of
 * a thousandth, where SQLite itself gets the very same number back by dividing: one division of the same two numbers rounds to the same bits here (IEEE 754).
 */
const asText = ({ name, real }: Column): string => {
  if (!real) return name;
  const times = (many: string) => `cast(round(${name} * ${many}) as integer)`;
  return `case when ${name} is null then null when ${times(fine)} / ${fine} = ${name} then ${times(fine)} when ${times(finest)} / ${finest} = ${name} then '' || ${times(finest)} else '' end`;
};
const [fine, finest] = ['1e6', '1e12'];

/** Turns what crossed into the numbers it stands for; false where there is one that could not. */
const exactly = (column: unknown[]): boolean => {
  for (let at = 0; at < column.length; at += 1) {
    const value = column[at];
    if (typeof value === 'number') column[at] = value / 1e6;
    else if (value === '') return false;
    else if (value !== null) column[at] = Number(value) / 1e12;
  }
  return true;
};

/** Of numbers that are no decimals of twelve places; the driver hands over every bit of them. */
const asTheyAre = async (connection: Reader, select: string, values: readonly unknown[], name: string): Promise<readonly unknown[]> =>
  (await connection.all<{ value: unknown }>(`select ${name} as value from (${select})`, values)).map(({ value }) => value);

import type { Reader } from '../driver/driver.ts';
import { openAsItIs } from '../driver/sqlite-driver.ts';
import { troubleOf } from '../driver/trouble-of.ts';
import { done, failed, type Outcome } from '../trouble.ts';

/** Opens a file that may be damaged, only to read it, for as long as the work takes. What the work cannot get past is a trouble. */
export const readDamaged = async <T>(file: string, work: (reader: Reader) => Promise<T>): Promise<Outcome<T>> => {
  let opened: Awaited<ReturnType<typeof openAsItIs>> | null = null;
  try {
    opened = await openAsItIs(file);
    return done(await work(opened.reader));
  } catch (error) {
    const found = troubleOf(error, file);
    if (found === null) throw error;
    return failed(found);
  } finally {
    await opened?.close().catch(() => undefined);
  }
};

export interface Walk {
  /** What is read of the table, for each row. */
  readonly columns: string;
  readonly table: string;
  /** The columns that tell its rows apart; rows come in their order. */
  readonly keys: readonly string[];
  /** A condition that picks rows, with what its question marks stand for. */
  readonly where?: { readonly sql: string; readonly values: readonly unknown[] };
}

/**
 * Row after row of a table of a file that may be damaged, each fetched by itself, so that all before the damage are had.
 * @returns false where damage was met
 */
export const walkRows = async <Row extends object>(
  reader: Reader,
  file: string,
  { columns, table, keys, where }: Walk,
  way: 'asc' | 'desc',
  take: (row: Row, key: readonly unknown[]) => void,
): Promise<boolean> => {
  const own = where === undefined ? '' : `${where.sql} and `;
  const further = `(${keys.join(', ')}) ${way === 'asc' ? '>' : '<'} (${keys.map(() => '?').join(', ')})`;
  const order = keys.map((key) => `${key} ${way}`).join(', ');
  for (let last: readonly unknown[] = []; ; ) {
    try {
      const rows: (Row & Readonly<Record<string, unknown>>)[] = await reader.all(
        `select ${columns} from ${table} where ${own}${last.length === 0 ? 'true' : further} order by ${order} limit 1`,
        [...(where?.values ?? []), ...last],
      );
      const [row] = rows;
      if (row === undefined) return true;
      last = keys.map((key) => row[key]);
      take(row, last);
    } catch (error) {
      if (troubleOf(error, file)?.code !== 'database-damaged') throw error;
      return false;
    }
  }
};

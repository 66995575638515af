import type { Reader } from '../driver/driver.ts';
import { faultsOfFile } from '../driver/faults-of-file.ts';
import { troubleOf } from '../driver/trouble-of.ts';
import { photoIdOf } from '../shop/case-photos.ts';
import { done, failed, type Outcome } from '../trouble.ts';
import { sheetIn } from './sheet-in.ts';

/** No more faults of one sort are told than this. */
const mostFaults = 20;

/**
 * What is wrong with an atlas file of any size, a line each; none where it is sound. All of it is checked: its pages, rows, indexes and references; that
 * every sheet and every entry of a case can be read, with its verdict; and that every photograph is the one that was saved.
 * Troubles as of `openStore`, but never `database-damaged`.
 */
export const checkAtlas = async (file: string, busyMs = 5000): Promise<Outcome<readonly string[]>> => {
  try {
    return done(await faultsOfFile(file, busyMs, faultsOfRows));
  } catch (error) {
    const found = troubleOf(error, file);
    if (found === null) throw error;
    return failed(found);
  }
};

const faultsOfRows = async (reader: Reader): Promise<readonly string[]> => {
  const tables = new Set(
    (await reader.all<{ name: string }>(`select name from sqlite_master where type = 'table'`)).map(({ name }) => name),
  );
  const faults: string[] = [];
  const say = (fault: string): boolean => faults.push(fault) < mostFaults;
  if (tables.has('sheets'))
    for await (const { id, body } of rowsOf<{ id: string; body: string }>(
      reader,
      `select id, body from sheets where origin = 'own' and id > ? order by id limit 100`,
      'id',
    ))
      if (sheetIn(body) === null && !say(`the sheet ${id} cannot be read`)) return faults;
  if (!tables.has('cases')) return faults;
  for await (const { sheet } of rowsOf<{ sheet: string }>(
    reader,
    'select sheet from cases where sheet > ? order by sheet limit 500',
    'sheet',
  ))
    for (const { n, body, verdict } of await reader.all<{ n: number; body: string; verdict: string }>(
      'select n, body, verdict from case_entries where sheet = ? order by n',
      [sheet],
    ))
      if ((sheetIn(body) === null || !isJsonObject(verdict)) && !say(`entry ${n} of the case of sheet ${sheet} cannot be read`))
        return faults;
  // One at a time: each may be ten megabytes. With its name, so that one that is removed meanwhile is none that was altered.
  for await (const { id, bytes } of rowsOf<{ id: string; bytes: Buffer }>(
    reader,
    'select id, bytes from photos where id > ? order by id limit 1',
    'id',
  ))
    if (photoIdOf(bytes) !== id && !say(`the photograph ${id} is not the one that was saved`)) return faults;
  return faults;
};

/** Rows in pages, by the column they are ordered by. */
async function* rowsOf<Row extends object>(reader: Reader, sql: string, key: keyof Row & string): AsyncGenerator<Row> {
  let rows = await reader.all<Row>(sql, ['']);
  for (let last = rows.at(-1); last !== undefined; last = rows.at(-1)) {
    yield* rows;
    rows = await reader.all<Row>(sql, [last[key]]);
  }
}

const isJsonObject = (text: string): boolean => {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null && !Array.isArray(value);
  } catch {
    return false;
  }
};

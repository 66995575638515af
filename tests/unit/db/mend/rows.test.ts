import { describe, expect, test } from 'vitest';
import { checkBindings } from '../../../../db/driver/bindings.ts';
import { canBePut, rowInserted } from '../../../../db/mend/rows.ts';
import type { SalvagedRow } from '../../../../db/salvage/salvage.ts';
import { freshConnection } from '../kit.ts';

describe('a row of a file, put into a table', () => {
  test('[P3] column by column as it is, but for what could not be read', () => {
    const row: SalvagedRow = { sheet: 'own-1', order: 2, who: undefined, notes: null, bytes: Buffer.from('b') };
    expect(rowInserted('case_details', row)).toEqual({
      sql: 'insert  into case_details ("sheet", "order", "notes", "bytes") values (?, ?, ?, ?)',
      params: ['own-1', 2, null, Buffer.from('b')],
    });
  });

  test('[P3] one that stands there already is an error, or left, as is asked', async () => {
    const connection = await freshConnection();
    await connection.script('create table kept (id text primary key, "order" integer)');
    const put = async ({ sql, params }: ReturnType<typeof rowInserted>) => connection.run(sql, [...params]);
    await put(rowInserted('kept', { id: 'a', order: 1 }));
    await put(rowInserted('kept', { id: 'a', order: 2 }, 'or ignore'));
    await expect(put(rowInserted('kept', { id: 'a', order: 3 }))).rejects.toThrow(/UNIQUE/);
    expect(await connection.all('select * from kept')).toEqual([{ id: 'a', order: 1 }]);
  });

  test.each([
    0,
    -1,
    2 ** 31 - 1,
    -(2 ** 31) + 1,
    2 ** 31,
    -(2 ** 31),
    2 ** 40,
    2 ** 31 + 0.5,
    -0.25,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    null,
    '',
    'text',
    Buffer.from('b'),
  ])('[P3] %s can be put where a driver binds it, and nowhere else', (value) => {
    const bound = (): boolean => {
      try {
        checkBindings([value], 'insert');
        return true;
      } catch {
        return false;
      }
    };
    expect(canBePut({ value })).toBe(bound());
    // One such value is enough, wherever it stands.
    expect(canBePut({ first: 'a', value, last: 1 })).toBe(bound());
  });
});

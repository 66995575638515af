import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Encoded } from '../../../db/atlas/rows.ts';
import { statementsOf } from '../../../db/changes/statements.ts';
import type { Connection } from '../../../db/driver/connection.ts';
import { rowsAsJson } from '../../../db/driver/rows-as-json.ts';
import * as t from '../../../db/schema.ts';
import { freshConnection } from './kit.ts';

/** A table of the name and columns of facts, which takes whatever is written of them. */
const withFacts = async (): Promise<Connection> => {
  const connection = await freshConnection();
  await connection.script(`create table facts (part integer, feature integer, kind text, nominal real, lower real, upper real, code text, any_of text,
    blank integer, present integer, source text, primary key (part, feature)) without rowid`);
  return connection;
};

const factOf = (part: number, text: string | null, size: number | null): Encoded => ({
  table: t.facts,
  values: [part, 1, 'measure', size, size === null ? null : -size, size, text, text, null, 1, text],
  key: [part, 1],
});

/** What is read back of rows that were written. */
const kept = async (connection: Connection, rows: readonly Encoded[]): Promise<readonly (readonly unknown[])[]> => {
  await connection.run('delete from facts');
  for (const { sql, params } of statementsOf([{ write: rows, remove: [] }])) await connection.run(sql, params);
  return (await connection.all('select * from facts order by part')).map((row) => Object.values(row));
};

/** What is no more than a sign apart is the same size. */
const plain = (values: readonly unknown[]): readonly unknown[] => values.map((value) => (Object.is(value, -0) ? 0 : value));

const texts = fc.oneof(
  fc.string({ unit: 'grapheme' }),
  fc.constantFrom('', 'null', '12', '"', '\\', '\\u0000', 'a\nb\r\t\b\f\u001f', '\u2028', '\ufeffx', "it's", '[1]', '{"a":1}', '😀'),
);
const sizes = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }).filter((size) => !Number.isInteger(size) || Math.abs(size) < 2 ** 31),
  fc.integer({ min: -(2 ** 31) + 1, max: 2 ** 31 - 1 }).map((n) => n / 10_000),
  fc.integer({ min: 0, max: 10 ** 9 }).map((n) => n / 10 ** 8),
  fc.constantFrom(0, -0, 0.1 + 0.2, 57.2, 1e-7, 5e-324, 772.602794077694, 0.310793981004962, 5.81764169797156e-25),
);

describe('rows written together', () => {
  test('[H4] are kept to the letter and the last bit, whatever they say', async () => {
    const connection = await withFacts();
    const row = fc.tuple(fc.option(texts), fc.option(sizes));
    await fc.assert(
      fc.asyncProperty(fc.array(row, { minLength: 1, maxLength: 12 }), async (said) => {
        const rows = said.map(([text, size], part) => factOf(part, text, size));
        expect((await kept(connection, rows)).map(plain)).toEqual(rows.map(({ values }) => plain(values)));
      }),
      { numRuns: 300 },
    );
  });

  test('[H4] sizes of four decimals are, all along the way to a metre', async () => {
    const connection = await withFacts();
    for (let from = 1; from < 10 ** 7; from += 10 ** 6 + 7919) {
      const rows = Array.from({ length: 3000 }, (_, n) => factOf(n, null, (from + n * 37) / 10_000));
      expect(rowsAsJson(rows.map(({ values }) => values))).not.toBeNull();
      expect((await kept(connection, rows)).map(plain)).toEqual(rows.map(({ values }) => plain(values)));
    }
  });

  test('[H4] what would come out of JSON as something else is bound by itself', () => {
    const bound: readonly unknown[] = ['a\u0000b', 0.1 + 0.2, 1e-5, -0, Buffer.from('x')];
    for (const value of bound)
      expect(
        rowsAsJson([
          ['a', 1],
          ['b', value],
        ]),
        String(value),
      ).toBeNull();
    expect(rowsAsJson([['a', 1.5, null, 57.2001]])).toBe('[["a",1.5,null,57.2001]]');
  });

  test('[H4] what cannot be bound is refused all the same, and nothing of it is there', async () => {
    const connection = await withFacts();
    for (const value of [undefined, true, 10n, {}, '\ud83d', 2 ** 31, Number.NaN, Number.POSITIVE_INFINITY]) {
      const row: Encoded = { ...factOf(1, null, 1), values: [1, 1, 'measure', 1, 1, 1, value, null, null, 1, null] };
      await expect(kept(connection, [factOf(0, 'x', 1), row]), String(value)).rejects.toThrow(TypeError);
      expect(await connection.all('select * from facts')).toEqual([]);
    }
  });

  test('[H4] rows that go are those of their keys and no others', async () => {
    const connection = await withFacts();
    const rows = Array.from({ length: 9 }, (_, part) => factOf(part, `part ${part}`, part));
    await kept(connection, rows);
    for (const { sql, params } of statementsOf([{ write: [], remove: rows.filter((_, n) => n % 2 === 0) }]))
      await connection.run(sql, params);
    expect((await connection.all<{ part: number }>('select part from facts order by part')).map(({ part }) => part)).toEqual([1, 3, 5, 7]);
  });
});

describe('statements that write', () => {
  test('[H4] kept prepared go on after a failure and after the tables were altered', async () => {
    const connection = await withFacts();
    const put = (part: number) => connection.run('insert into facts (part, feature) values (?, 1)', [part]);
    expect(await put(1)).toBe(1);
    await expect(put(1)).rejects.toThrow(/UNIQUE/);
    await connection.script('alter table facts add column more text');
    expect(await put(2)).toBe(1);
    await expect(
      connection.transaction('immediate', async () => {
        await put(3);
        await put(2);
      }),
    ).rejects.toThrow(/UNIQUE/);
    expect(await connection.all('select part from facts')).toEqual([{ part: 1 }, { part: 2 }]);
    await connection.close();
  });
});

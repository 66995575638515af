import { executionAsyncResource } from 'node:async_hooks';
import { eq, sql } from 'drizzle-orm';
import { describe, expect, test } from 'vitest';
import type { Connection } from '../../../db/driver/connection.ts';
import { migrate } from '../../../db/driver/migrate.ts';
import { insertRows } from '../../../db/driver/statements.ts';
import { migrations } from '../../../db/migrations/index.ts';
import * as t from '../../../db/schema.ts';
import { asId, type SlotId, type StageId } from '../../../reasoner/index.ts';
import { freshConnection, freshFolder } from './kit.ts';

const counted = async (connection: Connection): Promise<number> =>
  (await connection.all<{ c: number }>('select count(*) as c from slip'))[0]?.c ?? -1;

const withSlips = async (): Promise<Connection> => {
  const connection = await freshConnection();
  await connection.script('create table slip (n integer primary key, word text)');
  return connection;
};

const migrated = async (): Promise<Connection> => {
  const connection = await freshConnection();
  await migrate(connection, migrations);
  return connection;
};

describe('transactions', () => {
  test('another caller’s statement waits outside and survives the rollback', async () => {
    const connection = await withSlips();
    let inside = () => {};
    const begun = new Promise<void>((resolve) => {
      inside = resolve;
    });
    const failing = connection.transaction('immediate', async () => {
      await connection.run(`insert into slip (word) values ('lost')`);
      inside();
      await new Promise((resolve) => setTimeout(resolve, 20));
      await connection.run(`insert into slip (word) values ('lost too')`);
      throw new Error('no');
    });
    await begun;
    const other = connection.run(`insert into slip (word) values ('kept')`);
    await expect(failing).rejects.toThrow('no');
    await other;
    expect(await connection.all('select word from slip')).toEqual([{ word: 'kept' }]);
  });

  test('statements side by side inside one transaction all belong to it', async () => {
    const connection = await withSlips();
    await connection.transaction('immediate', async () => {
      await Promise.all(['a', 'b', 'c'].map((word) => connection.run('insert into slip (word) values (?)', [word])));
    });
    expect(await counted(connection)).toBe(3);
  });

  test('a statement nobody waited for is finished before the commit', async () => {
    const connection = await withSlips();
    await connection.transaction('immediate', async () => {
      void connection.run(`insert into slip (word) values ('late')`);
    });
    expect(await counted(connection)).toBe(1);
  });

  test('what a statement nobody waited for goes on to ask is finished before the commit too', async () => {
    const connection = await withSlips();
    let after: Promise<number> = Promise.resolve(0);
    await connection.transaction('immediate', async () => {
      after = connection
        .run(`insert into slip (word) values ('late')`)
        .then(() => connection.run(`insert into slip (word) values ('later')`));
    });
    expect(await after).toBe(1);
    expect((await connection.all<{ word: string }>('select word from slip order by n')).map(({ word }) => word)).toEqual(['late', 'later']);
  });

  test('and before a rollback, which then takes all of it back', async () => {
    const connection = await withSlips();
    let after: Promise<number> = Promise.resolve(0);
    const failed = connection.transaction('immediate', async () => {
      after = connection
        .run(`insert into slip (word) values ('late')`)
        .then(() => connection.run(`insert into slip (word) values ('later')`));
      throw new Error('given up');
    });
    await expect(failed).rejects.toThrow('given up');
    expect(await after).toBe(1);
    expect(await counted(connection)).toBe(0);
  });

  test('a statement of a transaction that has ended is refused', async () => {
    const connection = await withSlips();
    let late: Promise<unknown> = Promise.resolve();
    await connection.transaction('immediate', async () => {
      late = new Promise((resolve) => setTimeout(resolve, 30)).then(() => connection.run(`insert into slip (word) values ('stray')`));
      late.catch(() => undefined);
    });
    await expect(late).rejects.toThrow('transaction that has ended');
    expect(await counted(connection)).toBe(0);
  });

  test('transactions do not nest, and drizzle’s own cannot slip past the queue', async () => {
    const connection = await withSlips();
    await expect(connection.transaction('immediate', () => connection.transaction('immediate', async () => 1))).rejects.toThrow(
      'do not nest',
    );
    await expect(connection.orm.transaction(async () => 1)).rejects.toThrow();
    await expect(connection.run('begin')).rejects.toThrow('Connection.transaction');
    expect(await counted(connection)).toBe(0);
  });

  test('a drizzle query returned unawaited runs inside the transaction', async () => {
    const connection = await migrated();
    await connection.transaction(
      'immediate',
      () => connection.orm.insert(t.meta).values({ key: 'a', value: 'b' }) as unknown as Promise<unknown>,
    );
    expect(await connection.orm.select().from(t.meta)).toEqual([{ key: 'a', value: 'b' }]);
  });

  test('the first error is the one told, also where SQLite has rolled back by itself', async () => {
    const connection = await withSlips();
    await connection.script('create unique index slip_word on slip (word)');
    const twice = connection.transaction('immediate', async () => {
      await connection.run(`insert into slip (word) values ('one')`);
      // "or rollback" ends the transaction inside SQLite, so that our own rollback finds none.
      await connection.run(`insert or rollback into slip (word) values ('one')`);
    });
    await expect(twice).rejects.toThrow(/UNIQUE/);
    await connection.run(`insert into slip (word) values ('two')`);
    expect(await connection.all('select word from slip')).toEqual([{ word: 'two' }]);
  });

  test('after closing everything is refused', async () => {
    const connection = await withSlips();
    await connection.close();
    await connection.close();
    await expect(connection.all('select 1 as one')).rejects.toThrow('closed');
  });

  test('within one of each of two connections a statement belongs to its own', async () => {
    const [one, other] = [await withSlips(), await withSlips()];
    const failing = one.transaction('immediate', async () => {
      await other.transaction('immediate', async () => {
        await one.run(`insert into slip (word) values ('lost')`);
        await other.run(`insert into slip (word) values ('kept')`);
        await expect(one.transaction('immediate', async () => {})).rejects.toThrow('do not nest');
      });
      throw new Error('no');
    });
    await expect(failing).rejects.toThrow('no');
    expect([await counted(one), await counted(other)]).toEqual([0, 1]);
  });

  test('[R6] connections that are closed leave nothing behind that later work would carry along', async () => {
    // What a transaction is known by travels with everything asynchronous that is begun after it, one mark for each connection.
    const carried = async () => {
      await Promise.resolve();
      return Object.getOwnPropertySymbols(executionAsyncResource()).length;
    };
    const before = await carried();
    for (let n = 0; n < 20; n += 1) {
      const connection = await freshConnection();
      await connection.transaction('immediate', () => connection.script('create table slip (n integer primary key)'));
      await connection.close();
    }
    expect(await carried()).toBeLessThan(before + 2);
  });
});

describe('rows', () => {
  test('two joined columns of one name are both kept', async () => {
    const connection = await migrated();
    await connection.run(`insert into stages (id, name, minutes) values ('s', 'stripped', 3)`);
    await connection.run(`insert into slots (id, name, part_group, stage, swap_minutes) values ('w', 'wheel', 'core', 's', 5)`);
    const joined = await connection.orm.select().from(t.slots).innerJoin(t.stages, eq(t.stages.id, t.slots.stage));
    expect(joined).toEqual([
      {
        slots: { id: 'w', name: 'wheel', group: 'core', stage: 's', swapMinutes: 5, alsoCalled: null },
        stages: { id: 's', name: 'stripped', minutes: 3 },
      },
    ]);
  });

  test('the order asked for is kept', async () => {
    const connection = await withSlips();
    for (const word of ['b', 'c', 'a']) await connection.run('insert into slip (word) values (?)', [word]);
    expect((await connection.all<{ word: string }>('select n, word from slip order by word desc')).map(({ word }) => word)).toEqual([
      'c',
      'b',
      'a',
    ]);
    const plan = 'with w as (select word from slip) select word from w order by word limit 2';
    expect(await connection.all(plan)).toEqual([{ word: 'a' }, { word: 'b' }]);
  });

  test('no row is undefined, not an empty one', async () => {
    const connection = await migrated();
    expect(await connection.orm.select().from(t.meta).get()).toBeUndefined();
    await connection.orm.insert(t.meta).values({ key: 'k', value: 'v' });
    expect(await connection.orm.select().from(t.meta).get()).toEqual({ key: 'k', value: 'v' });
  });

  test('a question asked again is answered of the rows and the columns there are by then', async () => {
    const connection = await withSlips();
    const ask = () => connection.all('select * from slip where n > ? order by n', [1]);
    expect(await ask()).toEqual([]);
    await connection.run(`insert into slip (word) values ('a'), ('b'), ('c')`);
    expect(await ask()).toEqual([
      { n: 2, word: 'b' },
      { n: 3, word: 'c' },
    ]);
    await connection.script('alter table slip add column colour text');
    expect((await ask())[0]).toEqual({ n: 2, word: 'b', colour: null });
    await connection.script('drop table slip');
    await expect(ask()).rejects.toThrow('no such table');
    expect(await connection.all('pragma foreign_keys')).toEqual([{ foreign_keys: 0 }]);
    await connection.script('pragma foreign_keys = on');
    expect(await connection.all('pragma foreign_keys')).toEqual([{ foreign_keys: 1 }]);
  });

  test('any number of different questions may be asked, in and out of transactions, and the file is let go of afterwards', async () => {
    const connection = await withSlips();
    for (let n = 0; n < 200; n += 1)
      expect(await connection.all(`select ${n} as c, (select count(*) from slip) as many`)).toEqual([{ c: n, many: 0 }]);
    await expect(connection.all('select key from slip')).rejects.toThrow('no such column');
    await connection.transaction('deferred', () => connection.all('select 1 as c'));
    expect(await connection.all('select 1 as c')).toEqual([{ c: 1 }]);
    await connection.close();
    const other = await freshConnection(connection.file);
    await other.script('pragma locking_mode = exclusive; drop table slip; vacuum');
  });

  test('a column with a number for its name is refused, because it would change places', async () => {
    const connection = await withSlips();
    await expect(connection.all('select 5 as "b", 6 as "1"')).rejects.toThrow('a name that is no number');
  });

  test('a whole number past 2^53 is refused on its way out', async () => {
    const connection = await withSlips();
    await expect(connection.all('select 9007199254740993 as big')).rejects.toThrow('exactly');
  });
});

describe('bindings', () => {
  test.each([
    ['undefined', undefined],
    ['a bigint', 5n],
    ['an object', { a: 1 }],
    ['a date', new Date(0)],
    ['a truth value', true],
    ['NaN', Number.NaN],
    ['infinity', Number.POSITIVE_INFINITY],
    ['a whole number past 2^31', 2 ** 31],
    ['half a surrogate pair', 'a\ud800'],
  ])('%s is refused', async (_, value) => {
    const connection = await withSlips();
    await expect(connection.run('insert into slip (word) values (?)', [value])).rejects.toThrow('binding 1');
    expect(await counted(connection)).toBe(0);
  });

  test('text, numbers, null and bytes come back as they went in', async () => {
    const connection = await freshConnection();
    await connection.script('create table any_of (a text, b real, c integer, d blob, e text)');
    await connection.run('insert into any_of values (?, ?, ?, ?, ?)', [
      'Basalt-QD′ 🌊',
      57.129999999999995,
      -(2 ** 31) + 1,
      Buffer.from([0, 255]),
      null,
    ]);
    expect(await connection.all('select * from any_of')).toEqual([
      { a: 'Basalt-QD′ 🌊', b: 57.129999999999995, c: -(2 ** 31) + 1, d: Buffer.from([0, 255]), e: null },
    ]);
  });

  test('several statements in one run are refused, a semicolon in a text is not', async () => {
    const connection = await withSlips();
    await expect(connection.run(`insert into slip (word) values ('a'); delete from slip`)).rejects.toThrow('several statements');
    await connection.run(`insert into slip (word) values ('a; b')`);
    expect(await counted(connection)).toBe(1);
  });
});

describe('many rows at once', () => {
  test('all arrive, past the limit of bindings in one statement', async () => {
    const connection = await migrated();
    const rows = Array.from({ length: 1234 }, (_, n) => ({
      id: asId<SlotId>(`s${n}`),
      name: `slot ${n}`,
      group: 'core' as const,
      stage: asId<StageId>('x'),
      swapMinutes: n / 8,
    }));
    await connection.script('pragma foreign_keys = off');
    for (const { sql: statement, params } of insertRows(t.slots, rows)) await connection.run(statement, params);
    expect(await connection.orm.$count(t.slots)).toBe(1234);
    expect(
      await connection.orm
        .select()
        .from(t.slots)
        .where(eq(t.slots.id, asId<SlotId>('s1233'))),
    ).toMatchObject([rows[1233] as object]);
  });
});

test('two processes’ connections: the second waits, then is told the file is locked', async () => {
  const file = `${freshFolder()}/shared.sqlite`;
  const one = await freshConnection(file);
  await one.script('create table slip (n integer primary key, word text)');
  const two = await freshConnection(file);
  await one.transaction('immediate', async () => {
    await one.run(`insert into slip (word) values ('one')`);
    await expect(two.run(`insert into slip (word) values ('two')`)).rejects.toMatchObject({ code: 'SQLITE_BUSY' });
  });
  await two.run(`insert into slip (word) values ('two')`);
  expect(await counted(one)).toBe(2);
});

test('drizzle’s errors keep the SQLite one as their cause', async () => {
  const connection = await migrated();
  const failing = connection.orm.run(sql`insert into meta (key) values ('k')`);
  await expect(failing).rejects.toMatchObject({ cause: { code: 'SQLITE_CONSTRAINT' } });
});

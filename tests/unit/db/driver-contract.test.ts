import { join } from 'node:path';
import { eq } from 'drizzle-orm';
import { describe, expect, onTestFinished, test } from 'vitest';
import type { Driver, Guard, Statement } from '../../../db/driver/driver.ts';
import { migrate } from '../../../db/driver/migrate.ts';
import { sqliteDriver } from '../../../db/driver/sqlite-driver.ts';
import { build, insertRows, statementOf } from '../../../db/driver/statements.ts';
import { versionOf } from '../../../db/driver/version.ts';
import { writePlanned } from '../../../db/driver/write-planned.ts';
import { migrations } from '../../../db/migrations/index.ts';
import * as t from '../../../db/schema.ts';
import { trouble } from '../../../db/trouble.ts';
import { asId, type SlotId, type StageId } from '../../../reasoner/index.ts';
import { httpDriver, httpStore } from './http-store.ts';
import { freshConnection, freshFolder } from './kit.ts';

const overSqlite = async (): Promise<Driver> => {
  const connection = await freshConnection();
  await migrate(connection, migrations);
  return sqliteDriver(connection);
};

const overHttp = async (): Promise<Driver> => {
  const store = await httpStore(join(freshFolder(), 'far.sqlite'));
  onTestFinished(() => store.close());
  return httpDriver(store.port);
};

const put = (key: string, value: string): Statement => ({ sql: 'insert into meta (key, value) values (?, ?)', params: [key, value] });
const is = (key: string, value: string, code: 'atlas-changed' | 'not-found' = 'atlas-changed'): Guard => ({
  sql: 'select value = ? from meta where key = ?',
  params: [value, key],
  refusal: trouble(code, key, `It is no longer "${value}".`),
});
const held = (driver: Driver) => driver.all<{ key: string; value: string }>('select key, value from meta order by key');

describe.each([
  ['SQLite in this process', overSqlite],
  ['a store over HTTP that runs lists of statements', overHttp],
])('[H4] %s', (_, open) => {
  test('[H4] a batch is run whole, and says how many rows each of its own statements changed', async () => {
    const driver = await open();
    const written = await driver.write({
      guards: [{ ...is('a', '1'), sql: 'select count(*) = ? and ? is not null from meta', params: [0, 'x'] }],
      statements: [
        put('a', '1'),
        put('b', '1'),
        { sql: 'update meta set value = ?', params: ['2'] },
        { sql: 'delete from meta where key = ?', params: ['c'] },
      ],
      afterwards: [is('b', '2')],
    });
    expect(written).toEqual({ ok: true, value: [1, 1, 2, 0] });
    expect(await held(driver)).toEqual([
      { key: 'a', value: '2' },
      { key: 'b', value: '2' },
    ]);
  });

  test('[H4] the first guard that does not hold names the refusal, and nothing is changed', async () => {
    const driver = await open();
    await driver.write({ statements: [put('a', '1')] });
    const [first, second] = [is('a', '2', 'not-found'), is('a', '3')];
    expect(await driver.write({ guards: [is('a', '1'), first, second], statements: [put('b', '1')] })).toEqual({
      ok: false,
      trouble: first.refusal,
    });
    expect(await driver.write({ guards: [is('a', '1')], statements: [put('b', '1')], afterwards: [is('b', '1'), second, first] })).toEqual({
      ok: false,
      trouble: second.refusal,
    });
    expect(await held(driver)).toEqual([{ key: 'a', value: '1' }]);
  });

  test.each([
    ['zero', 'select 0', []],
    ['null', 'select null', []],
    ['no row', 'select 1 where ? = 2', [1]],
    ['a text that is no number', `select 'no'`, []],
  ])('[H4] a guard does not hold where its value is %s', async (_why, sql, params) => {
    const driver = await open();
    const refusal = trouble('not-found', null, 'No.');
    expect(await driver.write({ guards: [{ sql, params, refusal }], statements: [put('a', '1')] })).toEqual({
      ok: false,
      trouble: refusal,
    });
    expect(await held(driver)).toEqual([]);
  });

  test('[H4] a guard that is no SQL, and a statement that fails, are no refusals; nothing is changed', async () => {
    const driver = await open();
    await expect(
      driver.write({ guards: [{ ...is('a', '1'), sql: 'select key from nowhere', params: [] }], statements: [put('a', '1')] }),
    ).rejects.toThrow(/nowhere/);
    await expect(driver.write({ statements: [put('a', '1'), put('a', '2')] })).rejects.toThrow(/UNIQUE/);
    await expect(
      driver.write({ statements: [put('a', '1'), { sql: 'insert into meta values (?, ?)', params: ['b', undefined] }] }),
    ).rejects.toThrow('binding 2');
    expect(await held(driver)).toEqual([]);
    await driver.write({ statements: [put('a', '1')] });
    expect(await held(driver)).toHaveLength(1);
  });

  test('[H4] statements that are made while they run are run like any others; where making them fails, nothing is changed', async () => {
    const driver = await open();
    function* statements() {
      for (let n = 0; n < 3; n += 1) yield put(`k${n}`, String(n));
    }
    expect(await driver.write({ statements: statements() })).toEqual({ ok: true, value: [1, 1, 1] });
    function* failing() {
      yield put('more', '1');
      throw new Error('given up');
    }
    await expect(driver.write({ statements: failing() })).rejects.toThrow('given up');
    expect(await held(driver)).toHaveLength(3);
  });

  const stage = { id: asId<StageId>('s'), name: 'stripped', minutes: 3 };
  const slot = (n: number) => ({
    id: asId<SlotId>(`w${n}`),
    name: `wheel ${n}`,
    group: 'core' as const,
    stage: stage.id,
    swapMinutes: n / 8,
  });

  test('[H4] rows may come before what they refer to; at the end every reference must hold', async () => {
    const driver = await open();
    const slots = Array.from({ length: 1234 }, (_, n) => slot(n));
    expect(await driver.write({ statements: [...insertRows(t.slots, slots), ...insertRows(t.stages, [stage])] })).toMatchObject({
      ok: true,
    });
    expect(await driver.read(({ orm }) => orm.$count(t.slots))).toBe(1234);
    await expect(driver.write({ statements: [statementOf(build.delete(t.stages))] })).rejects.toThrow(/FOREIGN KEY/);
    expect(
      await driver.read(({ orm }) =>
        orm
          .select()
          .from(t.slots)
          .where(eq(t.slots.id, asId('w1233'))),
      ),
    ).toEqual([{ ...slot(1233), alsoCalled: null }]);
    expect(await driver.read(({ orm }) => orm.select().from(t.stages))).toEqual([stage]);
    await driver.write({ statements: insertRows(t.stages, [stage, { ...stage, id: asId<StageId>('r') }], 'on conflict do nothing') });
    expect(await driver.all('select id from stages order by id')).toEqual([{ id: 'r' }, { id: 's' }]);
  });

  test('[H4] bytes, text, numbers and null come back as they went in', async () => {
    const driver = await open();
    const params = ['Basalt-QD′ 🌊', 57.129999999999995, -(2 ** 31) + 1, Buffer.from([0, 255]), null];
    expect(await driver.all('select ? as a, ? as b, ? as c, ? as d, ? as e', params)).toEqual([
      { a: params[0], b: params[1], c: params[2], d: params[3], e: null },
    ]);
    await driver.write({ statements: [put('Basalt-QD′ 🌊', '')] });
    expect(await held(driver)).toEqual([{ key: 'Basalt-QD′ 🌊', value: '' }]);
  });

  test('[H4] several reads are of one state, whoever writes between them', async () => {
    const driver = await open();
    await driver.write({ statements: [put('a', '0')] });
    let [stop, writes] = [false, 0];
    const writer = (async () => {
      while (!stop) {
        await driver.write({ statements: [{ sql: 'update meta set value = value + 1', params: [] }] });
        writes += 1;
        await new Promise((resolve) => setTimeout(resolve, 8));
      }
    })();
    for (let n = 0; n < 20; n += 1) {
      const [one, two] = await driver.read(async ({ all }) => {
        const first = await all('select value from meta');
        await new Promise((resolve) => setTimeout(resolve, n % 3));
        return [first, await all('select value from meta')];
      });
      expect(two).toEqual(one);
    }
    stop = true;
    await writer;
    expect(writes).toBeGreaterThan(0);
  });

  test('[H5] what was planned of a state somebody else has since changed is planned anew, and of twenty at once none is lost', async () => {
    const driver = await open();
    await driver.write({ statements: [put('count', '0')] });
    let plans = 0;
    const addOne = () =>
      writePlanned(driver, async (reader) => {
        plans += 1;
        const [row] = await reader.all<{ value: string }>(`select value from meta where key = 'count'`);
        const value = row?.value ?? '';
        return {
          batch: {
            guards: [is('count', value)],
            statements: [{ sql: `update meta set value = ? where key = 'count'`, params: [String(Number(value) + 1)] }],
          },
          value: Number(value) + 1,
        };
      });
    const answers = await Promise.allSettled(Array.from({ length: 20 }, addOne));
    const counted = answers.flatMap((answer) => (answer.status === 'fulfilled' ? [answer.value] : []));
    expect([...counted].sort((a, b) => a - b)).toEqual(counted.map((_, i) => i + 1));
    expect(await held(driver)).toEqual([{ key: 'count', value: String(counted.length) }]);
    for (const answer of answers)
      if (answer.status === 'rejected') expect(answer.reason).toMatchObject({ trouble: { code: 'atlas-changed' } });
    expect(plans).toBeGreaterThan(20);
  });

  test('[H5] a plan is given up after five states, with the refusal; one that has nothing to change writes nothing', async () => {
    const driver = await open();
    let plans = 0;
    const never = writePlanned(driver, async () => {
      plans += 1;
      return { batch: { guards: [is('a', '1')], statements: [put('b', '1')] }, value: null };
    });
    await expect(never).rejects.toMatchObject({ trouble: { code: 'atlas-changed' } });
    expect(plans).toBe(5);
    expect(await writePlanned(driver, async () => ({ batch: null, value: 'nothing to do' }))).toBe('nothing to do');
    expect(await held(driver)).toEqual([]);
  });

  test('[H4] after closing everything is refused', async () => {
    const driver = await open();
    await driver.close();
    await expect(driver.write({ statements: [put('a', '1')] })).rejects.toThrow('closed');
    await expect(driver.read(({ all }) => all('select 1 as one'))).rejects.toThrow('closed');
  });
});

test('[H5] a version is the hash of what is said, however its keys are ordered; another word is another version', () => {
  expect(versionOf({ a: 1, b: [{ d: null, c: 'x' }] })).toBe(versionOf({ b: [{ c: 'x', d: null, e: undefined }], a: 1 }));
  const seen = [{}, { a: 1 }, { a: '1' }, { a: [1, 2] }, { a: [2, 1] }, { a: { b: 1 } }, { a: null }, null, 'null'].map(versionOf);
  expect(new Set(seen).size).toBe(seen.length);
  expect(seen[0]).toMatch(/^[0-9a-f]{64}$/);
});

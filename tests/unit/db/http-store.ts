import { createServer, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import { drizzle } from 'drizzle-orm/sqlite-proxy';
import sqlite3 from 'sqlite3';
import { changedBy, isRefusal, type Step, stepsOf } from '../../../db/driver/batch.ts';
import { checkBindings } from '../../../db/driver/bindings.ts';
import type { Driver, Reader, Row } from '../../../db/driver/driver.ts';
import { migrations } from '../../../db/migrations/index.ts';
import * as schema from '../../../db/schema.ts';
import { done, failed, TroubleError, trouble } from '../../../db/trouble.ts';

/**
 * A store of rows that is reached over HTTP and has no transactions to hold open: `POST /query` answers one reading statement and says of which
 * state, `POST /execute` runs a list of statements whole or not at all and says which of them failed. Its SQLite is its own.
 */
export const httpStore = async (file: string): Promise<{ readonly port: number; close(): Promise<void> }> => {
  const database = await new Promise<sqlite3.Database>((resolve, reject) => {
    const opening: sqlite3.Database = new sqlite3.Database(file, (error) => (error ? reject(error) : resolve(opening)));
  });
  const exec = (sql: string) => new Promise<void>((resolve, reject) => database.exec(sql, (error) => (error ? reject(error) : resolve())));
  const all = (sql: string, params: unknown[]) =>
    new Promise<Row[]>((resolve, reject) => database.all<Row>(sql, params, (error, rows) => (error ? reject(error) : resolve(rows))));
  const run = (sql: string, params: unknown[]) =>
    new Promise<number>((resolve, reject) =>
      database.run(sql, params, function (error) {
        if (error) reject(error);
        else resolve(this.changes);
      }),
    );
  if ((await all('select name from sqlite_master', [])).length === 0) for (const { sql } of migrations) await exec(sql);
  await exec('pragma foreign_keys = on');
  let state = 0;
  let turn: Promise<unknown> = Promise.resolve();

  const execute = async (statements: readonly [string, unknown[]][]): Promise<object> => {
    const changed: number[] = [];
    await exec('begin immediate');
    for (const [sql, params] of statements) {
      try {
        changed.push(await run(sql, params));
      } catch (error) {
        await exec('rollback').catch(() => undefined);
        return { failed: changed.length, error: String(error) };
      }
    }
    try {
      await exec('commit');
    } catch (error) {
      await exec('rollback');
      return { failed: changed.length, error: String(error) };
    }
    state += 1;
    return { changed };
  };

  const server = createServer(async (request, response) => {
    const body = JSON.parse(await textOf(request), revive);
    const answer = turn.then(async () => {
      if (request.url === '/execute') return await execute(body);
      try {
        return { rows: await all(`select * from (${body[0]})`, body[1]), state };
      } catch (error) {
        return { error: String(error) };
      }
    });
    turn = answer;
    response.end(JSON.stringify(await answer, replace));
  });
  // Node ends a connection that was idle for five seconds, which on a machine with other work may be the very moment of the next question.
  server.keepAliveTimeout = 0;
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    port: (server.address() as AddressInfo).port,
    close: async () => {
      await new Promise((resolve) => server.close(resolve));
      await new Promise<void>((resolve, reject) => database.close((error) => (error ? reject(error) : resolve())));
    },
  };
};

/** A driver over such a store. Reads of one state are had by asking which state each answer is of, and beginning again where it moved on. */
export const httpDriver = (port: number): Driver => {
  const file = `http://127.0.0.1:${port}`;
  let closed = false;
  const post = async (path: string, body: unknown): Promise<Record<string, unknown>> => {
    if (closed) throw new Error('the driver is closed');
    const answer = await fetch(file + path, { method: 'POST', body: JSON.stringify(body, replace) });
    return JSON.parse(await answer.text(), revive);
  };
  const readerOf = (seen: (state: number) => void): Reader => {
    const all = async <T>(sql: string, params: readonly unknown[] = []): Promise<T[]> => {
      const { rows, state, error } = await post('/query', [sql.trim().replace(/;$/, ''), checkBindings(params, sql)]);
      if (error !== undefined) throw new Error(String(error));
      seen(state as number);
      return rows as T[];
    };
    const orm = drizzle(
      async (sql, params, method) => {
        const rows = (await all<Row>(sql, params)).map((row) => Object.values(row));
        return { rows: method === 'get' ? (rows[0] as unknown[]) : rows };
      },
      { schema },
    );
    return { file, all, orm };
  };
  return {
    file,
    all: (sql, params) => readerOf(() => undefined).all(sql, params),
    read: async (body) => {
      for (let tries = 0; tries < 20; tries += 1) {
        const states = new Set<number>();
        const value = await body(readerOf((state) => states.add(state)));
        if (states.size < 2) return value;
      }
      throw new TroubleError(trouble('database-locked', file, 'The store is being written to over and over.'));
    },
    write: async (batch) => {
      const steps: Step[] = [...stepsOf(batch)];
      const answer = await post(
        '/execute',
        steps.map(({ sql, params }) => [sql, checkBindings(params, sql)]),
      );
      if (answer.error === undefined) return done(changedBy(steps, answer.changed as number[]));
      const step = steps[answer.failed as number];
      if (step?.guard && isRefusal(step, String(answer.error))) return failed(step.guard.refusal);
      throw new Error(String(answer.error));
    },
    close: async () => {
      closed = true;
    },
  };
};

const textOf = async (request: IncomingMessage): Promise<string> => {
  const pieces: Buffer[] = [];
  for await (const piece of request) pieces.push(piece);
  return Buffer.concat(pieces).toString('utf8');
};

/** Bytes travel as base64; `JSON.stringify` has made an object of a Buffer before it asks. */
const replace = (_: string, value: unknown): unknown =>
  typeof value === 'object' && value !== null && 'type' in value && value.type === 'Buffer'
    ? { base64: Buffer.from((value as unknown as { data: number[] }).data).toString('base64') }
    : value;
const revive = (_: string, value: unknown): unknown =>
  typeof value === 'object' && value !== null && 'base64' in value ? Buffer.from(String(value.base64), 'base64') : value;

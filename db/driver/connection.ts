import { AsyncLocalStorage } from 'node:async_hooks';
import { pathToFileURL } from 'node:url';
import { drizzle, type SqliteRemoteDatabase } from 'drizzle-orm/sqlite-proxy';
import sqlite3 from 'sqlite3';
import * as schema from '../schema.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { checkBindings, checkRows } from './bindings.ts';
import type { Row } from './driver.ts';
import { type OnlineCopy, onlineCopy } from './online-copy.ts';
import { fileAt } from './whose-place.ts';

export interface ConnectionOptions {
  /** `write` creates the file when it is missing. `immutable` reads a file in a folder nothing may be written to. */
  readonly mode: 'write' | 'read' | 'immutable';
  /** How long a statement waits for another process's lock, in milliseconds. */
  readonly busyMs: number;
}

/** One open transaction. Statements that carry it run inside; once it is finished they are refused. */
class Transaction {
  finished = false;
  /** Statements of one transaction run one after the other, in the order they were asked for. */
  tail: Promise<unknown> = Promise.resolve();
  readonly of: Connection;
  /** The transaction of another connection it was begun in. */
  readonly around: Transaction | undefined;

  constructor(of: Connection, around: Transaction | undefined) {
    this.of = of;
    this.around = around;
  }
}

/** The innermost transaction. One for all connections: every promise made after the first use carries what such a storage holds, one more for each there ever was. */
const inside = new AsyncLocalStorage<Transaction>();

/**
 * The one connection to an atlas file: promises over sqlite3, and drizzle over its proxy.
 *
 * Statements wait for one another, so that nobody's statement lands inside somebody else's transaction. A statement
 * belongs to a transaction when it is asked for, however deep, from the function given to `transaction`.
 * Expected SQLite failures reach the caller as sqlite3's errors; `troubleOf` reads them.
 */
export class Connection {
  readonly file: string;
  readonly orm: SqliteRemoteDatabase<typeof schema>;
  readonly #database: sqlite3.Database;
  #tail: Promise<unknown> = Promise.resolve();
  #state: 'open' | 'closed' | 'broken' = 'open';
  readonly #kept = new Map<string, sqlite3.Statement>();
  readonly #opened: string | null;

  private constructor(file: string, database: sqlite3.Database) {
    this.file = file;
    this.#database = database;
    this.#opened = fileAt(file);
    this.orm = drizzle(
      async (sql, params, method) => {
        if (method === 'run') {
          await this.run(sql, params);
          return { rows: [] };
        }
        const rows = (await this.all(sql, params)).map((row) => Object.values(row));
        // drizzle reads "no row" from `undefined` only; its types know arrays alone.
        return { rows: method === 'get' ? (rows[0] as unknown[]) : rows };
      },
      { schema },
    );
  }

  static async open(file: string, options: ConnectionOptions): Promise<Connection> {
    const { OPEN_READWRITE, OPEN_CREATE, OPEN_READONLY, OPEN_URI, OPEN_FULLMUTEX } = sqlite3;
    const [name, flags] =
      options.mode === 'write'
        ? [file, OPEN_READWRITE | OPEN_CREATE | OPEN_FULLMUTEX]
        : options.mode === 'read'
          ? [file, OPEN_READONLY | OPEN_FULLMUTEX]
          : [`${pathToFileURL(file).href}?immutable=1`, OPEN_READONLY | OPEN_URI | OPEN_FULLMUTEX];
    const database = await new Promise<sqlite3.Database>((resolve, reject) => {
      const opening: sqlite3.Database = new sqlite3.Database(name, flags, (error) => (error ? reject(error) : resolve(opening)));
    });
    database.configure('busyTimeout', options.busyMs);
    return new Connection(file, database);
  }

  /** Rows of a reading statement, or of one with `returning`. Columns of one name are all kept, numbered by SQLite (`id`, `id:1`). */
  async all<T = Row>(sql: string, params: readonly unknown[] = []): Promise<T[]> {
    refuseControl(sql);
    const bindings = checkBindings(params, sql);
    const reads = /^\s*(select|with|values)\b/i.test(sql);
    const whole = reads ? `select * from (${sql.trim().replace(/;$/, '')}\n)` : sql;
    return await this.#inTurn(async () => {
      // Not so a pragma: some are carried out when they are prepared.
      const of = reads ? await this.#prepared(whole) : null;
      const rows = await new Promise<Row[]>((resolve, reject) => {
        const found = (error: Error | null, rowsFound: Row[]) => (error ? reject(error) : resolve(rowsFound));
        if (of === null) this.#database.all<Row>(whole, bindings, found);
        else of.all<Row>(bindings, found);
      });
      checkRows(rows, sql);
      return rows as T[];
    });
  }

  /**
   * Statements that read, and those that write, are prepared once and kept, the one asked for last at the end: to read the SQL of a larger one takes SQLite
   * as long as to answer it, and each goes over to its thread once and not three times. They come in turn, so that none is asked for twice at once.
   */
  async #prepared(sql: string): Promise<sqlite3.Statement> {
    const known = this.#kept.get(sql);
    const statement =
      known ??
      (await new Promise<sqlite3.Statement>((resolve, reject) => {
        const made: sqlite3.Statement = this.#database.prepare(sql, (error: Error | null) => (error ? reject(error) : resolve(made)));
      }));
    this.#kept.delete(sql);
    this.#kept.set(sql, statement);
    const [oldest] = this.#kept;
    if (this.#kept.size > mostKept && oldest !== undefined) {
      this.#kept.delete(oldest[0]);
      await finalized(oldest[1]);
    }
    return statement;
  }

  /** Runs one writing statement; the number of rows it changed. */
  async run(sql: string, params: readonly unknown[] = []): Promise<number> {
    refuseControl(sql);
    const bindings = checkBindings(params, sql);
    // Such as have a question mark for each of many values are hardly ever asked for again.
    const kept = sql.length <= longestKept && /^\s*(insert|update|delete)\b/i.test(sql);
    return await this.#inTurn(async () => {
      const of = kept ? await this.#prepared(sql) : null;
      return await new Promise<number>((resolve, reject) => {
        const ran = function (this: sqlite3.RunResult, error: Error | null) {
          if (error) reject(error);
          else resolve(this.changes);
        };
        if (of === null) this.#database.run(sql, bindings, ran);
        else of.run(bindings, ran);
      });
    });
  }

  /** Runs several statements without bindings: migrations, and pragmas. */
  async script(sql: string): Promise<void> {
    await this.#inTurn(() => this.#exec(sql));
  }

  /**
   * Runs `body` in one transaction: all of it, or, when it throws, none. The first error is the one thrown.
   * `immediate` takes the write lock at once; `exclusive` also keeps other processes from reading outside WAL.
   */
  async transaction<T>(kind: 'deferred' | 'immediate' | 'exclusive', body: () => Promise<T>): Promise<T> {
    if (this.#transaction() !== undefined) throw new Error('a transaction is already open here; transactions do not nest');
    return await this.#inTurn(async () => {
      const transaction = new Transaction(this, inside.getStore());
      await this.#exec(`begin ${kind}`);
      try {
        // Awaited inside: a drizzle query runs only once it is awaited, and must be the transaction's by then.
        const value = await inside.run(transaction, async () => await body());
        await finish(transaction);
        await this.#exec('commit');
        return value;
      } catch (first) {
        await finish(transaction);
        await this.#rollBack();
        throw first;
      }
    });
  }

  /** Whether another file stands in this one's place by now, or none: SQLite goes on with the one it opened, wherever that was put. */
  movedAway(): boolean {
    return fileAt(this.file) !== this.#opened;
  }

  /** Begins an online copy of this file (`out` into another, or of another `in` to it). It takes no turn: whoever begins it lets nobody else use the connection until its end. */
  copy(file: string, way: 'out' | 'in'): Promise<OnlineCopy> {
    return onlineCopy(this.#database, file, way);
  }

  /** Waits for what is running, then closes. Everything asked for afterwards is refused. */
  async close(): Promise<void> {
    if (this.#state === 'closed') return;
    await this.#inTurn(async () => {
      this.#state = 'closed';
      for (const statement of this.#kept.values()) await finalized(statement);
      await new Promise<void>((resolve, reject) => this.#database.close((error) => (error ? reject(error) : resolve())));
    }, true);
  }

  /** A failed statement may have ended the transaction already (a full disk does); any other failure leaves the connection unsafe. */
  async #rollBack(): Promise<void> {
    try {
      await this.#exec('rollback');
    } catch (error) {
      if (!/no transaction is active/.test(String(error))) this.#state = 'broken';
    }
  }

  /** That of this connection the caller is in, finished or not. */
  #transaction(): Transaction | undefined {
    let found = inside.getStore();
    while (found !== undefined && found.of !== this) found = found.around;
    return found;
  }

  #exec(sql: string): Promise<void> {
    return new Promise((resolve, reject) => {
      this.#database.exec(sql, (error) => (error ? reject(error) : resolve()));
    });
  }

  #inTurn<T>(step: () => Promise<T>, closing = false): Promise<T> {
    const transaction = this.#transaction();
    if (transaction?.finished) return Promise.reject(new Error('this statement belongs to a transaction that has ended'));
    const queue = transaction ?? { tail: this.#tail };
    const turn = queue.tail.then(() => {
      if (this.#state === 'broken' && !closing) throw new TroubleError(brokenOff(this.file));
      if (this.#state === 'closed') throw new Error(`the connection to ${this.file} is closed`);
      return step();
    });
    const settled = turn.catch(() => undefined);
    if (transaction) transaction.tail = settled;
    else this.#tail = settled;
    return turn;
  }
}

/** So many statements are kept prepared. */
const mostKept = 64;

/** And of those that write none of more characters. */
const longestKept = 4000;

const finalized = (statement: sqlite3.Statement): Promise<void> => new Promise((resolve) => statement.finalize(() => resolve()));

const brokenOff = (file: string) =>
  trouble(
    'database-io',
    file,
    `A change of the atlas file could not be taken back. Nothing half-done is in it; close the program and open it again: ${file}`,
  );

/**
 * Waits for every statement of a transaction, those nobody waited for among them, and for what they go on to ask; then no more are taken.
 * Between the last look and the end nothing may come: a statement let in there would run after commit or rollback, in nobody's transaction.
 */
const finish = async (transaction: Transaction): Promise<void> => {
  for (let tail: Promise<unknown> | null = null; tail !== transaction.tail; ) {
    tail = transaction.tail;
    await tail;
    // Whoever waited for that statement is told before the loop turns, and asks again by then.
    await new Promise((turned) => setImmediate(turned));
  }
  transaction.finished = true;
};

/** `run` would execute only the first of several statements, and a bare `begin` would slip past the queue. */
const refuseControl = (sql: string): void => {
  if (/^\s*(begin|commit|end|rollback|savepoint|release)\b/i.test(sql))
    throw new Error(`"${sql.slice(0, 40)}" is for Connection.transaction alone`);
  if (/;\s*\S/.test(sql.replace(/'[^']*'/g, "''"))) throw new Error(`several statements in "${sql.slice(0, 80)}"; use script`);
};

import type { SqliteRemoteDatabase } from 'drizzle-orm/sqlite-proxy';
import type * as schema from '../schema.ts';
import type { Outcome, Trouble } from '../trouble.ts';

/** A row as it is read. Columns of one name are all kept, numbered (`id`, `id:1`). */
export type Row = Record<string, string | number | null | Buffer>;

/** One statement that writes, with what its question marks stand for (`bindings.ts`). It gives back no rows. */
export interface Statement {
  readonly sql: string;
  readonly params: readonly unknown[];
}

/** What a batch rests on. */
export interface Guard {
  /** A select of one value, with its question marks. The guard holds where that value is true: neither zero, nor null, nor no row. */
  readonly sql: string;
  readonly params: readonly unknown[];
  /** What is told when it does not hold. */
  readonly refusal: Trouble;
}

/**
 * A change of the store as one value: made beforehand from what was read, then run whole or not at all. Nothing is read between
 * its statements. References between rows are asked for at its end, so that rows may come in any order.
 */
export interface Batch {
  /** Asked in turn before anything is written. */
  readonly guards?: readonly Guard[];
  /** Run in turn. They may be made while they run, so that a large change need not stand in memory. */
  readonly statements: Iterable<Statement>;
  /** Asked in turn of what the statements would leave. */
  readonly afterwards?: readonly Guard[];
}

/** What can be asked of a store. Expected failures are thrown as TroubleErrors; anything else that is thrown is a bug. */
export interface Reader {
  /** Where the store is, for troubles. */
  readonly file: string;
  /** Rows of a reading statement. */
  all<T = Row>(sql: string, params?: readonly unknown[]): Promise<T[]>;
  /** The same through drizzle; it can only read. */
  readonly orm: Pick<SqliteRemoteDatabase<typeof schema>, 'select' | 'selectDistinct' | '$count'>;
}

/**
 * A store of rows: reads, and writes as one batch. All that is asked of what stands behind it is that it speaks SQLite's SQL, says which
 * state an answer is of, and runs a list of statements as one transaction, telling which of them failed. SQLite in this process does
 * (`sqlite-driver.ts`); so does a store reached over HTTP, where nobody can hold a transaction open from afar.
 */
export interface Driver {
  readonly file: string;
  /** Rows of one reading statement. */
  all<T = Row>(sql: string, params?: readonly unknown[]): Promise<T[]>;
  /** Several reads of one and the same state. `body` does nothing but read: it may be run again where the state moved on under it. */
  read<T>(body: (reader: Reader) => Promise<T>): Promise<T>;
  /** Runs a batch. The number of rows each statement changed; or, nothing being changed, the refusal of the first guard that did not hold. */
  write(batch: Batch): Promise<Outcome<readonly number[]>>;
  /** Waits for what is running. What is asked for afterwards is refused. */
  close(): Promise<void>;
}

import sqlite3 from 'sqlite3';

type Row = readonly (string | number | null)[];

/** SQLite in memory, as a plain program would use it: no layer between. */
export class MemoryDatabase {
  readonly #database = new sqlite3.Database(':memory:');
  readonly #statements = new Map<string, sqlite3.Statement>();

  async run(sql: string): Promise<void> {
    await new Promise<void>((done, fail) => this.#database.exec(sql, (error) => (error === null ? done() : fail(error))));
  }

  /** Rows into a table of so many columns, in few calls. */
  async fill(table: string, columns: number, rows: readonly Row[]): Promise<void> {
    const values = Array.from({ length: columns }, (_, i) => `value ->> ${i}`).join(', ');
    for (let at = 0; at < rows.length; at += 50_000) {
      const some = JSON.stringify(rows.slice(at, at + 50_000));
      await this.all(`insert into ${table} select ${values} from json_each(?)`, [some]);
    }
  }

  async all<T>(sql: string, values: Row = []): Promise<T[]> {
    return new Promise((done, fail) =>
      this.#database.all(sql, [...values], (error: Error | null, rows: T[]) => (error === null ? done(rows) : fail(error))),
    );
  }

  /** The same of a statement that is asked often: it is prepared once. */
  async kept<T>(sql: string, values: Row = []): Promise<T[]> {
    const statement = this.#statements.get(sql) ?? this.#database.prepare(sql);
    this.#statements.set(sql, statement);
    return new Promise((done, fail) => statement.all<T>([...values], (error, rows) => (error === null ? done(rows) : fail(error))));
  }

  async close(): Promise<void> {
    for (const statement of this.#statements.values()) await new Promise<void>((done) => statement.finalize(() => done()));
    await new Promise<void>((done, fail) => this.#database.close((error) => (error === null ? done() : fail(error))));
  }
}

import type sqlite3 from 'sqlite3';

/** One of SQLite's online backups under way (sqlite.org/backup.html). */
export interface OnlineCopy {
  /** Copies so many pages more, all that are left where it is negative. `busy`: somebody else is writing; the same again may do. Throws as SQLite fails. */
  step(pages: number): Promise<'done' | 'more' | 'busy'>;
  /** Ends it. What is not done by then leaves no trace in the database it goes into. */
  end(): Promise<void>;
}

/** What sqlite3 has of a backup, which its own types leave out (its `lib/sqlite3.js` names it). */
interface Backup {
  step(pages: number, done: (error: (Error & { code?: string }) | null, completed: boolean) => void): void;
  finish(done: () => void): void;
}

interface BackingUp {
  backup(file: string, to: string, from: string, fileIsTo: boolean, done: (error: Error | null) => void): Backup;
}

/**
 * Begins a copy between a database and a file. `out`: of the database into the file, which should be new. `in`: of the file into the database. From the first step to
 * the end the database it goes into is locked for writing, and shows nothing of it before the last page is in; its readers go on with what was there.
 * A database that holds a reading transaction is copied as it was when that began, whoever writes meanwhile.
 */
export const onlineCopy = async (database: sqlite3.Database, file: string, way: 'out' | 'in'): Promise<OnlineCopy> => {
  const backup = await new Promise<Backup>((resolve, reject) => {
    const begun: Backup = (database as unknown as BackingUp).backup(file, 'main', 'main', way === 'out', (error) =>
      error ? reject(error) : resolve(begun),
    );
  });
  return {
    step: (pages) =>
      new Promise((resolve, reject) => {
        backup.step(pages, (error, completed) => {
          if (error === null || error === undefined) resolve(completed ? 'done' : 'more');
          else if (error.code === 'SQLITE_BUSY' || error.code === 'SQLITE_LOCKED') resolve('busy');
          else reject(error);
        });
      }),
    end: () => new Promise((resolve) => backup.finish(() => resolve())),
  };
};

import { asc, eq } from 'drizzle-orm';
import type { Reader, Statement } from '../../driver/driver.ts';
import { insertRows } from '../../driver/statements.ts';
import * as t from '../../schema.ts';
import type { CarriedRecord } from '../seen.ts';

/** What a change carried from id to id, in turn. */
export const carriedBy = async ({ orm }: Reader, change: number): Promise<readonly CarriedRecord[]> =>
  (await orm.select().from(t.journalCarried).where(eq(t.journalCarried.entry, change)).orderBy(asc(t.journalCarried.turn))).map(
    ({ entry: _entry, turn: _turn, ...record }) => record,
  );

/** Keeps it, in the batch that makes the change. */
export const recordStatements = (change: number, records: readonly CarriedRecord[]): readonly Statement[] => [
  ...insertRows(
    t.journalCarried,
    records.map((record, turn) => ({ entry: change, turn, ...record })),
  ),
];

import { and, desc, eq, sql } from 'drizzle-orm';
import type { CaseVerdict, Sheet, SheetId } from '../../reasoner/index.ts';
import type { Connection } from '../driver/connection.ts';
import type { Reader } from '../driver/driver.ts';
import * as t from '../schema.ts';
import { parseSheet } from '../sheets/read-sheet.ts';
import { TroubleError, trouble } from '../trouble.ts';
import type { CaseDetails, CaseEntry, CaseFile } from './case.ts';
import { dayOf, numberText } from './case-number.ts';
import { photosOf } from './case-photos.ts';
import { noSuchCase } from './check-case.ts';

/** What a sheet is saved with: the verdict on it, and who saved it. */
export interface Judged {
  readonly verdict: CaseVerdict;
  readonly who: string;
}

/**
 * Opens a case for a sheet that has none yet: the next number of the year, and what is known beside it. Called inside the transaction
 * that saves the sheet. Gives whether it was opened now.
 */
export const openCase = async (connection: Connection, sheet: SheetId, who: string, now: Date): Promise<boolean> => {
  const [held] = await connection.orm.select({ sheet: t.cases.sheet }).from(t.cases).where(eq(t.cases.sheet, sheet));
  if (held !== undefined) return false;
  const openedOn = dayOf(now);
  const year = Number(openedOn.slice(0, 4));
  const [given] = await connection.orm
    .insert(t.caseNumbers)
    .values({ year, last: 1 })
    .onConflictDoUpdate({ target: t.caseNumbers.year, set: { last: sql`${t.caseNumbers.last} + 1` } })
    .returning();
  if (given === undefined) throw new Error('a case number came back as nothing');
  await connection.orm.insert(t.cases).values({ sheet, year, number: given.last, openedOn });
  await connection.orm.insert(t.caseDetails).values({ sheet, n: 1, at: now.toISOString(), customer: '', lookedBy: who, notes: '' });
  return true;
};

/** Keeps an entry where sheet or verdict are not those of the last one. Called inside the transaction that saves the sheet. */
export const keepEntry = async (connection: Connection, sheet: Sheet, { verdict, who }: Judged, at: string): Promise<boolean> => {
  const [last] = await connection.orm
    .select()
    .from(t.caseEntries)
    .where(eq(t.caseEntries.sheet, sheet.id))
    .orderBy(desc(t.caseEntries.n))
    .limit(1);
  const body = JSON.stringify(sheet);
  if (last !== undefined && last.body === body && JSON.stringify(last.verdict) === JSON.stringify(verdict)) return false;
  await connection.orm.insert(t.caseEntries).values({
    sheet: sheet.id,
    n: (last?.n ?? 0) + 1,
    at,
    who,
    edition: verdict.edition,
    body,
    verdict,
    claimStatus: verdict.kind === 'verdict' ? (verdict.claim?.status ?? null) : null,
  });
  return true;
};

/**
 * The case of an own sheet, as it stands or as it stood at an instant (ISO): entries, details and photographs up to then.
 * Throws `not-found` where there is no such case, or it was not opened yet.
 */
export const openCaseFile = async (connection: Reader, sheet: SheetId, asOf: string | null): Promise<CaseFile> => {
  const { orm } = connection;
  const [found] = await orm.select().from(t.cases).where(eq(t.cases.sheet, sheet));
  const [own] = await orm
    .select({ title: t.sheets.title, kind: t.sheets.kind })
    .from(t.sheets)
    .where(and(eq(t.sheets.id, sheet), eq(t.sheets.origin, 'own')));
  if (found === undefined || own === undefined) throw new TroubleError(noSuchCase(sheet));
  const until = <T extends { readonly at: string }>(rows: readonly T[]): readonly T[] =>
    asOf === null ? rows : rows.filter(({ at }) => at <= asOf);
  const details = until(await orm.select().from(t.caseDetails).where(eq(t.caseDetails.sheet, sheet)).orderBy(t.caseDetails.n)).at(-1);
  if (details === undefined) {
    throw new TroubleError(
      trouble('not-found', `case ${numberText(found)}`, `The case ${numberText(found)} was opened later, on ${found.openedOn}.`),
    );
  }
  const entries = until(await orm.select().from(t.caseEntries).where(eq(t.caseEntries.sheet, sheet)).orderBy(t.caseEntries.n));
  const history = entries.map(entryOf);
  const photos = await photosOf(connection, sheet);
  return {
    sheet,
    number: numberText(found),
    openedOn: found.openedOn,
    title: asOf === null ? own.title : (history.at(-1)?.sheet.title ?? own.title),
    kind: own.kind,
    customer: details.customer,
    lookedBy: details.lookedBy,
    notes: details.notes,
    photos: asOf === null ? photos : photos.filter(({ addedAt }) => addedAt <= asOf),
    history,
    asOf,
  };
};

const entryOf = (row: typeof t.caseEntries.$inferSelect): CaseEntry => {
  const parsed = parseSheet(row.body, `case of sheet ${row.sheet}, entry ${row.n}`);
  if (!parsed.ok) throw new TroubleError(parsed.trouble);
  return { at: row.at, who: row.who, edition: row.edition, sheet: parsed.value.sheet, verdict: row.verdict };
};

/** Writes what stands beside the sheet; each version is kept, and saying the same again keeps none. Throws `not-found`. */
export const describeCase = async (connection: Connection, sheet: SheetId, details: CaseDetails, at: string): Promise<void> => {
  const [last] = await connection.orm
    .select()
    .from(t.caseDetails)
    .where(eq(t.caseDetails.sheet, sheet))
    .orderBy(desc(t.caseDetails.n))
    .limit(1);
  if (last === undefined) throw new TroubleError(noSuchCase(sheet));
  const { customer, lookedBy, notes } = details;
  if (last.customer === customer && last.lookedBy === lookedBy && last.notes === notes) return;
  await connection.orm.insert(t.caseDetails).values({ sheet, n: last.n + 1, at, customer, lookedBy, notes });
};

import { and, desc, eq } from 'drizzle-orm';
import type { CaseVerdict, Sheet, SheetId } from '../../reasoner/index.ts';
import { firstCounterLetter } from '../../reasoner/plain/counter-letter.ts';
import type { Batch, Guard, Reader, Statement } from '../driver/driver.ts';
import { checkMadeAgainst, type MadeAgainst } from '../driver/made-against.ts';
import { build, statementOf } from '../driver/statements.ts';
import { versionOf } from '../driver/version.ts';
import * as t from '../schema.ts';
import { parseSheet } from '../sheets/read-sheet.ts';
import { TroubleError, trouble } from '../trouble.ts';
import type { CaseDetails, CaseEntry, CaseFile } from './case.ts';
import { dayOf, numberText } from './case-number.ts';
import { photosOf } from './case-photos.ts';
import { sayingsOf } from './case-words.ts';
import { busyCase, noSuchCase } from './check-case.ts';
import { leftAsTold } from './kept-told.ts';

/** What a sheet is saved with: the verdict on it, and who saved it. */
export interface Judged {
  readonly verdict: CaseVerdict;
  readonly who: string;
}

/** Guards and statements that go into a larger batch. */
interface Share {
  readonly guards: readonly Guard[];
  readonly statements: readonly Statement[];
}

/**
 * What saving a sheet does to its case: opens one where there is none yet, under the next number of this counter's letter in the year, and keeps an entry where sheet or
 * verdict are not those of the last one. The number is given by the store itself, so that none is given twice.
 */
export const entryKept = async (reader: Reader, sheet: Sheet, { verdict, who }: Judged, now: Date): Promise<Share> => {
  const { orm } = reader;
  const [held] = await orm.select({ sheet: t.cases.sheet }).from(t.cases).where(eq(t.cases.sheet, sheet.id));
  const [last] = await orm.select().from(t.caseEntries).where(eq(t.caseEntries.sheet, sheet.id)).orderBy(desc(t.caseEntries.n)).limit(1);
  const n = last?.n ?? 0;
  const entry = entryRow(sheet, n + 1, { at: now.toISOString(), who, verdict });
  const same = last !== undefined && last.body === entry.body && JSON.stringify(last.verdict) === JSON.stringify(verdict);
  return {
    guards: [
      {
        sql: `select (select count(*) from cases where sheet = ?) = ? and (select coalesce(max(n), 0) from case_entries where sheet = ?) = ?`,
        params: [sheet.id, held === undefined ? 0 : 1, sheet.id, n],
        refusal: busyCase(sheet.id),
      },
    ],
    statements: [
      ...(held === undefined ? caseOpened(sheet.id, who, now) : []),
      ...(same ? [] : [statementOf(build.insert(t.caseEntries).values(entry))]),
    ],
  };
};

/** An entry of the history of a sheet's case. */
export const entryRow = (sheet: Sheet, n: number, { at, who, verdict }: Judged & { readonly at: string }) => ({
  sheet: sheet.id,
  n,
  at,
  who,
  edition: verdict.edition,
  body: JSON.stringify(sheet),
  verdict,
  claimStatus: verdict.kind === 'verdict' ? (verdict.claim?.status ?? null) : null,
});

/** The letter of this counter, as SQL. */
export const counterLetter = `coalesce((select value ->> '$.letter' from shop_settings where key = 'counter'), '${firstCounterLetter}')`;

/**
 * Gives a case the next number of a year under the letter this counter now has; the store itself says which. A number that a case here had elsewhere is passed over: it would be two cases'.
 */
export const numberTaken = (sheet: SheetId, year: number, openedOn: string): Statement[] => [
  {
    sql: `insert into case_counts (letter, year, last)
      with recursive counter (letter) as (select ${counterLetter}),
        next (letter, place) as (
          select letter, 1 + coalesce((select last from case_counts c where c.letter = counter.letter and c.year = ?), 0) from counter
          union all
          select letter, place + 1 from next where exists (select 1 from case_origins o where o.number = printf('%s-%d-%04d', next.letter, ?, next.place))
        )
      select letter, ?, max(place) from next where true
      on conflict (letter, year) do update set last = excluded.last`,
    params: [year, year, year],
  },
  {
    sql: `insert into cases (sheet, year, number, opened_on, letter) select ?, year, last, ?, letter from case_counts where letter = ${counterLetter} and year = ?`,
    params: [sheet, openedOn, year],
  },
];

const caseOpened = (sheet: SheetId, who: string, now: Date): Statement[] => {
  const openedOn = dayOf(now);
  return [
    ...numberTaken(sheet, Number(openedOn.slice(0, 4)), openedOn),
    statementOf(build.insert(t.caseDetails).values({ sheet, n: 1, at: now.toISOString(), customer: '', lookedBy: who, notes: '', who })),
  ];
};

/**
 * The case of an own sheet, as it stands or as it stood at an instant (ISO): entries, details and photographs up to then.
 * Throws `not-found` where there is no such case, or it was not opened yet.
 */
export const openCaseFile = async (reader: Reader, sheet: SheetId, asOf: string | null): Promise<CaseFile> => {
  const { orm } = reader;
  const [found] = await orm.select().from(t.cases).where(eq(t.cases.sheet, sheet));
  const [own] = await orm
    .select({ title: t.sheets.title, kind: t.sheets.kind })
    .from(t.sheets)
    .where(and(eq(t.sheets.id, sheet), eq(t.sheets.origin, 'own')));
  if (found === undefined || own === undefined) throw new TroubleError(noSuchCase(sheet));
  // What is kept in turn, up to the last of it that was said by then: where a clock was set back, nothing falls out of the middle.
  const until = <T extends { readonly at: string }>(rows: readonly T[]): readonly T[] =>
    asOf === null ? rows : rows.slice(0, rows.findLastIndex(({ at }) => at <= asOf) + 1);
  const details = until(await orm.select().from(t.caseDetails).where(eq(t.caseDetails.sheet, sheet)).orderBy(t.caseDetails.n)).at(-1);
  if (details === undefined) {
    throw new TroubleError(
      trouble('not-found', `case ${numberText(found)}`, `The case ${numberText(found)} was opened later, on ${found.openedOn}.`),
    );
  }
  const entries = until(await orm.select().from(t.caseEntries).where(eq(t.caseEntries.sheet, sheet)).orderBy(t.caseEntries.n));
  const history = entries.map(entryOf);
  const photos = await photosOf(reader, sheet);
  return {
    sheet,
    number: numberText(found),
    openedOn: found.openedOn,
    title: asOf === null ? own.title : (history.at(-1)?.sheet.title ?? own.title),
    kind: own.kind,
    customer: details.customer,
    lookedBy: details.lookedBy,
    notes: details.notes,
    version: versionOf(wordsOf(details)),
    describedAt: details.at,
    describedBy: details.who,
    photos: until(photos.map((photo) => ({ at: photo.addedAt, photo }))).map(({ photo }) => photo),
    history,
    words: until(await sayingsOf(reader, sheet)),
    left: until(await leftAsTold(reader, sheet)),
    origins: await orm
      .select({ number: t.caseOrigins.number, at: t.caseOrigins.at, who: t.caseOrigins.who })
      .from(t.caseOrigins)
      .where(eq(t.caseOrigins.sheet, sheet))
      .orderBy(t.caseOrigins.n),
    asOf,
  };
};

/** What the shop wrote beside the sheet, and nothing else of the row. */
const wordsOf = ({ customer, lookedBy, notes }: CaseDetails): CaseDetails => ({ customer, lookedBy, notes });

const entryOf = (row: typeof t.caseEntries.$inferSelect): CaseEntry => {
  const parsed = parseSheet(row.body, `case of sheet ${row.sheet}, entry ${row.n}`);
  if (!parsed.ok) throw new TroubleError(parsed.trouble);
  return { at: row.at, who: row.who, edition: row.edition, sheet: parsed.value.sheet, verdict: row.verdict };
};

/**
 * Writes what stands beside the sheet; each version is kept, and saying the same again keeps none. Throws `not-found`, and `changed-since` where
 * other words stand there than those it was made against.
 */
export const caseDescribed = async (
  reader: Reader,
  sheet: SheetId,
  details: CaseDetails,
  by: { readonly at: string; readonly who: string },
  madeAgainst: MadeAgainst,
): Promise<Batch | null> => {
  const [last] = await reader.orm
    .select()
    .from(t.caseDetails)
    .where(eq(t.caseDetails.sheet, sheet))
    .orderBy(desc(t.caseDetails.n))
    .limit(1);
  if (last === undefined) throw new TroubleError(noSuchCase(sheet));
  const { customer, lookedBy, notes } = details;
  checkMadeAgainst(madeAgainst, wordsOf(last), `sheet ${sheet}`, `What is written of the case of the sheet "${sheet}"`, details);
  if (last.customer === customer && last.lookedBy === lookedBy && last.notes === notes) return null;
  return {
    guards: [{ sql: 'select (select max(n) from case_details where sheet = ?) = ?', params: [sheet, last.n], refusal: busyCase(sheet) }],
    statements: [statementOf(build.insert(t.caseDetails).values({ sheet, n: last.n + 1, ...by, customer, lookedBy, notes }))],
  };
};

import { and, desc, eq, sql } from 'drizzle-orm';
import type { CaseVerdict, Sheet, SheetId } from '../../reasoner/index.ts';
import type { Batch, Reader } from '../driver/driver.ts';
import { build, statementOf } from '../driver/statements.ts';
import * as t from '../schema.ts';
import { parseSheet } from '../sheets/read-sheet.ts';
import { TroubleError, trouble } from '../trouble.ts';
import type { LeftAsTold } from './case.ts';
import { numberColumns, numberText } from './case-number.ts';
import { busyCase, checkCase } from './check-case.ts';

/** The last saved state of a case with what it was told. */
export interface LastTold {
  readonly sheet: SheetId;
  readonly number: string;
  readonly title: string;
  readonly entry: number;
  readonly savedAt: string;
  readonly who: string;
  readonly saved: Sheet;
  readonly verdict: CaseVerdict;
  /** Where somebody left this entry as it was told: the version of what would have been said in its place. */
  readonly left: string | null;
}

/** How many cases have an entry. */
export const countTold = async ({ all }: Pick<Reader, 'all'>): Promise<number> => {
  const [row] = await all<{ many: number }>(
    `select count(*) as many from cases c join sheets s on s.id = c.sheet and s.origin = 'own' where c.sheet in (select sheet from case_entries)`,
  );
  return row?.many ?? 0;
};

/** The last entry of every case that has one, in the order of their sheets. */
export const lastTold = async ({ orm }: Pick<Reader, 'orm'>): Promise<LastTold[]> => {
  const newest = sql`${t.caseEntries.n} = (select max(n) from case_entries as newest where newest.sheet = ${t.cases.sheet})`;
  const rows = await orm
    .select({
      sheet: t.cases.sheet,
      ...numberColumns,
      title: t.sheets.title,
      entry: t.caseEntries.n,
      savedAt: t.caseEntries.at,
      who: t.caseEntries.who,
      body: t.caseEntries.body,
      verdict: t.caseEntries.verdict,
    })
    .from(t.cases)
    .innerJoin(t.sheets, and(eq(t.sheets.id, t.cases.sheet), eq(t.sheets.origin, 'own')))
    .innerJoin(t.caseEntries, and(eq(t.caseEntries.sheet, t.cases.sheet), newest))
    .orderBy(t.cases.sheet);
  const left = new Map(
    (await orm.select().from(t.casesLeft).orderBy(t.casesLeft.sheet, t.casesLeft.n)).map((row) => [
      `${row.sheet}\n${row.entry}`,
      row.otherwise,
    ]),
  );
  return rows.map(({ letter, year, number, body, ...row }) => {
    const parsed = parseSheet(body, `case of sheet ${row.sheet}, entry ${row.entry}`);
    if (!parsed.ok) throw new TroubleError(parsed.trouble);
    return {
      ...row,
      number: numberText({ letter, year, number }),
      saved: parsed.value.sheet,
      left: left.get(`${row.sheet}\n${row.entry}`) ?? null,
    };
  });
};

/** Where and why a case was left as it was told, oldest first. */
export const leftAsTold = async ({ orm }: Pick<Reader, 'orm'>, sheet: SheetId): Promise<LeftAsTold[]> =>
  orm
    .select({ at: t.casesLeft.at, who: t.casesLeft.who, reason: t.casesLeft.reason, entry: t.casesLeft.entry })
    .from(t.casesLeft)
    .where(eq(t.casesLeft.sheet, sheet))
    .orderBy(t.casesLeft.n);

/** What is left as it was told: which entry (from 1), and the version of what would be said in its place. */
export interface Leaving {
  readonly entry: number;
  readonly otherwise: string;
  readonly reason: string;
  readonly who: string;
  readonly at: string;
}

/** Leaves the last entry of a case as it was told. Throws `not-found`, and `changed-since` where another entry is the last. */
export const caseLeft = async (reader: Reader, sheet: SheetId, leaving: Leaving): Promise<Batch> => {
  await checkCase(reader, sheet);
  const { orm } = reader;
  const [last] = await orm
    .select({ n: t.caseEntries.n })
    .from(t.caseEntries)
    .where(eq(t.caseEntries.sheet, sheet))
    .orderBy(desc(t.caseEntries.n))
    .limit(1);
  if (last?.n !== leaving.entry)
    throw new TroubleError(
      trouble(
        'changed-since',
        `sheet ${sheet}`,
        `The case of the sheet "${sheet}" was saved since it was judged here, so it was not left as it was told. Judge it again, then decide.`,
      ),
    );
  const [before] = await orm
    .select({ n: t.casesLeft.n })
    .from(t.casesLeft)
    .where(eq(t.casesLeft.sheet, sheet))
    .orderBy(desc(t.casesLeft.n))
    .limit(1);
  const n = before?.n ?? 0;
  return {
    guards: [
      {
        sql: 'select (select max(n) from case_entries where sheet = ?) = ? and (select coalesce(max(n), 0) from cases_left where sheet = ?) = ?',
        params: [sheet, leaving.entry, sheet, n],
        refusal: busyCase(sheet),
      },
    ],
    statements: [statementOf(build.insert(t.casesLeft).values({ sheet, n: n + 1, ...leaving }))],
  };
};

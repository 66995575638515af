import { and, asc, count, desc, eq, gte, lte, type SQL, sql } from 'drizzle-orm';
import type { SheetId } from '../../reasoner/index.ts';
import { bare } from '../../reasoner/plain/letters.ts';
import type { Reader } from '../driver/driver.ts';
import { groupBy } from '../plain/group-by.ts';
import * as t from '../schema.ts';
import type { CaseFilter, CaseSummary } from './case.ts';
import { numberColumns, numberText } from './case-number.ts';
import { wordOf } from './case-words.ts';
import { keyOf } from './unit-numbers.ts';

/**
 * Cases that pass the filter, the one saved last first. What is said of a verdict is what was kept with it, not judged anew.
 * @param only the case of this sheet alone
 */
export const listCases = async (reader: Reader, filter: CaseFilter, only?: SheetId): Promise<CaseSummary[]> => {
  const { orm } = reader;
  const lastOf = (table: typeof t.caseDetails | typeof t.caseEntries): SQL =>
    sql`${table.n} = (select max(n) from ${table} as newest where newest.sheet = ${t.cases.sheet})`;
  const asked: SQL[] = [
    ...(only === undefined ? [] : [eq(t.cases.sheet, only)]),
    ...(filter.from === undefined ? [] : [gte(t.cases.openedOn, filter.from)]),
    ...(filter.to === undefined ? [] : [lte(t.cases.openedOn, filter.to)]),
    ...(filter.status === undefined
      ? []
      : [filter.status === 'none' ? sql`${t.caseEntries.claimStatus} is null` : eq(t.caseEntries.claimStatus, filter.status)]),
    ...(filter.lookedBy === undefined ? [] : [eq(t.caseDetails.lookedBy, filter.lookedBy)]),
  ];
  const rows = await orm
    .select({
      sheet: t.cases.sheet,
      ...numberColumns,
      openedOn: t.cases.openedOn,
      title: t.sheets.title,
      kind: t.sheets.kind,
      claimed: t.sheets.claimed,
      observations: t.sheets.observations,
      savedAt: t.sheets.savedAt,
      customer: t.caseDetails.customer,
      lookedBy: t.caseDetails.lookedBy,
      notes: t.caseDetails.notes,
      verdict: t.caseEntries.verdict,
    })
    .from(t.cases)
    .innerJoin(t.sheets, and(eq(t.sheets.id, t.cases.sheet), eq(t.sheets.origin, 'own')))
    .innerJoin(t.caseDetails, and(eq(t.caseDetails.sheet, t.cases.sheet), lastOf(t.caseDetails)))
    .leftJoin(t.caseEntries, and(eq(t.caseEntries.sheet, t.cases.sheet), lastOf(t.caseEntries)))
    .where(and(...asked))
    .orderBy(desc(t.sheets.position), asc(t.cases.sheet));
  const counted = await orm.select({ sheet: t.casePhotos.sheet, many: count() }).from(t.casePhotos).groupBy(t.casePhotos.sheet);
  const photos = new Map(counted.map(({ sheet, many }) => [sheet, many]));
  const sayings = new Map((await orm.select().from(t.caseWords).orderBy(t.caseWords.sheet, t.caseWords.n)).map((row) => [row.sheet, row]));
  const numbers = groupBy(await orm.select().from(t.unitNumbers).orderBy(t.unitNumbers.sheet, t.unitNumbers.n), ({ sheet }) => sheet);
  const origins = new Map<string, string>();
  for (const { sheet, number } of await orm.select().from(t.caseOrigins)) origins.set(sheet, `${origins.get(sheet) ?? ''}\n${number}`);
  const words = plain(filter.text ?? '')
    .split(/\s+/)
    .filter((word) => word !== '');
  return rows
    .map(({ letter, year, number, verdict, savedAt, ...row }): CaseSummary => {
      const judged = verdict?.kind === 'verdict' ? verdict : null;
      return {
        ...row,
        number: numberText({ letter, year, number }),
        status: judged?.claim?.status ?? null,
        honest: judged?.honest.map(({ text }) => text) ?? [],
        open: judged?.open.map(({ text }) => text) ?? [],
        edition: verdict?.edition ?? null,
        photos: photos.get(row.sheet) ?? 0,
        numbers: (numbers.get(row.sheet) ?? []).map(({ says, text }) => ({ says, text })),
        word: wordOf(sayings.get(row.sheet)),
        savedAt: savedAt ?? '',
      };
    })
    .filter((one) => {
      if (words.length === 0) return true;
      const text = plain(
        [one.number, one.title, one.customer, one.notes, one.claimed ?? '', one.lookedBy, origins.get(one.sheet) ?? ''].join('\n'),
      );
      // A number is found however it is written: by its letters and figures alone (O4).
      const keys = (numbers.get(one.sheet) ?? []).map(keyOf);
      return words.every((word) => text.includes(word) || (bare(word) !== '' && keys.some((key) => key.includes(bare(word)))));
    });
};

/** Without case, accents and the several forms one letter can be written in. */
const plain = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

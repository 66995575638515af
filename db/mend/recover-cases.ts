import { eq, sql } from 'drizzle-orm';
import type { SheetId } from '../../reasoner/index.ts';
import type { Batch, Reader, Statement } from '../driver/driver.ts';
import { build, insertRows, statementOf } from '../driver/statements.ts';
import { troubleOf } from '../driver/trouble-of.ts';
import * as t from '../schema.ts';
import { type Outcome, trouble } from '../trouble.ts';
import { readDamaged } from './read-damaged.ts';

/** A case out of a damaged file, as its rows were. */
export interface RecoveredCase {
  readonly head: typeof t.cases.$inferSelect;
  readonly details: readonly (typeof t.caseDetails.$inferSelect)[];
  readonly entries: readonly (typeof t.caseEntries.$inferSelect)[];
  /** What was decided beside the verdict. */
  readonly words: readonly (typeof t.caseWords.$inferSelect)[];
  /** The numbers it had in other shops, and where it was left as it was told. */
  readonly origins: readonly (typeof t.caseOrigins.$inferSelect)[];
  readonly left: readonly (typeof t.casesLeft.$inferSelect)[];
  readonly photos: readonly { readonly shown: typeof t.casePhotos.$inferSelect; readonly photo: typeof t.photos.$inferSelect }[];
}

export interface RecoveredCases {
  readonly cases: readonly RecoveredCase[];
  /** The last number given in each year, so that none is given twice. */
  readonly numbers: readonly (typeof t.caseNumbers.$inferSelect)[];
  /** False when something of a case could not be read. */
  readonly complete: boolean;
}

/** The cases of these sheets out of a damaged atlas, each row as far as it can still be read. The file is only read. */
export const recoverCases = (file: string, sheets: readonly SheetId[]): Promise<Outcome<RecoveredCases>> =>
  readDamaged(file, async (reader) => {
    const { orm } = reader;
    const tables = await reader.all<{ name: string }>(
      `select name from sqlite_master where name in ('cases', 'case_words', 'case_origins')`,
    );
    // An atlas from before cases were kept.
    if (!tables.some(({ name }) => name === 'cases')) return { cases: [], numbers: [], complete: true };
    // The shop's word came later than cases, and where they came from later still.
    const [worded, origined] = ['case_words', 'case_origins'].map((table) => tables.some(({ name }) => name === table));
    let complete = true;
    const rows = async <Row>(read: () => PromiseLike<Row[]>): Promise<Row[]> => {
      try {
        return await read();
      } catch (error) {
        // Torn text that is no JSON any more is damage too.
        if (!(error instanceof SyntaxError) && troubleOf(error, file)?.code !== 'database-damaged') throw error;
        complete = false;
        return [];
      }
    };
    const cases: RecoveredCase[] = [];
    for (const sheet of sheets) {
      const [head] = await rows(() => orm.select().from(t.cases).where(eq(t.cases.sheet, sheet)));
      if (head === undefined) continue;
      const shown = await rows(() => orm.select().from(t.casePhotos).where(eq(t.casePhotos.sheet, sheet)));
      const photos: RecoveredCase['photos'][number][] = [];
      for (const one of shown) {
        const [photo] = await rows(() => orm.select().from(t.photos).where(eq(t.photos.id, one.photo)));
        if (photo !== undefined) photos.push({ shown: one, photo });
      }
      cases.push({
        head,
        details: await rows(() => orm.select().from(t.caseDetails).where(eq(t.caseDetails.sheet, sheet)).orderBy(t.caseDetails.n)),
        entries: await rows(() => orm.select().from(t.caseEntries).where(eq(t.caseEntries.sheet, sheet)).orderBy(t.caseEntries.n)),
        words: worded ? await rows(() => orm.select().from(t.caseWords).where(eq(t.caseWords.sheet, sheet)).orderBy(t.caseWords.n)) : [],
        origins: origined
          ? await rows(() => orm.select().from(t.caseOrigins).where(eq(t.caseOrigins.sheet, sheet)).orderBy(t.caseOrigins.n))
          : [],
        left: origined ? await rows(() => orm.select().from(t.casesLeft).where(eq(t.casesLeft.sheet, sheet)).orderBy(t.casesLeft.n)) : [],
        photos,
      });
    }
    return { cases, numbers: await rows(() => orm.select().from(t.caseNumbers)), complete };
  });

/** Puts numbers and cases back into an atlas that has none of them yet, each whole; a case that is there stays. Their sheets are saved afterwards. */
export const casesPutBack = async ({ all }: Reader, { cases, numbers }: Pick<RecoveredCases, 'cases' | 'numbers'>): Promise<Batch> => {
  const held = new Set((await all<{ sheet: string }>('select sheet from cases')).map(({ sheet }) => sheet));
  const wanting = cases.filter(({ head }) => !held.has(head.sheet));
  return {
    guards: [
      {
        sql: 'select not exists (select 1 from cases where sheet in (select value from json_each(?)))',
        params: [JSON.stringify(wanting.map(({ head }) => head.sheet))],
        refusal: trouble('changed-since', null, 'Cases were being opened elsewhere at the same time, so none were put back. Try again.'),
      },
    ],
    statements: statementsOf(wanting, [...numbers, ...cases.map(({ head }) => ({ year: head.year, last: head.number }))]),
  };
};

function* statementsOf(cases: readonly RecoveredCase[], given: RecoveredCases['numbers']): Generator<Statement> {
  for (const { year, last } of given) {
    yield statementOf(
      build
        .insert(t.caseNumbers)
        .values({ year, last })
        .onConflictDoUpdate({ target: t.caseNumbers.year, set: { last: sql`max(${t.caseNumbers.last}, ${last})` } }),
    );
  }
  for (const { head, details, entries, words, origins, left, photos } of cases) {
    yield* insertRows(t.cases, [head]);
    // A case is never without its words, even where they could not be read.
    const first = { sheet: head.sheet, n: 1, at: `${head.openedOn}T00:00:00.000Z`, customer: '', lookedBy: '', notes: '' };
    yield* insertRows(t.caseDetails, details.length > 0 ? details : [first]);
    yield* insertRows(t.caseEntries, entries);
    yield* insertRows(t.caseWords, words);
    yield* insertRows(t.caseOrigins, origins);
    yield* insertRows(t.casesLeft, left);
    for (const { shown, photo } of photos) {
      yield* insertRows(t.photos, [photo], 'on conflict do nothing');
      yield* insertRows(t.casePhotos, [shown]);
    }
  }
}

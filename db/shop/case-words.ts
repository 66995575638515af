import { eq } from 'drizzle-orm';
import type { SheetId } from '../../reasoner/index.ts';
import type { Batch, Reader } from '../driver/driver.ts';
import { checkMadeAgainst, type MadeAgainst } from '../driver/made-against.ts';
import { build, statementOf } from '../driver/statements.ts';
import { versionOf } from '../driver/version.ts';
import * as t from '../schema.ts';
import type { Saying, ShopWord } from './case.ts';
import { busyCase, checkCase } from './check-case.ts';

type Row = typeof t.caseWords.$inferSelect;

/** What was said of a case, oldest first, each as often as it was said. */
export const sayingsOf = async ({ orm }: Pick<Reader, 'orm'>, sheet: SheetId): Promise<Saying[]> =>
  (await orm.select().from(t.caseWords).where(eq(t.caseWords.sheet, sheet)).orderBy(t.caseWords.n)).map((row) => ({
    at: row.at,
    who: row.who,
    word: wordOf(row),
    version: versionOf(contentOf(row)),
  }));

/** The words of a row; null for none, and where they were taken back. */
export const wordOf = (row: Row | undefined): ShopWord | null => {
  const { by, person, day, decision, ground } = row ?? {};
  return by && person && day && decision && ground ? { by, person, day, decision, ground } : null;
};

/** The columns of a word; null takes back what held. */
export const columnsOfWord = (word: ShopWord | null) => {
  const { by, person, day, decision, ground } = word ?? { by: null, person: null, day: null, decision: null, ground: null };
  return { by, person, day, decision, ground };
};

/** With its place: the same said again after it was taken back is another saying. */
const contentOf = (row: Row) => ({ n: row.n, at: row.at, who: row.who, word: wordOf(row) });

/**
 * Writes down what was decided, or with null takes back what holds; what was said before stays. Null where that is how it stands already.
 * Throws `not-found`, and `changed-since` where another saying is the last than the one it was made against.
 */
export const wordSaid = async (
  reader: Reader,
  sheet: SheetId,
  { word, who, at }: { readonly word: ShopWord | null; readonly who: string; readonly at: string },
  madeAgainst: MadeAgainst,
): Promise<Batch | null> => {
  await checkCase(reader, sheet);
  const last = (await reader.orm.select().from(t.caseWords).where(eq(t.caseWords.sheet, sheet)).orderBy(t.caseWords.n)).at(-1);
  checkMadeAgainst(
    madeAgainst,
    last === undefined ? null : contentOf(last),
    `sheet ${sheet}`,
    `What was decided of the case of the sheet "${sheet}"`,
  );
  const held = wordOf(last);
  if (held === null ? word === null : word !== null && versionOf(held) === versionOf(word)) return null;
  const n = last?.n ?? 0;
  return {
    guards: [
      {
        sql: 'select (select count(*) from cases where sheet = ?) = 1 and (select coalesce(max(n), 0) from case_words where sheet = ?) = ?',
        params: [sheet, sheet, n],
        refusal: busyCase(sheet),
      },
    ],
    statements: [statementOf(build.insert(t.caseWords).values({ sheet, n: n + 1, at, who, ...columnsOfWord(word) }))],
  };
};

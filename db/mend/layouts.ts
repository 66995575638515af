import type { Reader } from '../driver/driver.ts';
import { groupBy } from '../plain/group-by.ts';
import type { Layout } from '../salvage/salvage.ts';

/** Indexes that say of a row what its own page no longer may. */
export const numbersIndex = 'cases_by_number';
/** Those of files from before letters counted by themselves: a case's number in its year, and its letter. */
export const yearsIndex = 'sqlite_autoindex_cases_2';
export const lettersIndex = 'cases_by_letter';
export const photosIndex = 'case_photos_by_photo';

/** The last number given in each year, whatever the letter: in files from before letters counted by themselves. */
export const yearCounts = 'case_numbers';

const further: readonly Layout[] = [
  { name: numbersIndex, kind: 'index', columns: ['letter', 'year', 'number', 'sheet'], rowid: null },
  { name: yearsIndex, kind: 'index', columns: ['year', 'number', 'sheet'], rowid: null },
  { name: lettersIndex, kind: 'index', columns: ['letter', 'sheet'], rowid: null },
  { name: photosIndex, kind: 'index', columns: ['photo', 'sheet'], rowid: null },
  { name: yearCounts, kind: 'index', columns: ['year', 'last'], rowid: null },
];

/**
 * How the rows of every table of a sound store are stored, and those of the indexes that are read; and what files from before have otherwise. A table without row ids stores its key first
 * (sqlite.org/withoutrowid.html); a column that is an `integer primary key` is the row id, and null in the record.
 */
export const layoutsOf = async (reader: Pick<Reader, 'all'>): Promise<readonly Layout[]> => {
  const columns = await reader.all<{ table: string; wr: number; column: string; type: string; pk: number; preset: string | null }>(
    `select t.name as "table", t.wr, c.name as "column", c.type, c.pk, c.dflt_value as preset from pragma_table_list t join pragma_table_xinfo(t.name) c
     where t.schema = 'main' and t.type = 'table' and t.name not like 'sqlite\\_%' escape '\\' order by t.name, c.cid`,
  );
  const layouts = [...groupBy(columns, ({ table }) => table)].map(([name, of]): Layout => {
    const keys = of.filter(({ pk }) => pk > 0).sort((a, b) => a.pk - b.pk);
    const without = of[0]?.wr === 1;
    const [only] = keys;
    return {
      name,
      kind: without ? 'index' : 'table',
      columns: (without ? [...keys, ...of.filter(({ pk }) => pk === 0)] : of).map(({ column }) => column),
      defaults: Object.fromEntries(of.flatMap(({ column, preset }) => (preset === null ? [] : [[column, valueOfLiteral(preset)]]))),
      rowid: !without && keys.length === 1 && only?.type.toLowerCase() === 'integer' ? only.column : null,
    };
  });
  return [...layouts, ...further];
};

/** A default as the schema says it: a text in quotes, or a number; anything else is worked out by SQLite and stands for nothing here. */
const valueOfLiteral = (literal: string): string | number | null => {
  if (/^'.*'$/s.test(literal)) return literal.slice(1, -1).replaceAll("''", "'");
  const number = Number(literal);
  return Number.isNaN(number) ? null : number;
};

import { createHash, type Hash } from 'node:crypto';
import type { Reader, Row } from '../driver/driver.ts';
import { type Version, versionOf } from '../driver/version.ts';
import { type CaseCount, type CaseNumber, numberText } from '../shop/case-number.ts';
import { counterLetter } from '../shop/kept-cases.ts';
import type { HeldKind } from './backup.ts';

/** One thing an atlas holds: what it is called, and the version of all that is said of it. */
export interface HeldThing {
  readonly name: string;
  readonly version: string;
}

/** What an atlas of this program's schema holds at one moment. */
export interface Holdings {
  readonly version: Version;
  readonly kinds: ReadonlyMap<HeldKind, ReadonlyMap<string, HeldThing>>;
  /** The last number given under each letter in each year. */
  readonly numbers: readonly CaseCount[];
  /** The letter of its counter. */
  readonly letter: string;
  /** The number of each case, by its sheet. */
  readonly cases: ReadonlyMap<string, CaseNumber>;
}

/** What comes with packs, is made of them, or tells how far the file has been brought: told by the packs themselves and the journal's head. Any other table is the shop's. */
const notTheShops = new Set(
  'chains drawings facts families family_edges features fits generations instruments joints journal journal_carried journal_effects judged_joints kept_files makers mates matings meta metals migrations models numbers open_lists operations pack_terms packs parts photos ports prices rates search_terms sits slots sources stage_after stages terms trade_names warmth case_counts'.split(
    ' ',
  ),
);

/** Long, and never rewritten once they stand under their key: told by their length. */
const byLength: Readonly<Record<string, readonly string[]>> = { case_entries: ['body', 'verdict'] };

/** What a table that is neither of a case nor of a learner is called. */
const called: Readonly<Record<string, string>> = {
  shop_settings: 'the shop’s settings',
  documents: 'papers',
  stock: 'the stock list',
  shop_prices: 'the price list',
  samples: 'samples of parts',
};

/** So many rows are read at once. */
const page = 1000;

/**
 * Everything the shop would miss, with a version of each thing: to tell whether an atlas has changed, and what two of them differ in. A table this file does not
 * know counts as the shop's, and belongs to the case or the learner its rows name.
 */
export const holdingsOf = async ({ all }: Pick<Reader, 'all'>): Promise<Holdings> => {
  const things = new Map<HeldKind, Map<string, { name: string; hash: Hash }>>();
  const thing = (kind: HeldKind, key: string) => {
    const kinds = things.get(kind) ?? new Map<string, { name: string; hash: Hash }>();
    things.set(kind, kinds);
    const one = kinds.get(key) ?? { name: key, hash: createHash('sha256') };
    kinds.set(key, one);
    return one;
  };
  const say = (kind: HeldKind, key: string, said: unknown, name?: string): void => {
    const one = thing(kind, key);
    one.hash.update(`${JSON.stringify(said)}\n`);
    if (name !== undefined) one.name = name;
  };

  for (const { id, title, edition, hash } of await all<Readonly<Record<string, string>>>(
    'select id, title, edition, hash from packs order by id',
  ))
    say('packs', id ?? '', [edition, hash], `${title}, ${edition}`);

  const numberOf = new Map<string, CaseNumber>();
  const tables = await all<{ name: string }>(
    String.raw`select name from sqlite_master where type = 'table' and name not like 'search\_words%' escape '\' and name not like 'sqlite\_%' escape '\' order by name`,
  );
  for (const { name: table } of tables.filter(({ name }) => !notTheShops.has(name))) {
    for await (const row of rowsOf(all, table)) {
      if (table === 'sheets') say('sheets', String(row.id), row, String(row.title));
      else if (table === 'learners') say('learners', String(row.id), [table, row], String(row.name));
      else if (table === 'courses') say('courses', String(row.id), row, String(row.name));
      else if (table === 'case_photos') say('photographs', `${row.sheet} ${row.photo}`, row, String(row.caption));
      else if (table === 'cases') {
        const { letter, year, number } = row as unknown as CaseNumber;
        numberOf.set(String(row.sheet), { letter, year, number });
        say('cases', String(row.sheet), row, numberText({ letter, year, number }));
      } else if (typeof row.sheet === 'string') say('cases', row.sheet, [table, row]);
      else if (typeof row.learner === 'string') say('learners', row.learner, [table, row]);
      else say('other', table, row, called[table]);
    }
  }

  const sheets = things.get('sheets');
  const cases = things.get('cases');
  // By number and title, as the shelf shows them; a picture without words by where it hangs.
  for (const [sheet, one] of cases ?? []) one.name = `${one.name} ${sheets?.get(sheet)?.name ?? ''}`.trim();
  for (const [key, one] of things.get('photographs') ?? []) {
    const of = cases?.get(key.slice(0, key.lastIndexOf(' ')))?.name ?? '';
    one.name = one.name === '' ? `of ${of}` : `${one.name} (${of})`;
  }

  const numbers = await all<CaseCount>('select letter, year, last from case_counts order by letter, year');
  const [counter] = await all<{ letter: string }>(`select ${counterLetter} as letter`);
  const [head] = await all<{ id: string }>('select id from journal order by n desc limit 1');
  const kinds = new Map(
    [...things].map(([kind, of]) => [
      kind,
      new Map([...of].map(([key, { name, hash }]): [string, HeldThing] => [key, { name, version: hash.digest('hex') }])),
    ]),
  );
  const told = [...kinds].map(([kind, of]) => [kind, [...of].map(([key, { version }]) => [key, version]).sort()]).sort();
  return { version: versionOf([told, numbers, head?.id ?? null]), kinds, numbers, letter: counter?.letter ?? '', cases: numberOf };
};

/** Rows of a table by its key. Pictures and what is as long as they are told by how long they are. */
async function* rowsOf(all: Reader['all'], table: string): AsyncGenerator<Row> {
  const columns = await all<{ name: string; type: string; pk: number }>('select name, type, pk from pragma_table_info(?)', [table]);
  const asked = columns.map(({ name, type }) =>
    type.toLowerCase() === 'blob' || byLength[table]?.includes(name) ? `octet_length("${name}") as "${name}"` : `"${name}"`,
  );
  const keys = columns.filter(({ pk }) => pk > 0).sort((a, b) => a.pk - b.pk);
  const order = keys.length === 0 ? 'rowid' : keys.map(({ name }) => `"${name}"`).join(', ');
  const own = table === 'sheets' ? `where origin = 'own'` : '';
  for (let at = 0; ; at += page) {
    const rows = await all<Row>(`select ${asked.join(', ')} from "${table}" ${own} order by ${order} limit ${page} offset ${at}`);
    yield* rows;
    if (rows.length < page) return;
  }
}

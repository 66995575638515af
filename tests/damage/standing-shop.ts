import { type StandingFile, type StandingRow, standingIn } from './page-walker.ts';

/** One thing of the shop's, with each whole copy of it that stands in the file, and what a reading of the new atlas must give of it. */
export interface Thing {
  readonly what:
    | 'sheet'
    | 'number'
    | 'words'
    | 'entry'
    | 'photograph'
    | 'course'
    | 'learner'
    | 'card'
    | 'answer'
    | 'setting'
    | 'way of reading'
    | 'price'
    | 'paper'
    | 'file'
    | 'stock'
    | 'sample'
    | 'own word';
  readonly key: string;
  /** Pages of each copy. */
  readonly copies: readonly ReadonlySet<number>[];
  /** Of each copy what it says, as text to be compared. */
  readonly says: readonly string[];
}

export interface StandingShop {
  readonly file: StandingFile;
  readonly things: readonly Thing[];
  /** Every state of a sheet that was ever saved, by id. */
  readonly states: ReadonlyMap<string, ReadonlySet<string>>;
}

/** What the file of a shop holds, thing by thing. */
export const standingShop = (bytes: Uint8Array): StandingShop => {
  const file = standingIn(bytes);
  const rows = (tree: string): readonly StandingRow[] => file.trees.get(tree) ?? [];
  const things: Thing[] = [];
  const add = (
    what: Thing['what'],
    key: string,
    copies: readonly { readonly pages: ReadonlySet<number>; readonly says: string }[],
  ): void => {
    things.push({ what, key, copies: copies.map(({ pages }) => pages), says: copies.map(({ says }) => says) });
  };
  const one = (what: Thing['what'], key: string, row: StandingRow): void =>
    add(what, key, [{ pages: row.pages, says: JSON.stringify(row.values) }]);
  const states = new Map<string, Set<string>>();
  const entries = rows('case_entries').map((row) => ({
    row,
    sheet: String(row.values[0]),
    n: Number(row.values[1]),
    body: String(row.values[5]),
  }));
  for (const row of rows('sheets')) {
    if (row.values[1] !== 'own') continue;
    const id = String(row.values[0]);
    // As it stands, then its history from the last state back.
    const history = entries.filter(({ sheet }) => sheet === id).sort((a, b) => b.n - a.n);
    states.set(id, new Set([String(row.values[8]), ...history.map(({ body }) => body)]));
    add('sheet', id, [
      { pages: row.pages, says: String(row.values[8]) },
      ...history.map((entry) => ({ pages: entry.row.pages, says: entry.body })),
    ]);
  }
  for (const { row, sheet, n } of entries) one('entry', `${sheet} ${n}`, row);
  for (const row of rows('case_details')) one('words', `${row.values[0]} ${row.values[1]}`, row);
  const numbered = new Map(rows('cases_by_number').map((row) => [String(row.values[3]), row]));
  for (const row of rows('cases')) {
    const says = JSON.stringify([row.values[4], row.values[1], row.values[2]]);
    const again = numbered.get(String(row.values[0]));
    add('number', String(row.values[0]), [{ pages: row.pages, says }, ...(again === undefined ? [] : [{ pages: again.pages, says }])]);
  }
  // A photograph is there where its bytes are, and something says which case shows it.
  const shownAgain = new Map(rows('case_photos_by_photo').map((row) => [`${row.values[1]} ${row.values[0]}`, row]));
  const photos = new Map(rows('photos').map((row) => [String(row.values[1]), row]));
  for (const row of rows('case_photos')) {
    const key = `${row.values[0]} ${row.values[1]}`;
    const picture = photos.get(String(row.values[1]))?.pages ?? new Set<number>();
    const says = [row, shownAgain.get(key)].flatMap((each) =>
      each === undefined ? [] : [{ pages: new Set([...each.pages, ...picture]), says: key }],
    );
    add('photograph', key, says);
  }
  for (const row of rows('shop_settings')) one('setting', String(row.values[0]), row);
  // Behind the number SQLite gives its rows.
  for (const {
    pages,
    values: [, ...values],
  } of rows('table_templates'))
    add('way of reading', String(values[0]), [{ pages, says: JSON.stringify(values) }]);
  for (const row of rows('kept_files')) add('file', String(row.values[1]), [{ pages: row.pages, says: String(row.values[1]) }]);
  for (const row of rows('samples')) one('sample', String(row.values[0]), row);
  for (const row of rows('shop_prices')) one('price', `${row.values[0]} ${row.values[1]}`, row);
  for (const row of rows('documents')) one('paper', `${row.values[0]} ${row.values[1]} ${row.values[2]}`, row);
  for (const row of rows('own_words')) one('own word', `${row.values[0]} ${row.values[1]}`, row);
  for (const row of rows('stock')) one('stock', `${row.values[0]} ${row.values[1]}`, row);
  for (const row of rows('courses')) one('course', String(row.values[0]), row);
  for (const row of rows('learners')) one('learner', String(row.values[0]), row);
  for (const row of rows('drill_cards'))
    add('card', `${row.values[0]} ${row.values[1]}`, [{ pages: row.pages, says: cardText(row.values) }]);
  // By topic and seed, because they are counted anew where some are gone.
  for (const row of rows('drill_answers')) {
    const [learner, , ...rest] = row.values;
    add('answer', `${learner} ${row.values[2]} ${row.values[3]}`, [{ pages: row.pages, says: JSON.stringify([learner, ...rest]) }]);
  }
  return { file, things, states };
};

/** A card in one order of its fields. */
export const cardText = ([learner, topic, due, card]: readonly unknown[]): string =>
  JSON.stringify([learner, topic, due, Object.entries(JSON.parse(String(card)) as object).sort(([a], [b]) => (a < b ? -1 : 1))]);

/** What can be read of a thing once these pages are gone: what the best of its copies says; null where none is whole. */
export const readable = ({ copies, says }: Thing, hit: ReadonlySet<number>): string | null => {
  for (const [index, pages] of copies.entries()) if (![...pages].some((page) => hit.has(page))) return says[index] ?? null;
  return null;
};

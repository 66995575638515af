import { listingsCsv, matchListings, type Store, sheetIn } from '../../db/index.ts';
import {
  type CompiledAtlas,
  judgeListings,
  type Listings,
  type ListingsItem,
  type ListingsProgress,
  offerJudge,
  standings,
} from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import type { Calls } from '../bridge/desk.ts';
import type { ListingsDone } from '../bridge/listings-calls.ts';
import { refusal, well } from '../bridge/reply.ts';
import { itemOf, itemsOfTable, listingCellsIn, listingMatchingOf, sheetTableIn } from './handed-in.ts';
import { HeldFiles } from './held-files.ts';
import type { KeptAtlas } from './kept-atlas.ts';
import { Runs } from './runs.ts';

/** Few are kept: each holds everything it was given. */
const kept = 4;
/** Tables handed in at once. */
const mostTables = 20;
/** So many rows are shown under the headings. */
const shownFirst = 6;

interface Given {
  readonly atlas: CompiledAtlas;
  readonly items: readonly ListingsItem[];
}

/** Many listings and sheets judged, a little at a time. */
export const listingsCalls = (store: Store, atlas: KeptAtlas): Calls<'listings'> => {
  const runs = new Runs<ListingsProgress, Listings>({ keep: kept });
  const [come, out] = [new HeldFiles(mostTables), new HeldFiles(2)];
  const given = new Map<string, Given>();
  const drop = () => {
    for (const token of given.keys()) if (runs.stateOf(token) === null) given.delete(token);
  };
  const doneIn = (token: string) => {
    const state = runs.stateOf(token);
    if (state === null) return noListings;
    return state.state === 'done' ? well(state.result) : refusal('not-done', 'token', 'The judging is still under way.');
  };
  return {
    'listings.handIn': async ({ token, name, data }) => {
      const taking = token ?? come.begin(name);
      const bytes = come.add(taking, Buffer.from(data, 'base64'));
      if (bytes === null) return gone;
      if (bytes <= limits.spreadsheetBytes) return well({ token: taking, bytes });
      come.drop(taking);
      return refusal(
        'table-too-large',
        name,
        `${name} is too large: the most is ${limits.spreadsheetBytes / 1024 / 1024} MiB. Nothing was judged; take it apart into several.`,
      );
    },
    'listings.columns': async ({ token, sheet: sheetName, headings }) => {
      const held = come.whole(token);
      if (held === null) return gone;
      if (sheetTableIn(held) !== null) return well(null);
      const cells = listingCellsIn(held.bytes, held.name);
      if (!cells.ok) return cells;
      const matching = listingMatchingOf(cells.value, sheetName, headings);
      const rows = sheetIn(cells.value, matching.sheet)?.rows ?? [];
      const below = rows.slice(matching.headings);
      const textsOf = (row: number) => matching.columns.map((_, at) => rows[row]?.[at]?.text ?? '');
      return well({
        file: cells.value.file,
        notes: cells.value.notes,
        sheets: cells.value.sheets.map((one) => ({ name: one.name, hidden: one.hidden, rows: one.rows.length })),
        matching,
        headings: matching.headings === 0 ? matching.columns.map(() => '') : textsOf(matching.headings - 1),
        matches: matchListings(rows, matching.headings),
        first: below
          .map((cells, at) => ({ cells, at: matching.headings + at }))
          .filter((row) => row.cells.some(({ text }) => text !== ''))
          .slice(0, shownFirst)
          .map(({ at }) => textsOf(at)),
        rows: below.length,
      });
    },
    'listings.start': async ({ files, tables, shelf }) => {
      const now = await atlas.now();
      const items: ListingsItem[] = files.map((file) => itemOf(now, file));
      for (const { token, matching } of tables) {
        const held = come.whole(token);
        if (held === null) return gone;
        items.push(...itemsOfTable(now, { ...held, matching }));
      }
      if (shelf) items.push(...(await itemsOnShelf(store, atlas)));
      if (items.length === 0) return refusal('nothing-given', 'files', 'There is nothing to judge: nothing was handed in.');
      const token = runs.start(judgeListings(now, items), { judged: 0, of: items.length });
      given.set(token, { atlas: now, items });
      drop();
      return well({ token });
    },
    'listings.progress': async ({ token }) => {
      const state = runs.stateOf(token);
      if (state === null) return noListings;
      return well(state.state === 'done' ? { state: 'done', listings: summed(state.result) } : state);
    },
    'listings.rows': async ({ token, from, count }) => {
      const done = doneIn(token);
      return done.ok ? well(done.value.rows.slice(from, from + count)) : done;
    },
    'listings.cancel': async ({ token }) => (runs.cancel(token) ? well(null) : noListings),
    'listings.sheet': async ({ token, source }) => {
      const held = runs.stateOf(token) === null ? undefined : given.get(token);
      if (held === undefined) return noListings;
      const item = held.items.find((one) => one.source === source);
      if (item === undefined || 'faults' in item) return refusal('not-found', 'source', `This list has no sheet “${source}”.`);
      return well('sheet' in item ? item.sheet : offerJudge(held.atlas)(source, item.offer).sheet);
    },
    'listings.csv': async ({ token }) => {
      const done = doneIn(token);
      if (!done.ok) return done;
      const held = out.begin('listings.csv', Buffer.from(listingsCsv(done.value)));
      return well({ token: held, parts: out.partsOf(held) });
    },
    'listings.part': async ({ token, part }) => out.part(token, part),
  };
};

const summed = ({ rows, ...rest }: Listings): ListingsDone => {
  const counts = standings.map((standing) => ({ standing, rows: rows.filter((row) => row.standing === standing).length }));
  return { ...rest, rows: rows.length, counts: counts.filter((one) => one.rows > 0) };
};

const noListings = refusal(
  'not-found',
  'token',
  'No such list is under way; it was started before Kinplate was, or dropped since. Start it again.',
);
const gone = refusal(
  'not-found',
  'token',
  'That table is no longer held: others came after it, or Kinplate was started again. Hand it in once more.',
);

/** Own sheets and samples; planned builds are on it too, and the list says of them that they claim nothing. */
const itemsOnShelf = async (store: Store, atlas: KeptAtlas): Promise<ListingsItem[]> => {
  const listed = await store.sheets.list();
  if (!listed.ok) return [{ source: 'the shelf', faults: [listed.trouble.sentence] }];
  const items: ListingsItem[] = [];
  for (const { id, origin } of listed.value) {
    const source = origin === 'own' ? `the shelf, ${id}` : `the samples, ${id}`;
    const opened = await store.sheets.open(id);
    const held = opened.ok ? await atlas.holding(opened.value) : opened;
    items.push(
      held.ok
        ? { source, sheet: held.value.sheet }
        : { source, faults: (held.trouble.all ?? [held.trouble]).map(({ sentence }) => sentence) },
    );
  }
  return items;
};

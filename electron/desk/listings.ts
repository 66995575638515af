import { listingsCsv, type Store } from '../../db/index.ts';
import {
  type CompiledAtlas,
  judgeListings,
  type Listings,
  type ListingsItem,
  type ListingsProgress,
  offerJudge,
  standings,
} from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import type { ListingsDone } from '../bridge/listings-calls.ts';
import { refusal, well } from '../bridge/reply.ts';
import { itemOf, itemsOfTable, listingCellsIn, listingsMatched, sheetTableIn } from './handed-in.ts';
import { HeldFiles } from './held-files.ts';
import { HeldTables, tableGone } from './held-tables.ts';
import type { KeptAtlas } from './kept-atlas.ts';
import { Runs } from './runs.ts';
import { tableSeen } from './table-seen.ts';

/** Few are kept: each holds everything it was given. */
const kept = 4;
/** Tables handed in at once. */
const mostTables = 20;

interface Given {
  readonly atlas: CompiledAtlas;
  readonly items: readonly ListingsItem[];
}

/** Many listings and sheets judged, a little at a time. */
export const listingsCalls = (store: Store, atlas: KeptAtlas): Calls<'listings'> => {
  const runs = new Runs<ListingsProgress, Listings>({ keep: kept });
  const [come, out] = [new HeldTables(mostTables, 'Nothing was judged', listingCellsIn), new HeldFiles(2)];
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
    'listings.handIn': async (part) => come.handIn(part),
    'listings.columns': async ({ token, sheet: sheetName, headings }) => {
      const held = come.whole(token);
      if (held === null) return tableGone;
      if (sheetTableIn(held) !== null) return well(null);
      const cells = come.cellsOf(token);
      if (cells === null) return tableGone;
      if (!cells.ok) return cells;
      const { rows, ...matched } = listingsMatched(cells.value, sheetName, headings);
      return well({ ...tableSeen(cells.value, rows, matched.matching.headings), ...matched });
    },
    'listings.start': async ({ files, tables, shelf }) => {
      const now = await atlas.now();
      const items: ListingsItem[] = files.map((file) => itemOf(now, file));
      for (const { token, matching } of tables) {
        const held = come.whole(token);
        if (held === null) return tableGone;
        items.push(...itemsOfTable(now, { ...held, matching }, () => come.cellsOf(token) ?? tableGone));
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
  'No such list is under way; it was begun before Kinplate was last started, or dropped since. Begin it again.',
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

import { listingsCsv, type Store } from '../../db/index.ts';
import { judgeListings, type Listings, type ListingsItem, type ListingsProgress } from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import { itemsIn } from './handed-in.ts';
import type { KeptAtlas } from './kept-atlas.ts';
import { Runs } from './runs.ts';

/** Few are kept: each holds every sheet it was given. */
const kept = 4;

/** Many listings and sheets judged, a little at a time. */
export const listingsCalls = (store: Store, atlas: KeptAtlas): Calls<'listings'> => {
  const runs = new Runs<ListingsProgress, Listings>({ keep: kept });
  const items = new Map<string, readonly ListingsItem[]>();
  const drop = () => {
    for (const token of items.keys()) if (runs.stateOf(token) === null) items.delete(token);
  };
  return {
    'listings.start': async ({ files, shelf }) => {
      const now = await atlas.now();
      const given = [...itemsIn(now, files), ...(shelf ? await itemsOnShelf(store, atlas) : [])];
      if (given.length === 0) return refusal('nothing-given', 'files', 'There is nothing to judge: nothing was handed in.');
      const token = runs.start(judgeListings(now, given), { judged: 0, of: given.length });
      items.set(token, given);
      drop();
      return well({ token });
    },
    'listings.progress': async ({ token }) => {
      const state = runs.stateOf(token);
      if (state === null) return noListings;
      return well(state.state === 'done' ? { state: 'done', listings: state.result } : state);
    },
    'listings.cancel': async ({ token }) => (runs.cancel(token) ? well(null) : noListings),
    'listings.sheet': async ({ token, source }) => {
      const given = runs.stateOf(token) === null ? undefined : items.get(token);
      if (given === undefined) return noListings;
      const item = given.find((one) => one.source === source);
      return item !== undefined && 'sheet' in item
        ? well(item.sheet)
        : refusal('not-found', 'source', `This list has no sheet “${source}”.`);
    },
    'listings.csv': async ({ token }) => {
      const state = runs.stateOf(token);
      if (state === null) return noListings;
      return state.state === 'done' ? well(listingsCsv(state.result)) : refusal('not-done', 'token', 'The judging is still under way.');
    },
  };
};

const noListings = refusal(
  'not-found',
  'token',
  'No such list is under way; it was started before Kinplate was, or dropped since. Start it again.',
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

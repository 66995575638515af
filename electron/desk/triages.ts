import { type Store, triageCsv } from '../../db/index.ts';
import { type Triage, type TriageItem, type TriageProgress, triageAll } from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import { itemsIn } from './handed-in.ts';
import type { KeptAtlas } from './kept-atlas.ts';
import { Runs } from './runs.ts';

/** Few are kept: a triage holds every sheet it was given. */
const kept = 4;

/** Triage of many sheets, a little at a time. */
export const triageCalls = (store: Store, atlas: KeptAtlas): Calls<'triage'> => {
  const runs = new Runs<TriageProgress, Triage>({ keep: kept });
  const items = new Map<string, readonly TriageItem[]>();
  const drop = () => {
    for (const token of items.keys()) if (runs.stateOf(token) === null) items.delete(token);
  };
  return {
    'triage.start': async ({ files, shelf }) => {
      const now = await atlas.now();
      const given = [...itemsIn(now, files), ...(shelf ? await itemsOnShelf(store, atlas) : [])];
      if (given.length === 0) return refusal('nothing-given', 'files', 'There is nothing to triage: no sheet was handed in.');
      const token = runs.start(triageAll(now, given), { judged: 0, of: given.length });
      items.set(token, given);
      drop();
      return well({ token });
    },
    'triage.progress': async ({ token }) => {
      const state = runs.stateOf(token);
      if (state === null) return noTriage;
      return well(state.state === 'done' ? { state: 'done', triage: state.result } : state);
    },
    'triage.cancel': async ({ token }) => (runs.cancel(token) ? well(null) : noTriage),
    'triage.sheet': async ({ token, source }) => {
      const given = runs.stateOf(token) === null ? undefined : items.get(token);
      if (given === undefined) return noTriage;
      const item = given.find((one) => one.source === source);
      return item !== undefined && 'sheet' in item
        ? well(item.sheet)
        : refusal('not-found', 'source', `This triage has no sheet “${source}”.`);
    },
    'triage.csv': async ({ token }) => {
      const state = runs.stateOf(token);
      if (state === null) return noTriage;
      return state.state === 'done' ? well(triageCsv(state.result)) : refusal('not-done', 'token', 'The triage is still under way.');
    },
  };
};

const noTriage = refusal(
  'not-found',
  'token',
  'No such triage is under way; it was started before Kinplate was, or dropped since. Start it again.',
);

/** Own sheets and samples; planned builds are on it too, and the triage says of them that they claim nothing. */
const itemsOnShelf = async (store: Store, atlas: KeptAtlas): Promise<TriageItem[]> => {
  const listed = await store.sheets.list();
  if (!listed.ok) return [{ source: 'the shelf', faults: [listed.trouble.sentence] }];
  const items: TriageItem[] = [];
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

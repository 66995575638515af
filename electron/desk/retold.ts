import { type Outcome, type Store, versionOf } from '../../db/index.ts';
import { type KeptCase, type RetoldList, type RetoldProgress, retoldAll } from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import { well } from '../bridge/reply.ts';
import type { RetoldRow } from '../bridge/retold-calls.ts';
import type { KeptAtlas } from './kept-atlas.ts';
import { noJudging, Runs } from './runs.ts';

/** Every case as it was saved last, held against today's atlas, and which of them were left as they were told. */
export const casesToRetell = async (
  store: Store,
  atlas: KeptAtlas,
): Promise<Outcome<{ readonly items: readonly KeptCase[]; readonly isLeft: Parameters<typeof retoldAll>[2] }>> => {
  const told = await store.cases.lastTold();
  if (!told.ok) return told;
  const left = new Map(told.value.flatMap(({ sheet, left: otherwise }) => (otherwise === null ? [] : [[sheet, otherwise]])));
  const items: KeptCase[] = [];
  for (const { saved, verdict, left: _, ...one } of told.value) {
    const held = await atlas.holding(saved);
    const faults = held.ok ? [] : (held.trouble.all ?? [held.trouble]).map(({ sentence }) => sentence);
    items.push({ ...one, kept: held.ok ? { sheet: held.value.sheet, verdict } : { faults, verdict } });
  }
  return well({ items, isLeft: (one, is) => left.get(one.sheet) === versionOf(is) });
};

/** With the version of what each would be told. */
export const rowsOf = ({ cases, ...list }: RetoldList): Omit<RetoldList, 'cases'> & { readonly cases: readonly RetoldRow[] } => ({
  ...list,
  cases: cases.map((one) => ({ ...one, otherwise: one.retold === null ? null : versionOf(one.retold.is) })),
});

/** What saved cases would be told today, judged a little at a time. */
export const retoldCalls = (store: Store, atlas: KeptAtlas): Calls<'retold'> => {
  const runs = new Runs<RetoldProgress, RetoldList>({ keep: 4 });
  return {
    'retold.start': async () => {
      const now = await atlas.now();
      const found = await casesToRetell(store, atlas);
      if (!found.ok) return found;
      const { items, isLeft } = found.value;
      return well({ token: runs.start(retoldAll(now, items, isLeft), { judged: 0, of: items.length }) });
    },
    'retold.progress': async ({ token }) => {
      const state = runs.stateOf(token);
      if (state === null) return noJudging;
      return well(state.state === 'done' ? { state: 'done', list: rowsOf(state.result) } : state);
    },
    'retold.cancel': async ({ token }) => (runs.cancel(token) ? well(null) : noJudging),
  };
};

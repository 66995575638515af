import type { Store } from '../../db/index.ts';
import { answer, explain } from '../../reasoner/index.ts';
import { trouble, well } from '../bridge/reply.ts';
import type { Calls } from './desk.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** More conflicts than this are not looked for, even when all are asked for. */
const mostConflicts = 20_000;

/** Verdicts on a sheet as it stands in the window: held against the atlas first, then reasoned over. */
export const verdictCalls = (store: Store, kept: KeptAtlas): Calls<'verdict'> => ({
  'verdict.of': async ({ sheet }) => {
    const checked = await store.checkSheet(sheet);
    return checked.ok ? well(answer(await kept.now(), checked.value)) : checked;
  },
  'verdict.explain': async ({ sheet, name, all }) => {
    const checked = await store.checkSheet(sheet);
    if (!checked.ok) return checked;
    const atlas = await kept.now();
    const judged = answer(atlas, checked.value, { explain: 'none' });
    switch (judged.kind) {
      case 'contradiction':
        return trouble('contradiction', null, 'Observations contradict each other; no name is judged until they are settled.');
      case 'verdict':
        return judged.names.some((one) => one.name.id === name)
          ? well(explain(atlas, checked.value, name, all === true ? mostConflicts : undefined))
          : trouble('not-found', 'name', `“${name}” is no name that was judged for this sheet.`);
    }
  },
});

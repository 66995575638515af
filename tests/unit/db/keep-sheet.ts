import type { SavedSheet } from '../../../db/answers.ts';
import type { Outcome, Store } from '../../../db/index.ts';
import { well } from '../../../electron/bridge/reply.ts';
import { saveJudged } from '../../../electron/desk/save-judged.ts';
import { compileAtlas, judgeCase, type Sheet } from '../../../reasoner/index.ts';

/** Saves a sheet as the desk does: judged under the store's own atlas, verdict and all. */
export const keepSheet = (store: Store, sheet: Sheet, who = ''): Promise<Outcome<SavedSheet>> =>
  saveJudged(
    store,
    async () => {
      const checked = await store.sheets.check(sheet);
      return checked.ok ? well(judgeCase(compileAtlas(await store.atlas.read()), checked.value)) : checked;
    },
    sheet,
    who,
  );

import type { SheetSummary } from '../../../db/answers.ts';
import type { Outcome, Store } from '../../../db/index.ts';
import { saveJudged } from '../../../electron/desk/save-judged.ts';
import { compileAtlas, type Sheet } from '../../../reasoner/index.ts';

/** Saves a sheet as the desk does: judged under the store's own atlas, verdict and all. */
export const keepSheet = (store: Store, sheet: Sheet, who = ''): Promise<Outcome<SheetSummary>> =>
  saveJudged(store, async () => compileAtlas(await store.atlas.read()), sheet, who);

import { type MendReport, type MendSetting, mendAtlas, type Outcome, type Store } from '../../db/index.ts';
import { judgeCase } from '../../reasoner/index.ts';
import { well } from '../bridge/reply.ts';
import { atlasFile } from './data-folder.ts';
import { scheduled } from './drill-schedule.ts';
import { KeptAtlas } from './kept-atlas.ts';
import { openAtlas } from './open-house.ts';
import type { Reasoning } from './reasoning.ts';
import { saveJudged } from './save-judged.ts';

/** Mends the atlas of a data folder (P3) with this program's packs, judging and schedule. Troubles as of `mendAtlas`. */
export const mendFolder = (folder: string, shipped: string, now: Date, onStep?: MendSetting['onStep']): Promise<Outcome<MendReport>> =>
  mendAtlas(atlasFile(folder), { ...mendSetting(shipped, now), ...(onStep === undefined ? {} : { onStep }) });

export const mendSetting = (shipped: string, now: Date): MendSetting => ({
  now,
  shipped,
  makeAtlas: async (file, packs) => {
    const opened = await openAtlas(file, false, () => now);
    if (!opened.ok) return opened;
    const refused: { readonly folder: string; readonly sentence: string }[] = [];
    for (const pack of packs) {
      const loaded = await opened.value.packs.load(pack, { anyEdition: true, strangerIsFine: true });
      if (!loaded.ok) refused.push({ folder: pack, sentence: loaded.trouble.sentence });
    }
    return well({ store: opened.value, refused });
  },
  keep: (store, sheet) => saveJudged(store, judgeOver(store), sheet, ''),
  schedule: scheduled,
});

const atlases = new WeakMap<Store, KeptAtlas>();

/** Judges over a store, with one compiled atlas for all its sheets. */
const judgeOver = (store: Store): Reasoning['judgeCase'] => {
  const kept = atlases.get(store) ?? new KeptAtlas(store);
  atlases.set(store, kept);
  return async ({ sheet }) => {
    // Kept before slips were asked about: nobody can be asked here.
    const checked = await store.sheets.check(sheet);
    return checked.ok ? well(judgeCase(await kept.now(), checked.value)) : checked;
  };
};

import { type Store, sheetText } from '../../db/index.ts';
import { well } from '../bridge/reply.ts';
import type { Calls } from './desk.ts';
import type { KeptAtlas } from './kept-atlas.ts';
import { saveJudged } from './save-judged.ts';

/** The shelf of sheets, and sheets as files. */
export const sheetCalls = (store: Store, kept: KeptAtlas): Calls<'sheets'> => ({
  'sheets.list': () => store.sheets.list(),
  'sheets.open': ({ id }) => store.sheets.open(id),
  'sheets.save': async ({ sheet, who }) => {
    const held = await kept.holding(sheet);
    return held.ok ? saveJudged(store, () => kept.now(), held.value.sheet, who) : held;
  },
  'sheets.remove': ({ id }) => store.sheets.remove(id),
  'sheets.read': ({ text, file }) => store.sheets.read(text, file),
  'sheets.write': async ({ sheet }) => well(sheetText(sheet)),
});

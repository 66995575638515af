import { type Store, sheetText } from '../../db/index.ts';
import { well } from '../bridge/reply.ts';
import type { Calls } from './desk.ts';
import type { KeptAtlas } from './kept-atlas.ts';
import { saveJudged } from './save-judged.ts';

/** The shelf of sheets, and sheets as files. */
export const sheetCalls = (store: Store, kept: KeptAtlas): Calls<'sheets'> => ({
  'sheets.list': () => store.listSheets(),
  'sheets.open': ({ id }) => store.openSheet(id),
  'sheets.save': ({ sheet, who }) => saveJudged(store, () => kept.now(), sheet, who),
  'sheets.remove': ({ id }) => store.removeSheet(id),
  'sheets.read': ({ text, file }) => store.readSheet(text, file),
  'sheets.write': async ({ sheet }) => well(sheetText(sheet)),
});

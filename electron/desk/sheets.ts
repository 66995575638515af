import { type Store, sheetText } from '../../db/index.ts';
import type { Calls } from '../bridge/desk.ts';
import { well } from '../bridge/reply.ts';
import type { Reasoning } from './reasoning.ts';
import { saveJudged } from './save-judged.ts';

/** The shelf of sheets, and sheets as files. */
export const sheetCalls = (store: Store, reasoning: Reasoning): Calls<'sheets'> => ({
  'sheets.list': () => store.sheets.list(),
  'sheets.open': ({ id }) => store.sheets.opened(id),
  'sheets.save': ({ sheet, who, madeAgainst }) => saveJudged(store, reasoning.judgeCase, sheet, who, madeAgainst),
  'sheets.remove': ({ id, madeAgainst }) => store.sheets.remove(id, madeAgainst),
  'sheets.read': ({ text, file }) => store.sheets.read(text, file),
  'sheets.write': async ({ sheet }) => well(sheetText(sheet)),
});

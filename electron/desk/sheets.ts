import { type Store, sheetText } from '../../db/index.ts';
import { well } from '../bridge/reply.ts';
import type { Calls } from './desk.ts';

/** The shelf of sheets, and sheets as files. */
export const sheetCalls = (store: Store): Calls<'sheets'> => ({
  'sheets.list': () => store.listSheets(),
  'sheets.open': ({ id }) => store.openSheet(id),
  'sheets.save': ({ sheet }) => store.saveSheet(sheet),
  'sheets.remove': ({ id }) => store.removeSheet(id),
  'sheets.read': ({ text, file }) => store.readSheet(text, file),
  'sheets.write': async ({ sheet }) => well(sheetText(sheet)),
});

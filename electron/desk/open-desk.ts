import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Store } from '../../db/index.ts';
import type { Desk } from '../bridge/desk.ts';
import { apartCalls } from './apart.ts';
import { atlasCalls } from './atlas.ts';
import { backupCalls } from './backups.ts';
import { buildCalls, compareCalls } from './builds.ts';
import { caseCalls, photoCalls } from './cases.ts';
import { changeCalls } from './changes.ts';
import { drillCalls } from './drills.ts';
import { editCalls } from './edits.ts';
import { entryCalls } from './entries.ts';
import { KeptAtlas } from './kept-atlas.ts';
import { keyringCalls } from './keyring.ts';
import { keyCalls } from './keys.ts';
import { listingCalls } from './listing.ts';
import { listingsCalls } from './listings.ts';
import { numberCalls } from './number.ts';
import { oddsCalls } from './odds.ts';
import { packCalls } from './packs.ts';
import { parcelCalls } from './parcels.ts';
import { type Reasoning, reasoningOver } from './reasoning.ts';
import { reportCalls } from './reports.ts';
import { retoldCalls } from './retold.ts';
import { sampleCalls } from './samples.ts';
import { sheetCalls } from './sheets.ts';
import { documentCalls, priceCalls, settingsCalls, stockCalls } from './shop-room.ts';
import { tableCalls } from './tables.ts';
import { treeCalls } from './tree.ts';
import { verdictCalls } from './verdicts.ts';

/**
 * The desk over an open store. A new feature adds its calls here.
 * @param reasoning what is written rests on; answered here unless somebody else does
 * @param shipped the folder of the packs that come with the program
 */
export const openDesk = (
  store: Store,
  kept: KeptAtlas = new KeptAtlas(store),
  reasoning: Reasoning = reasoningOver(store, kept),
  shipped = '',
): Desk => ({
  ...atlasCalls(store, kept),
  ...backupCalls(store),
  ...treeCalls(store),
  ...changeCalls(store, kept, shipped, folderOf(store)),
  ...sheetCalls(store, reasoning),
  ...caseCalls(store, kept),
  ...photoCalls(store),
  ...settingsCalls(store),
  ...stockCalls(store),
  ...sampleCalls(store),
  ...priceCalls(store),
  ...documentCalls(store),
  ...packCalls(store, shipped, folderOf(store)),
  ...parcelCalls(store),
  ...editCalls(kept),
  ...entryCalls(kept),
  ...verdictCalls(kept),
  ...apartCalls(kept),
  ...keyCalls(kept),
  ...keyringCalls(store),
  ...tableCalls(store, kept),
  ...drillCalls(store, kept, reasoning),
  ...reportCalls(store, kept),
  ...listingsCalls(store, kept),
  ...retoldCalls(store, kept),
  ...numberCalls(store, kept),
  ...oddsCalls(kept),
  ...listingCalls(kept),
  ...buildCalls(kept, store),
  ...compareCalls(kept, store),
});

const folderOf = ({ file }: Store): string => (file === ':memory:' ? tmpdir() : path.dirname(file));

import type { z } from 'zod';
import type { Trouble } from '../../db/trouble.ts';
import type { Progress } from '../../reasoner/index.ts';
import { apartCalls } from './apart-calls.ts';
import { atlasCalls } from './atlas-calls.ts';
import { backupCalls } from './backup-calls.ts';
import { buildCalls } from './build-calls.ts';
import { caseCalls } from './case-calls.ts';
import { changeCalls } from './change-calls.ts';
import { documentCalls } from './document-calls.ts';
import { drillCalls } from './drill-calls.ts';
import { editCalls } from './edit-calls.ts';
import { entryCalls } from './entry-calls.ts';
import { keyCalls } from './key-calls.ts';
import { keyringCalls } from './keyring-calls.ts';
import { listingCalls } from './listing-calls.ts';
import { listingsCalls } from './listings-calls.ts';
import { numberCalls } from './number-calls.ts';
import { oddsCalls } from './odds-calls.ts';
import { packCalls } from './pack-calls.ts';
import { parcelCalls } from './parcel-calls.ts';
import { priceCalls } from './price-calls.ts';
import { reportCalls } from './report-calls.ts';
import { retoldCalls } from './retold-calls.ts';
import { sampleCalls } from './sample-calls.ts';
import { settingsCalls } from './settings-calls.ts';
import { sheetCalls } from './sheet-calls.ts';
import { stockCalls } from './stock-calls.ts';
import { tableCalls } from './table-calls.ts';
import { treeCalls } from './tree-calls.ts';
import { verdictCalls } from './verdict-calls.ts';

/**
 * The bridge, written once: every call the window may make of the desk, with the schema its argument is parsed by.
 * Both transports (Electron IPC, loopback HTTP) carry exactly these calls and pass the same contract tests.
 */
export const contract = {
  ...apartCalls,
  ...atlasCalls,
  ...backupCalls,
  ...buildCalls,
  ...caseCalls,
  ...changeCalls,
  ...documentCalls,
  ...drillCalls,
  ...editCalls,
  ...entryCalls,
  ...keyCalls,
  ...keyringCalls,
  ...listingCalls,
  ...numberCalls,
  ...oddsCalls,
  ...packCalls,
  ...parcelCalls,
  ...priceCalls,
  ...reportCalls,
  ...retoldCalls,
  ...sampleCalls,
  ...settingsCalls,
  ...sheetCalls,
  ...stockCalls,
  ...tableCalls,
  ...treeCalls,
  ...listingsCalls,
  ...verdictCalls,
} as const;

export type Contract = typeof contract;
export type CallName = keyof Contract;
export type CallArgs<C extends CallName> = z.input<Contract[C]['args']>;
export type CallResult<C extends CallName> = Contract[C]['result'];

export type { Progress, Trouble };

export type Reply<C extends CallName> =
  | { readonly ok: true; readonly value: CallResult<C> }
  | { readonly ok: false; readonly trouble: Trouble };

/** How a question is put, beside what it asks. */
export interface How {
  /** Where in the window the answer goes: a newer question for the same place cancels the older, if that is a long one. */
  readonly place?: string;
  /** Told now and then how far a long answer has come. */
  readonly onProgress?: (progress: Progress) => void;
}

/** The bridge as the window sees it: `window.desk.ask('atlas.part', { id })`. */
export interface Bridge {
  ask<C extends CallName>(name: C, args: CallArgs<C>, how?: How): Promise<Reply<C>>;
  /** Nobody looks at this place any more: a long question asked for it is answered with `cancelled`. */
  cancel(place: string): void;
  /** Calls the listener each time the atlas has changed; gives back how to stop that. */
  onAtlasChanged(listener: () => void): () => void;
}

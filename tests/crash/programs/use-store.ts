import { openStore } from '../../../db/index.ts';
import type { Sheet, SheetId } from '../../../reasoner/index.ts';
import { keepSheet } from '../../unit/db/keep-sheet.ts';

/** use-store.mjs FILE: opens the store, reads the atlas, saves a sheet and says, as one line of JSON, what came of each. */
const [file = ''] = process.argv.slice(2);

const said: Record<string, unknown> = {};
const opened = await openStore(file, { busyMs: 300 });
if (!opened.ok) said.opened = opened.trouble.code;
else {
  const store = opened.value;
  said.opened = 'opened';
  said.writable = store.writable;
  said.parts = (await store.atlas.read()).parts.length;
  const sheet = await store.sheets.open('found-01' as SheetId);
  const saved = sheet.ok ? await keepSheet(store, { ...sheet.value, id: 'from-child' as SheetId } as Sheet) : sheet;
  said.saved = saved.ok ? 'saved' : saved.trouble.code;
  await store.close();
}
process.stdout.write(`${JSON.stringify(said)}\n`);

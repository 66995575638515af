import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Outcome } from '../../db/index.ts';
import type { Desk } from '../../electron/bridge/desk.ts';
import { openDesk } from '../../electron/desk/open-desk.ts';
import { openAtlas } from '../../electron/desk/open-house.ts';
import type { Atlas, Sheet } from '../../reasoner/index.ts';

export interface DemoDesk {
  readonly desk: Desk;
  readonly atlas: Atlas;
  /** The found units among the sample sheets. */
  readonly sheets: readonly Sheet[];
  readonly close: () => Promise<void>;
}

/** The desk as the window has it: the demo pack in a real database file, in a folder that is removed afterwards. */
export const openDemoDesk = async (): Promise<DemoDesk> => {
  const folder = await mkdtemp(path.join(tmpdir(), 'kinplate-bench-'));
  const store = valueIn(await openAtlas(path.join(folder, 'atlas.db')));
  valueIn(await store.packs.load(demoPack));
  const desk = openDesk(store);
  const summaries = answered(await desk['sheets.list']({}));
  const sheets: Sheet[] = [];
  for (const { id, kind } of summaries) if (kind === 'found') sheets.push(answered(await desk['sheets.open']({ id })).sheet);
  return {
    desk,
    atlas: await store.atlas.read(),
    sheets,
    close: async () => {
      await store.close();
      await rm(folder, { recursive: true });
    },
  };
};

/** Also right from the built bench, which lies as deep in the project as this file does. */
const demoPack = fileURLToPath(new URL('../../seed-data/demo-pack', import.meta.url));

const valueIn = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(outcome.trouble.sentence);
  return outcome.value;
};

export const answered = <T>(
  reply: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly trouble: { readonly sentence: string } },
): T => {
  if (!reply.ok) throw new Error(reply.trouble.sentence);
  return reply.value;
};

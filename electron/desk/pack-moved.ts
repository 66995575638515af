import type { Outcome, Store, WordDispute } from '../../db/index.ts';
import type { Atlas } from '../../reasoner/index.ts';
import type { PackMove } from '../bridge/change-calls.ts';
import { refusal, well } from '../bridge/reply.ts';
import type { BroughtPacks } from './brought-packs.ts';
import { inIt, letPass } from './packs.ts';
import { shippedIn } from './shipped-packs.ts';

/** The atlas with a pack put in that comes with the program or was brought, or with one taken out. Nothing is written. Troubles as of the calls that do it. */
export const packMoved = async (store: Store, shipped: string, come: BroughtPacks, of: PackMove): Promise<Outcome<Atlas>> => {
  const after = await moved(store, shipped, come, of);
  if (!after.ok) return after;
  return well(after.value ?? (await store.atlas.read()));
};

const moved = async (store: Store, shipped: string, come: BroughtPacks, of: PackMove): Promise<Outcome<Atlas | null>> => {
  if ('takeOut' in of) return store.packs.afterRemoval(of.takeOut);
  if ('putIn' in of) {
    const found = (await shippedIn(shipped)).find(({ id }) => id === of.putIn);
    if (found === undefined) return refusal('not-found', of.putIn, `No pack “${of.putIn}” comes with the program.`);
    return store.packs.after(found.folder, { shipped });
  }
  const { token, signerIsFine, holds, words = [] } = of.bring;
  const brought = await come.pack(token);
  if (!brought.ok) return brought;
  const { folder } = brought.value;
  const decided = { holds: ({ cell }: WordDispute) => holds[cell] ?? null };
  const after = await store.packs.after(folder, { shipped, words, ...letPass(signerIsFine), ...decided });
  return after.ok ? after : { ok: false, trouble: inIt(after.trouble, folder) };
};

import type { Trouble } from '../../electron/bridge/contract.ts';
import { desk } from '../bridge/desk.ts';
import { fetchParts } from '../bridge/fetchParts.ts';
import { giveBlob } from '../look/giveFile.ts';

/** Makes the one file of a pack and hands it over as a download; gives its name. */
export const savePack = async (
  id: string,
): Promise<{ readonly ok: true; readonly value: string } | { readonly ok: false; readonly trouble: Trouble }> => {
  const made = await desk.ask('packs.write', { id });
  if (!made.ok) return made;
  const { token, name, parts } = made.value;
  const fetched = await fetchParts(parts, (part) => desk.ask('packs.part', { token, part }));
  if (!fetched.ok) return fetched;
  giveBlob(name, new Blob([...fetched.value], { type: 'application/zip' }));
  return { ok: true, value: name };
};

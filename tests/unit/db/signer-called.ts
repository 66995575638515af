import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Pack } from '../../../db/index.ts';
import { canonicalText } from '../../../db/packs/canonical.ts';
import { makeOwnKey, openOwnKey } from '../../../db/signing/own-key.ts';
import { signatureText, signPack } from '../../../db/signing/signature.ts';
import { freshFolder, noon } from './kit.ts';

/** Somebody with a key. */
export const signerCalled = async (name: string) => {
  const folder = freshFolder();
  const own = await makeOwnKey(folder, name, null);
  const { key } = await openOwnKey(folder, null);
  return {
    ...own,
    /** A pack's folder with his signature in it. */
    signs: async (into: string, what: Pack): Promise<string> => {
      const signature = signPack(what.head, canonicalText(what), { key, name, at: noon.toISOString() });
      await writeFile(join(into, 'signature.json'), signatureText(signature));
      return into;
    },
  };
};

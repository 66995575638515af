import { randomBytes } from 'node:crypto';
import { mkdir, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import type { Pack } from '../atlas/pack.ts';
import type { Reader } from '../driver/driver.ts';
import { whyNotWritten } from '../plain/why-not.ts';
import { signatureFile } from '../signing/signature.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { canonicalText } from './canonical.ts';
import { dataPackageFile, dataPackageText } from './data-package.ts';
import { type Held, noSuchPack, readHeld, saidPack } from './held.ts';
import { isSignatureOf } from './signed.ts';

/** A loaded pack, as it was loaded: without the shop's words on it. Throws `not-found`. */
export const packFrom = async (reader: Reader, id: string): Promise<Pack> => (await signedPackFrom(reader, id)).pack;

/** The same, with the text of its signature.json where it came with one. Throws `not-found`. */
export const signedPackFrom = async (reader: Reader, id: string): Promise<Pick<Held, 'pack' | 'signature'>> => {
  const held = await readHeld(reader, id);
  if (held === null) throw new TroubleError(noSuchPack(id));
  return { pack: saidPack(held), signature: held.signature };
};

/**
 * Writes a pack's canonical text, with what describes its tables to other programs, into a folder that does not exist yet, or is empty: whole or not at all, because it is
 * written beside it and then renamed. Throws `pack-cannot-write`.
 * @param signature the text of its signature.json; left out where it does not hold of what is written
 */
export const writePack = async (pack: Pack, folder: string, signature: string | null = null): Promise<void> => {
  const target = resolve(folder);
  const refuse = (why: string): never => {
    throw new TroubleError(trouble('pack-cannot-write', folder, `The pack was not written: ${why}. Nothing was changed in ${folder}.`));
  };
  const there = await readdir(target).catch((error: NodeJS.ErrnoException) =>
    error.code === 'ENOENT' ? [] : error.code === 'ENOTDIR' ? refuse('a file of this name is there') : refuse(whyNotWritten(error)),
  );
  if (there.length > 0) refuse('the folder is not empty');
  const beside = `${target}.partial-${randomBytes(4).toString('hex')}`;
  try {
    const texts = canonicalText(pack);
    const signed = signature !== null && isSignatureOf(signature, pack.head, texts) ? [[signatureFile, signature] as const] : [];
    const described = [dataPackageFile, dataPackageText(pack, texts)] as const;
    for (const [path, text] of [...texts, described, ...signed]) {
      await mkdir(dirname(join(beside, path)), { recursive: true });
      await writeFile(join(beside, path), text, { flush: true });
    }
    await rename(beside, target);
  } catch (error) {
    await rm(beside, { recursive: true, force: true });
    if ((error as NodeJS.ErrnoException).code === undefined) throw error;
    refuse(whyNotWritten(error));
  }
};

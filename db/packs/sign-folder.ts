import { randomBytes } from 'node:crypto';
import { readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { eq } from 'drizzle-orm';
import type { FolderSigned, FolderVerified } from '../answers.ts';
import type { Pack } from '../atlas/pack.ts';
import type { Guard, Reader } from '../driver/driver.ts';
import type { Plan } from '../driver/write-planned.ts';
import { whyNotWritten } from '../plain/why-not.ts';
import type { Asked } from '../read/asked.ts';
import * as t from '../schema.ts';
import { openOwnKey } from '../signing/own-key.ts';
import { fingerprintOf } from '../signing/public-key.ts';
import { signatureFile, signatureText, signPack } from '../signing/signature.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { atlasOfPacks } from './atlas-of-packs.ts';
import { canonicalText, hashOfPack } from './canonical.ts';
import { dataPackageFile, dataPackageText } from './data-package.ts';
import { noSuchPack, readHeld } from './held.ts';
import { foldersFor } from './leaning.ts';
import { readPack } from './read.ts';
import { notCoveredIn, signatureIn, signedAnew, signerOf } from './signed.ts';
import { standingOf } from './standing.ts';

/** A folder's pack, with what it leans on from beside it or, where all of that is there, from the atlas. Throws as `readPack` says. */
const packAt = async (reader: Reader, folder: string, asked: Asked): Promise<Pack> => {
  const rows = await reader.orm.select({ id: t.packs.id }).from(t.packs);
  const held = new Set(rows.map(({ id }) => id));
  const folders = await foldersFor(folder, (pack) => held.has(pack));
  const inAtlas = held.size > 0 && folders.ok && folders.value.length === 1;
  const beside = { beside: async (pack: string) => atlasOfPacks(await standingOf(reader, rows).but(pack)) };
  const read = await readPack(folder, { ...asked, ...(inAtlas ? beside : {}) });
  if (!read.ok) throw new TroubleError(read.trouble);
  return read.value;
};

const about = async (folder: string, pack: Pack, texts: ReadonlyMap<string, string>) => {
  const { id, title, edition, licence = null, by = null } = pack.head;
  const otherwise: string[] = [];
  for (const [path, text] of texts) if (!(await readFile(join(folder, path))).equals(Buffer.from(text))) otherwise.push(path);
  const beside = await notCoveredIn(folder, texts);
  const described = beside.includes(dataPackageFile)
    ? (await readFile(join(folder, dataPackageFile))).equals(Buffer.from(dataPackageText(pack, texts)))
    : null;
  const notCovered = beside.filter((path) => path !== dataPackageFile);
  return { pack: id, title, edition, licence, by, hash: hashOfPack(texts), otherwise, notCovered, described };
};

/** Whose a folder's pack is, and whether it is as it was signed. Throws as `readPack` says, and `pack-signature`. */
export const verifyFolder = async (reader: Reader, folder: string, asked: Asked): Promise<FolderVerified> => {
  const pack = await packAt(reader, folder, asked);
  const texts = canonicalText(pack);
  const signature = await signatureIn(folder, pack.head, texts);
  return { ...(await about(folder, pack, texts)), signer: signature === null ? null : await signerOf(reader, signature) };
};

/**
 * Signs a folder's pack with the shop's own key: writes its `signature.json`, whole or not at all, in place of the one that is there.
 * Throws as `readPack` says, `key-unreadable`, and `pack-cannot-write`.
 * @param keys the folder the key stands in
 * @param at ISO time
 */
export const signFolder = async (
  reader: Reader,
  folder: string,
  {
    asked,
    keys,
    passphrase,
    at,
  }: { readonly asked: Asked; readonly keys: string; readonly passphrase: string | null; readonly at: string },
): Promise<FolderSigned> => {
  const { name, key } = await openOwnKey(keys, passphrase);
  const pack = await packAt(reader, folder, asked);
  const texts = canonicalText(pack);
  const signature = signPack(pack.head, texts, { key, name, at });
  const file = join(folder, signatureFile);
  const part = join(folder, `.signature.${randomBytes(6).toString('hex')}`);
  try {
    await writeFile(part, signatureText(signature), { flush: true, flag: 'wx' });
    await rename(part, file);
  } catch (error) {
    await rm(part, { force: true });
    if ((error as NodeJS.ErrnoException).code === undefined) throw error;
    throw new TroubleError(
      trouble('pack-cannot-write', file, `The signature was not written: ${whyNotWritten(error)}. Nothing was changed in ${folder}.`),
    );
  }
  const signer = { key: signature.key, name, fingerprint: fingerprintOf(signature.key), at };
  return { ...(await about(folder, pack, texts)), signer };
};

/**
 * Signs a pack that is held with the shop's own key: the signature stands with the pack and goes out with it, until something else is said of it.
 * Throws `not-found`, `key-unreadable`, and `pack-signer` where it is somebody else's already: whoever has it from him would no longer know it.
 */
export const planSigning = async (
  reader: Reader,
  id: string,
  { keys, passphrase, at }: { readonly keys: string; readonly passphrase: string | null; readonly at: string },
): Promise<Plan<FolderSigned['signer']>> => {
  const held = await readHeld(reader, id);
  if (held === null) throw new TroubleError(noSuchPack(id));
  const { name, key } = await openOwnKey(keys, passphrase);
  const texts = canonicalText(held.pack);
  const signature = signPack(held.pack.head, texts, { key, name, at });
  const [row] = await reader.orm.select({ signer: t.packs.signer }).from(t.packs).where(eq(t.packs.id, id));
  const signer = row?.signer ?? null;
  if (signer !== null && signer !== signature.key)
    throw new TroubleError(
      trouble(
        'pack-signer',
        `pack ${id}`,
        `The pack "${id}" is signed by somebody else, with the key ${fingerprintOf(signer)}, and was left so. To pass it on under your own key, write it out and sign the folder. Nothing was changed.`,
      ),
    );
  return {
    batch: {
      guards: [stillSays(id, hashOfPack(texts))],
      statements: [signedAnew(id, { signer: signature.key, signature: signatureText(signature) })],
    },
    value: { key: signature.key, name, fingerprint: fingerprintOf(signature.key), at },
  };
};

const stillSays = (id: string, hash: string): Guard => ({
  sql: 'select hash = ? from packs where id = ?',
  params: [hash, id],
  refusal: trouble(
    'atlas-changed',
    `pack ${id}`,
    `The pack "${id}" was changed from elsewhere while it was signed. Nothing was signed. Try it again.`,
  ),
});

import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { eq } from 'drizzle-orm';
import type { PackHead } from '../atlas/pack.ts';
import type { Reader, Statement } from '../driver/driver.ts';
import { build, statementOf } from '../driver/statements.ts';
import { placeText } from '../read/faults.ts';
import { parseJson } from '../read/parse-json.ts';
import * as t from '../schema.ts';
import { heldKey, keyringOf } from '../signing/key-shelf.ts';
import type { PublicKey, Signer, SignerNamed } from '../signing/keyring.ts';
import { fingerprintOf } from '../signing/public-key.ts';
import { faultOfSignature, type Signature, signatureFile, signatureSchema, signatureText } from '../signing/signature.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { headText } from './canonical.ts';
import { reasonOf } from './read-files.ts';

/** What whoever loads a pack lets pass; a signature that does not hold, and a key that was withdrawn, nobody can. */
export interface SignerOptions {
  /** Loads what is signed with a key the keyring does not hold. */
  readonly strangerIsFine?: boolean;
  /** Loads an edition that is unsigned, or signed with another key, in place of one that is held signed. */
  readonly otherSignerIsFine?: boolean;
}

/** Columns of a pack's row. */
export interface SignerColumns {
  readonly signer: PublicKey | null;
  readonly signature: string | null;
}

/**
 * The signature that stands in a pack's folder, held against what was read from there: null where there is none. It is over the canonical text, which is what is kept of
 * the pack, so that another spacing of a file that says the same is no matter. Throws `pack-signature`.
 * @param texts the canonical text of the pack
 */
export const signatureIn = async (
  folder: string,
  head: Pick<PackHead, 'id' | 'edition'>,
  texts: ReadonlyMap<string, string>,
): Promise<Signature | null> => {
  const refuse = (place: string, because: string): never => {
    throw new TroubleError(
      trouble('pack-signature', place, `The signature of the pack "${head.id}" does not hold: ${because}. Nothing was changed.`),
    );
  };
  const file = join(folder, signatureFile);
  let bytes: Buffer;
  try {
    bytes = await readFile(file);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    return refuse(file, `${signatureFile} cannot be read (${reasonOf(error)})`);
  }
  const read = readSignature(bytes);
  if (!read.ok) return refuse(`${folder}/${read.place}`, `${read.place}: found ${read.found}, expected ${read.expected}`);
  const fault = faultOfSignature(read.signature, head, texts);
  return fault === null ? read.signature : refuse(file, fault);
};

type ReadSignature =
  | { readonly ok: true; readonly signature: Signature }
  | { readonly ok: false; readonly place: string; readonly found: string; readonly expected: string };

const readSignature = (bytes: Buffer): ReadSignature => {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return { ok: false, place: signatureFile, found: 'bytes that are not UTF-8', expected: 'text in UTF-8' };
  }
  const parsed = parseJson(text, signatureSchema);
  if (parsed.ok) return { ok: true, signature: parsed.value };
  const [fault] = parsed.faults;
  return {
    ok: false,
    place: placeText({ file: signatureFile, row: fault?.row ?? null, column: fault?.column ?? null }),
    found: fault?.found ?? 'nothing',
    expected: fault?.expected ?? 'a signature',
  };
};

/** Whether the text of a signature.json is one, and holds of this pack. */
export const isSignatureOf = (text: string, head: Pick<PackHead, 'id' | 'edition'>, texts: ReadonlyMap<string, string>): boolean => {
  const read = readSignature(Buffer.from(text));
  return read.ok && faultOfSignature(read.signature, head, texts) === null;
};

/** Whether the text of a signature.json speaks of this head of a pack, and not of the one it had before its words were mapped. */
export const speaksOfHead = (text: string, head: PackHead): boolean => {
  const read = readSignature(Buffer.from(text));
  const sha256 = createHash('sha256').update(headText(head)).digest('hex');
  return read.ok && read.signature.files.some((file) => file.path === 'pack.json' && file.sha256 === sha256);
};

/** What the signer calls himself. */
const nameIn = (text: string | null): string => {
  const read = readSignature(Buffer.from(text ?? ''));
  return read.ok ? read.signature.signer : '';
};

/** Who signed packs that are held, by their columns. */
export const signersIn = async (reader: Reader): Promise<(columns: SignerColumns) => SignerNamed | null> => {
  const called = new Map((await keyringOf(reader)).map(({ key, name }) => [key, name]));
  return ({ signer, signature }) =>
    signer === null ? null : { key: signer, name: called.get(signer) ?? nameIn(signature), fingerprint: fingerprintOf(signer) };
};

/** Who signed, and what the shop says of the key. */
export const signerOf = async (reader: Reader, { key, signer, at }: Signature): Promise<Signer> => {
  const held = await heldKey(reader, key);
  const standing = held === null ? 'stranger' : held.withdrawn === null ? 'trusted' : 'withdrawn';
  return { key, name: held?.name ?? signer, fingerprint: fingerprintOf(key), at, standing };
};

export const unsigned: SignerColumns = { signer: null, signature: null };

interface Arriving {
  readonly folder: string;
  readonly head: PackHead;
  /** Its canonical text. */
  readonly texts: ReadonlyMap<string, string>;
  /** The edition that is held; null where none is. */
  readonly held: SignerColumns | null;
  /** Whether it says what is held, to the byte. */
  readonly same: boolean;
}

/**
 * Who signed the pack of a folder, once that lets it be loaded; null where nobody did. `columns` is what is to be kept of it: null where what is kept stands, as of a
 * pack that is held already and comes unsigned, or signed by another, with nothing changed in it.
 * Throws `pack-signature`, and `pack-signer` where the shop does not take this pack from this signer.
 */
export const admittedSigner = async (
  reader: Reader,
  { folder, head, texts, held, same }: Arriving,
  { strangerIsFine = false, otherSignerIsFine = false }: SignerOptions,
): Promise<{ readonly signer: Signer | null; readonly columns: SignerColumns | null }> => {
  const signature = await signatureIn(folder, head, texts);
  const signer = signature === null ? null : await signerOf(reader, signature);
  const columns = signature === null ? null : { signer: signature.key, signature: signatureText(signature) };
  const was = held?.signer ?? null;
  if (same && was !== null && (was === signer?.key || !otherSignerIsFine)) return { signer, columns: null };
  const refuse = (sentence: string): never => {
    throw new TroubleError(trouble('pack-signer', join(folder, signatureFile), `The pack "${head.id}" ${sentence} Nothing was changed.`));
  };
  if (signer?.standing === 'withdrawn')
    refuse(`is signed with a key the shop has withdrawn, ${whose(signer)}. It is not loaded unless that key is trusted again.`);
  if (was !== null && was !== (signer?.key ?? null) && !otherSignerIsFine) {
    const before = (await heldKey(reader, was))?.name ?? nameIn(held?.signature ?? null);
    const now = signer === null ? 'is not signed' : `is signed by ${whose(signer)}`;
    refuse(
      `${now}, and the edition the atlas holds is signed by ${whose({ name: before, fingerprint: fingerprintOf(was) })}. Ask them before another takes its place.`,
    );
  }
  if (signer?.standing === 'stranger' && !strangerIsFine)
    refuse(
      `is signed by somebody the keyring does not hold, who calls himself ${whose(signer)}. Have the fingerprint read to you by whoever you have the pack from, and put the key into the keyring.`,
    );
  return { signer, columns };
};

/** Keeps the signature of a pack that is held and says the same as it did. */
export const signedAnew = (pack: string, columns: SignerColumns): Statement =>
  statementOf(build.update(t.packs).set(columns).where(eq(t.packs.id, pack)));

/** `Saltmarsh (AAAA-CCCC-…)` */
export const whose = ({ name, fingerprint }: Pick<Signer, 'name' | 'fingerprint'>): string => `${name} (${fingerprint})`;

/** Files in a folder that are no part of the pack: nothing of them is loaded, and no signature speaks of them. */
export const notCoveredIn = async (folder: string, texts: ReadonlyMap<string, string>): Promise<readonly string[]> => {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => !entry.isDirectory())
    .map((entry) => join(entry.parentPath, entry.name).slice(join(folder, '/').length).replaceAll('\\', '/'))
    .filter((path) => path !== signatureFile && !texts.has(path))
    .sort();
};

import { createHash, type KeyObject, sign, verify } from 'node:crypto';
import { z } from 'zod';
import { headSchema, idText } from '../atlas/schemas.ts';
import type { PublicKey } from './keyring.ts';
import { bytesIn, isPublicKey, isSignerName, keyObjectOf, mostOfName, publicKeyOf } from './public-key.ts';

/** The file of a pack's folder that holds its signature. It is no part of the pack: nothing is signed of it, and the pack's hash does not know it. */
export const signatureFile = 'signature.json';

/** Of one file of a pack, its canonical text in UTF-8. */
const signedFile = z.strictObject({
  path: z.string().regex(/^(sheets\/)?[\p{L}\p{N}][\p{L}\p{N}._:+-]*\.(json|csv)$/u, { error: 'the path of a file of a pack' }),
  sha256: z.string().regex(/^[0-9a-f]{64}$/, { error: 'a SHA-256 of 64 small hexadecimal digits' }),
  bytes: z.int().min(0),
});

export const signatureSchema = z.strictObject({
  format: z.literal('kinplate pack signature'),
  version: z.literal(1),
  pack: idText,
  edition: headSchema.shape.edition,
  signer: z.string().refine(isSignerName, { error: `a name on one line, of at most ${mostOfName} characters` }),
  key: z
    .string()
    .refine(isPublicKey, { error: 'a public key: 32 bytes in base64' })
    .transform((text) => text as PublicKey),
  at: z.iso.datetime({ precision: 3 }),
  files: z.array(signedFile).min(1),
  signature: z.string().refine((text) => bytesIn(text, 64) !== null, { error: 'a signature: 64 bytes in base64' }),
});

/** Who signed which pack when, and what of it. */
export type Signature = z.output<typeof signatureSchema>;

type Signed = Omit<Signature, 'format' | 'version' | 'signature'>;

/**
 * What is signed, byte for byte; FORMAT.md says the same. Every line ends in LF and none of what stands in a line can hold one, so that two different things
 * are never one message; the first line keeps it from being taken for anything else that is signed with the key.
 */
export const signedMessage = ({ pack, edition, signer, key, at, files }: Signed): Buffer =>
  Buffer.from(
    [
      'kinplate pack signature, version 1',
      `pack ${pack}`,
      `edition ${edition}`,
      `signer ${signer}`,
      `key ${key}`,
      `at ${at}`,
      `files ${files.length}`,
      ...files.map(({ path, sha256, bytes }) => `${sha256} ${bytes} ${path}`),
      '',
    ].join('\n'),
  );

const filesOf = (texts: ReadonlyMap<string, string>): Signature['files'] =>
  [...texts].map(([path, text]) => ({
    path,
    sha256: createHash('sha256').update(text).digest('hex'),
    bytes: Buffer.byteLength(text),
  }));

/**
 * Signs a pack (Ed25519, RFC 8032, 5.1.6; the pure form, without a hash before it).
 * @param texts the canonical text of each file, in canonical order
 * @param at ISO time, to the millisecond
 */
export const signPack = (
  { id, edition }: { readonly id: string; readonly edition: string },
  texts: ReadonlyMap<string, string>,
  { key, name, at }: { readonly key: KeyObject; readonly name: string; readonly at: string },
): Signature => {
  const signed: Signed = { pack: id, edition, signer: name, key: publicKeyOf(key), at, files: filesOf(texts) };
  return {
    format: 'kinplate pack signature',
    version: 1,
    ...signed,
    signature: sign(null, signedMessage(signed), key).toString('base64'),
  };
};

/** As it stands in its file. */
export const signatureText = (signature: Signature): string => `${JSON.stringify(signatureSchema.parse(signature), null, 2)}\n`;

/** What keeps a signature from being one of this pack, as a clause after "because"; null where it holds. */
export const faultOfSignature = (
  signature: Signature,
  { id, edition }: { readonly id: string; readonly edition: string },
  texts: ReadonlyMap<string, string>,
): string | null => {
  if (signature.pack !== id) return `it is of the pack "${signature.pack}", and this is "${id}"`;
  if (signature.edition !== edition) return `it is of edition ${signature.edition}, and this is ${edition}`;
  const signed = new Map(signature.files.map((file) => [file.path, file]));
  for (const { path, sha256 } of filesOf(texts)) {
    const was = signed.get(path);
    if (was === undefined) return `${path} was not there when it was signed`;
    if (was.sha256 !== sha256) return `${path} does not say what it said when it was signed`;
  }
  const gone = signature.files.find(({ path }) => !texts.has(path));
  if (gone !== undefined) return `${gone.path} was there when it was signed and is not there now`;
  const key = keyObjectOf(signature.key);
  const holds = key !== null && verify(null, signedMessage(signature), key, Buffer.from(signature.signature, 'base64'));
  return holds ? null : 'it was not made with the key it names, or signature.json was altered afterwards';
};

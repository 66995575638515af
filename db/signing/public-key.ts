import { createHash, createPublicKey, type KeyObject } from 'node:crypto';
import { isPlain } from '../read/plain-text.ts';
import { TroubleError, trouble } from '../trouble.ts';
import type { NamedKey, PublicKey } from './keyring.ts';

/** The most characters of a name. */
export const mostOfName = 200;

export const isSignerName = (text: string): boolean => text !== '' && text.length <= mostOfName && isPlain(text);

/** So many bytes in base64, written as base64 is written and in no other way; null for any other text. */
export const bytesIn = (text: string, many: number): Buffer | null => {
  const bytes = Buffer.from(text, 'base64');
  return bytes.length === many && bytes.toString('base64') === text ? bytes : null;
};

export const isPublicKey = (text: string): text is PublicKey => bytesIn(text, 32) !== null;

/** What stands before the 32 bytes in the DER of a public key (RFC 8410, section 4: SubjectPublicKeyInfo with id-Ed25519). */
const spkiHead = Buffer.from('302a300506032b6570032100', 'hex');

/** Null for 32 bytes that are no point of the curve. */
export const keyObjectOf = (key: PublicKey): KeyObject | null => {
  try {
    return createPublicKey({ key: Buffer.concat([spkiHead, Buffer.from(key, 'base64')]), format: 'der', type: 'spki' });
  } catch {
    return null;
  }
};

export const publicKeyOf = (key: KeyObject): PublicKey =>
  createPublicKey(key).export({ format: 'der', type: 'spki' }).subarray(spkiHead.length).toString('base64') as PublicKey;

/** Sixteen signs none of which is taken for another: no 0 O D Q, 1 I J L, 2 Z, 5 S, 8 B, G, U V, N, P. */
const signs = '34679ACEFHKMRTWX';

/**
 * What two people read to each other to know that they have the same key: the first 96 bits of the SHA-256 of a line that says what this is and the key's 32 bytes,
 * four bits to a sign, in six groups of four. To find another key with the same one takes some 2^96 tries.
 */
export const fingerprintOf = (key: PublicKey): string => {
  const hash = createHash('sha256').update('kinplate public key\n').update(Buffer.from(key, 'base64')).digest();
  const read = [...hash.subarray(0, 12)].flatMap((byte) => [signs[byte >> 4], signs[byte & 15]]).join('');
  return (read.match(/.{4}/g) as string[]).join('-');
};

/** Whether what somebody typed is this key's fingerprint: small letters, spaces and hyphens make no difference. */
export const isFingerprintOf = (typed: string, key: PublicKey): boolean =>
  typed.toUpperCase().replace(/[\s-]/g, '') === fingerprintOf(key).replaceAll('-', '');

const [title, nameLine, keyLine, printLine] = ['kinplate public key, version 1', 'name: ', 'key: ', 'fingerprint: '];

/** A public key as a text to hand on. */
export const keyText = ({ name, key }: NamedKey): string =>
  `${title}\n${nameLine}${name}\n${keyLine}${key}\n${printLine}${fingerprintOf(key)}\n`;

/**
 * The key such a text holds. Lines end in LF or CRLF, and what follows the four is not looked at. Throws `key-unreadable`, with what was found and what was expected.
 * @param place where the text is from, for troubles
 */
export const readKeyText = (text: string, place: string): NamedKey => {
  const refuse = (row: number, found: string, expected: string): never => {
    throw new TroubleError(
      trouble('key-unreadable', `${place}, row ${row}`, `${place}, row ${row}: found ${found}, expected ${expected}. Nothing was changed.`),
    );
  };
  const lines = text.replace(/^\u{feff}/u, '').split(/\r?\n/);
  const after = (row: number, beginning: string): string => {
    const line = lines[row - 1] ?? '';
    return line.startsWith(beginning) ? line.slice(beginning.length) : refuse(row, shortOf(line), `“${beginning.trim()}” and what it is`);
  };
  if (lines[0] !== title) refuse(1, shortOf(lines[0] ?? ''), `the line “${title}”`);
  const name = after(2, nameLine);
  if (!isSignerName(name)) refuse(2, shortOf(name), `a name on one line, of at most ${mostOfName} characters`);
  const key = after(3, keyLine);
  if (!isPublicKey(key) || keyObjectOf(key) === null) return refuse(3, shortOf(key), '32 bytes in base64 that are an Ed25519 key');
  const fingerprint = after(4, printLine);
  if (!isFingerprintOf(fingerprint, key)) refuse(4, shortOf(fingerprint), `the fingerprint of this key, ${fingerprintOf(key)}`);
  return { name, key };
};

const shortOf = (line: string): string => (line === '' ? 'nothing' : JSON.stringify(line.length > 80 ? `${line.slice(0, 77)}…` : line));

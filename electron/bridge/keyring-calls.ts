import { z } from 'zod';
import type { FolderSigned, OwnKey, TrustedKey } from '../../db/answers.ts';
import { isWellFormed } from '../../reasoner/plain/well-formed.ts';
import { call, nothing } from './call.ts';

const words = (most: number) => z.string().max(most).refine(isWellFormed, { error: 'text without half a surrogate pair' });
/** A public key as it is handed on: four lines, and what may follow them. */
const text = words(10_000);
const who = words(200);
/** Null for a key that is under none. It is asked for again every time: nothing keeps it. */
const passphrase = words(1000).min(1).nullable();

/** The key the shop signs with, and whom it trusts (P15). */
export const keyringCalls = {
  /** The public half of the shop's own key; null where it has none. */
  'keyring.own': call(nothing).returns<OwnKey | null>(),
  /** Makes it, once, and trusts it. */
  'keyring.make': call(z.strictObject({ name: words(200), who, passphrase })).returns<OwnKey>(),
  'keyring.keys': call(nothing).returns<readonly TrustedKey[]>(),
  /** Whose key a text holds, with the fingerprint to be read to whoever it is from. */
  'keyring.look': call(z.strictObject({ text })).returns<OwnKey>(),
  'keyring.trust': call(z.strictObject({ text, who })).returns<TrustedKey>(),
  /** By the key itself, its fingerprint, or a name only one key has. */
  'keyring.withdraw': call(z.strictObject({ key: words(300).min(1), who })).returns<TrustedKey>(),
  /** Signs a pack the atlas holds, so that it goes out signed. */
  'keyring.sign': call(z.strictObject({ pack: z.string().min(1).max(200), passphrase })).returns<FolderSigned['signer']>(),
} as const;

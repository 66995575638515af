/** The public half of an Ed25519 key: its 32 bytes as RFC 8032, 5.1.5 writes them, in base64 (RFC 4648, section 4). */
export type PublicKey = string & { readonly __publicKey: true };

/** Whose a key is said to be, and the key. */
export interface NamedKey {
  readonly name: string;
  readonly key: PublicKey;
}

/** A key the shop trusts, or trusted. */
export interface TrustedKey extends NamedKey {
  /** What two people read to each other: six groups of four signs. */
  readonly fingerprint: string;
  /** ISO time, and who said so; the empty text where nobody did. */
  readonly since: string;
  readonly who: string;
  /** Null while it is trusted. */
  readonly withdrawn: { readonly at: string; readonly who: string } | null;
}

/** The public half of the shop's own key, or of one that is looked at. */
export interface OwnKey extends NamedKey {
  readonly fingerprint: string;
  /** As it is handed on. */
  readonly text: string;
}

/** A signer as the keyring calls him, else as he calls himself. */
export interface SignerNamed extends NamedKey {
  readonly fingerprint: string;
}

/** Who signed a pack, by a signature that holds. */
export interface Signer extends SignerNamed {
  /** When, as the signer's clock said: ISO time. */
  readonly at: string;
  /** What the shop says of the key: nothing, of a stranger's. */
  readonly standing: 'trusted' | 'stranger' | 'withdrawn';
}

/** A pack's folder, held against its signature. */
export interface FolderVerified {
  readonly pack: string;
  readonly title: string;
  readonly edition: string;
  readonly licence: string | null;
  /** Who answers for it, as it says itself. */
  readonly by: string | null;
  /** SHA-256 of its canonical text. */
  readonly hash: string;
  /** Files that are not written as the canonical text is, and say the same. */
  readonly otherwise: readonly string[];
  /** Files that are no part of the pack. */
  readonly notCovered: readonly string[];
  /** Whether its `datapackage.json` is what export would write; null where there is none. */
  readonly described: boolean | null;
  /** Null where it is not signed. */
  readonly signer: Signer | null;
}

/** A pack's folder that was signed just now. */
export interface FolderSigned extends Omit<FolderVerified, 'signer'> {
  readonly signer: Omit<Signer, 'standing'>;
}

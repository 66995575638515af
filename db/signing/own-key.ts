import { createPrivateKey, generateKeyPairSync, type KeyObject, randomBytes } from 'node:crypto';
import { link, open, readFile, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { syncFolder } from '../plain/files.ts';
import { whyNotRead, whyNotWritten } from '../plain/why-not.ts';
import { TroubleError, trouble } from '../trouble.ts';
import type { NamedKey } from './keyring.ts';
import { isSignerName, keyText, mostOfName, publicKeyOf, readKeyText } from './public-key.ts';

/**
 * The key a shop signs with stands in one file of its data folder and nowhere else: not in the atlas, and so in no backup of it. First come the lines of its public half,
 * which whoever reads PEM passes over (RFC 7468, section 5.2), then the private half as PKCS #8, enciphered where there is a passphrase.
 */
export const ownKeyFile = (folder: string): string => join(folder, 'signing-key.pem');

const begins = '-----BEGIN ';

/** The public half of the shop's own key; null where it has none. Throws `key-unreadable`. */
export const readOwnKey = async (folder: string): Promise<NamedKey | null> => {
  const text = await textOfKey(folder);
  return text === null ? null : readKeyText(text, ownKeyFile(folder));
};

const textOfKey = async (folder: string): Promise<string | null> => {
  const file = ownKeyFile(folder);
  try {
    return await readFile(file, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw new TroubleError(
      trouble('key-unreadable', file, `The key cannot be read, for ${whyNotRead(error)}: ${file}. Nothing was changed.`),
    );
  }
};

/**
 * Makes the key, for its user alone to read. It is written whole or not at all, and never over another: whoever trusts that one would know nothing of this one.
 * Throws `key-exists`, and `key-cannot-write`.
 * @param passphrase enciphers the private half with AES-256; null leaves it as it is
 */
export const makeOwnKey = async (folder: string, name: string, passphrase: string | null): Promise<NamedKey> => {
  const file = ownKeyFile(folder);
  if (!isSignerName(name))
    throw new TroubleError(
      trouble(
        'key-unreadable',
        'name',
        `The key needs a name on one line, of at most ${mostOfName} characters, by which others know whose it is. Nothing was changed.`,
      ),
    );
  const { privateKey } = generateKeyPairSync('ed25519');
  const own: NamedKey = { name, key: publicKeyOf(privateKey) };
  const pem = privateKey.export({ type: 'pkcs8', format: 'pem', ...(passphrase === null ? {} : { cipher: 'aes-256-cbc', passphrase }) });
  const part = join(folder, `.signing-key.${randomBytes(6).toString('hex')}.part`);
  try {
    const handle = await open(part, 'wx', 0o600);
    try {
      await handle.writeFile(`${keyText(own)}${pem}`);
      await handle.sync();
    } finally {
      await handle.close();
    }
    // A second name is refused where there is one, a rename would take its place.
    await link(part, file);
    await syncFolder(dirname(file));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST')
      throw new TroubleError(
        trouble(
          'key-exists',
          file,
          `There is a key in this folder already, and it was left as it is: ${file}. Whoever trusts it would not know another.`,
        ),
      );
    if ((error as NodeJS.ErrnoException).code === undefined) throw error;
    throw new TroubleError(trouble('key-cannot-write', file, `The key could not be written, for ${whyNotWritten(error)}: ${file}`));
  } finally {
    await rm(part, { force: true });
  }
  return own;
};

/** Both halves of the key, to sign with. Throws `key-unreadable`: no key, another passphrase, or a file that was altered. */
export const openOwnKey = async (
  folder: string,
  passphrase: string | null,
): Promise<{ readonly name: string; readonly key: KeyObject }> => {
  const file = ownKeyFile(folder);
  const refuse = (sentence: string): never => {
    throw new TroubleError(trouble('key-unreadable', file, `${sentence} Nothing was signed.`));
  };
  const text = await textOfKey(folder);
  if (text === null) return refuse(`There is no key to sign with in ${folder}. kinplate signer make makes one.`);
  const { name, key: known } = readKeyText(text, file);
  const pem = text.slice(Math.max(0, text.indexOf(begins)));
  const enciphered = pem.startsWith('-----BEGIN ENCRYPTED');
  if (enciphered && passphrase === null) refuse('The key is under a passphrase, and none was given.');
  let key: KeyObject;
  try {
    key = createPrivateKey({ key: pem, format: 'pem', ...(passphrase === null ? {} : { passphrase }) });
  } catch {
    return refuse(enciphered ? 'The key does not open with this passphrase.' : 'The private half of the key cannot be read.');
  }
  if (key.asymmetricKeyType !== 'ed25519' || publicKeyOf(key) !== known) refuse('The two halves of the key do not belong together.');
  return { name, key };
};

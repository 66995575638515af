import { dirname } from 'node:path';
import { asc, eq } from 'drizzle-orm';
import { type Door, tellAbout } from '../driver/door.ts';
import type { Reader } from '../driver/driver.ts';
import { build, statementOf } from '../driver/statements.ts';
import * as t from '../schema.ts';
import { done, type Outcome, TroubleError, trouble } from '../trouble.ts';
import type { NamedKey, OwnKey, TrustedKey } from './keyring.ts';
import { makeOwnKey, ownKeyFile, readOwnKey } from './own-key.ts';
import { fingerprintOf, isFingerprintOf, keyText, readKeyText } from './public-key.ts';

/** The shop's own key, and the keys it trusts. */
export interface KeyShelf {
  /** Null where the shop has none. Trouble: `key-unreadable`. */
  own(): Promise<Outcome<OwnKey | null>>;
  /** Makes it, and trusts it. Troubles: `key-exists`, `key-cannot-write`, `key-unreadable` for what is no name. */
  make(name: string, who: string, passphrase?: string | null): Promise<Outcome<OwnKey>>;
  /** Those it trusts and those it withdrew, by name. */
  list(): Promise<Outcome<readonly TrustedKey[]>>;
  /** Whose key a text holds, to be looked at before it is trusted. Trouble: `key-unreadable`. */
  look(text: string, place: string): Promise<Outcome<OwnKey>>;
  /** Trusts a key; one that was withdrawn is trusted again, one that is trusted stays as it is. */
  trust(key: NamedKey, who: string): Promise<Outcome<TrustedKey>>;
  /** Ends that, for a key told by itself, its fingerprint or its name. Troubles: `not-found`, also where a name is that of several. */
  withdraw(which: string, who: string): Promise<Outcome<TrustedKey>>;
}

export const keyShelf = ({ read, write, tell, now }: Door, file: string): KeyShelf => {
  const folder = file === ':memory:' ? null : dirname(file);
  const trust: KeyShelf['trust'] = ({ key, name }, who) =>
    write(async (reader) => {
      const held = (await keyringOf(reader)).find((one) => one.key === key);
      if (held !== undefined && held.withdrawn === null) return { batch: null, value: held };
      const at = now().toISOString();
      const row = { key, name, since: at, who, withdrawnAt: null, withdrawnWho: null, at };
      return { batch: { statements: [kept(row)] }, value: trustedKey(row) };
    });
  return {
    own: async () => (folder === null ? done(null) : ownKeyIn(folder)),
    make: async (name, who, passphrase = null) => {
      const made = await tell(() => {
        if (folder === null)
          throw new TroubleError(
            trouble('key-cannot-write', file, 'An atlas in memory has no folder to keep a key in. Nothing was changed.'),
          );
        return makeOwnKey(folder, name, passphrase);
      });
      if (!made.ok) return made;
      const trusted = await trust(made.value, who);
      return trusted.ok ? { ok: true, value: ownKey(made.value) } : trusted;
    },
    list: () => read(keyringOf),
    look: (text, place) => tell(async () => ownKey(readKeyText(text, place))),
    trust,
    withdraw: (which, who) =>
      write(async (reader) => {
        const ring = await keyringOf(reader);
        const meant = ring.filter((one) => one.key === which || isFingerprintOf(which, one.key));
        const found = meant.length > 0 ? meant : ring.filter(({ name }) => name === which);
        const [held, other] = found;
        if (held === undefined || other !== undefined)
          throw new TroubleError(
            trouble(
              'not-found',
              `key ${which}`,
              held === undefined
                ? `The keyring has no key of the fingerprint or name “${which}”. Nothing was changed.`
                : `The keyring has ${found.length} keys of the name “${which}”: tell which by its fingerprint. Nothing was changed.`,
            ),
          );
        if (held.withdrawn !== null) return { batch: null, value: held };
        const at = now().toISOString();
        const row = { ...held, withdrawnAt: at, withdrawnWho: who, at };
        return { batch: { statements: [kept(row)] }, value: trustedKey(row) };
      }),
  };
};

/** The shop's own key, whether or not there is an atlas beside it; null where it has none. Trouble: `key-unreadable`. */
export const ownKeyIn = (folder: string): Promise<Outcome<OwnKey | null>> =>
  tellAbout(ownKeyFile(folder))(async () => {
    const own = await readOwnKey(folder);
    return own === null ? null : ownKey(own);
  });

type KeyRow = typeof t.keyring.$inferSelect;

const kept = (row: KeyRow) => {
  const { key, name, since, who, withdrawnAt, withdrawnWho, at } = row;
  const set = { name, since, who, withdrawnAt, withdrawnWho, at };
  return statementOf(
    build
      .insert(t.keyring)
      .values({ key, ...set })
      .onConflictDoUpdate({ target: t.keyring.key, set }),
  );
};

const trustedKey = ({ key, name, since, who, withdrawnAt, withdrawnWho }: KeyRow): TrustedKey => ({
  key,
  name,
  fingerprint: fingerprintOf(key),
  since,
  who,
  withdrawn: withdrawnAt === null ? null : { at: withdrawnAt, who: withdrawnWho ?? '' },
});

const ownKey = ({ key, name }: NamedKey): OwnKey => ({ key, name, fingerprint: fingerprintOf(key), text: keyText({ key, name }) });

export const keyringOf = async ({ orm }: Reader): Promise<readonly TrustedKey[]> =>
  (await orm.select().from(t.keyring).orderBy(asc(t.keyring.name), asc(t.keyring.key))).map(trustedKey);

/** What the shop says of a key; null where it never said anything. */
export const heldKey = async ({ orm }: Reader, key: TrustedKey['key']): Promise<TrustedKey | null> => {
  const [row] = await orm.select().from(t.keyring).where(eq(t.keyring.key, key));
  return row === undefined ? null : trustedKey(row);
};

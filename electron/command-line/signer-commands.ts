import { ownKeyIn, type TrustedKey } from '../../db/index.ts';
import { refusal } from '../bridge/reply.ts';
import { defaultDataFolder } from '../desk/data-folder.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { givenName, givenText } from './given-text.ts';
import { dataOption, formatOption, whoOption } from './option.ts';
import { passphraseIn } from './passphrase.ts';
import { jsonText, sayTrouble, sayUsage } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate signer make`: the key this shop signs with. */
export const signerMakeCommand = command({
  name: 'signer make',
  inPlaceOfWords: 'name whose key it is with --name',
  options: {
    name: { kind: 'text', value: '<name>', shown: '--name <name>' },
    passphrase: { kind: 'text', value: '<file>' },
    ...whoOption,
    ...dataOption,
    ...formatOption,
  },
  help: [
    'makes the key this shop signs with, once, and trusts it; --passphrase: the first line of a',
    'file (- for standard input) enciphers it',
  ],
  run: async ({ options: { name, passphrase, who = '', data, format } }, terminal) => {
    if (name === undefined) return sayUsage(terminal, 'Name whose key it is: --name <name>, by which others know the shop.');
    return withStore({ pack: [], data }, 'write', terminal, async (store) => {
      const read = await passphraseIn(passphrase, terminal);
      if (!read.ok) return sayTrouble(terminal, read.trouble);
      const made = await store.keys.make(name, who, read.value);
      if (!made.ok) return sayTrouble(terminal, made.trouble);
      terminal.out(format === 'json' ? jsonText(made.value) : made.value.text);
      return exitCodes.stands;
    });
  },
});

/** `kinplate signer show`: its public half, to hand on. */
export const signerShowCommand = command({
  name: 'signer show',
  options: { ...dataOption, ...formatOption },
  help: ['its public half, as the text to hand on, with its fingerprint'],
  run: async ({ options: { data = defaultDataFolder(), format } }, terminal) => {
    const own = await ownKeyIn(data);
    if (!own.ok) return sayTrouble(terminal, own.trouble);
    if (own.value === null)
      return sayTrouble(
        terminal,
        refusal('not-found', data, `There is no key to sign with in ${data}. kinplate signer make makes one.`).trouble,
      );
    terminal.out(format === 'json' ? jsonText(own.value) : own.value.text);
    return exitCodes.stands;
  },
});

/** `kinplate trust`: the keyring. */
export const trustCommand = command({
  name: 'trust',
  inPlaceOfWords: 'trust add <file> and trust withdraw <key> change the keyring',
  options: { ...dataOption, ...formatOption },
  help: ['the keyring: whose packs the shop takes, since when and by whose word, and whose no longer'],
  run: ({ options: { data, format } }, terminal) =>
    withStore({ pack: [], data }, 'read', terminal, async (store) => {
      const ring = await store.keys.list();
      if (!ring.ok) return sayTrouble(terminal, ring.trouble);
      terminal.out(format === 'json' ? jsonText(ring.value) : ring.value.map((key) => `${lineOf(key)}\n`).join(''));
      return exitCodes.stands;
    }),
});

/** `kinplate trust add`: a public key, as signer show prints it. */
export const trustAddCommand = command({
  name: 'trust add',
  words: { shown: '<file>', least: 1, most: 1, otherwise: 'trust add takes one file with a public key, as signer show prints it.' },
  options: { ...whoOption, ...dataOption, ...formatOption },
  help: ['puts a public key into it, as signer show prints it (- for standard input)'],
  run: async ({ words: [file = ''], options: { who = '', data, format } }, terminal) => {
    const text = await givenText(file, terminal);
    if (!text.ok) return sayTrouble(terminal, text.trouble);
    return withStore({ pack: [], data }, 'write', terminal, async (store) => {
      const seen = await store.keys.look(text.value, givenName(file));
      if (!seen.ok) return sayTrouble(terminal, seen.trouble);
      const trusted = await store.keys.trust(seen.value, who);
      if (!trusted.ok) return sayTrouble(terminal, trusted.trouble);
      terminal.out(format === 'json' ? jsonText(trusted.value) : `${lineOf(trusted.value)}\n`);
      return exitCodes.stands;
    });
  },
});

/** `kinplate trust withdraw`: a key no longer trusted. */
export const trustWithdrawCommand = command({
  name: 'trust withdraw',
  words: {
    shown: '<fingerprint>',
    least: 1,
    most: 1,
    otherwise: 'trust withdraw takes one fingerprint, or a name only one key of the keyring has; in quotes, where it has spaces.',
  },
  options: { ...whoOption, ...dataOption, ...formatOption },
  help: ['ends that; packs that were loaded stay, others by it are refused'],
  run: ({ words: [which = ''], options: { who = '', data, format } }, terminal) =>
    withStore({ pack: [], data }, 'write', terminal, async (store) => {
      const withdrawn = await store.keys.withdraw(which, who);
      if (!withdrawn.ok) return sayTrouble(terminal, withdrawn.trouble);
      terminal.out(format === 'json' ? jsonText(withdrawn.value) : `${lineOf(withdrawn.value)}\n`);
      return exitCodes.stands;
    }),
});

const lineOf = ({ fingerprint, name, since, who, withdrawn }: TrustedKey): string => {
  const by = (word: string, at: string, whose: string) => `${word} ${at}${whose === '' ? '' : ` by ${whose}`}`;
  return [
    fingerprint,
    name,
    by('trusted since', since, who),
    ...(withdrawn === null ? [] : [by('withdrawn', withdrawn.at, withdrawn.who)]),
  ].join('\t');
};

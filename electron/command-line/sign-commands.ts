import type { FolderSigned, FolderVerified, Signer } from '../../db/index.ts';
import { atlasFile, defaultDataFolder } from '../desk/data-folder.ts';
import { openAtlas } from '../desk/open-house.ts';
import { command } from './command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { isThere } from './open-atlas.ts';
import { dataOption, formatOption } from './option.ts';
import { passphraseIn } from './passphrase.ts';
import { jsonText, sayTrouble, type Terminal } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate pack sign`: the shop's own key, over a pack's folder. */
export const packSignCommand = command({
  name: 'pack sign',
  words: { shown: '<folder>', least: 1, most: 1, otherwise: 'pack sign takes the folder of one pack.' },
  options: { ...dataOption, passphrase: { kind: 'text', value: '<file>' }, ...formatOption },
  help: ['writes signature.json into it, with the key signer make made; nothing else of it is touched'],
  run: ({ words: [folder = ''], options: { data, passphrase, format } }, terminal) =>
    withStore({ pack: [], data }, 'read', terminal, async (store) => {
      const read = await passphraseIn(passphrase, terminal);
      if (!read.ok) return sayTrouble(terminal, read.trouble);
      const signed = await store.packs.sign(folder, read.value);
      if (!signed.ok) return sayTrouble(terminal, signed.trouble);
      if (format === 'json') terminal.out(jsonText(signed.value));
      else {
        const { pack, edition, signer } = signed.value;
        terminal.out(`Signed ${pack}, edition ${edition}, as ${signer.name} (${signer.fingerprint}).\n`);
        sayBeside(signed.value, terminal);
      }
      return exitCodes.stands;
    }),
});

/** `kinplate pack verify`: who signed a folder's pack, held against the keyring of the atlas where there is one. */
export const packVerifyCommand = command({
  name: 'pack verify',
  words: { shown: '<folder>', least: 1, most: 1, otherwise: 'pack verify takes the folder of one pack.' },
  options: { ...dataOption, ...formatOption },
  help: ['who signed it, whether it is as it was signed, and what in the folder that does not cover'],
  run: async ({ words: [folder = ''], options: { data, format } }, terminal) => {
    const verify = async (store: Parameters<Parameters<typeof withStore>[3]>[0]): Promise<ExitCode> => {
      const verified = await store.packs.verify(folder);
      return verified.ok ? sayVerified(verified.value, format, terminal) : sayTrouble(terminal, verified.trouble);
    };
    if (await isThere(atlasFile(data ?? defaultDataFolder()))) return withStore({ pack: [], data }, 'read', terminal, verify);
    // No atlas, so no keyring either: the signature itself can be held against the pack all the same.
    const opened = await openAtlas(':memory:');
    if (!opened.ok) return sayTrouble(terminal, opened.trouble);
    return verify(opened.value).finally(() => opened.value.close());
  },
});

const sayVerified = (verified: FolderVerified, format: 'text' | 'json', terminal: Terminal): ExitCode => {
  const { pack, title, edition, licence, by, hash, signer } = verified;
  if (format === 'json') terminal.out(jsonText(verified));
  else {
    terminal.out(`${title} (${pack}, edition ${edition})\n`);
    if (by !== null) terminal.out(`Who answers for it: ${by}\n`);
    if (licence !== null) terminal.out(`Licence: ${licence}\n`);
    terminal.out(`SHA-256: ${hash}\n${signerLine(pack, signer)}\n`);
    sayBeside(verified, terminal);
  }
  switch (signer?.standing) {
    case 'trusted':
      return exitCodes.stands;
    case 'withdrawn':
      return exitCodes.ruledOut;
    default:
      return exitCodes.open;
  }
};

/** What is said of a pack's signer where it is loaded or looked at. */
export const signerLine = (pack: string, signer: Signer | null): string => {
  if (signer === null) return `${pack} is not signed: no key vouches for it.`;
  const who = `${signer.name} (${signer.fingerprint}), ${signer.at}`;
  switch (signer.standing) {
    case 'trusted':
      return `${pack} is signed by ${who}, whom the keyring holds.`;
    case 'stranger':
      return `${pack} is signed by ${who}, whom the keyring does not hold: the name is what he calls himself.`;
    case 'withdrawn':
      return `${pack} is signed by ${who}, with a key the shop has withdrawn.`;
  }
};

const sayBeside = (
  { otherwise, notCovered, described }: Pick<FolderSigned, 'otherwise' | 'notCovered' | 'described'>,
  { out }: Terminal,
): void => {
  if (otherwise.length > 0) out(`Written otherwise than it was signed, and saying the same: ${otherwise.join(', ')}.\n`);
  if (described === false) out('datapackage.json describes other tables than these, to other programs; nothing is loaded of it.\n');
  if (notCovered.length > 0) out(`Not covered by a signature, and no part of the pack: ${notCovered.join(', ')}.\n`);
};

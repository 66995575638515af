import type { Outcome } from '../../db/index.ts';
import { refusal, well } from '../bridge/reply.ts';
import { givenName, givenText } from './given-text.ts';
import type { Terminal } from './terminal.ts';

/** The first line of a file, or of standard input where it is named `-`; null where none was named. On the command line itself others on this machine could read it. */
export const passphraseIn = async (file: string | undefined, terminal: Terminal): Promise<Outcome<string | null>> => {
  if (file === undefined) return well(null);
  const text = await givenText(file, terminal);
  if (!text.ok) return text;
  const [line = ''] = text.value.split(/\r?\n/);
  return line === ''
    ? refusal('key-unreadable', file, `The first line of ${givenName(file)} is empty, and the passphrase should stand there.`)
    : well(line);
};

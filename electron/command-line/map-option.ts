import { type Loaded, readMapping, type SaidWord } from '../../db/index.ts';
import type { ExitCode } from './exit-codes.ts';
import { givenName, givenText } from './given-text.ts';
import type { OptionSpecs } from './option.ts';
import { sayTrouble, type Terminal } from './terminal.ts';

/** What is said of a pack's words, as pack map writes it. */
export const mapOption = { map: { kind: 'text', value: '<file.json>' } } as const satisfies OptionSpecs;

/** With what the file says of a pack's words; with nothing where none is named. */
export const withMapping = async (
  file: string | undefined,
  terminal: Terminal,
  run: (words: readonly SaidWord[]) => Promise<ExitCode>,
): Promise<ExitCode> => {
  if (file === undefined) return run([]);
  const text = await givenText(file, terminal);
  if (!text.ok) return sayTrouble(terminal, text.trouble);
  const mapping = readMapping(text.value, givenName(file));
  return mapping.ok ? run(mapping.value) : sayTrouble(terminal, mapping.trouble);
};

/** What is held is not what was brought, nor what was signed. */
export const mappedLine = ({ pack, mapped, signer }: Loaded): string =>
  `${pack} is held as mapped: ${mapped.length === 1 ? '1 of its words stands' : `${mapped.length} of its words stand`} under ids of this atlas.${signer === null ? '' : ' The signature is over the text as it was brought.'}`;

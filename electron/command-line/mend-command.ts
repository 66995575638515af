import { defaultDataFolder } from '../desk/data-folder.ts';
import { makePrivately } from '../desk/keep-private.ts';
import { mendFolder } from '../desk/mend.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { mendText } from './mend-text.ts';
import { dataOption, formatOption } from './option.ts';
import { jsonText, sayTrouble } from './terminal.ts';

/**
 * `kinplate mend`: checks the whole atlas of a data folder and, where it is damaged, makes a new one of everything that can be read, of it, of its
 * backups and of files written aside before. Stopped anywhere, it is run again.
 */
export const mendCommand = command({
  name: 'mend',
  options: { ...formatOption, ...dataOption },
  inPlaceOfWords: 'it works on a data folder, kinplate mend [--data <folder>]',
  help: ['the whole atlas checked; a new one in place of a damaged one, of all that can be read of it and its backups'],
  run: async ({ options: { data, format } }, terminal, { shipped, now }) => {
    makePrivately();
    const mended = await mendFolder(data ?? defaultDataFolder(), shipped, now());
    if (!mended.ok) return sayTrouble(terminal, mended.trouble);
    terminal.out(format === 'json' ? jsonText(mended.value) : mendText(mended.value, now()));
    return exitCodes.stands;
  },
});

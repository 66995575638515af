import { defaultDataFolder } from '../desk/data-folder.ts';
import { makePrivately } from '../desk/keep-private.ts';
import { missingFrom, openHouse } from '../desk/open-house.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { dataOption } from './option.ts';
import { sayTrouble } from './terminal.ts';

/** `kinplate anew`: a new atlas where there was one and its file is gone or empty. What is left of the old one stays. */
export const anewCommand = command({
  name: 'anew',
  options: { yes: { kind: 'flag' }, ...dataOption },
  inPlaceOfWords: 'it works on a data folder, kinplate anew --yes [--data <folder>]',
  help: ['a new atlas where the file of the one before is gone or empty; restore puts a backup there instead'],
  run: async ({ options: { data, yes } }, terminal, { shipped }) => {
    makePrivately();
    const folder = data ?? defaultDataFolder();
    const missing = await missingFrom(folder);
    if (missing === null) {
      terminal.err('No atlas is missing here, so there is nothing to begin anew. Nothing was changed.');
      return exitCodes.badInput;
    }
    if (!yes) {
      sayTrouble(terminal, missing);
      terminal.err('kinplate anew --yes begins anew; backups and whatever else is left stay where they are.');
      return exitCodes.badAtlas;
    }
    const house = await openHouse(folder, shipped, (line) => terminal.err(`· ${line}`), undefined, true);
    if (!house.ok) return sayTrouble(terminal, house.trouble);
    await house.value.close();
    terminal.out(
      `A new atlas was begun in ${folder}. It holds no packs yet: the window asks what it begins with, or kinplate begin empty | invented. Backups of the one before are still there: kinplate backups lists them.\n`,
    );
    return exitCodes.stands;
  },
});

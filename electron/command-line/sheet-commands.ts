import { sheetText } from '../../db/index.ts';
import { asId, type SheetId } from '../../reasoner/index.ts';
import { counted } from '../../reasoner/plain/text.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { atlasOptions, formatOption } from './option.ts';
import { jsonText, sayTrouble } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate sheets`: the shelf, one sheet a line. */
export const sheetsCommand = command({
  name: 'sheets',
  options: { ...formatOption, ...atlasOptions },
  inPlaceOfWords: 'sheet <id> prints one',
  help: ['the sheets the atlas holds'],
  run: ({ options }, terminal) =>
    withStore(options, 'read', terminal, async (store) => {
      const sheets = await store.sheets.list();
      if (!sheets.ok) return sayTrouble(terminal, sheets.trouble);
      if (options.format === 'json') terminal.out(jsonText(sheets.value));
      else
        for (const { id, kind, origin, observations, claimed, title } of sheets.value)
          terminal.out(`${[id, kind, origin, counted(observations, 'observation'), claimed ?? '(no claim)', title].join('\t')}\n`);
      return exitCodes.stands;
    }),
});

/** `kinplate sheet <id>`: one sheet as the text of a sheet file. */
export const sheetCommand = command({
  name: 'sheet',
  words: { shown: '<id>', least: 1, most: 1, otherwise: 'sheet takes the id of one sheet.' },
  options: atlasOptions,
  help: ['one of them, as a sheet file'],
  run: ({ words: [id = ''], options }, terminal) =>
    withStore(options, 'read', terminal, async (store) => {
      const sheet = await store.sheets.open(asId<SheetId>(id));
      if (!sheet.ok) return sayTrouble(terminal, sheet.trouble);
      terminal.out(sheetText(sheet.value));
      return exitCodes.stands;
    }),
});

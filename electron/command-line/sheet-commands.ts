import { sheetText } from '../../db/index.ts';
import { asId, type SheetId } from '../../reasoner/index.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { type AtlasChoice, openChosen } from './open-atlas.ts';
import { sayTrouble, type Terminal } from './terminal.ts';

/** `kinplate sheets`: the shelf, one sheet a line. */
export const listSheets = async (choice: AtlasChoice, format: 'text' | 'json', terminal: Terminal): Promise<ExitCode> => {
  const opened = await openChosen(choice, 'read');
  if (!opened.ok) return sayTrouble(terminal, opened.trouble);
  try {
    const sheets = await opened.value.listSheets();
    if (!sheets.ok) return sayTrouble(terminal, sheets.trouble);
    if (format === 'json') terminal.out(`${JSON.stringify(sheets.value, null, 2)}\n`);
    else
      for (const { id, kind, origin, observations, claimed, title } of sheets.value)
        terminal.out(`${[id, kind, origin, `${observations} observations`, claimed ?? '(no claim)', title].join('\t')}\n`);
    return exitCodes.stands;
  } finally {
    await opened.value.close();
  }
};

/** `kinplate sheet <id>`: one sheet as the text of a sheet file. */
export const printSheet = async (id: string, choice: AtlasChoice, terminal: Terminal): Promise<ExitCode> => {
  const opened = await openChosen(choice, 'read');
  if (!opened.ok) return sayTrouble(terminal, opened.trouble);
  try {
    const sheet = await opened.value.openSheet(asId<SheetId>(id));
    if (!sheet.ok) return sayTrouble(terminal, sheet.trouble);
    terminal.out(sheetText(sheet.value));
    return exitCodes.stands;
  } finally {
    await opened.value.close();
  }
};

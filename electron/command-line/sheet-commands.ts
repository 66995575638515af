import { sheetText } from '../../db/index.ts';
import { asId, type SheetId } from '../../reasoner/index.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import type { AtlasChoice } from './open-atlas.ts';
import { sayTrouble, type Terminal } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate sheets`: the shelf, one sheet a line. */
export const listSheets = (choice: AtlasChoice, format: 'text' | 'json', terminal: Terminal): Promise<ExitCode> =>
  withStore(choice, 'read', terminal, async (store) => {
    const sheets = await store.listSheets();
    if (!sheets.ok) return sayTrouble(terminal, sheets.trouble);
    if (format === 'json') terminal.out(`${JSON.stringify(sheets.value, null, 2)}\n`);
    else
      for (const { id, kind, origin, observations, claimed, title } of sheets.value)
        terminal.out(`${[id, kind, origin, `${observations} observations`, claimed ?? '(no claim)', title].join('\t')}\n`);
    return exitCodes.stands;
  });

/** `kinplate sheet <id>`: one sheet as the text of a sheet file. */
export const printSheet = (id: string, choice: AtlasChoice, terminal: Terminal): Promise<ExitCode> =>
  withStore(choice, 'read', terminal, async (store) => {
    const sheet = await store.openSheet(asId<SheetId>(id));
    if (!sheet.ok) return sayTrouble(terminal, sheet.trouble);
    terminal.out(sheetText(sheet.value));
    return exitCodes.stands;
  });

import { type Outcome, type Store, sheetText } from '../../db/index.ts';
import { asId, type CompiledAtlas, compileAtlas, type Sheet, type SheetId } from '../../reasoner/index.ts';
import type { ExitCode } from './exit-codes.ts';
import { fileText } from './given-text.ts';
import { openChosen } from './open-atlas.ts';
import type { AtlasChoice, SheetChoice } from './option.ts';
import { sayTrouble, sayUsage, type Terminal } from './terminal.ts';

/** Opens the atlas a command is about, does the work, and closes it whatever came of it. One that cannot be opened is said. */
export const withStore = async (
  choice: AtlasChoice,
  use: 'read' | 'write',
  terminal: Terminal,
  work: (store: Store) => ExitCode | Promise<ExitCode>,
): Promise<ExitCode> => {
  const opened = await openChosen(choice, use);
  if (!opened.ok) return sayTrouble(terminal, opened.trouble);
  try {
    return await work(opened.value);
  } finally {
    await opened.value.close();
  }
};

/** The same for work that only reasons over the atlas. */
export const withAtlas = (
  choice: AtlasChoice,
  terminal: Terminal,
  work: (atlas: CompiledAtlas) => ExitCode | Promise<ExitCode>,
): Promise<ExitCode> => withStore(choice, 'read', terminal, async (store) => work(compileAtlas(await store.atlas.read())));

/** The same for work on one sheet. A sheet that cannot be read is said before the atlas is. */
export const withSheet = async (
  choice: AtlasChoice & SheetChoice,
  terminal: Terminal,
  work: (atlas: CompiledAtlas, sheet: Sheet, store: Store) => ExitCode | Promise<ExitCode>,
): Promise<ExitCode> => {
  if ((choice.sheet === undefined) === (choice.saved === undefined))
    return sayUsage(terminal, 'Name one sheet: --sheet <file>, or --saved <id> for one the atlas holds.');
  return withStore(choice, 'read', terminal, async (store) => {
    const sheet = await sheetOf(choice, store, terminal);
    if (!sheet.ok) return sayTrouble(terminal, sheet.trouble);
    return work(compileAtlas(await store.atlas.read()), sheet.value, store);
  });
};

const sheetOf = async ({ sheet: file = '', saved }: SheetChoice, store: Store, terminal: Terminal): Promise<Outcome<Sheet>> => {
  if (saved !== undefined) {
    const opened = await store.sheets.open(asId<SheetId>(saved));
    // Kept before slips were asked about, or before the atlas said what is plausible: nobody can be asked here.
    return opened.ok ? store.sheets.read(sheetText(opened.value), `sheet ${saved}`) : opened;
  }
  if (file === '-') return store.sheets.read(await terminal.read(), 'standard input');
  const text = await fileText(file);
  return text.ok ? store.sheets.read(text.value, file) : text;
};

import { readPack } from '../../db/index.ts';
import { expandForPacks } from '../open-house.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import type { AtlasChoice } from './open-atlas.ts';
import { sayTrouble, type Terminal } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate pack check`: reads a pack alone and says every fault; nothing is written. */
export const checkPack = async (folder: string, terminal: Terminal): Promise<ExitCode> => {
  const read = await readPack(folder, { expandCode: expandForPacks });
  if (!read.ok) return sayTrouble(terminal, read.trouble);
  const { head, makers, families, models, parts, sheets } = read.value;
  terminal.out(
    `${head.title} (${head.id}, edition ${head.edition}) is sound: ${makers.length} makers, ${families.length} families, ${models.length} models, ${parts.length} parts, ${sheets.length} sheets.\n`,
  );
  if (head.invented) terminal.out(`${head.note}\n`);
  return exitCodes.stands;
};

/** `kinplate pack load`: into the atlas of a data folder, all of it or nothing. */
export const loadPackInto = (folder: string, choice: AtlasChoice, terminal: Terminal): Promise<ExitCode> =>
  withStore(choice, 'write', terminal, async (store) => {
    const loaded = await store.loadPack(folder, { onProgress: (step) => terminal.err(`· ${step}`) });
    if (!loaded.ok) return sayTrouble(terminal, loaded.trouble);
    const { pack, edition, changed, replaced, counts } = loaded.value;
    terminal.out(
      changed
        ? `Loaded ${pack}, edition ${edition}${replaced === null ? '' : ` in place of ${replaced}`}: ${counts.models} models, ${counts.parts} parts, ${counts.facts} facts, ${counts.sheets} sheets.\n`
        : `The atlas holds ${pack}, edition ${edition}, exactly as it is here. Nothing was changed.\n`,
    );
    return exitCodes.stands;
  });

/** `kinplate pack export`: a loaded pack back into a folder. */
export const exportPackTo = (pack: string, folder: string, choice: AtlasChoice, terminal: Terminal): Promise<ExitCode> =>
  withStore(choice, 'read', terminal, async (store) => {
    const written = await store.exportPack(pack, folder);
    if (!written.ok) return sayTrouble(terminal, written.trouble);
    terminal.out(`Wrote ${pack} to ${folder}.\n`);
    return exitCodes.stands;
  });

/** `kinplate packs`: what the atlas holds. */
export const listPacks = (choice: AtlasChoice, format: 'text' | 'json', terminal: Terminal): Promise<ExitCode> =>
  withStore(choice, 'read', terminal, async (store) => {
    const packs = await store.packs();
    if (!packs.ok) return sayTrouble(terminal, packs.trouble);
    if (format === 'json') terminal.out(`${JSON.stringify(packs.value, null, 2)}\n`);
    else for (const { id, edition, title, note } of packs.value) terminal.out(`${id}\t${edition}\t${title}\t${note}\n`);
    return exitCodes.stands;
  });

import { inspectPack, type Warning } from '../../db/index.ts';
import { askedForPacks } from '../desk/open-house.ts';
import { command } from './command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { atlasOptions, dataOption, formatOption } from './option.ts';
import { sayTrouble, type Terminal } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate pack check`: reads a pack alone and says every fault, or what a sound one should know of itself; nothing is written. */
export const packCheckCommand = command({
  name: 'pack check',
  words: { shown: '<folder>', least: 1, most: 1, otherwise: 'pack check takes the folder of one pack.' },
  options: formatOption,
  help: ['every fault of a pack, or the warnings of a sound one; nothing is written'],
  run: ({ words: [folder = ''], options: { format } }, terminal) => checkPack(folder, format, terminal),
});

const checkPack = async (folder: string, format: 'text' | 'json', terminal: Terminal): Promise<ExitCode> => {
  const read = await inspectPack(folder, askedForPacks);
  if (!read.ok) {
    if (format === 'text' || read.trouble.code !== 'pack-invalid') return sayTrouble(terminal, read.trouble);
    terminal.out(jsonText({ sound: false, sentence: read.trouble.sentence, faults: read.trouble.all ?? [read.trouble], warnings: [] }));
    return exitCodes.badInput;
  }
  const { pack, warnings } = read.value;
  const { head } = pack;
  const counts = {
    makers: pack.makers.length,
    families: pack.families.length,
    models: pack.models.length,
    parts: pack.parts.length,
    sheets: pack.sheets.length,
  };
  const much = Object.entries(counts).map(([what, count]) => `${count} ${what}`);
  const sentence = `${head.title} (${head.id}, edition ${head.edition}) is sound: ${much.join(', ')}.`;
  if (format === 'json') {
    const { id, title, edition, invented, note } = head;
    terminal.out(jsonText({ sound: true, sentence, pack: { id, title, edition, invented, note }, counts, faults: [], warnings }));
    return exitCodes.stands;
  }
  terminal.out(`${sentence}\n`);
  if (head.invented) terminal.out(`${head.note}\n`);
  sayWarnings(warnings, terminal.out);
  return exitCodes.stands;
};

/** As many are printed one by one; of the rest the number. `--format json` lists all. */
const warningsShown = 200;

const sayWarnings = (warnings: readonly Warning[], say: (text: string) => void): void => {
  if (warnings.length === 0) return;
  say(`${warnings.length === 1 ? '1 warning' : `${warnings.length} warnings`}:\n`);
  for (const { sentence } of warnings.slice(0, warningsShown)) say(`  ${sentence}\n`);
  if (warnings.length > warningsShown) say(`  … and ${warnings.length - warningsShown} more; --format json lists them all.\n`);
};

const jsonText = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

/** `kinplate pack load`: into the atlas of a data folder, all of it or nothing. */
export const packLoadCommand = command({
  name: 'pack load',
  words: { shown: '<folder>', least: 1, most: 1, otherwise: 'pack load takes the folder of one pack.' },
  options: dataOption,
  help: ['into the atlas, all of it or nothing'],
  run: ({ words: [folder = ''], options: { data } }, terminal) =>
    withStore({ pack: [], data }, 'write', terminal, async (store) => {
      const loaded = await store.packs.load(folder, { onProgress: (step) => terminal.err(`· ${step}`) });
      if (!loaded.ok) return sayTrouble(terminal, loaded.trouble);
      const { pack, edition, changed, replaced, counts, warnings } = loaded.value;
      for (const leaned of loaded.value.with) terminal.out(`Loaded ${leaned.pack}, edition ${leaned.edition}, which it leans on.\n`);
      terminal.out(
        changed
          ? `Loaded ${pack}, edition ${edition}${replaced === null ? '' : ` in place of ${replaced}`}: ${counts.models} models, ${counts.parts} parts, ${counts.facts} facts, ${counts.sheets} sheets.\n`
          : `The atlas holds ${pack}, edition ${edition}, exactly as it is here. Nothing was changed.\n`,
      );
      if (warnings.length > 0)
        terminal.err(`${warnings.length === 1 ? '1 warning' : `${warnings.length} warnings`}; pack check tells them.`);
      return exitCodes.stands;
    }),
});

/** `kinplate pack export`: a loaded pack back into a folder. */
export const packExportCommand = command({
  name: 'pack export',
  words: {
    shown: '<pack id> <folder>',
    least: 2,
    most: 2,
    otherwise: 'pack export takes the id of one pack, and a folder to write it to.',
  },
  options: dataOption,
  help: ['a loaded pack back into a folder'],
  run: ({ words: [pack = '', folder = ''], options: { data } }, terminal) =>
    withStore({ pack: [], data }, 'read', terminal, async (store) => {
      const written = await store.packs.export(pack, folder);
      if (!written.ok) return sayTrouble(terminal, written.trouble);
      terminal.out(`Wrote ${pack} to ${folder}.\n`);
      return exitCodes.stands;
    }),
});

/** `kinplate packs`: what the atlas holds. */
export const packsCommand = command({
  name: 'packs',
  options: { ...atlasOptions, ...dataOption, ...formatOption },
  help: ['the packs the atlas holds'],
  run: ({ options }, terminal) =>
    withStore(options, 'read', terminal, async (store) => {
      const packs = await store.packs.list();
      if (!packs.ok) return sayTrouble(terminal, packs.trouble);
      if (options.format === 'json') terminal.out(`${JSON.stringify(packs.value, null, 2)}\n`);
      else for (const { id, edition, title, note } of packs.value) terminal.out(`${id}\t${edition}\t${title}\t${note}\n`);
      return exitCodes.stands;
    }),
});

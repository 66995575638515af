import { checkAlone, findingLine, type Outcome, type PackChecked, type SaidWord, type Store } from '../../db/index.ts';
import { counted } from '../../reasoner/plain/text.ts';
import { atlasFile, defaultDataFolder } from '../desk/data-folder.ts';
import { askedForPacks } from '../desk/open-house.ts';
import { command } from './command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { mapOption, mappedLine, withMapping } from './map-option.ts';
import { isThere, openChosen } from './open-atlas.ts';
import { atlasOptions, dataOption, formatOption } from './option.ts';
import { signerLine } from './sign-commands.ts';
import { jsonText, sayTrouble, sayUsage, type Terminal } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate pack check`: reads a pack, held against the atlas `pack load` would load it into, and says all that is wrong or suspicious; nothing is written. */
export const packCheckCommand = command({
  name: 'pack check',
  words: { shown: '<folder>', least: 1, most: 1, otherwise: 'pack check takes the folder of one pack.' },
  options: { ...dataOption, alone: { kind: 'flag' }, ...mapOption, ...formatOption },
  help: [
    'every fault of a pack and what is suspicious, held against the',
    'atlas it would be loaded into (--alone: against none); --map: as for pack load',
  ],
  run: ({ words: [folder = ''], options }, terminal) =>
    withMapping(options.map, terminal, (words) => checkPack(folder, { ...options, words }, terminal)),
});

interface CheckOptions {
  readonly data: string | undefined;
  readonly words: readonly SaidWord[];
  readonly alone: boolean;
  readonly format: 'text' | 'json';
}

const checkPack = async (folder: string, { data, alone, words, format }: CheckOptions, terminal: Terminal): Promise<ExitCode> => {
  const say = (outcome: Outcome<PackChecked>, against: string | null): ExitCode =>
    outcome.ok ? sayChecked(outcome.value, against, format, terminal) : sayTrouble(terminal, outcome.trouble);
  const byItself = async () => say(await checkAlone(folder, askedForPacks), null);
  const atlas = data ?? defaultDataFolder();
  if (alone) return byItself();
  if (!(await isThere(atlasFile(atlas)))) {
    if (data !== undefined) terminal.err(`There is no atlas in ${data}: the pack is checked alone.`);
    return byItself();
  }
  const against = async (store: Store) => say(await store.packs.check(folder, { words }), atlas);
  if (data !== undefined) return withStore({ pack: [], data }, 'read', terminal, against);
  // Nobody asked about this atlas: one that cannot be opened keeps no pack from being checked.
  const opened = await openChosen({ pack: [], data: atlas }, 'read');
  if (!opened.ok) {
    terminal.err(`The pack is checked alone, for the atlas it would be loaded into cannot be looked into. ${opened.trouble.sentence}`);
    return byItself();
  }
  return against(opened.value).finally(() => opened.value.close());
};

const sayChecked = (checked: PackChecked, against: string | null, format: 'text' | 'json', { out, err }: Terminal): ExitCode => {
  const { sound, sentence, pack, counts, faults, warnings, into, held } = checked;
  const code = sound ? exitCodes.stands : exitCodes.badInput;
  if (format === 'json') {
    out(jsonText({ sound, sentence, pack, counts, faults, warnings, into, held }));
    return code;
  }
  // What is wrong goes where troubles go, so that what a sound pack holds can be piped on.
  const say = sound ? out : (text: string) => err(text.trimEnd());
  say(`${sentence}\n`);
  if (sound && pack?.invented) say(`${pack.note}\n`);
  if (against !== null) say(`${heldAgainst(against, checked)}\n`);
  for (const fault of faults.slice(0, findingsShown)) say(`${findingLine(fault)}\n`);
  if (faults.length > findingsShown) say(`… and ${faults.length - findingsShown} more; --format json lists them all.\n`);
  if (warnings.length > 0) say(`${warnings.length === 1 ? '1 warning' : `${warnings.length} warnings`}:\n`);
  for (const warning of warnings.slice(0, findingsShown)) say(`${findingLine(warning)}\n`);
  if (warnings.length > findingsShown) say(`… and ${warnings.length - findingsShown} more; --format json lists them all.\n`);
  return code;
};

const heldAgainst = (folder: string, { into, held }: PackChecked): string => {
  const packs = into?.length === 1 ? 'one pack' : `${into?.length ?? 0} packs`;
  const own = held === null ? '' : held.same ? ', which holds exactly this pack' : `, which holds edition ${held.edition} of it`;
  return `Held against the atlas in ${folder} (${packs})${own}.`;
};

/** As many are printed one by one; of the rest the number. */
const findingsShown = 200;

/** `kinplate pack load`: into the atlas of a data folder, all of it or nothing. */
export const packLoadCommand = command({
  name: 'pack load',
  words: { shown: '<folder>', least: 1, most: 1, otherwise: 'pack load takes the folder of one pack.' },
  options: {
    ...dataOption,
    holds: { kind: 'text', value: 'shop|pack' },
    'stranger-is-fine': { kind: 'flag' },
    'other-signer-is-fine': { kind: 'flag' },
    ...mapOption,
  },
  help: [
    'into the atlas, all of it or nothing; signed by one the keyring does not hold, or another',
    'than signed the edition that is held, only where that is said to be fine;',
    '--holds: whose word stands where this edition disputes the shop’s;',
    '--map: which of its words are said by the atlas under other ids, as pack map writes it',
  ],
  run: ({ words: [folder = ''], options: { data, holds, map, ...fine } }, terminal) => {
    if (holds !== undefined && holds !== 'shop' && holds !== 'pack')
      return sayUsage(terminal, `--holds is “${holds}”. It takes shop or pack.`);
    const into = (words: readonly SaidWord[]) => async (store: Store) => {
      const loaded = await store.packs.load(folder, {
        words,
        onProgress: (step) => terminal.err(`· ${step}`),
        strangerIsFine: fine['stranger-is-fine'],
        otherSignerIsFine: fine['other-signer-is-fine'],
        ...(holds === undefined ? {} : { holds }),
      });
      if (!loaded.ok) return sayTrouble(terminal, loaded.trouble);
      for (const each of [...loaded.value.with, loaded.value]) {
        terminal.err(signerLine(each.pack, each.signer));
        if (each.mapped.length > 0) terminal.err(mappedLine(each));
      }
      const { pack, edition, changed, replaced, counts, warnings } = loaded.value;
      for (const leaned of loaded.value.with) terminal.out(`Loaded ${leaned.pack}, edition ${leaned.edition}, which it leans on.\n`);
      terminal.out(
        changed
          ? `Loaded ${pack}, edition ${edition}${replaced === null ? '' : ` in place of ${replaced}`}: ${counted(counts.models, 'model')}, ${counted(counts.parts, 'part')}, ${counted(counts.facts, 'fact')}, ${counted(counts.sheets, 'sheet')}.\n`
          : `The atlas holds ${pack}, edition ${edition}, exactly as it is here. Nothing was changed.\n`,
      );
      if (warnings.length > 0)
        terminal.err(`${warnings.length === 1 ? '1 warning' : `${warnings.length} warnings`}; pack check tells them.`);
      return exitCodes.stands;
    };
    return withMapping(map, terminal, (words) => withStore({ pack: [], data }, 'write', terminal, into(words)));
  },
});

/** `kinplate pack remove`: a pack taken out, its samples with it. */
export const packRemoveCommand = command({
  name: 'pack remove',
  words: { shown: '<pack id>', least: 1, most: 1, otherwise: 'pack remove takes the id of one pack, as packs lists it.' },
  options: dataOption,
  help: ['takes it out, its samples and the shop’s words on it with it, where nothing leans on it;', 'change undo brings it back'],
  run: ({ words: [id = ''], options: { data } }, terminal) =>
    withStore({ pack: [], data }, 'write', terminal, async (store) => {
      const removed = await store.packs.remove(id);
      if (!removed.ok) return sayTrouble(terminal, removed.trouble);
      terminal.out(`Taken out: ${id}.\n`);
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
      if (options.format === 'json') terminal.out(jsonText(packs.value));
      else for (const { id, edition, title, note } of packs.value) terminal.out(`${id}\t${edition}\t${title}\t${note}\n`);
      return exitCodes.stands;
    }),
});

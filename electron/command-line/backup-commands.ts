import { type Backup, type BackupReason, backupsInPlace } from '../../db/index.ts';
import { counted } from '../../reasoner/plain/text.ts';
import { backupPlace, defaultDataFolder } from '../desk/data-folder.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { dataOption, formatOption } from './option.ts';
import { jsonText, sayTrouble } from './terminal.ts';
import { withStore } from './with-atlas.ts';

/** `kinplate backup`: one, now. */
export const backupCommand = command({
  name: 'backup',
  options: { ...dataOption, ...formatOption },
  inPlaceOfWords: 'it makes one of the atlas of a data folder, kinplate backup [--data <folder>]',
  help: ['a backup of the atlas now, also while it is in use'],
  run: ({ options: { data, format } }, terminal) =>
    withStore({ pack: [], data }, 'write', terminal, async (store) => {
      const made = await store.backups.make('asked');
      if (!made.ok) return sayTrouble(terminal, made.trouble);
      terminal.out(format === 'json' ? jsonText(made.value) : `Made ${made.value.name}: ${holds(made.value)}.\n`);
      return exitCodes.stands;
    }),
});

/** `kinplate backups`: what there is to go back to. */
export const backupsCommand = command({
  name: 'backups',
  options: { ...dataOption, ...formatOption },
  inPlaceOfWords: 'kinplate restore <backup> shows what one would bring back',
  help: ['the backups there are, the newest first: when, why, how large, and what each holds'],
  run: async ({ options: { data, format } }, terminal, { now }) => {
    // Also where there is no atlas any more: then they are asked for most.
    const listed = await backupsInPlace(backupPlace(data ?? defaultDataFolder(), now)).list();
    if (!listed.ok) return sayTrouble(terminal, listed.trouble);
    if (format === 'json') terminal.out(jsonText(listed.value));
    else
      for (const one of listed.value.backups)
        terminal.out(`${[one.name, one.at, because[one.reason], `${one.bytes} bytes`, holds(one)].join('\t')}\n`);
    return exitCodes.stands;
  },
});

/** Why a backup was made. */
export const because: Readonly<Record<BackupReason, string>> = {
  hourly: 'hourly',
  asked: 'asked for',
  'before-migration': 'before the atlas was brought up to date',
  'before-pack': 'before a pack was changed',
  'before-mend': 'before the atlas was mended',
  'before-restore': 'before a backup was put back',
};

/** What a backup holds, or why that is not known. */
export const holds = ({ state }: Backup): string => {
  if (state.kind === 'unreadable') return `cannot be read: ${state.why}`;
  const { packs, cases, photographs, learners, answers } = state.counts;
  return [
    counted(cases, 'case'),
    counted(photographs, 'photograph'),
    counted(learners, 'learner'),
    counted(answers, 'answer'),
    counted(packs, 'pack'),
  ].join(', ');
};

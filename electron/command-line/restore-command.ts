import { access } from 'node:fs/promises';
import {
  backupsInPlace,
  type Difference,
  type Named,
  type Outcome,
  type Restored,
  type RestorePreview,
  type Store,
  type Trouble,
  type Version,
} from '../../db/index.ts';
import { saySharedLetter } from '../../reasoner/plain/shared-letter.ts';
import { counted } from '../../reasoner/plain/text.ts';
import { atlasFile, backupPlace, defaultDataFolder } from '../desk/data-folder.ts';
import { makePrivately } from '../desk/keep-private.ts';
import { missingFrom, openAtlas } from '../desk/open-house.ts';
import { because } from './backup-commands.ts';
import { command } from './command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { dataOption, formatOption } from './option.ts';
import { jsonText, sayTrouble, type Terminal } from './terminal.ts';

/** `kinplate restore`: what a backup would bring back, and with `--yes` that. */
export const restoreCommand = command({
  name: 'restore',
  words: {
    shown: '<backup>',
    least: 1,
    most: 1,
    otherwise: 'restore takes one backup: its name as kinplate backups lists it, the path of a copy of one, or newest.',
  },
  options: { yes: { kind: 'flag' }, 'as-it-is': { kind: 'flag' }, ...dataOption, ...formatOption },
  help: [
    'what putting a backup back would bring back and take away; with --yes it is put back, and what there was is backed up before.',
    '--as-it-is puts its file back to the byte, for the older program that made it',
  ],
  run: async ({ words: [named = ''], options: { data, yes, 'as-it-is': asItIs, format } }, terminal, { now }) => {
    makePrivately();
    const folder = data ?? defaultDataFolder();
    const say: Say = { terminal, json: format === 'json', named, yes };
    if (asItIs) return putBackAsItIs(folder, say, now);
    const usable = await openedOrNot(folder, (file) => openAtlas(file));
    if (!usable.ok) return sayTrouble(terminal, usable.trouble);
    const store = usable.value;
    if (store === null) return inPlaceOf(folder, say, now);
    try {
      return await whileOpen(store, say);
    } finally {
      await store.close();
    }
  },
});

interface Say {
  readonly terminal: Terminal;
  readonly json: boolean;
  readonly named: string;
  readonly yes: boolean;
}

/** The atlas of a folder; null where it is missing, empty or damaged, so that there is nothing to keep; or why neither is so. */
const openedOrNot = async (folder: string, open: (file: string) => Promise<Outcome<Store>>): Promise<Outcome<Store | null>> => {
  const file = atlasFile(folder);
  if ((await missingFrom(folder)) !== null) return { ok: true, value: null };
  const opened = (await isThere(file)) || (await isThere(`${file}.mended`)) ? await open(file) : ({ ok: true, value: null } as const);
  return !opened.ok && opened.trouble.code === 'database-damaged' ? { ok: true, value: null } : opened;
};

const isThere = (file: string): Promise<boolean> =>
  access(file).then(
    () => true,
    () => false,
  );

const whileOpen = async (store: Store, say: Say): Promise<ExitCode> => {
  const preview = await store.backups.preview(say.named, true);
  if (!preview.ok) return sayTrouble(say.terminal, preview.trouble);
  const { elsewhere, backup } = preview.value;
  if (elsewhere !== null) say.terminal.err(saySharedLetter(backup.name, elsewhere));
  if (!say.yes) return sayPreview(preview.value, say);
  return sayRestored(await store.backups.restore(say.named, preview.value.madeAgainst as Version, true), say);
};

const inPlaceOf = async (folder: string, say: Say, now: () => Date): Promise<ExitCode> => {
  const backups = backupsInPlace(backupPlace(folder, now));
  if (say.yes) return sayRestored(await backups.restore(say.named), say);
  const preview = await backups.preview(say.named);
  return preview.ok ? sayPreview(preview.value, say) : sayTrouble(say.terminal, preview.trouble);
};

const putBackAsItIs = async (folder: string, say: Say, now: () => Date): Promise<ExitCode> => {
  if (!say.yes) {
    say.terminal.err(
      'The file of this backup would take the place of the atlas as it is, for the older program that made it. Numbers of cases given since would be given again. Say --yes to do it; nothing was changed.',
    );
    return exitCodes.usage;
  }
  const usable = await openedOrNot(folder, (file) => openAtlas(file, true));
  // An atlas of an older schema is as good as one of this: it only goes into a backup.
  if (!usable.ok && usable.trouble.code !== 'database-read-only') return sayTrouble(say.terminal, usable.trouble);
  if (usable.ok) await usable.value?.close();
  return sayRestored(await backupsInPlace(backupPlace(folder, now)).asItIs(say.named, !usable.ok || usable.value !== null), say);
};

const sayRestored = (restored: Outcome<Restored>, { terminal, json }: Say): ExitCode => {
  if (!restored.ok) return sayTrouble(terminal, restored.trouble as Trouble);
  const { from, before, aside } = restored.value;
  if (json) terminal.out(jsonText(restored.value));
  else {
    terminal.out(`${from} was put back.\n`);
    if (before !== null) terminal.out(`What there was before is in ${before}.\n`);
    if (aside !== null) terminal.out(`The file that could not be used was moved to ${aside}.\n`);
  }
  return exitCodes.stands;
};

const sayPreview = (preview: RestorePreview, { terminal, json, named }: Say): ExitCode => {
  if (json) terminal.out(jsonText(preview));
  else {
    const { backup, same, migrates, madeAgainst, differences } = preview;
    terminal.out(`${backup.name}, made ${backup.at}, ${because[backup.reason]}.\n`);
    if (madeAgainst === null) terminal.out('There is no atlas that can be read: all that is in the backup would come back.\n');
    if (migrates) terminal.out('It is of an older version of the program and would be brought up to date.\n');
    if (same) terminal.out('The atlas holds exactly what the backup holds.\n');
    for (const one of differences) sayDifference(one, terminal);
    terminal.out(`Nothing was changed. kinplate restore ${named} --yes puts it back.\n`);
  }
  return exitCodes.stands;
};

const called: Readonly<Record<Difference['what'], string>> = {
  cases: 'Case files',
  sheets: 'Sheets',
  photographs: 'Photographs',
  learners: 'Learners, with what they answered',
  courses: 'Courses',
  packs: 'Packs',
  other: 'Other things the shop has set down',
};

/** So many are named of each; `--format json` has more. */
const namesShown = 20;

const sayDifference = ({ what, now, afterwards, comesBack, goes, differs }: Difference, { out }: Terminal): void => {
  if (comesBack.count + goes.count + differs.count === 0) return;
  out(`${called[what]}: ${now} now, ${afterwards} afterwards.\n`);
  sayNamed('would come back', comesBack, out);
  sayNamed('would go', goes, out);
  sayNamed('would be as it was then', differs, out);
};

const sayNamed = (how: string, { count, names }: Named, out: Terminal['out']): void => {
  if (count === 0) return;
  const shown = names.slice(0, namesShown);
  const more = count - shown.length;
  out(`  ${how} (${count}): ${shown.join('; ')}${more > 0 ? `; and ${counted(more, 'other')}` : ''}\n`);
};

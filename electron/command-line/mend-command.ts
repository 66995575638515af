import { mkdir, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { checkAtlas, type RecoveredCases, recoverCases, recoverLearning, recoverSheets, setAside, sheetText } from '../../db/index.ts';
import { compileAtlas, judgeCase, type Sheet } from '../../reasoner/index.ts';
import { well } from '../bridge/reply.ts';
import { atlasFile, defaultDataFolder } from '../desk/data-folder.ts';
import { scheduled } from '../desk/drill-schedule.ts';
import { openHouse } from '../desk/open-house.ts';
import type { Reasoning } from '../desk/reasoning.ts';
import { saveJudged } from '../desk/save-judged.ts';
import { command } from './command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { sayLearning } from './mend-learning.ts';
import { dataOption } from './option.ts';
import { sayTrouble, type Terminal } from './terminal.ts';

/**
 * `kinplate mend`: from a damaged atlas to one that opens, with the shop's own sheets, their cases, and what was learnt as far as they can still be read.
 * The sheets are written out as files first and the damaged file is only moved aside, so that nothing is lost wherever this stops.
 */
export const mendCommand = command({
  name: 'mend',
  options: dataOption,
  inPlaceOfWords: 'it works on a data folder, kinplate mend [--data <folder>]',
  help: ['a new atlas in place of a damaged one: own sheets, cases, and what was learnt recovered'],
  run: ({ options: { data } }, terminal, { shipped, now }) => mend(data ?? defaultDataFolder(), shipped, now(), terminal),
});

const mend = async (folder: string, shipped: string, now: Date, terminal: Terminal): Promise<ExitCode> => {
  const file = atlasFile(folder);
  const faults = await checkAtlas(file);
  if (!faults.ok) return sayTrouble(terminal, faults.trouble);
  if (faults.value.length === 0) {
    terminal.out('The atlas is sound. Nothing was changed.\n');
    return exitCodes.stands;
  }

  const recovered = await recoverSheets(file);
  const sheets = recovered.ok ? recovered.value.sheets : [];
  const kept = path.join(folder, `recovered-${now.toISOString().replace(/[:.]/g, '-')}`);
  await writeSheets(sheets, kept);
  const cases = await recoverCases(
    file,
    sheets.map(({ id }) => id),
  );

  const learnt = await recoverLearning(file);

  const aside = await setAside(file, now);
  if (!aside.ok) return sayTrouble(terminal, aside.trouble);
  const house = await openHouse(folder, shipped, (line) => terminal.err(`· ${line}`), undefined, true);
  if (!house.ok) return sayTrouble(terminal, house.trouble);
  const { store } = house.value;
  let back = 0;
  let learning: readonly string[] = [];
  try {
    learning = sayLearning(learnt, learnt.ok ? await store.learning.putBack(learnt.value, scheduled) : learnt);
    const atlas = compileAtlas(await store.atlas.read());
    const judge: Reasoning['judgeCase'] = async ({ sheet }) => {
      // Kept before slips were asked about: nobody can be asked here.
      const checked = await store.sheets.check(sheet);
      return checked.ok ? well(judgeCase(atlas, checked.value)) : checked;
    };
    if (cases.ok) {
      // Cases first: a sheet that is saved where its case is already keeps its number and its history.
      const known = new Set<string>();
      for (const sheet of sheets) if ((await store.sheets.check(sheet)).ok) known.add(sheet.id);
      const { numbers } = cases.value;
      const put = await store.cases.putBack({ numbers, cases: cases.value.cases.filter(({ head }) => known.has(head.sheet)) });
      if (!put.ok) terminal.err(put.trouble.sentence);
    }
    for (const sheet of sheets) {
      const saved = await saveJudged(store, judge, sheet, '');
      if (saved.ok) back += 1;
      else terminal.err(`${sheet.id} stays a file for now: ${saved.trouble.sentence}`);
    }
  } finally {
    await house.value.close();
  }
  terminal.out(`The damaged atlas was set aside as ${aside.value}, and a new one made with the packs that come with Kinplate.\n`);
  terminal.out(
    `Own sheets: ${sheets.length} could be read, ${back} are on the shelf again${sheets.length > 0 ? `, all are in ${kept}` : ''}.\n`,
  );
  if (cases.ok && cases.value.cases.length > 0)
    terminal.out(`With them ${cases.value.cases.length} case files: numbers, history, and ${countPhotos(cases.value)} photographs.\n`);
  if (!cases.ok || !cases.value.complete)
    terminal.out('Some history or photographs could not be read; they may still be in the file set aside.\n');
  for (const line of learning) terminal.out(`${line}\n`);
  if (!recovered.ok || !recovered.value.complete) terminal.out('Parts of the old file could not be read: sheets may be missing.\n');
  terminal.out('Packs of your own must be loaded again: kinplate pack load <folder>.\n');
  return exitCodes.stands;
};

const countPhotos = ({ cases }: RecoveredCases): number => cases.reduce((sum, { photos }) => sum + photos.length, 0);

const writeSheets = async (sheets: readonly Sheet[], folder: string): Promise<void> => {
  if (sheets.length === 0) return;
  await mkdir(folder, { recursive: true });
  // Numbered, because an id may hold what no file name may.
  for (const [index, sheet] of sheets.entries())
    await writeFile(path.join(folder, `${String(index + 1).padStart(4, '0')}.json`), sheetText(sheet), { flag: 'wx' });
};

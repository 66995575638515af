import { openStore } from '../../../db/index.ts';
import { asId } from '../../../reasoner/ids.ts';
import { blankSheet } from '../../../reasoner/plain/blank-sheet.ts';
import { keepSheet } from '../../unit/db/keep-sheet.ts';

/** save-sheets.mjs FILE: saves sheet after sheet, saying the id of each once it is saved, until it is killed. */
const [file = ''] = process.argv.slice(2);

const opened = await openStore(file);
if (!opened.ok) throw new Error(opened.trouble.sentence);
for (let n = 0; n < 100_000; n += 1) {
  const sheet = {
    ...blankSheet(asId(`own-${n}`)),
    title: `Sheet ${n}`,
    story: 'x'.repeat(n % 3000),
  };
  const saved = await keepSheet(opened.value, sheet);
  if (!saved.ok) throw new Error(saved.trouble.sentence);
  process.stdout.write(`${sheet.id}\n`);
}

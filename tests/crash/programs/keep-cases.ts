import { openStore } from '../../../db/index.ts';
import { asId } from '../../../reasoner/ids.ts';
import { blankSheet } from '../../../reasoner/plain/blank-sheet.ts';
import { keepSheet } from '../../unit/db/keep-sheet.ts';
import { jpeg, png } from '../../unit/db/photos/pictures.ts';

/**
 * keep-cases.mjs FILE: saves case after case with a photograph of its own and a word beside it, saying each step once it is done
 * (`sheet 3`, `photo 3 <id>`, `words 3`), until it is killed.
 */
const [file = ''] = process.argv.slice(2);
const say = (line: string) => process.stdout.write(`${line}\n`);
const opened = await openStore(file);
if (!opened.ok) throw new Error(opened.trouble.sentence);
const store = opened.value;
for (let n = 0; n < 100_000; n += 1) {
  const sheet = {
    ...blankSheet(asId(`own-${n}`)),
    title: `Sheet ${n}`,
  };
  const saved = await keepSheet(store, sheet);
  if (!saved.ok) throw new Error(saved.trouble.sentence);
  say(`sheet ${n}`);
  // Some hundred pages of the file, each picture its own.
  const bytes = Buffer.concat([
    jpeg.subarray(0, jpeg.length - 2),
    Buffer.alloc(400_000, 1 + (n % 200)),
    Buffer.from([n >> 8, n & 0x7f]),
    jpeg.subarray(-2),
  ]);
  const added = await store.photos.add(sheet.id, { name: `${n}.jpg`, bytes, thumbnail: png, caption: `photograph ${n}`, about: null });
  if (!added.ok) throw new Error(added.trouble.sentence);
  say(`photo ${n} ${added.value[0]?.id}`);
  const described = await store.cases.describe(sheet.id, { customer: `customer ${n}`, lookedBy: 'Osk', notes: 'x'.repeat(n % 5000) });
  if (!described.ok) throw new Error(described.trouble.sentence);
  say(`words ${n}`);
}

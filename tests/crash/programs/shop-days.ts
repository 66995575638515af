import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { type Outcome, openStore, type Version } from '../../../db/index.ts';
import { asId } from '../../../reasoner/ids.ts';
import { blankSheet } from '../../../reasoner/plain/blank-sheet.ts';
import { keepSheet } from '../../unit/db/keep-sheet.ts';
import { expandCode } from '../../unit/db/packs.ts';
import { jpeg, png } from '../../unit/db/photos/pictures.ts';
import type { Act, Said, Task } from '../days.ts';

/**
 * shop-days.mjs FILE TASK: does one thing after the other with a shop's atlas, drawn by a seed, until it is killed. Of each it says, a line of JSON each, that it begins and,
 * with what came of it, that it is done.
 */
const [file = '', taskFile = ''] = process.argv.slice(2);
const task = JSON.parse(readFileSync(taskFile, 'utf8')) as Task;
const say = (said: Said): void => void process.stdout.write(`${JSON.stringify(said)}\n`);

const valueIn = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(`${outcome.trouble.code}: ${outcome.trouble.sentence}`);
  return outcome.value;
};

/** Mulberry32: the same numbers from the same seed. */
let state = task.seed >>> 0;
const random = (): number => {
  state = (state + 0x6d2b79f5) >>> 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
};
const whole = (below: number): number => Math.floor(random() * below);

const store = valueIn(await openStore(file, { expandCode, backups: { folder: join(dirname(file), 'backups') } }));
const backups = [...task.backups];
let sheets = [...task.sheets];
let { newer } = task;
say({ n: -1, done: 'opened' });

const saved = async (id: string, title: string) => {
  const sheet = { ...blankSheet(asId(id)), title, story: 'x'.repeat(whole(4000)) };
  valueIn(await keepSheet(store, sheet));
  if (!sheets.includes(id)) sheets.push(id);
  return { number: valueIn(await store.cases.open(asId(id), null)).number };
};

const act = (n: number): Act => {
  const some = sheets[whole(sheets.length)] ?? null;
  const draw = random();
  if (some === null || draw < 0.2) return { what: 'save', id: `s${task.seed}-${n}`, title: `Sheet ${task.seed} ${n}` };
  if (draw < 0.32) return { what: 'save', id: some, title: `Sheet again ${task.seed} ${n}` };
  if (draw < 0.42) return { what: 'describe', id: some, customer: `customer ${task.seed} ${n}` };
  if (draw < 0.57) return { what: 'photo', id: some, photo: '', size: 10_000 + whole(300_000), mark: whole(2 ** 30) };
  if (draw < 0.62) return { what: 'remove', id: some };
  if (draw < 0.76 || backups.length === 0) return { what: 'backup' };
  if (draw < 0.9) return { what: 'restore', name: backups[whole(backups.length)] ?? '' };
  return { what: 'pack', newer: !newer };
};

/** A picture nobody else has. */
const picture = (size: number, mark: number): Buffer =>
  Buffer.concat([jpeg.subarray(0, jpeg.length - 2), Buffer.alloc(size, 1 + (mark % 200)), Buffer.from(String(mark)), jpeg.subarray(-2)]);

for (let n = 0; n < 100_000; n += 1) {
  const drawn = act(n);
  const next: Act =
    drawn.what === 'photo'
      ? { ...drawn, photo: createHash('sha256').update(`${drawn.size} ${drawn.mark}`).digest('hex').slice(0, 12) }
      : drawn;
  say({ n, begins: next });
  switch (next.what) {
    case 'save':
      say({ n, done: next, ...(await saved(next.id, next.title)) });
      break;
    case 'describe':
      valueIn(await store.cases.describe(asId(next.id), { customer: next.customer, lookedBy: '', notes: '' }));
      say({ n, done: next });
      break;
    case 'photo':
      valueIn(
        await store.photos.add(asId(next.id), {
          name: 'a.jpg',
          bytes: picture(next.size, next.mark),
          thumbnail: png,
          // By what it is called it is known again.
          caption: next.photo,
          about: null,
        }),
      );
      say({ n, done: next });
      break;
    case 'remove':
      valueIn(await store.sheets.remove(asId(next.id)));
      sheets = sheets.filter((id) => id !== next.id);
      say({ n, done: next });
      break;
    case 'backup': {
      const { name } = valueIn(await store.backups.make('asked'));
      backups.push(name);
      say({ n, done: next, name });
      break;
    }
    case 'restore': {
      const { madeAgainst } = valueIn(await store.backups.preview(next.name));
      const { before } = valueIn(await store.backups.restore(next.name, madeAgainst as Version));
      if (before !== null) backups.push(before);
      sheets = valueIn(await store.sheets.list())
        .filter(({ origin }) => origin === 'own')
        .map(({ id }) => id);
      newer = valueIn(await store.packs.list())[0]?.edition === task.editions.newer;
      say({ n, done: next, ...(before === null ? {} : { name: before }) });
      break;
    }
    case 'pack':
      valueIn(await store.packs.load(next.newer ? task.packs.newer : task.packs.older, { anyEdition: true }));
      newer = next.newer;
      say({ n, done: next });
  }
}

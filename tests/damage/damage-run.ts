import { createHash } from 'node:crypto';
import { copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sqlite3 from 'sqlite3';
import { type MendReport, mendAtlas, type Trouble } from '../../db/index.ts';
import { mendSetting } from '../../electron/desk/mend.ts';
import { openAtlas } from '../../electron/desk/open-house.ts';
import { cardText, readable, type StandingShop, type Thing } from './standing-shop.ts';

/** A random number from 0 up to 1, by seed (mulberry32, public domain). */
export const seeded = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
};

/** Overwrites pages with noise, or with zeros, by turns; each as a whole. */
export const damaged = (whole: Buffer, pages: readonly number[], pageSize: number, seed: number): Buffer => {
  const bytes = Buffer.from(whole);
  const random = seeded(seed);
  for (const page of pages) {
    const part = bytes.subarray((page - 1) * pageSize, page * pageSize);
    if (random() < 0.5) part.fill(0);
    else for (let at = 0; at < part.length; at += 4) part.writeUInt32LE(Math.floor(random() * 2 ** 32), at);
  }
  return bytes;
};

export interface Counts {
  runs: number;
  sound: number;
  /** Atlases whose packs came whole out of the damaged file. */
  packs: number;
  readonly of: Record<Thing['what'], { there: number; readable: number; recovered: number; lost: number; older: number }>;
  /** Photographs whose case nothing names any more, kept as files. */
  photoFiles: number;
  /** Runs with something lost though it was readable, or with something put back that was never saved: first lines of each. */
  readonly faults: string[];
  wrong: number;
}

const whats = [
  'sheet',
  'number',
  'words',
  'entry',
  'photograph',
  'course',
  'learner',
  'card',
  'answer',
  'setting',
  'way of reading',
  'price',
  'paper',
  'file',
  'stock',
  'sample',
  'own word',
] as const;
export const newCounts = (): Counts => ({
  runs: 0,
  sound: 0,
  packs: 0,
  of: Object.fromEntries(whats.map((what) => [what, { there: 0, readable: 0, recovered: 0, lost: 0, older: 0 }])) as Counts['of'],
  photoFiles: 0,
  faults: [],
  wrong: 0,
});

/** When every run mends. */
export const mendedAt = new Date('2026-03-04T12:00:00.000Z');

/**
 * Makes an atlas of the same packs once, and copies it from then on: what loading a pack takes is not what is tried here.
 * @param keep a folder for the copies
 */
export const copying = (shipped: string, keep: string): ReturnType<typeof mendSetting> => {
  const setting = mendSetting(shipped, mendedAt);
  const known = new Map<string, string>();
  return {
    ...setting,
    makeAtlas: async (file, packs) => {
      if (packs.length === 0) return setting.makeAtlas(file, packs);
      const hash = createHash('sha256');
      for (const pack of packs)
        for (const name of (readdirSync(pack, { recursive: true }) as string[]).sort())
          if (/\.(json|csv)$/.test(name)) hash.update(name).update(readFileSync(join(pack, name)));
      const key = hash.digest('hex');
      const template = known.get(key);
      if (template !== undefined) {
        copyFileSync(template, file);
        const opened = await openAtlas(file);
        return opened.ok ? { ok: true, value: { store: opened.value, refused: [] } } : opened;
      }
      const made = await setting.makeAtlas(file, packs);
      if (!made.ok || made.value.refused.length > 0) return made;
      await made.value.store.close();
      const copy = join(keep, `${key}.sqlite`);
      copyFileSync(file, copy);
      known.set(key, copy);
      const opened = await openAtlas(file);
      return opened.ok ? { ok: true, value: { store: opened.value, refused: [] } } : opened;
    },
  };
};

/** Damages these pages of a shop's file, mends it in a folder of its own, and counts what became of each thing. */
export const damageRun = async (
  shop: StandingShop,
  whole: Buffer,
  pages: readonly number[],
  seed: number,
  setting: ReturnType<typeof mendSetting>,
  folder: string,
  counts: Counts,
): Promise<void> => {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  const file = join(folder, 'atlas.sqlite');
  writeFileSync(file, damaged(whole, pages, shop.file.pageSize, seed));
  const say = (fault: string): void => {
    counts.faults.push(`pages ${pages.join(', ')}, seed ${seed}: ${fault}`);
  };
  counts.runs += 1;
  const mended = await mendAtlas(file, setting).catch((error: unknown): { readonly ok: false; readonly trouble: Trouble } => ({
    ok: false,
    trouble: { code: 'bug', place: null, sentence: error instanceof Error ? (error.stack ?? error.message) : String(error) },
  }));
  if (!mended.ok) {
    counts.wrong += 1;
    say(`not mended: ${mended.trouble.sentence}`);
    return;
  }
  if (mended.value.state === 'sound') counts.sound += 1;
  if (mended.value.packs.every(({ from }) => from === 'damaged file')) counts.packs += 1;
  compare(shop, new Set(pages), mended.value, await shopIn(file), folder, counts, say);
};

interface Held {
  /** What the new atlas says of each thing, by what and key. */
  readonly says: ReadonlyMap<string, string>;
  readonly entries: readonly {
    readonly sheet: string;
    readonly n: number;
    readonly at: string;
    readonly body: string;
    readonly row: string;
  }[];
  readonly faults: readonly string[];
}

const compare = (
  { things, states }: StandingShop,
  hit: ReadonlySet<number>,
  report: MendReport,
  held: Held,
  folder: string,
  counts: Counts,
  say: (fault: string) => void,
): void => {
  const wrong = (fault: string): void => {
    counts.wrong += 1;
    say(fault);
  };
  for (const fault of held.faults) wrong(fault);
  const sheets = new Set(things.filter((thing) => thing.what === 'sheet' && readable(thing, hit) !== null).map(({ key }) => key));
  const files =
    report.folder === null ? [] : (readdirSync(join(folder, report.folder.slice(folder.length + 1)), { recursive: true }) as string[]);
  /** Whoever learnt by a course that is lost goes on with the whole atlas, and that is told. */
  const courses = new Map(things.filter(({ what }) => what === 'course').map((course) => [course.key, readable(course, hit) !== null]));
  const readableOf = (thing: Thing): string | null => {
    const best = readable(thing, hit);
    if (best === null || thing.what !== 'learner') return best;
    const [id, name, course, ...rest] = JSON.parse(best) as readonly [string, string, string | null, ...unknown[]];
    return JSON.stringify([id, name, course !== null && courses.get(course) === true ? course : null, ...rest]);
  };
  for (const thing of things) {
    const count = counts.of[thing.what];
    count.there += 1;
    const best = readableOf(thing);
    const now = held.says.get(`${thing.what} ${thing.key}`);
    // Nothing beside a sheet has a place where no state of the sheet is left.
    const placeless = ['number', 'words', 'photograph'].includes(thing.what) && !sheets.has(thing.key.split(' ')[0] ?? '');
    if (best !== null && !placeless) {
      count.readable += 1;
      if (now === undefined) {
        count.lost += 1;
        say(`lost though readable: ${thing.what} ${thing.key}`);
      } else if (now !== best) {
        wrong(`${thing.what} ${thing.key} is not the newest that could be read`);
      }
    }
    if (now === undefined) continue;
    count.recovered += 1;
    if (best === null && !thing.says.includes(now)) {
      // A name where a learner's was lost, words where a case's were, a day worked out anew: told as such, and none of it anybody's.
      if (thing.what === 'sheet' || thing.what === 'entry' || thing.what === 'answer' || thing.what === 'course') {
        const judgedAnew =
          thing.what === 'entry' &&
          held.entries.some(
            (entry) =>
              `${entry.sheet} ${entry.n}` === thing.key && entry.at === mendedAt.toISOString() && states.get(entry.sheet)?.has(entry.body),
          );
        if (!judgedAnew) wrong(`${thing.what} ${thing.key} was never saved so`);
      }
    } else if (best === null) count.older += 1;
  }
  for (const { sheet, body, n } of held.entries)
    if (states.get(sheet)?.has(body) !== true) wrong(`entry ${n} of ${sheet} is of a state that was never saved`);
  counts.photoFiles += files.filter((name) => name.startsWith('photographs')).length;
};

/** Reads the new atlas back, by SQLite alone. */
const shopIn = async (file: string): Promise<Held> => {
  const database = await new Promise<sqlite3.Database>((resolve, reject) => {
    const opening: sqlite3.Database = new sqlite3.Database(file, sqlite3.OPEN_READONLY, (error) =>
      error ? reject(error) : resolve(opening),
    );
  });
  const all = <Row>(sql: string): Promise<Row[]> =>
    new Promise((resolve, reject) => database.all<Row>(sql, (error, rows) => (error ? reject(error) : resolve(rows))));
  const says = new Map<string, string>();
  const faults: string[] = [];
  const entries: Held['entries'][number][] = [];
  const values = (row: object): string => JSON.stringify(Object.values(row));
  try {
    for (const row of await all<{ id: string; body: string }>(`select id, body from sheets where origin = 'own'`))
      says.set(`sheet ${row.id}`, row.body);
    for (const row of await all<{ sheet: string; n: number; at: string; body: string }>('select * from case_entries')) {
      says.set(`entry ${row.sheet} ${row.n}`, values(row));
      entries.push({ ...row, row: values(row) });
    }
    for (const row of await all<{ sheet: string; n: number }>('select * from case_details'))
      says.set(`words ${row.sheet} ${row.n}`, values(row));
    for (const row of await all<{ sheet: string; letter: string; year: number; number: number }>('select * from cases'))
      says.set(`number ${row.sheet}`, JSON.stringify([row.letter, row.year, row.number]));
    const good = new Set<string>();
    for (const { id, bytes } of await all<{ id: string; bytes: Buffer }>('select id, bytes from photos'))
      if (createHash('sha256').update(bytes).digest('hex') === id) good.add(id);
      else faults.push(`the photograph ${id} is not the one that was saved`);
    for (const { sheet, photo } of await all<{ sheet: string; photo: string }>('select sheet, photo from case_photos'))
      if (good.has(photo)) says.set(`photograph ${sheet} ${photo}`, `${sheet} ${photo}`);
    for (const row of await all<{ key: string }>('select * from shop_settings')) says.set(`setting ${row.key}`, values(row));
    for (const row of await all<{ name: string }>('select * from table_templates')) says.set(`way of reading ${row.name}`, values(row));
    for (const { id, bytes } of await all<{ id: string; bytes: Buffer }>('select id, bytes from kept_files'))
      if (createHash('sha256').update(bytes).digest('hex') === id) says.set(`file ${id}`, id);
      else faults.push(`the file ${id} is not the one that was saved`);
    for (const row of await all<{ id: string }>('select * from samples')) says.set(`sample ${row.id}`, values(row));
    for (const row of await all<{ part: string; n: number }>('select * from shop_prices'))
      says.set(`price ${row.part} ${row.n}`, values(row));
    for (const row of await all<{ about: string; of: string; file: string }>('select * from documents'))
      says.set(`paper ${row.about} ${row.of} ${row.file}`, values(row));
    for (const row of await all<{ pack: string; cell: string }>('select * from own_words'))
      says.set(`own word ${row.pack} ${row.cell}`, values(row));
    for (const row of await all<{ line: string; n: number }>('select * from stock')) says.set(`stock ${row.line} ${row.n}`, values(row));
    for (const row of await all<{ id: string }>('select * from courses')) says.set(`course ${row.id}`, values(row));
    for (const row of await all<{ id: string }>('select * from learners')) says.set(`learner ${row.id}`, values(row));
    for (const row of await all<{ learner: string; topic: string }>('select * from drill_cards'))
      says.set(`card ${row.learner} ${row.topic}`, cardText(Object.values(row)));
    for (const { learner, n: _, ...row } of await all<{ learner: string; n: number; topic: string; seed: number }>(
      'select * from drill_answers',
    ))
      says.set(`answer ${learner} ${row.topic} ${row.seed}`, JSON.stringify([learner, ...Object.values(row)]));
  } finally {
    await new Promise((resolve) => database.close(resolve));
  }
  return { says, entries, faults };
};

export const countsText = (counts: Counts): string =>
  [
    `runs ${counts.runs}, of them ${counts.sound} on pages nothing stands on; packs whole out of the damaged file in ${counts.packs}`,
    ...whats.map((what) => {
      const { there, readable: could, recovered, lost, older } = counts.of[what];
      return `${what.padEnd(11)} there ${there}, readable ${could}, there again ${recovered}${older > 0 ? ` (${older} of them by other ways)` : ''}, lost though readable ${lost}`;
    }),
    `photographs kept as files, because nothing says whose they are: ${counts.photoFiles}`,
    `put back wrong, or not mended: ${counts.wrong}`,
    ...counts.faults.slice(0, 30),
  ].join('\n');

export const lostIn = (counts: Counts): number => whats.reduce((sum, what) => sum + counts.of[what].lost, 0);

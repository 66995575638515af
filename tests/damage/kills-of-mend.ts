import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sqlite3 from 'sqlite3';
import { checkAtlas } from '../../db/index.ts';
import { openAtlas } from '../../electron/desk/open-house.ts';
import { start } from '../crash/child.ts';
import { damaged, seeded } from './damage-run.ts';
import { fillShop, shipped } from './shop.ts';

/** A damaged data folder, and what mending it comes to when nobody stops it. */
export interface Killed {
  readonly folder: string;
  readonly bytes: Buffer;
  readonly expected: string;
  /** How long mending takes from its first line, in milliseconds, here and now. */
  readonly takes: number;
}

const tables = [
  'sheets',
  'case_counts',
  'cases',
  'case_details',
  'case_entries',
  'case_photos',
  'photos',
  'courses',
  'learners',
  'drill_cards',
  'drill_answers',
];

/** Everything the shop has entered, row by row. */
const rowsIn = async (file: string): Promise<string> => {
  const database = await new Promise<sqlite3.Database>((resolve, reject) => {
    const opening: sqlite3.Database = new sqlite3.Database(file, sqlite3.OPEN_READWRITE, (error) =>
      error ? reject(error) : resolve(opening),
    );
  });
  try {
    const all = [];
    for (const table of tables)
      all.push(
        table,
        await new Promise((resolve, reject) =>
          database.all(`select * from ${table} order by 1, 2`, (error, rows) => (error ? reject(error) : resolve(rows))),
        ),
      );
    return JSON.stringify(all);
  } finally {
    await new Promise((resolve) => database.close(resolve));
  }
};

const mendToTheEnd = async (program: string, folder: string): Promise<string> => {
  const running = start(program, [folder, shipped]);
  await running.ended;
  return running.lines.at(-1) ?? '';
};

/** @param program the built `mend-folder` */
export const makeKilled = async (program: string, scratch: string, seed: number): Promise<Killed> => {
  const folder = join(scratch, 'filled');
  mkdirSync(folder, { recursive: true });
  const shop = await fillShop(folder, { sheets: 30, photos: 8, photoBytes: 40_000, topics: 20 });
  const random = seeded(seed);
  const whole = readFileSync(shop.file);
  const pages = Array.from({ length: 6 }, () => 2 + Math.floor(random() * (whole.length / 4096 - 2)));
  const bytes = damaged(whole, pages, 4096, seed);
  rmSync(folder, { recursive: true });
  const once = join(scratch, 'once');
  mkdirSync(once);
  writeFileSync(join(once, 'atlas.sqlite'), bytes);
  const running = start(program, [once, shipped]);
  await running.line('started');
  const begun = performance.now();
  await running.line('done');
  const takes = performance.now() - begun;
  await running.ended;
  return { folder: scratch, bytes, expected: await rowsIn(join(once, 'atlas.sqlite')), takes };
};

export interface Kill {
  /** What had been said when it was killed last. */
  readonly after: string;
  readonly kills: number;
  /** Null where all of it is there. */
  readonly fault: string | null;
}

/** Mends, killed once to three times at moments by seed, and then to the end. */
export const killMending = async (program: string, { folder: scratch, bytes, expected, takes }: Killed, seed: number): Promise<Kill> => {
  const random = seeded(seed);
  const folder = join(scratch, `run-${seed}`);
  const file = join(folder, 'atlas.sqlite');
  mkdirSync(folder);
  writeFileSync(file, bytes);
  const kills = 1 + Math.floor(random() * 3);
  let after = '';
  try {
    for (let kill = 0; kill < kills; kill += 1) {
      const running = start(program, [folder, shipped]);
      await running.line('started');
      await new Promise((resolve) => setTimeout(resolve, random() * takes * 1.1));
      running.child.kill('SIGKILL');
      await running.ended;
      after = running.lines.at(-1) ?? '';
      if (existsSync(file)) continue;
      const opened = await openAtlas(file);
      if (opened.ok || opened.trouble.code !== 'mend-unfinished')
        return { after, kills, fault: 'an ordinary opening did not say that mending was broken off' };
    }
    const last = await mendToTheEnd(program, folder);
    if (!/^ended (mended|finished|sound)$/.test(last)) return { after, kills, fault: `the last run: ${last}` };
    const faults = await checkAtlas(file);
    if (!faults.ok || faults.value.length > 0) return { after, kills, fault: 'the new atlas is not sound' };
    if ((await rowsIn(file)) !== expected) return { after, kills, fault: 'what the shop entered is not what an undisturbed mending gives' };
    const aside = readdirSync(folder).filter((name) => /\.damaged-.*Z$/.test(name));
    if (aside.length !== 1 || !readFileSync(join(folder, aside[0] ?? '')).equals(bytes))
      return { after, kills, fault: 'the damaged file is not whole beside it' };
    const left = readdirSync(folder).filter((name) => /\.mend|\.part/.test(name));
    return { after, kills, fault: left.length > 0 ? `left over: ${left.join(', ')}` : null };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

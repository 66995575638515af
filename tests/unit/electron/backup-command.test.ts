import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { exitCodes } from '../../../electron/command-line/exit-codes.ts';
import { missingDesk } from '../../../electron/desk/missing-atlas.ts';
import { adviceFor } from '../../../electron/hosts/fault-page.ts';
import { asId, blankSheet } from '../../../reasoner/index.ts';
import { begunHouse } from './begun-house.ts';
import { kinplateRun } from './kinplate-run.ts';

const smallPack = path.join(import.meta.dirname, '../db/fixtures/small-pack');
let scratch: string;
let data: string;
let packs: string;
beforeEach(() => {
  scratch = mkdtempSync(path.join(tmpdir(), 'kinplate-backup-'));
  data = path.join(scratch, 'data');
  packs = path.join(scratch, 'packs');
  cpSync(smallPack, path.join(packs, 'small-pack'), { recursive: true });
});
afterEach(() => rmSync(scratch, { recursive: true, force: true }));

const kinplate = (...args: string[]) => kinplateRun([...args, '--data', data], { shipped: packs });
const start = () => begunHouse(data, packs);
/** Opens the data folder, saves sheets of these ids, and closes it. */
const keep = async (...ids: string[]): Promise<void> => {
  const house = await start();
  if (!house.ok) throw new Error(house.trouble.sentence);
  for (const id of ids) {
    const saved = await house.value.desk['sheets.save']({
      sheet: { ...blankSheet(asId(id)), title: `Sheet ${id}` },
      who: '',
      madeAgainst: null,
    });
    if (!saved.ok) throw new Error(saved.trouble.sentence);
  }
  await house.value.close();
};
const sheets = async (): Promise<string> => (await kinplate('cases')).out;
const file = () => path.join(data, 'atlas.sqlite');
const backups = () => (existsSync(path.join(data, 'backups')) ? readdirSync(path.join(data, 'backups')).sort() : []);

describe('[P5] kinplate backup, and backups', () => {
  test('[P5] one is made and listed, in words and as JSON', async () => {
    await keep('a');
    const made = await kinplate('backup');
    expect(made).toMatchObject({ code: exitCodes.stands, err: '' });
    expect(made.out).toMatch(/^Made \S+-asked\.sqlite: 1 case, 0 photographs, 0 learners, 0 answers, 1 pack\.\n$/);
    const listed = await kinplate('backups');
    expect(listed.code).toBe(exitCodes.stands);
    expect(listed.out).toMatch(/^\S+-asked\.sqlite\t\S+Z\tasked for\t\d+ bytes\t1 case, /);
    const json = JSON.parse((await kinplate('backups', '--format', 'json')).out) as Record<string, unknown>;
    expect(json).toMatchObject({
      folder: path.join(data, 'backups'),
      backups: [{ reason: 'asked', state: { kind: 'sound' } }],
      atMost: 2 * 2 ** 30,
    });
    expect(JSON.parse((await kinplate('backup', '--format', 'json')).out)).toMatchObject({ reason: 'asked' });
    truncateSync(path.join(data, 'backups', backups()[0] ?? ''), 5000);
    expect((await kinplate('backups')).out).toContain('cannot be read: It is damaged.');
  });

  test('[P5] where it cannot be made: 73, and why', async () => {
    await keep('a');
    writeFileSync(path.join(data, 'backups'), 'a file where the folder should be');
    const made = await kinplate('backup');
    expect(made).toMatchObject({ code: exitCodes.cannotWrite, out: '' });
    expect(made.err).toMatch(/^A backup could not be made in \S+backups: that folder cannot be written to\.$/m);
  });
});

describe('[P5] kinplate restore', () => {
  test('[P5] shows what comes back and what goes, and only with --yes does it', async () => {
    await keep('a', 'b');
    await kinplate('backup');
    await keep('c');
    const shown = await kinplate('restore', 'newest');
    expect(shown.code).toBe(exitCodes.stands);
    expect(shown.out).toContain('Case files: 3 now, 2 afterwards.\n');
    expect(shown.out).toMatch(/ {2}would go \(1\): A-2\d{3}-0003 Sheet c\n/);
    expect(shown.out).toContain('Nothing was changed. kinplate restore newest --yes puts it back.');
    expect(await sheets()).toContain('Sheet c');
    expect(backups()).toHaveLength(1);

    const done = await kinplate('restore', backups()[0] ?? '', '--yes');
    expect(done.code).toBe(exitCodes.stands);
    expect(done.out).toMatch(/^\S+-asked\.sqlite was put back\.\nWhat there was before is in \S+-before-restore\.sqlite\.\n$/);
    expect(await sheets()).not.toContain('Sheet c');
    const json = JSON.parse(
      (await kinplate('restore', backups().find((name) => name.includes('before-restore')) ?? '', '--format', 'json')).out,
    );
    expect(json).toMatchObject({
      same: false,
      differences: expect.arrayContaining([expect.objectContaining({ what: 'sheets', now: 2, afterwards: 3 })]),
    });
    expect(JSON.parse((await kinplate('restore', 'newest', '--yes', '--format', 'json')).out)).toMatchObject({
      before: expect.any(String),
      aside: null,
    });
  });

  test('[P5] what is not there, or cannot be read: 66', async () => {
    await keep('a');
    expect(await kinplate('restore', 'newest')).toMatchObject({ code: exitCodes.noInput, err: expect.stringContaining('no sound backup') });
    await kinplate('backup');
    expect((await kinplate('restore', 'nothing.sqlite')).code).toBe(exitCodes.noInput);
    const stick = path.join(scratch, 'stick.sqlite');
    writeFileSync(stick, 'Dear Sirs');
    expect(await kinplate('restore', stick, '--yes')).toMatchObject({
      code: exitCodes.noInput,
      err: expect.stringContaining('cannot be used'),
    });
    expect((await kinplate('restore')).code).toBe(exitCodes.usage);
  });

  test('[P5] into a folder that never had an atlas, from a copy elsewhere', async () => {
    await keep('a');
    await kinplate('backup');
    const stick = path.join(scratch, 'stick.sqlite');
    cpSync(path.join(data, 'backups', backups()[0] ?? ''), stick);
    rmSync(data, { recursive: true });
    const shown = await kinplate('restore', stick);
    expect(shown.out).toContain('all that is in the backup would come back');
    expect(existsSync(file())).toBe(false);
    expect(await kinplate('restore', stick, '--yes')).toMatchObject({ code: exitCodes.stands, err: '' });
    expect(await sheets()).toContain('Sheet a');

    // And where another atlas has given that number to another case.
    rmSync(data, { recursive: true });
    await keep('b');
    for (const asked of [[], ['--yes']])
      expect((await kinplate('restore', stick, ...asked)).err).toMatch(
        /^stick\.sqlite: the number A-\d{4}-0001 in it begins with this counter’s letter, but was not given here\./,
      );
  });

  test('[P5] in place of a damaged atlas, which is moved aside', async () => {
    await keep('a');
    await kinplate('backup');
    const bytes = readFileSync(file());
    writeFileSync(file(), bytes.fill(0x5a, 0, 8192));
    const done = await kinplate('restore', 'newest', '--yes');
    expect(done.out).toContain('The file that could not be used was moved to ');
    expect(await sheets()).toContain('Sheet a');
    const aside = readdirSync(data).find((name) => name.startsWith('atlas.sqlite.damaged-')) ?? '';
    expect(readFileSync(path.join(data, aside)).equals(bytes)).toBe(true);
  });

  test('[P5] as it is: only with --yes, and not while the atlas is open', async () => {
    await keep('a');
    await kinplate('backup');
    await keep('b');
    const name = backups()[0] ?? '';
    expect(await kinplate('restore', name, '--as-it-is')).toMatchObject({
      code: exitCodes.usage,
      err: expect.stringContaining('given again'),
    });
    const house = await start();
    if (!house.ok) throw new Error(house.trouble.sentence);
    expect((await kinplate('restore', name, '--as-it-is', '--yes')).code).toBe(exitCodes.tryLater);
    await house.value.close();
    expect(await sheets()).toContain('Sheet b');
    expect((await kinplate('restore', name, '--as-it-is', '--yes')).code).toBe(exitCodes.stands);
    expect(readFileSync(file()).equals(readFileSync(path.join(data, 'backups', name)))).toBe(true);
    expect(backups().filter((one) => one.includes('before-restore'))).toHaveLength(1);
  });
});

describe('[P5] an atlas that is gone, or empty', () => {
  const lose = {
    gone: () => rmSync(file()),
    empty: () => truncateSync(file(), 0),
  };

  test.each(Object.keys(lose) as (keyof typeof lose)[])(
    '[P5] %s: no program makes another, each says so and what is there',
    async (how) => {
      await keep('a');
      await kinplate('backup');
      lose[how]();
      const found = () => (existsSync(file()) ? readFileSync(file()).length : null);
      const left = found();
      const house = await start();
      expect(house).toMatchObject({ ok: false, trouble: { code: 'atlas-missing', place: file() } });
      if (house.ok) throw new Error('it started');
      expect(house.trouble.sentence).toMatch(
        /1 backup and the note of its first start are still in the folder\. Nothing was made in its place\./,
      );
      expect(adviceFor(house.trouble)).toContain(`restore newest --yes --data "${data}"`);
      expect(adviceFor(house.trouble)).toContain(`anew --yes --data "${data}"`);
      for (const args of [['sheets'], ['cases'], ['packs'], ['backup'], ['pack', 'load', smallPack], ['anew']]) {
        const run = await kinplate(...args);
        expect(run, args.join(' ')).toMatchObject({ code: exitCodes.badAtlas, out: '' });
        expect(run.err).toContain('there was an atlas here');
      }
      expect(found()).toBe(left);
      expect((await kinplate('backups')).out).toContain('-asked.sqlite');
      expect((await kinplate('restore', 'newest', '--yes')).code).toBe(exitCodes.stands);
      expect(await sheets()).toContain('Sheet a');
    },
  );

  test('[P5] of windows that settle it at once one does, nothing put there meanwhile is written over, and no file is named by its path', async () => {
    await keep('a');
    await kinplate('backup');
    rmSync(file());
    const house = await start();
    if (house.ok) throw new Error('it started');
    const opened: boolean[] = [];
    const desk = missingDesk(
      data,
      house.trouble,
      () => new Date(),
      async (anew) => {
        opened.push(anew);
        return { ok: true, value: null };
      },
    );
    expect(await desk['sheets.list']({})).toMatchObject({ ok: false, trouble: { code: 'atlas-missing' } });
    expect(await desk['backups.list']({})).toMatchObject({ ok: true, value: { backups: [{ reason: 'asked' }] } });
    const copy = path.join(scratch, 'copy.sqlite');
    cpSync(path.join(data, 'backups', backups()[0] ?? ''), copy);
    for (const name of [copy, 'no-such']) {
      expect(await desk['backups.preview']({ name })).toMatchObject({ ok: false, trouble: { code: 'not-found' } });
      expect(await desk['backups.restore']({ name, madeAgainst: null })).toMatchObject({ ok: false, trouble: { code: 'not-found' } });
    }
    expect(existsSync(file())).toBe(false);
    expect(await desk['backups.preview']({ name: 'newest' })).toMatchObject({ ok: true, value: { madeAgainst: null, same: false } });
    const [one, two] = await Promise.all([desk['backups.restore']({ name: 'newest', madeAgainst: null }), desk['backups.anew']({})]);
    expect(one).toMatchObject({ ok: true, value: { before: null } });
    expect(two).toMatchObject({ ok: false, trouble: { code: 'changed-since' } });
    const there = readFileSync(file());
    expect(await desk['backups.anew']({})).toMatchObject({ ok: false, trouble: { code: 'changed-since' } });
    expect(readFileSync(file()).equals(there)).toBe(true);
    // It was opened once put back, and once more as it was found; never anew.
    expect(opened).toEqual([false, false]);
    expect(await sheets()).toContain('Sheet a');
  });

  test('[P5] begun anew when somebody says so: empty of the shop’s, with the backups still there', async () => {
    await keep('a');
    await kinplate('backup');
    rmSync(file());
    expect((await kinplate('anew', '--yes')).code).toBe(exitCodes.stands);
    expect(await sheets()).toBe('');
    expect((await kinplate('packs')).out, 'what it begins with is asked').toBe('');
    expect(backups()).toHaveLength(1);
    expect(await kinplate('anew', '--yes')).toMatchObject({
      code: exitCodes.badInput,
      err: expect.stringContaining('No atlas is missing'),
    });
  });

  test.each([
    ['the note of the first start', 'the note of its first start is'],
    ['recovered-2026-03-04', 'what a mending took out of a damaged atlas is'],
    ['atlas.sqlite.damaged-2026-03-04', 'a damaged atlas that was set aside is'],
    ['logs', 'the log of an earlier run is'],
  ])('[P5] known by %s alone', async (trace, said) => {
    await keep('a');
    rmSync(file());
    if (!trace.startsWith('the note')) {
      rmSync(path.join(data, 'began-here.txt'));
      expect((await kinplate('anew')).code, 'without a trace nothing is missing').toBe(exitCodes.badInput);
      writeFileSync(path.join(data, trace), '');
    }
    const house = await start();
    expect(house).toMatchObject({ ok: false, trouble: { code: 'atlas-missing', sentence: expect.stringContaining(said) } });
  });

  test('[P5] a first start that was killed before anything was in its file goes on', async () => {
    await keep();
    rmSync(path.join(data, 'began-here.txt'));
    truncateSync(file(), 0);
    await keep('a');
    expect(await sheets()).toContain('Sheet a');
  });

  test('[P3] an interrupted mending is left for mending to finish', async () => {
    await keep('a');
    await kinplate('backup');
    cpSync(file(), `${file()}.mended`);
    rmSync(file());
    expect(await start()).toMatchObject({ ok: false, trouble: { code: 'mend-unfinished' } });
    expect((await kinplate('restore', 'newest', '--yes')).err).toContain('mend');
    expect(existsSync(file())).toBe(false);
  });
});

test('[P5] a pack loaded from the command line is gone back on like any other, however the data folder is written', async () => {
  await keep('a');
  const newer = path.join(scratch, 'newer');
  cpSync(smallPack, newer, { recursive: true });
  const head = path.join(newer, 'pack.json');
  writeFileSync(head, readFileSync(head, 'utf8').replace('2026-03-02', '2026-04-01'));
  const loaded = await kinplateRun(['pack', 'load', newer, '--data', path.relative(process.cwd(), data)], { shipped: packs });
  expect(loaded.code).toBe(exitCodes.stands);
  expect(backups()).toEqual([expect.stringMatching(/-before-pack\.sqlite$/)]);
});

test('[P5] a start that fills an empty atlas makes no backup; one that brings newer packs makes one', async () => {
  await keep('a');
  expect(backups()).toEqual([]);
  const head = path.join(packs, 'small-pack', 'pack.json');
  writeFileSync(head, readFileSync(head, 'utf8').replace('2026-03-02', '2026-04-01'));
  await keep();
  expect(backups()).toEqual([expect.stringMatching(/-before-pack\.sqlite$/)]);
});

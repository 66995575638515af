import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { CallArgs, CallName, CallResult, Reply } from '../../../electron/bridge/contract.ts';
import { openStaff, type Staff } from '../../../electron/desk/staff/staff.ts';
import { beginFolder } from './begun-house.ts';
import { builtWorker } from './built-worker.ts';

const smallPack = path.join(import.meta.dirname, '../db/fixtures/small-pack');
const sheet = { ...JSON.parse(readFileSync(path.join(smallPack, 'sheets/found-01.json'), 'utf8')), id: 'own' };

let scratch: string;
let programs: Staff[];
const bugs: unknown[] = [];

beforeEach(async () => {
  scratch = mkdtempSync(path.join(tmpdir(), 'kinplate-two-'));
  cpSync(smallPack, path.join(scratch, 'packs', 'small-pack'), { recursive: true });
  programs = [];
  await beginFolder(path.join(scratch, 'data'), path.join(scratch, 'packs'));
  for (let n = 0; n < 2; n += 1) {
    const opened = await openStaff({
      data: path.join(scratch, 'data'),
      packs: path.join(scratch, 'packs'),
      program: await builtWorker(),
      tell: () => {},
      logBug: (...bug) => bugs.push(bug),
    });
    if (!opened.ok) throw new Error(opened.trouble.sentence);
    programs.push(opened.value);
  }
});
afterEach(async () => {
  for (const program of programs) await program.close();
  rmSync(scratch, { recursive: true, force: true });
  expect(bugs).toEqual([]);
});

let order = 0;
const ask = async <C extends CallName>(program: number, name: C, args: CallArgs<C>): Promise<Reply<C>> => {
  order += 1;
  const answered = await programs[program]?.ask({ window: 'w', place: null, order, name, args: JSON.stringify(args) });
  return JSON.parse(new TextDecoder().decode(answered?.text));
};
const told = async <C extends CallName>(program: number, name: C, args: CallArgs<C>): Promise<CallResult<C>> => {
  const reply = await ask(program, name, args);
  if (!reply.ok) throw new Error(`${reply.trouble.code}: ${reply.trouble.sentence}`);
  return reply.value;
};
const refused = { ok: false, trouble: { code: 'changed-since' } };

test('[H5] two programs with workers of their own on one data folder: of two who save at once one is told, and reads who saved it', async () => {
  const { version } = await told(0, 'sheets.save', { sheet, who: 'Jory', madeAgainst: null });
  const of = (title: string, who: string) => ({ sheet: { ...sheet, title }, who, madeAgainst: version });
  const replies = await Promise.all([ask(0, 'sheets.save', of('the one', 'Marit')), ask(1, 'sheets.save', of('the other', 'Osk'))]);
  expect(replies.filter(({ ok }) => ok)).toHaveLength(1);
  const late = replies[0]?.ok === true ? 1 : 0;
  expect(replies[late]).toMatchObject(refused);
  const there = await told(late, 'sheets.open', { id: 'own' });
  expect([there.sheet.title, there.saved?.who]).toEqual(late === 1 ? ['the one', 'Marit'] : ['the other', 'Osk']);
  await told(late, 'sheets.save', { sheet: { ...sheet, title: 'both' }, who: 'Ines', madeAgainst: there.version });
  const { history } = await told(0, 'cases.open', { sheet: 'own' });
  expect(history.map((entry) => entry.who)).toEqual(['Jory', late === 1 ? 'Marit' : 'Osk', 'Ines']);
});

test('[H5] two programs on one data folder: a case written on, or a sheet removed, in one is told in the other', async () => {
  await told(0, 'sheets.save', { sheet, who: 'Jory', madeAgainst: null });
  const read = await told(1, 'sheets.open', { id: 'own' });
  const { version } = await told(1, 'cases.open', { sheet: 'own' });
  const words = { sheet: 'own', customer: '', lookedBy: 'Jory', notes: '' };
  await told(0, 'cases.describe', { ...words, notes: 'The oil feed is blocked.', who: 'Marit', madeAgainst: version });
  expect(await ask(1, 'cases.describe', { ...words, customer: 'Pilot station', madeAgainst: version })).toMatchObject(refused);
  expect(await told(1, 'cases.open', { sheet: 'own' })).toMatchObject({ notes: 'The oil feed is blocked.', describedBy: 'Marit' });
  expect(await ask(1, 'sheets.remove', { id: 'own', madeAgainst: read.whole ?? '' })).toMatchObject(refused);
  const whole = (await told(0, 'sheets.open', { id: 'own' })).whole ?? '';
  await told(0, 'sheets.remove', { id: 'own', madeAgainst: whole });
  const gone = await ask(1, 'sheets.save', { sheet, who: 'Osk', madeAgainst: read.version });
  expect(gone).toMatchObject({ ok: false, trouble: { code: 'changed-since', sentence: expect.stringContaining('was removed elsewhere') } });
  expect(await ask(0, 'sheets.open', { id: 'own' })).toMatchObject({ ok: false, trouble: { code: 'not-found' } });
});

import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { BroadcastChannel } from 'node:worker_threads';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { versionOf } from '../../../db/index.ts';
import type { Bridge, CallArgs, CallName, Progress, Reply } from '../../../electron/bridge/contract.ts';
import { slowLogIn } from '../../../electron/desk/staff/slow-log.ts';
import { openStaff, type Staff } from '../../../electron/desk/staff/staff.ts';
import { serve } from '../../../electron/hosts/loopback/serve.ts';
import { beginFolder } from './begun-house.ts';
import { builtWorker } from './built-worker.ts';
import { kinplateRun } from './kinplate-run.ts';
import { transports } from './transports.ts';

const smallPack = path.join(import.meta.dirname, '../db/fixtures/small-pack');
const sheet = JSON.parse(readFileSync(path.join(smallPack, 'sheets/found-01.json'), 'utf8'));

let scratch: string;
let data: string;
let staff: Staff;
let bugs: unknown[];
let channel: BroadcastChannel;
let heard: string[];
let waiting: (() => void)[];
let count = 0;
let order = 0;

beforeEach(async () => {
  scratch = mkdtempSync(path.join(tmpdir(), 'kinplate-staff-'));
  data = path.join(scratch, 'data');
  cpSync(smallPack, path.join(scratch, 'packs', 'small-pack'), { recursive: true });
  count += 1;
  const name = `kinplate-held-${process.pid}-${count}`;
  channel = new BroadcastChannel(name);
  heard = [];
  waiting = [];
  bugs = [];
  channel.onmessage = (message) => {
    heard.push((message as { data: string }).data);
    for (const wake of waiting) wake();
  };
  await beginFolder(data, path.join(scratch, 'packs'));
  const program = { ...(await builtWorker('tests/unit/electron/programs/held-worker.ts')), argv: [name] };
  const opened = await openStaff({
    data,
    packs: path.join(scratch, 'packs'),
    program,
    tell: () => {},
    logBug: (place, error) => bugs.push([place, error]),
    watchEvery: 20,
    backupLookEvery: 20,
    stopsWithin: 60_000,
  });
  if (!opened.ok) throw new Error(opened.trouble.sentence);
  staff = opened.value;
});
afterEach(async () => {
  await staff.close();
  channel.close();
  rmSync(scratch, { recursive: true, force: true });
});

/** Resolves once a worker has begun the explanation of this name. */
const begun = (name: string): Promise<void> =>
  new Promise((resolve) => {
    const look = () => {
      if (heard.includes(`held ${name}`)) resolve();
    };
    waiting.push(look);
    look();
  });
const goOn = (name: string): void => channel.postMessage(`go on ${name}`);

const ask = async (name: string, args: unknown, place: string | null = null, window = 'w'): Promise<Reply<CallName>> => {
  order += 1;
  const { text } = await staff.ask({ window, place, order, name, args: JSON.stringify(args) });
  return JSON.parse(new TextDecoder().decode(text));
};
const explain = (name: string, place: string | null = null, window = 'w') => ask('verdict.explain', { sheet, name }, place, window);
const listing = () => ask('listing.read', { text: 'Petrel 13 Cartridge, as new' });

describe('what waits for what', () => {
  test('[B1] while a long answer is computed, a file, a call of the store, a save, and what is reasoned in moments are answered', async () => {
    const rendered = new Map([['/index.html', { type: 'text/html', body: new TextEncoder().encode('<head></head>the window') }]]);
    const host = await serve({ staff, rendered, pageDesk: new Uint8Array(), port: 0, logBug: () => {} });
    const long = explain('held');
    await begun('held');
    expect(await (await fetch(`http://127.0.0.1:${host.port}/`)).text()).toContain('the window');
    expect(await ask('atlas.vocabulary', {})).toMatchObject({ ok: true, value: { counts: { models: 5 } } });
    expect(await ask('sheets.save', { sheet: { ...sheet, id: 'own' }, madeAgainst: null })).toMatchObject({ ok: true });
    expect(await listing()).toMatchObject({ ok: true });
    expect(await ask('verdict.of', { sheet })).toMatchObject({ ok: true, value: { kind: 'verdict' } });
    goOn('held');
    expect(await long).toEqual({ ok: true, value: 'held to its end' });
    await host.close();
    expect(bugs).toEqual([]);
  });

  test('[B1] a question whose elder is being stopped waits for that worker rather than for another to be started; one that is asked beside it has another', async () => {
    const backs = () => heard.filter((one) => one === 'started back').length;
    const first = explain('first', 'a place');
    await begun('first');
    const second = explain('second', 'a place');
    await begun('second');
    expect(await first).toMatchObject({ ok: false, trouble: { code: 'cancelled' } });
    expect(backs()).toBe(1);
    const beside = explain('beside', 'another place');
    await begun('beside');
    expect(backs()).toBe(2);
    for (const name of ['second', 'beside']) goOn(name);
    expect(await Promise.all([second, beside])).toMatchObject([{ ok: true }, { ok: true }]);
    expect(bugs).toEqual([]);
  });

  test('[B1] a question does not wait for a worker that is being started where another is free before it', async () => {
    const first = explain('first');
    await begun('first');
    const holds = path.join(data, 'hold-starts');
    writeFileSync(holds, '');
    const second = explain('second');
    goOn('first');
    await begun('second');
    rmSync(holds);
    goOn('second');
    expect(await Promise.all([first, second])).toMatchObject([{ ok: true }, { ok: true }]);
    expect(bugs).toEqual([]);
  });

  test('[B1] where none more can be started, whoever it was to be started for is told why, and others go on', async () => {
    const first = explain('first');
    await begun('first');
    const file = path.join(data, 'atlas.sqlite');
    renameSync(file, `${file}.away`);
    expect(await explain('second')).toMatchObject({ ok: false, trouble: { code: 'database-cannot-open' } });
    renameSync(`${file}.away`, file);
    const third = explain('third');
    await begun('third');
    for (const name of ['first', 'third']) goOn(name);
    expect(await Promise.all([first, third])).toMatchObject([{ ok: true }, { ok: true }]);
  });

  test('[B1] however much that is long is asked, what is reasoned in moments and what is saved find somebody free', async () => {
    const many = ['a', 'b', 'c'].map((name) => explain(name));
    await Promise.all([begun('a'), begun('b')]);
    expect(await listing()).toMatchObject({ ok: true });
    expect(await ask('sheets.save', { sheet: { ...sheet, id: 'own' }, madeAgainst: null })).toMatchObject({ ok: true });
    expect(heard, 'the third waits its turn').not.toContain('held c');
    goOn('a');
    await begun('c');
    for (const name of ['b', 'c']) goOn(name);
    expect(await Promise.all(many)).toEqual(['a', 'b', 'c'].map((name) => ({ ok: true, value: `${name} to its end` })));
  });
});

describe('what is cancelled', () => {
  test('[B3] a newer question for a place ends the older one; another place, and another window’s, is left alone', async () => {
    const elsewhere = explain('elsewhere', 'claim', 'another window');
    await begun('elsewhere');
    const older = explain('older', 'claim');
    await begun('older');
    const newer = explain('newer', 'claim');
    expect(await older).toMatchObject({ ok: false, trouble: { code: 'cancelled' } });
    // Two at once may be long: that it begins is proof that the older has really ended.
    await begun('newer');
    for (const name of ['elsewhere', 'newer']) goOn(name);
    expect(await elsewhere).toMatchObject({ ok: true });
    expect(await newer).toMatchObject({ ok: true });
  });

  test('[B3] what arrives late, asked before what is under way, does not take its place; nor does a late word that nobody looks', async () => {
    const newer = explain('newer', 'claim');
    await begun('newer');
    const late = await staff.ask({
      window: 'w',
      place: 'claim',
      order: order - 1,
      name: 'verdict.explain',
      args: JSON.stringify({ sheet, name: 'late' }),
    });
    expect(JSON.parse(new TextDecoder().decode(late.text))).toMatchObject({ ok: false, trouble: { code: 'cancelled' } });
    staff.cancel('w', 'claim', order - 1);
    goOn('newer');
    expect(await newer).toEqual({ ok: true, value: 'newer to its end' });
    expect(heard).not.toContain('held late');
  });

  test('[B3] what waited its turn is answered at once, and never begun', async () => {
    const long = ['a', 'b'].map((name) => explain(name));
    await Promise.all([begun('a'), begun('b')]);
    const queued = explain('queued', 'claim');
    staff.cancel('w', 'claim', order);
    expect(await queued).toMatchObject({ ok: false, trouble: { code: 'cancelled' } });
    for (const name of ['a', 'b']) goOn(name);
    await Promise.all(long);
    expect(heard).not.toContain('held queued');
  });

  test('[B3] a window that goes away takes its questions with it; what it saved meanwhile is saved', async () => {
    const long = explain('held', null, 'gone');
    await begun('held');
    const saved = ask('sheets.save', { sheet: { ...sheet, id: 'own' }, madeAgainst: null }, 'save', 'gone');
    staff.leave('gone');
    expect(await long).toMatchObject({ ok: false, trouble: { code: 'cancelled' } });
    expect(await saved).toMatchObject({ ok: true });
    expect(await ask('sheets.open', { id: 'own' })).toMatchObject({ ok: true });
  });
});

test('[B3] a window that goes away ends what was begun for it by a token, and no other window’s', async () => {
  for (const id of ['one', 'two'])
    expect(await ask('sheets.save', { sheet: { ...sheet, id }, madeAgainst: null })).toMatchObject({ ok: true });
  const retell = (window: string) => ask('changes.retell', { of: { edits: [{ list: 'parts', put: part }] } }, null, window);
  const part = { id: 'own', slot: 'compressor-wheel', name: 'Our wheel', maker: null, numbers: [], facts: {}, source: 'shop-book' };
  // Whoever leaves has not even its token yet.
  const [gone, stays] = [retell('gone'), retell('stays')];
  staff.leave('gone');
  const ended = async (begun: Promise<Reply<CallName>>) => {
    const reply = (await begun) as { readonly ok: true; readonly value: { readonly token: string } };
    for (;;) {
      const { value } = (await ask('changes.retelling', { token: reply.value.token })) as { value: { state: string; result: unknown } };
      if (value.state === 'done') return value.result;
    }
  };
  expect(await ended(gone)).toMatchObject({ judged: 1, of: 2, complete: false });
  expect(await ended(stays)).toMatchObject({ judged: 2, of: 2, complete: true });
  // The same window loaded anew is another.
  expect(await ended(retell('gone'))).toMatchObject({ judged: 2, complete: true });
  expect(bugs).toEqual([]);
});

test('[B3] a page that is closed in a browser takes its questions with it, and no other page’s', async () => {
  const host = await serve({ staff, rendered: new Map(), pageDesk: new Uint8Array(), port: 0, logBug: () => {} });
  const { origin, hash } = new URL(host.address());
  const post = (to: string, body: unknown, more: Record<string, string>, signal?: AbortSignal) =>
    fetch(`${origin}${to}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', origin, ...more },
      body: JSON.stringify(body),
      ...(signal === undefined ? {} : { signal }),
    });
  const { token } = (await (await post('/enter', { key: hash.slice(1) }, {})).json()) as { token: string };
  const page = (id: string) => ({ 'x-kinplate-token': token, 'x-kinplate-window': id });
  const closing = new AbortController();
  await post('/news', {}, page('closed'), closing.signal);
  const gone = post('/ask/verdict.explain', { sheet, name: 'gone' }, page('closed'));
  const stays = post('/ask/verdict.explain', { sheet, name: 'stays' }, page('open'));
  await Promise.all([begun('gone'), begun('stays')]);
  closing.abort();
  expect(await (await gone).json()).toMatchObject({ ok: false, trouble: { code: 'cancelled' } });
  goOn('stays');
  expect(await (await stays).json()).toEqual({ ok: true, value: 'stays to its end' });
  await host.close();
});

describe.each(Object.entries(transports))('over %s', (_name, open) => {
  let bridge: Bridge;
  let close: () => Promise<void>;
  beforeEach(async () => {
    ({ bridge, close } = await open(staff));
  });
  afterEach(() => close());
  const explainThere = (name: string, place: string, onProgress: (progress: Progress) => void = () => {}) =>
    bridge.ask('verdict.explain', { sheet, name } as CallArgs<'verdict.explain'>, { place, onProgress });

  test('[B3] [B4] a long answer tells how far it is, and the window can end it', async () => {
    let told = (_progress: Progress): void => {};
    const progress = new Promise<Progress>((resolve) => {
      told = resolve;
    });
    const long = explainThere('held', 'a place / with “signs”', (one) => told(one));
    expect(await progress).toEqual({ what: 'reasons', done: expect.any(Number), of: null });
    bridge.cancel('a place / with “signs”');
    expect(await long).toMatchObject({ ok: false, trouble: { code: 'cancelled' } });
  });

  test('[B3] a newer question for the same place takes the place of the older', async () => {
    const older = explainThere('older', 'claim');
    await begun('older');
    const newer = explainThere('newer', 'claim');
    expect(await older).toMatchObject({ ok: false, trouble: { code: 'cancelled' } });
    await begun('newer');
    goOn('newer');
    expect(await newer).toMatchObject({ ok: true });
  });

  test('[B5] the window is told when another program has changed the atlas, and asks anew under the new one', async () => {
    const before = await bridge.ask('verdict.of', { sheet });
    const changed = new Promise<void>((resolve) => {
      bridge.onAtlasChanged(resolve);
    });
    // News is heard once the window listens; a question after it was begun is answered after it.
    await bridge.ask('sheets.list', {});
    const pack = path.join(scratch, 'newer-pack');
    cpSync(smallPack, pack, { recursive: true });
    const head = path.join(pack, 'pack.json');
    writeFileSync(head, readFileSync(head, 'utf8').replace('2026-03-02', '2026-05-01'));
    const loaded = await kinplateRun(['pack', 'load', pack, '--data', data], { shipped: path.join(scratch, 'packs') });
    expect(loaded.out).toContain('Loaded small');
    await changed;
    const after = await bridge.ask('verdict.of', { sheet });
    if (!before.ok || !after.ok) throw new Error('no verdict');
    expect(after.value.edition).not.toBe(before.value.edition);
  });
});

describe('what ends', () => {
  test('[B1] a worker that dies is told to whoever waited, written down, and started again at the next question', async () => {
    expect(await ask('sheets.save', { sheet: { ...sheet, id: 'own' }, madeAgainst: null })).toMatchObject({ ok: true });
    const dying = ask('sheets.remove', { id: 'die', madeAgainst: '0'.repeat(64) });
    expect(await dying).toMatchObject({ ok: false, trouble: { code: 'desk-stopped' } });
    expect(bugs.map(String).join('\n')).toContain('the end of a worker');
    expect(await ask('sheets.open', { id: 'own' })).toMatchObject({ ok: true });
    expect(await ask('verdict.of', { sheet })).toMatchObject({ ok: true });
  });

  test('[R4] closing waits for what is written, stops what is reasoned, and folds the journal into the atlas', async () => {
    const long = explain('held');
    await begun('held');
    const saved = ask('sheets.save', { sheet: { ...sheet, id: 'own' }, madeAgainst: null });
    await saved;
    const described = ask('cases.describe', {
      sheet: 'own',
      customer: 'Pilot station',
      lookedBy: '',
      notes: '',
      madeAgainst: versionOf({ customer: '', lookedBy: '', notes: '' }),
    });
    await begun('steps');
    const closed = staff.close();
    expect((await long).ok).toBe(false);
    // By now whoever writes has been asked to end; were it not yet, it would be asked after this step.
    await new Promise((resolve) => setTimeout(resolve, 1000));
    goOn('steps');
    await closed;
    expect(await described).toMatchObject({ ok: true, value: { customer: 'Pilot station' } });
    expect(readdirSync(data).filter((name) => name.startsWith('atlas'))).toEqual(['atlas.sqlite']);
    expect(await listing()).toMatchObject({ ok: false, trouble: { code: 'closing' } });
    expect(bugs).toEqual([]);
  });
});

describe('what is slow', () => {
  const logs = () => path.join(data, 'logs');
  const logged = () => readFileSync(path.join(logs(), 'slow-calls.log'), 'utf8');

  test('[B6] is written down with its name, its time and its sizes, and nothing of what it is about', async () => {
    const long = explain('held', 'claim');
    await begun('held');
    await new Promise((resolve) => setTimeout(resolve, 120));
    goOn('held');
    await long;
    await staff.close();
    const line = logged()
      .split('\n')
      .find((each) => each.includes('verdict.explain')) as string;
    expect(line).toMatch(/^\S+Z verdict\.explain \d+ ms, asked with \d+ bytes, answered with \d+ bytes$/);
    expect(logged()).not.toMatch(/held|Petrel|claim/);
  });

  test('[B6] quick calls are not, and the log never grows past its bound', async () => {
    const log = slowLogIn(logs(), () => new Date(0));
    const call = { name: 'verdict.of', asked: 12_345, answered: 67_890, ended: 'answered' } as const;
    await log({ ...call, milliseconds: 99.9 });
    expect(() => logged()).toThrow();
    for (let i = 0; i < 5000; i += 1) void log({ ...call, milliseconds: 100 });
    await log({ ...call, milliseconds: 250.4, ended: 'cancelled' });
    expect(logged().split('\n').at(-2)).toBe('1970-01-01T00:00:00.000Z verdict.of 250 ms, asked with 12345 bytes, cancelled');
    const sizes = readdirSync(logs()).map((name) => statSync(path.join(logs(), name)).size);
    expect(sizes).toHaveLength(2);
    for (const size of sizes) expect(size).toBeLessThanOrEqual(128 * 1024);
  });
});

test('[P5] the worker that writes makes a backup of its own accord, and none again while nothing has changed', async () => {
  const folder = path.join(data, 'backups');
  const made = () => (existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('-hourly.sqlite')) : []);
  while (made().length === 0) await new Promise((resolve) => setTimeout(resolve, 10));
  expect(made()).toHaveLength(1);
  const { value } = (await ask('backups.list', {})) as { value: { backups: readonly { reason: string; state: { kind: string } }[] } };
  expect(value.backups).toMatchObject([{ reason: 'hourly', state: { kind: 'sound' } }]);
});

import { chmodSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { keepPrivate } from '../../../electron/desk/keep-private.ts';
import { openHouse } from '../../../electron/desk/open-house.ts';
import { writeWindowNote } from '../../../electron/hosts/loopback/window-note.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'kinplate-private-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const modeOf = (...at: readonly string[]) => (statSync(path.join(folder, ...at)).mode & 0o777).toString(8);
const make = (file: string, mode = 0o644) => {
  mkdirSync(path.dirname(path.join(folder, file)), { recursive: true, mode: 0o755 });
  writeFileSync(path.join(folder, file), 'x');
  chmodSync(path.join(folder, file), mode);
};

describe.skipIf(process.platform === 'win32')('a data folder', () => {
  test('[R7] is closed to others, with all the program keeps in it, made before too', async () => {
    chmodSync(folder, 0o755);
    const kept = [
      'atlas.sqlite',
      'atlas.sqlite-wal',
      'atlas.sqlite.damaged-1',
      'atlas.sqlite.mended',
      'port',
      'began-here.txt',
      'open-window.html',
      'signing-key.pem',
      'kept-reading-0a1b',
    ];
    const deep = ['backups/a.sqlite', 'logs/slow-calls.log', 'recovered-2026/photographs/p.jpeg'];
    for (const file of [...kept, ...deep]) make(file, 0o666);
    await keepPrivate(folder);
    expect(modeOf()).toBe('700');
    for (const file of [...kept, ...deep]) expect([file, modeOf(file)]).toEqual([file, '600']);
    for (const each of ['backups', 'logs', 'recovered-2026', 'recovered-2026/photographs'])
      expect([each, modeOf(each)]).toEqual([each, '700']);
  });

  test('[R7] what is not the program’s, and what a link leads to, stays as it is', async () => {
    const elsewhere = mkdtempSync(path.join(tmpdir(), 'kinplate-elsewhere-'));
    writeFileSync(path.join(elsewhere, 'mine'), 'x', { mode: 0o644 });
    make('a letter.txt');
    make('browser/Default/Cookies');
    mkdirSync(path.join(folder, 'logs'));
    symlinkSync(path.join(elsewhere, 'mine'), path.join(folder, 'logs', 'link'));
    symlinkSync(elsewhere, path.join(folder, 'backups'));
    await keepPrivate(folder);
    expect([modeOf('a letter.txt'), modeOf('browser'), modeOf('browser', 'Default', 'Cookies')]).toEqual(['644', '700', '644']);
    expect((statSync(path.join(elsewhere, 'mine')).mode & 0o777).toString(8)).toBe('644');
    rmSync(elsewhere, { recursive: true });
  });

  test('[R7] a folder open to everybody by its nature is left open', async () => {
    chmodSync(folder, 0o1777);
    make('port');
    await keepPrivate(folder);
    expect([modeOf(), modeOf('port')]).toEqual(['777', '600']);
  });

  test('[R7] is made closed, and an old one closed as it is opened', async () => {
    const data = path.join(folder, 'data');
    mkdirSync(data, { mode: 0o755 });
    writeFileSync(path.join(data, 'port'), '8000', { mode: 0o644 });
    const opened = await openHouse(data, path.join(import.meta.dirname, '../../../seed-data'), () => {});
    if (!opened.ok) throw new Error(opened.trouble.sentence);
    expect([modeOf('data'), modeOf('data', 'port')]).toEqual(['700', '600']);
    await opened.value.close();
    await keepPrivate(path.join(folder, 'new'));
    expect(modeOf('new')).toBe('700');
  });

  test('[R7] the page that leads to the window is for one user, whatever stood there before, and goes', () => {
    make('open-window.html', 0o666);
    const note = writeWindowNote(folder, 'http://127.0.0.1:1/#key');
    expect(modeOf('open-window.html')).toBe('600');
    note.remove();
    expect(readdirSync(folder)).toEqual([]);
  });
});

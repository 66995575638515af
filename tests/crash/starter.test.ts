import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { beforeAll, describe, expect, test } from 'vitest';
import { freshFolder } from '../unit/db/kit.ts';
import { built } from './child.ts';

const runHost = join(import.meta.dirname, '../../electron/start/run-host.mjs');

let program: string;
beforeAll(async () => {
  program = await built('hold-store');
});

/** Lines of a program and of what it starts, which writes to the same pipe; over when the last of them has ended. */
const listen = (child: ChildProcess) => {
  const lines: string[] = [];
  const reader = createInterface({ input: child.stdout as NonNullable<ChildProcess['stdout']> });
  const over = new Promise<void>((resolve) => reader.once('close', resolve));
  const open = new Promise<number>((resolve, reject) => {
    reader.on('line', (line) => {
      lines.push(line);
      const [, pid] = /^open (\d+)$/.exec(line) ?? [];
      if (pid !== undefined) resolve(Number(pid));
    });
    void over.then(() => reject(new Error(`ended before it was open: ${lines.join(' | ')}`)));
  });
  return { lines, over, open };
};
/** A program of these lines. */
const written = (folder: string, text: string): string => {
  const file = join(folder, `starter-${Math.random().toString(36).slice(2)}.mjs`);
  writeFileSync(file, text);
  return file;
};
const throughStart = (folder: string, file: string): string =>
  written(
    folder,
    `import { runHost } from ${JSON.stringify(runHost)};\nawait runHost(process.execPath, [${JSON.stringify(program)}, ${JSON.stringify(file)}]);`,
  );

describe.skipIf(process.platform === 'win32')('a host whose starter is gone', () => {
  test.each([
    ['the start script is killed', (folder: string, file: string) => throughStart(folder, file), 'alone'],
    [
      'whoever started the start script is killed, as npm may be',
      (folder: string, file: string) =>
        written(
          folder,
          `import { spawn } from 'node:child_process';\nspawn(process.execPath, [${JSON.stringify(throughStart(folder, file))}], { stdio: 'inherit' });`,
        ),
      'asked',
    ],
    [
      'it was started without the start script',
      (folder: string, file: string) =>
        written(
          folder,
          `import { spawn } from 'node:child_process';\nspawn(process.execPath, [${JSON.stringify(program)}, ${JSON.stringify(file)}], { stdio: 'inherit' });`,
        ),
      'alone',
    ],
  ])('[R7] ends and closes its atlas: %s', async (_what, starter, why) => {
    const folder = freshFolder();
    const file = join(folder, 'atlas.sqlite');
    // Its standard input is nothing at all, which ends at once and means nothing.
    const child = spawn(process.execPath, [starter(folder, file)], { stdio: ['ignore', 'pipe', 'inherit'] });
    const { lines, over, open } = listen(child);
    const pid = await open;
    expect(pid).not.toBe(child.pid);
    expect(existsSync(`${file}-wal`)).toBe(true);
    expect(lines).toEqual([`open ${pid}`]);
    child.kill('SIGKILL');
    await over;
    expect(lines).toEqual([`open ${pid}`, `closed: ${why}`]);
    expect(existsSync(`${file}-wal`)).toBe(false);
  });

  test('[R7] ends when what it was given to read is closed', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const child = spawn(process.execPath, [program, file], { stdio: ['pipe', 'pipe', 'inherit'] });
    const { lines, over, open } = listen(child);
    const pid = await open;
    child.stdin.write('a line means nothing\n');
    child.stdin.end();
    await over;
    expect(lines).toEqual([`open ${pid}`, 'closed: alone']);
    expect(existsSync(`${file}-wal`)).toBe(false);
  });
});

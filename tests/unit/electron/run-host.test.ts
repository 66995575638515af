import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { runHost } from '../../../electron/start/run-host.mjs';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'kinplate-start-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Runs a program of these lines as the start script runs a host. */
const run = (text: string) => {
  const file = path.join(folder, 'host.mjs');
  writeFileSync(file, text);
  return runHost(process.execPath, [file]);
};

test('[R4] a host that said its window is there is taken at its word, whatever it prints and however it ends', async () => {
  expect(await run("process.send({ kind: 'window open' }, () => process.exit(5));")).toEqual({ code: 5, opened: true });
});

test('[R4] words in what a host prints, and anything else it says, open no window', async () => {
  const text =
    "console.error('the window is open'); process.send({ kind: 'something else' }); process.send('window open', () => process.exit(1));";
  expect(await run(text)).toEqual({ code: 1, opened: false });
});

test('[R4] a program that does not start is no window', async () => {
  expect(await runHost(path.join(folder, 'none'), [])).toEqual({ code: 1, opened: false });
});

test('[R4] what the desktop host says is what the start script hears', async () => {
  const sent: unknown[] = [];
  vi.stubGlobal('process', Object.assign(Object.create(process), { send: (message: unknown) => sent.push(message) }));
  const { sayOpen } = await import('../../../electron/hosts/say.ts');
  sayOpen();
  vi.unstubAllGlobals();
  expect(sent).toEqual([{ kind: 'window open' }]);
});

import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { lastPort, onSteadyPort, portFault } from '../../../electron/hosts/loopback/steady-port.ts';

let folder: string;
const open: { close(): Promise<void> }[] = [];
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'kinplate-port-'));
});
afterEach(async () => {
  for (const each of open.splice(0)) await each.close();
  rmSync(folder, { recursive: true, force: true });
});

/** A real server on a port of 127.0.0.1. */
const listen = async (port: number) => {
  const server = createServer();
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', resolve);
  });
  const started = {
    port: (server.address() as AddressInfo).port,
    close: () => new Promise<void>((resolve) => void server.close(() => resolve())),
  };
  open.push(started);
  return started;
};

describe('the port a window is opened at', () => {
  test('[R4] is the same from one start to the next', async () => {
    const first = await onSteadyPort(folder, null, listen);
    expect(lastPort(folder)).toBe(first.port);
    await first.close();
    expect((await onSteadyPort(folder, null, listen)).port).toBe(first.port);
  });

  test('[R4] is another where somebody else has it, and that one is remembered', async () => {
    const other = await listen(0);
    writeFileSync(path.join(folder, 'port'), `${other.port}\n`);
    const started = await onSteadyPort(folder, null, listen);
    expect(started.port).not.toBe(other.port);
    expect(lastPort(folder)).toBe(started.port);
  });

  test('[R4] is the one asked for, which is not remembered; when that is taken, the start fails', async () => {
    const started = await onSteadyPort(folder, 0, listen);
    expect(lastPort(folder)).toBeNull();
    await expect(onSteadyPort(folder, started.port, listen)).rejects.toMatchObject({ code: 'EADDRINUSE' });
  });

  test('[R4] that cannot be had is told by its number: in use, or kept by the system; anything else is no matter of ports', () => {
    const error = (code: string) => Object.assign(new Error('listen'), { code });
    expect(portFault(error('EADDRINUSE'), 8080)).toMatch(/^Port 8080 is in use by another program\. Name another with --port/);
    expect(portFault(error('EACCES'), 80)).toMatch(/^Port 80 may not be used by you: .*below 1024/);
    expect([portFault(error('EIO'), 80), portFault('EACCES', 80)]).toEqual([null, null]);
  });

  test.each(['', 'soon', '80', '70000', '4000.5'])('[T1] a file that holds no port (“%s”) is as none', async (text) => {
    writeFileSync(path.join(folder, 'port'), text);
    expect(lastPort(folder)).toBeNull();
    const { port } = await onSteadyPort(folder, null, listen);
    expect(readFileSync(path.join(folder, 'port'), 'utf8')).toBe(`${port}\n${process.pid}\n`);
  });

  test('[T1] a folder that cannot be written to keeps nobody from starting', async () => {
    const file = path.join(folder, 'file');
    writeFileSync(file, '');
    expect((await onSteadyPort(path.join(file, 'below'), null, listen)).port).toBeGreaterThan(0);
  });

  test('[R4] a second host on the folder takes another port and leaves the first one its own; when that has ended, it is the one again', async () => {
    // The first host is another process: it says its port there as a host does.
    const script = `
import { createServer } from 'node:http';
import { onSteadyPort } from ${JSON.stringify(path.join(import.meta.dirname, '../../../electron/hosts/loopback/steady-port.ts'))};
const server = createServer();
const listen = (port) => new Promise((resolve, reject) => { server.once('error', reject); server.listen(port, '127.0.0.1', () => resolve({ port: server.address().port })); });
console.log((await onSteadyPort(${JSON.stringify(folder)}, null, listen)).port);
`;
    const program = path.join(folder, 'first.ts');
    writeFileSync(program, script);
    const first = spawn(process.execPath, [path.join(import.meta.dirname, '../../../electron/start/run-ts.mjs'), program], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    const [said] = (await once(first.stdout, 'data')) as [Buffer];
    const port = Number(String(said));
    expect(lastPort(folder)).toBe(port);
    const second = await onSteadyPort(folder, null, listen);
    expect(second.port).not.toBe(port);
    expect(lastPort(folder)).toBe(port);
    first.kill('SIGKILL');
    await once(first, 'close');
    const third = await onSteadyPort(folder, null, listen);
    expect(third.port).toBe(port);
  });

  test('[R4] a port that a stranger has taken for good is given up, also in a folder of an older version', async () => {
    const stranger = await listen(0);
    for (const left of [`${stranger.port}\n`, `${stranger.port}\n2147483000\n`, `${stranger.port}\n${process.pid}\n`]) {
      writeFileSync(path.join(folder, 'port'), left);
      const started = await onSteadyPort(folder, null, listen);
      expect(lastPort(folder)).toBe(started.port);
      await started.close();
    }
  });
});

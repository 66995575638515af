import { spawn, spawnSync } from 'node:child_process';
import { readdirSync, statSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from './fixtures.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const pack = path.join(root, 'seed-data', 'demo-pack');
const sheets = readdirSync(path.join(pack, 'sheets')).map((name) => path.join(pack, 'sheets', name));
const kinplate = (...args: string[]) =>
  spawnSync(process.execPath, [path.join(root, 'build', 'kinplate.js'), ...args], { encoding: 'utf8' });

test.describe('the command line as a program', () => {
  test('[R2] samples of the demo pack get a verdict each, and the exit code agrees with it', () => {
    // Every third will do: each is a program started anew.
    for (const sheet of sheets.filter((_sheet, index) => index % 3 === 0)) {
      const { stdout, stderr, status } = kinplate('verdict', '--pack', pack, '--sheet', sheet, '--format', 'json');
      expect(stderr, sheet).not.toMatch(/kinplate/);
      const answer = JSON.parse(stdout);
      const expected =
        answer.kind === 'contradiction'
          ? 3
          : answer.claim === null
            ? 0
            : { stands: 0, 'ruled out': 1, open: 2 }[answer.claim.status as string];
      expect(status, sheet).toBe(expected);
    }
  });

  test('[R2] an answer can be piped into something that reads only its beginning', () => {
    const line = `"${process.execPath}" "${path.join(root, 'build', 'kinplate.js')}" schema | head -n 1`;
    test.skip(process.platform === 'win32', 'there is no head there');
    expect(spawnSync('sh', ['-c', line], { encoding: 'utf8' })).toMatchObject({ stdout: '{\n', status: 0 });
  });

  test('[T1] a mistake on the command line goes to stderr, and stdout stays empty', () => {
    expect(kinplate('verdict', '--pack', pack)).toMatchObject({ status: 64, stdout: '' });
    expect(kinplate('verdict', '--pack', '/nowhere', '--sheet', '/nowhere')).toMatchObject({ status: 66, stdout: '' });
  });
});

test.describe('npm start', () => {
  test('[R2] the second time it neither installs nor builds, prints the address, and ends when asked', async ({ data }) => {
    const child = spawn(process.execPath, [path.join(root, 'electron', 'start', 'start.mjs'), '--address', '--data', data]);
    let out = '';
    let err = '';
    child.stderr.on('data', (chunk) => {
      err += chunk;
    });
    const ended = new Promise<number | null>((resolve) => child.once('close', resolve));
    try {
      await new Promise<void>((resolve) => {
        child.stdout.on('data', (chunk) => {
          out += chunk;
          if (out.includes('Ctrl-C')) resolve();
        });
        void ended.then(() => resolve());
      });
      expect(out).toMatch(/^Kinplate is at http:\/\/127\.0\.0\.1:\d+\/#\S+\n/);
      expect(err).not.toMatch(/Installing|Building|Filling/);
      child.kill('SIGTERM');
      expect(await ended).toBe(0);
    } finally {
      child.kill('SIGTERM');
    }
    expect(readdirSync(data).filter((name) => name.startsWith('atlas'))).toEqual(['atlas.sqlite']);
  });

  test('[R7] killed, it leaves no host behind that holds the atlas; what the host made is its user’s alone', async ({ data }) => {
    test.skip(process.platform === 'win32', 'there are no such modes there');
    const child = spawn(process.execPath, [path.join(root, 'electron', 'start', 'start.mjs'), '--address', '--data', data]);
    // The host writes to the same pipe, and closes it when it ends.
    const over = new Promise<void>((resolve) => child.stdout.once('close', resolve));
    await new Promise<void>((resolve) => child.stdout.on('data', (chunk) => void (String(chunk).includes('Ctrl-C') && resolve())));
    expect(readdirSync(data)).toContain('atlas.sqlite-wal');
    for (const name of ['', 'atlas.sqlite', 'atlas.sqlite-wal', 'port'])
      expect([name, statSync(path.join(data, name)).mode & 0o077]).toEqual([name, 0]);
    child.kill('SIGKILL');
    await over;
    expect(readdirSync(data).filter((name) => name.startsWith('atlas'))).toEqual(['atlas.sqlite']);
  });

  test('[T1] what it cannot read on its command line, it says', () => {
    const { status, stderr } = spawnSync(
      process.execPath,
      [path.join(root, 'electron', 'start', 'start.mjs'), '--address', '--port', 'x'],
      {
        encoding: 'utf8',
      },
    );
    expect(status).toBe(64);
    expect(stderr).toContain('--port takes a number');
  });
});

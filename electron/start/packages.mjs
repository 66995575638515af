import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { say, stop } from './say.mjs';
import { root } from './sources.mjs';

export const checkNode = () => {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > 20 || (major === 20 && minor >= 19)) return;
  stop(
    `Kinplate needs Node 20.19 or newer; this is ${process.version}.`,
    'Install a newer Node (nodejs.org, or your system’s packages) and try again.',
  );
};

/** Installs the packages of package-lock.json unless exactly those are there already. */
export const installPackages = () => {
  if (arePackagesInstalled()) return;
  say('Installing packages with npm ci (once; a minute or two) …');
  const npm = process.env.npm_execpath;
  const args = ['ci', '--no-audit', '--no-fund', '--loglevel=error'];
  const done = npm?.endsWith('.js')
    ? spawnSync(process.execPath, [npm, ...args], { cwd: root, stdio: ['ignore', 2, 2] })
    : spawnSync('npm', args, { cwd: root, stdio: ['ignore', 2, 2], shell: process.platform === 'win32' });
  if (done.status !== 0) stop('npm ci did not finish; its own lines above say why.', ...compilerAdvice);
  checkSqlite();
};

/** Compares npm's record of what it installed with the lock file. Packages of other platforms are optional and may be missing. */
const arePackagesInstalled = () => {
  const record = path.join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(record)) return false;
  const asked = JSON.parse(readFileSync(path.join(root, 'package-lock.json'), 'utf8')).packages;
  const there = JSON.parse(readFileSync(record, 'utf8')).packages;
  return Object.entries(asked).every(([at, wanted]) => at === '' || wanted.optional === true || there[at]?.version === wanted.version);
};

/** sqlite3 is the one package with machine code: fetched ready-made where its host can be reached, compiled otherwise. */
const checkSqlite = () => {
  const tried = spawnSync(process.execPath, ['-e', "require('sqlite3')"], { cwd: root, encoding: 'utf8' });
  if (tried.status !== 0) stop('The database package (sqlite3) is installed but does not load:', tried.stderr.trim(), ...compilerAdvice);
};

const compilerAdvice = [
  '',
  'If it was sqlite3 that failed: no ready-made build could be fetched, and compiling it needs a C++ compiler, make and Python 3.',
  '  Debian, Ubuntu:  apt-get install build-essential python3',
  '  Fedora:          dnf install gcc-c++ make python3',
  '  macOS:           xcode-select --install',
  '  Windows:         the “Desktop development with C++” workload of Visual Studio Build Tools, and Python 3',
  'Then run the same command again.',
];

// `npm test`: from a bare clone to one line that says how many passed. Plain Node, no packages: it is what installs them.
//   npm test                      everything
//   npm test -- unit property     some parts of it; `npm test -- --parts` lists them
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { stripVTControlCharacters } from 'node:util';
import { checkNode, installPackages } from '../electron/start/packages.mjs';
import { say } from '../electron/start/say.mjs';
import { isBuilt, root } from '../electron/start/sources.mjs';
import { readyChromium } from './run-chromium.mjs';

/** Folders of tests for Vitest. Those that are wanted run together, so that neither core waits for the last long file of one of them. */
const suites = ['unit', 'external', 'property', 'oracle', 'crash'];

/** Each part, in order. */
const parts = {
  typecheck: () => step(['node_modules/typescript/bin/tsc', '-p', '.']),
  lint: async () =>
    sum(
      await step(['node_modules/@biomejs/biome/bin/biome', 'ci', '--error-on-warnings', ...(plain ? ['--colors=off'] : []), '.']),
      await step(['tests/house/imports.mjs']),
    ),
  ...Object.fromEntries(suites.map((suite) => [suite, async () => (await vitest()).get(suite) ?? none])),
  build: async () => (isBuilt() ? none : step(['electron/start/build.mjs'])),
  e2e: async () => {
    if (!readyChromium()) return { ...none, failed: 1 };
    const built = isBuilt() ? none : await step(['electron/start/build.mjs']);
    return built.failed > 0 ? built : playwright();
  },
};

/** Colours are for people; a log has no use for them. */
const plain = process.stdout.isTTY !== true;

const none = { passed: 0, failed: 0, skipped: 0 };
const sum = (...counts) =>
  counts.reduce((all, count) => ({
    passed: all.passed + count.passed,
    failed: all.failed + count.failed,
    skipped: all.skipped + count.skipped,
  }));

const scratch = mkdtempSync(path.join(tmpdir(), 'kinplate-test-'));
process.on('exit', () => rmSync(scratch, { recursive: true, force: true }));

/** Runs a Node program in this terminal; resolves to its exit code. */
const node = (args, env = {}) =>
  new Promise((resolve) => {
    const child = spawn(process.execPath, args, {
      cwd: root,
      stdio: 'inherit',
      env: { ...process.env, ...(plain ? { FORCE_COLOR: '0' } : {}), ...env },
    });
    child.once('error', () => resolve(1));
    child.once('close', (code) => resolve(code ?? 1));
  });

/** One check that is no test suite: it counts as one test, passed or failed. */
const step = async (args) => ((await node(args)) === 0 ? { ...none, passed: 1 } : { ...none, failed: 1 });

const readReport = (file) => (existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : null);

/** A run that ended badly without a failed story is one failure. */
const orOneFailure = (code, count) => (code !== 0 && count.failed === 0 ? { ...count, failed: 1 } : count);

/** What each suite counted, and the seconds its files took, one after another; null until they are run. */
let counted = null;

const vitest = async () => {
  counted ??= await runTogether(suites.filter((suite) => wanted.includes(suite)));
  return counted;
};

const runTogether = async (folders) => {
  const file = path.join(scratch, 'suites.json');
  const code = await node([
    'node_modules/vitest/vitest.mjs',
    'run',
    ...folders.map((folder) => `tests/${folder}/`),
    '--reporter=dot',
    '--reporter=json',
    `--outputFile.json=${file}`,
  ]);
  const files = readReport(file)?.testResults ?? [];
  broken.push(...files.flatMap(failedIn));
  const counts = new Map(folders.map((folder) => [folder, countOf(folder, files)]));
  const [first] = folders;
  // A run that ended badly without a failed test of its own (a crash, nothing to run) is a failure of the first.
  if (code !== 0 && [...counts.values()].every(({ failed }) => failed === 0)) counts.set(first, { ...counts.get(first), failed: 1 });
  return counts;
};

/** Tests and stories that failed: said once more in the last lines, since the end of a long log is what is looked at first. */
const broken = [];
const failedIn = ({ name, message, assertionResults }) => {
  const file = path.relative(root, name);
  const failed = assertionResults.filter(({ status }) => status === 'failed');
  if (assertionResults.length === 0 && message) return [`${file}: would not load: ${firstLine(message)}`];
  return failed.map(({ fullName, failureMessages: [why = ''] }) => `${file} ${fullName}: ${firstLine(why)}`);
};
const firstLine = (text) => stripVTControlCharacters(text).split('\n', 1)[0];

/** A file that would not load is one failure. */
const countOf = (folder, files) => {
  const here = files.filter(({ name }) => !path.relative(path.join(root, 'tests', folder), name).startsWith('..'));
  const tests = here.flatMap(({ assertionResults }) => assertionResults);
  const unread = here.filter(({ status, assertionResults }) => status === 'failed' && assertionResults.length === 0).length;
  const passed = tests.filter(({ status }) => status === 'passed').length;
  const failed = tests.filter(({ status }) => status === 'failed').length + unread;
  const seconds = here.reduce((sum, { startTime, endTime }) => sum + (endTime - startTime) / 1000, 0);
  return { passed, failed, skipped: tests.length + unread - passed - failed, seconds };
};

/** Stories that passed only at the second attempt. Each is a fault of its own, in the story or in the window. */
const unsteady = [];
/** The stories of a report that ended as `outcome`. */
const storiesThat = (outcome, { specs = [], suites = [] }) => [
  ...specs.filter(({ tests }) => tests.some(({ status }) => status === outcome)).map(({ file, line, title }) => `${file}:${line} ${title}`),
  ...suites.flatMap((suite) => storiesThat(outcome, suite)),
];

const playwright = async () => {
  const file = path.join(scratch, 'e2e.json');
  const code = await node(['node_modules/@playwright/test/cli.js', 'test', '--reporter=line,json'], {
    PLAYWRIGHT_JSON_OUTPUT_NAME: file,
  });
  const report = readReport(file);
  if (report === null) return { ...none, failed: 1 };
  const { expected, unexpected, flaky, skipped } = report.stats;
  // Two browsers and their hosts share whatever the machine has left; a story may be tried again once, and the last lines name it.
  unsteady.push(...storiesThat('flaky', report));
  broken.push(...storiesThat('unexpected', report));
  return orOneFailure(code, { passed: expected + flaky, failed: unexpected, skipped });
};

const asked = process.argv.slice(2);
const unknown = asked.filter((part) => !(part in parts));
if (unknown.length > 0) {
  if (asked[0] !== '--parts') console.error(`There is no part called ${unknown.join(', ')}.`);
  console.log(`Parts: ${Object.keys(parts).join(', ')}`);
  process.exit(asked[0] === '--parts' ? 0 : 2);
}
const wanted = asked.length > 0 ? asked : Object.keys(parts);

checkNode();
installPackages();

const results = [];
for (const part of wanted) {
  const started = performance.now();
  say(`${part} …`);
  const count = await parts[part]();
  results.push({ part, seconds: (performance.now() - started) / 1000, ...count });
}

console.log('');
for (const { part, passed, failed, skipped, seconds } of results) {
  if (passed + failed + skipped === 0) {
    console.log(`· ${part.padEnd(10)} nothing to run here`);
    continue;
  }
  const line = [`${String(passed).padStart(6)} passed`, `${failed} failed`, ...(skipped > 0 ? [`${skipped} skipped`] : [])].join(', ');
  console.log(
    `${failed > 0 ? '✗' : '✓'} ${part.padEnd(10)} ${line} (${seconds.toFixed(1)} s${suites.includes(part) ? ' of one core' : ''})`,
  );
}
for (const title of broken) console.log(`✗ failed: ${title}`);
for (const title of unsteady) console.log(`! passed only at the second attempt: ${title}`);
const all = sum(none, ...results);
process.exitCode = all.failed > 0 || all.passed === 0 ? 1 : 0;
console.log(`${all.passed} passed, ${all.failed} failed${all.skipped > 0 ? `, ${all.skipped} skipped` : ''}`);

import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import path from 'node:path';

/**
 * Every screen of the window at 1600, 1280 and 1024 wide and at 150 % and 200 %, by day and by night: axe, what would have to be scrolled sideways, and each printed by night.
 * `npm run long -- screens <folder> [words of a screen's name]`: pictures and PDFs go into the folder. It needs what `npm run build` made.
 */
const [folder = 'test-results/screens', ...only] = process.argv.slice(2);
const into = path.resolve(folder);
mkdirSync(into, { recursive: true });
const named = only.length === 0 ? 'at every size and on paper' : only.join(' ');
const { status } = spawnSync(
  process.execPath,
  ['node_modules/@playwright/test/cli.js', 'test', 'looks.story', '--retries=0', '-g', `at every size, and on paper.*${named}`],
  { stdio: 'inherit', env: { ...process.env, KINPLATE_SCREENS: into } },
);
process.exitCode = status ?? 1;

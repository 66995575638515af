// `npm run mutate -- reasoner/unit`: changes the code of one folder (or one file) of the reasoner or of db’s shop, sheets and mending a little at a time and asks its tests each time.
// Off CI: a folder takes some minutes. What was found is kept in .mutants/, so a second run asks only about what changed.
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import path from 'node:path';
import { root } from '../../electron/start/sources.mjs';

const [asked, ...rest] = process.argv.slice(2);
if (
  asked === undefined ||
  rest.length > 0 ||
  !/^(reasoner|db\/(sheets|shop|mend|salvage))(\/[\w/.-]+)?$/.test(asked) ||
  !existsSync(path.join(root, asked))
) {
  console.error('Name one folder or file of the reasoner, of db/sheets, db/shop, db/mend or db/salvage: npm run mutate -- reasoner/unit');
  process.exit(64);
}
const whole = statSync(path.join(root, asked)).isDirectory();
const { status } = spawnSync(
  process.execPath,
  ['node_modules/@stryker-mutator/core/bin/stryker.js', 'run', 'tests/mutate/stryker.config.mjs'],
  {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, KINPLATE_MUTATE: whole ? `${asked.replace(/\/$/, '')}/**/*.ts` : asked },
  },
);
process.exitCode = status ?? 1;

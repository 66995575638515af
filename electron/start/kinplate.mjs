// `npm run kinplate -- …`: the command line from a clone. It installs and builds as `npm start` does, saying so on stderr,
// so that what it prints on stdout is the answer alone.
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { buildIfNeeded } from './build-if-needed.mjs';
import { checkNode, installPackages } from './packages.mjs';
import { root } from './sources.mjs';

checkNode();
installPackages();
buildIfNeeded();
const { status } = spawnSync(process.execPath, [path.join(root, 'build', 'kinplate.js'), ...process.argv.slice(2)], {
  stdio: 'inherit',
  cwd: process.env.INIT_CWD ?? process.cwd(),
});
process.exit(status ?? 1);

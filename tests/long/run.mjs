// `npm run long -- <name> [arguments]`: a run that takes too long for `npm test` and prints what it counted. Each is one program of this folder, `<name>.ts`.
import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { root } from '../../electron/start/sources.mjs';

const [name, ...rest] = process.argv.slice(2);
const names = readdirSync(import.meta.dirname)
  .filter((file) => file.endsWith('.ts'))
  .map((file) => file.slice(0, -3));
if (name === undefined || !names.includes(name)) {
  console.error(`npm run long -- <name> [arguments], with one of: ${names.join(', ')}`);
  process.exit(64);
}
const { status } = spawnSync(process.execPath, ['electron/start/run-ts.mjs', `tests/long/${name}.ts`, ...rest], {
  cwd: root,
  stdio: 'inherit',
});
process.exitCode = status ?? 1;

// `npm run build`, or `npm run build -- renderer | desk | preload | page` for one thing.
import { mkdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { build } from 'vite';
import { root, sourcesHash, stampBuilt } from './sources.mjs';

const asked = process.argv.slice(2);
const wanted = asked.length > 0 ? asked : ['renderer', 'desk', 'preload', 'page'];
const hash = sourcesHash();
const started = performance.now();

process.chdir(root);
if (asked.length === 0) rmSync(path.join(root, 'build'), { recursive: true, force: true });
mkdirSync(path.join(root, 'build'), { recursive: true });
for (const thing of wanted) {
  if (thing === 'renderer') await build({ configFile: 'renderer/vite.config.ts', logLevel: 'warn' });
  else await build({ configFile: 'electron/vite.config.ts', mode: thing });
}
if (asked.length === 0) stampBuilt(hash);
console.log(`Built ${wanted.join(', ')} into build/ in ${((performance.now() - started) / 1000).toFixed(1)} s.`);

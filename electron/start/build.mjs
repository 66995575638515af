// `npm run build`, or `npm run build -- renderer | desk | preload | page` for one thing.
import { existsSync, mkdirSync, renameSync, rmSync } from 'node:fs';
import path from 'node:path';
import { build } from 'vite';
import { root, sourcesHash, stampBuilt } from './sources.mjs';

const asked = process.argv.slice(2);
const all = ['renderer', 'desk', 'preload', 'page'];
const wanted = asked.length > 0 ? asked : all;
const started = performance.now();
const target = path.join(root, 'build');
// A whole build is made beside the one there is and then takes its place, so that what runs from it is never half-built.
const folder = asked.length > 0 ? target : path.join(root, `build.${process.pid}`);

process.chdir(root);
process.on('exit', () => folder !== target && rmSync(folder, { recursive: true, force: true }));
const hash = sourcesHash();
mkdirSync(folder, { recursive: true });
for (const thing of wanted) {
  if (!all.includes(thing)) throw new Error(`there is no ${thing} to build: ${all.join(', ')}`);
  if (thing === 'renderer')
    await build({ configFile: 'renderer/vite.config.ts', logLevel: 'warn', build: { outDir: path.join(folder, 'renderer') } });
  else await build({ configFile: 'electron/vite.config.ts', mode: thing, build: { outDir: folder } });
}
if (folder !== target) {
  stampBuilt(folder, hash);
  const before = `${folder}.before`;
  if (existsSync(target)) renameSync(target, before);
  renameSync(folder, target);
  rmSync(before, { recursive: true, force: true });
}
console.log(`Built ${wanted.join(', ')} into build/ in ${((performance.now() - started) / 1000).toFixed(1)} s.`);

import { spawnSync } from 'node:child_process';
import { say, stop } from './say.mjs';
import { isBuilt, root } from './sources.mjs';

/** Builds unless build/ was made from exactly these sources. */
export const buildIfNeeded = () => {
  if (isBuilt()) return;
  say('Building the window and the desk …');
  const done = spawnSync(process.execPath, ['electron/start/build.mjs'], { cwd: root, stdio: ['ignore', 2, 2] });
  if (done.status !== 0) stop('The build failed; the lines above say where.');
};

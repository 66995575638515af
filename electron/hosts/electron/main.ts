import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { app } from 'electron';
import { makePrivately } from '../../desk/keep-private.ts';
import { endWithStarter } from '../end-with-starter.ts';
import { tellBug } from '../say.ts';
import { startMain } from './start-main.ts';

/** The desktop program: `electron build/main.js [--data <folder>]`. */
const build = path.dirname(fileURLToPath(import.meta.url));

for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => app.quit());
endWithStarter(() => app.quit());
makePrivately();

// Electron's own word and the program's file stand before the arguments.
startMain(process.argv.slice(app.isPackaged ? 1 : 2), build, path.join(build, '..', 'seed-data')).catch((error: unknown) => {
  tellBug('start', error);
  app.exit(70);
});

import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { app, session } from 'electron';
import { faultPage } from '../fault-page.ts';
import { openHouse } from '../open-house.ts';
import { readRendered } from '../rendered.ts';
import { faultExit, tell, tellBug, tellFault } from '../say.ts';
import { readStartOptions } from '../start-options.ts';
import { setupDesk } from './setup-desk.ts';
import { setupLocks } from './setup-locks.ts';
import { declareScheme, setupScheme } from './setup-scheme.ts';
import { openWindow } from './setup-window.ts';

const build = path.dirname(fileURLToPath(import.meta.url));

/** Electron's own arguments stand before ours; ours begin after the program's file. */
const options = readStartOptions(process.argv.slice(app.isPackaged ? 1 : 2).filter((argument) => argument !== '--open'));

const run = async (): Promise<void> => {
  if (typeof options === 'string') {
    console.error(options);
    return app.exit(64);
  }
  // What Chromium keeps for itself lies beside the atlas, so that one folder is all there is of one installation.
  app.setPath('userData', path.join(options.data, 'window'));
  app.enableSandbox();
  declareScheme();
  if (!app.requestSingleInstanceLock()) {
    console.error('Kinplate is open already on this data folder; its window is the one to use.');
    return app.exit(0);
  }
  await app.whenReady();
  setupLocks(session.defaultSession);

  const house = await openHouse(options.data, path.join(build, '..', 'seed-data'), tell);
  if (house.ok) {
    setupScheme(await readRendered(path.join(build, 'renderer')));
    setupDesk(house.value.desk, tellBug);
    app.once('will-quit', (event) => {
      // The store closes before the process does, so that its log is folded into the atlas file.
      event.preventDefault();
      void house.value.close().finally(() => app.exit(0));
    });
  } else {
    tellFault(house.trouble);
    setupScheme(faultPage(house.trouble));
    app.once('will-quit', (event) => {
      event.preventDefault();
      app.exit(faultExit);
    });
  }

  app.on('window-all-closed', () => app.quit());
  const window = await openWindow(build);
  app.on('second-instance', () => {
    if (window.isMinimized()) window.restore();
    window.focus();
  });
  console.log('Kinplate’s window is open.');
};

process.on('SIGTERM', () => app.quit());
process.on('SIGINT', () => app.quit());
run().catch((error: unknown) => {
  tellBug('start', error);
  app.exit(70);
});

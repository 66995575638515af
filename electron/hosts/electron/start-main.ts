import path from 'node:path';
import { app, session } from 'electron';
import { openHouse } from '../../desk/open-house.ts';
import { faultPage } from '../fault-page.ts';
import { readRendered } from '../rendered.ts';
import { faultExit, tell, tellBug, tellFault } from '../say.ts';
import { readStartOptions } from '../start-options.ts';
import { setupDesk } from './setup-desk.ts';
import { setupLocks } from './setup-locks.ts';
import { declareScheme, setupScheme } from './setup-scheme.ts';
import { openWindow } from './setup-window.ts';

/**
 * The life of the desktop process, from its arguments to its window. `build` is the folder of the built program, `packs` that
 * of the packs that come with it.
 */
export const startMain = async (args: readonly string[], build: string, packs: string): Promise<void> => {
  const options = readStartOptions(args);
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
  app.on('window-all-closed', () => app.quit());

  const house = await openHouse(options.data, packs, tell);
  if (house.ok) {
    setupScheme(await readRendered(path.join(build, 'renderer')));
    setupDesk(house.value.desk, tellBug);
    // The store closes before the process does, so that its log is folded into the atlas file.
    endWith(0, () => house.value.close());
  } else {
    tellFault(house.trouble);
    setupScheme(faultPage(house.trouble));
    endWith(faultExit, async () => {});
  }

  const window = await openWindow(build);
  app.on('second-instance', () => {
    if (window.isMinimized()) window.restore();
    window.focus();
  });
  console.log('Kinplate’s window is open.');
};

const endWith = (code: number, close: () => Promise<void>): void => {
  let closing = false;
  app.on('will-quit', (event) => {
    event.preventDefault();
    if (closing) return;
    closing = true;
    close()
      .catch((error: unknown) => tellBug('stop', error))
      .finally(() => app.exit(code));
  });
};

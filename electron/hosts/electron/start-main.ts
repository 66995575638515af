import path from 'node:path';
import { app, session } from 'electron';
import type { WorkerProgram } from '../../desk/staff/hand.ts';
import { openStaff } from '../../desk/staff/staff.ts';
import { faultPage } from '../fault-page.ts';
import { readRendered } from '../rendered.ts';
import { faultExit, sayOpen, tell, tellBug, tellFault } from '../say.ts';
import { readStartOptions } from '../start-options.ts';
import { setupDesk } from './setup-desk.ts';
import { setupLocks } from './setup-locks.ts';
import { declareScheme, setupScheme } from './setup-scheme.ts';
import { openWindow } from './setup-window.ts';

/**
 * The life of the desktop process, from its arguments to its window. `build` is the folder of the built program, `packs` that
 * of the packs that come with it.
 */
export const startMain = async (
  args: readonly string[],
  build: string,
  packs: string,
  program: WorkerProgram = { file: path.join(build, 'desk-worker.js') },
): Promise<void> => {
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

  const opened = await openStaff({ data: options.data, packs, program, tell, logBug: tellBug, asksWhenMissing: true });
  if (opened.ok) {
    setupScheme(await readRendered(path.join(build, 'renderer')));
    setupDesk(opened.value);
    // The store closes before the process does, so that its log is folded into the atlas file.
    const { value: staff } = opened;
    const missing = staff.missing();
    if (missing !== null) tellFault(missing);
    endWith(
      () => (staff.missing() === null ? 0 : faultExit),
      () => staff.close(),
    );
  } else {
    tellFault(opened.trouble);
    setupScheme(faultPage(opened.trouble));
    endWith(
      () => faultExit,
      async () => {},
    );
  }

  const window = await openWindow(build);
  app.on('second-instance', () => {
    if (window.isMinimized()) window.restore();
    window.focus();
  });
  sayOpen();
  console.log('Kinplate’s window is open.');
};

const endWith = (code: () => number, close: () => Promise<void>): void => {
  let closing = false;
  app.on('will-quit', (event) => {
    event.preventDefault();
    if (closing) return;
    closing = true;
    close()
      .catch((error: unknown) => tellBug('stop', error))
      .finally(() => app.exit(code()));
  });
};

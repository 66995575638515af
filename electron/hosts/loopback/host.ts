import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { makePrivately } from '../../desk/keep-private.ts';
import { openStaff } from '../../desk/staff/staff.ts';
import { endWithStarter } from '../end-with-starter.ts';
import { faultPage } from '../fault-page.ts';
import { readRendered } from '../rendered.ts';
import { faultExit, tell, tellBug, tellFault } from '../say.ts';
import { readStartOptions, type StartOptions } from '../start-options.ts';
import { type Opened, openBrowser } from './open-browser.ts';
import { serve } from './serve.ts';
import { onSteadyPort, portFault } from './steady-port.ts';

/** The loopback host as a program: `node build/host.js [--data <folder>] [--port <number>] [--open]`. */
const build = path.dirname(fileURLToPath(import.meta.url));

const run = async (options: StartOptions): Promise<void> => {
  makePrivately();
  const opened = await openStaff({
    data: options.data,
    packs: path.join(build, '..', 'seed-data'),
    program: { file: path.join(build, 'desk-worker.js') },
    tell,
    logBug: tellBug,
    asksWhenMissing: options.open,
  });
  if (!opened.ok) {
    tellFault(opened.trouble);
    if (!options.open) {
      process.exitCode = faultExit;
      return;
    }
  }
  const missing = opened.ok ? opened.value.missing() : null;
  if (missing !== null) tellFault(missing);
  let windows = 0;
  let browser: Opened | null = null;
  const offered = {
    staff: opened.ok ? opened.value : null,
    rendered: opened.ok ? await readRendered(path.join(build, 'renderer')) : faultPage(opened.trouble),
    pageDesk: new Uint8Array(await readFile(path.join(build, 'page-desk.js'))),
    logBug: tellBug,
    onOpened: (address: string) => {
      windows += 1;
      browser?.forget();
      console.log(`A window has been opened. Address for another: ${address}`);
    },
  };
  const host = await onSteadyPort(options.data, opened.ok ? options.port : (options.port ?? 0), (port) =>
    serve({ ...offered, port }),
  ).catch(async (error: unknown) => {
    if (opened.ok) await opened.value.close();
    throw error;
  });
  const stop = onlyOnce(async () => {
    browser?.own?.kill();
    browser?.forget();
    await host.close();
    if (opened.ok) await opened.value.close();
    process.exit(opened.ok && opened.value.missing() === null ? 0 : faultExit);
  });
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, stop);
  endWithStarter(stop);

  console.log(`Kinplate is at ${host.address()}`);
  console.log('The address works once, in one browser on this machine. Ctrl-C stops the program.');
  if (!options.open) return;
  browser = openBrowser(host.address(), options.data);
  tell(browser.line);
  // A window of our own that is closed ends the program, as it would on a desktop; unless others have been opened beside it.
  const started = performance.now();
  browser.own?.once('exit', () => {
    const handedOver = performance.now() - started < 5000;
    if (!handedOver && windows < 2) stop();
  });
};

/** Stopping takes a moment; asking twice does not make it quicker. */
const onlyOnce = (stop: () => Promise<void>): (() => void) => {
  let asked = false;
  return () => {
    if (asked) return;
    asked = true;
    stop().catch((error: unknown) => {
      tellBug('stop', error);
      process.exit(70);
    });
  };
};

const options = readStartOptions(process.argv.slice(2));
if (typeof options === 'string') {
  console.error(options);
  process.exitCode = 64;
} else {
  run(options).catch((error: unknown) => {
    const fault = portFault(error, options.port);
    if (fault !== null) {
      console.error(fault);
      process.exitCode = faultExit;
    } else {
      tellBug('start', error);
      process.exit(70);
    }
  });
}

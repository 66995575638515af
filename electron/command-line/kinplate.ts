import { text } from 'node:stream/consumers';
import { fileURLToPath } from 'node:url';
import { TroubleError } from '../../db/index.ts';
import { exitCodes } from './exit-codes.ts';
import { runKinplate } from './run-kinplate.ts';
import { sayTrouble, type Terminal } from './terminal.ts';

/** The command line as a program: `node build/kinplate.js …`, or `npm run -s kinplate -- …`. */
const terminal: Terminal = {
  out: (answer) => process.stdout.write(answer),
  err: (line) => process.stderr.write(`${line}\n`),
  read: () => text(process.stdin),
};

// Whoever reads us may have read enough (`| head`).
process.stdout.on('error', (error: NodeJS.ErrnoException) => process.exit(error.code === 'EPIPE' ? 0 : exitCodes.cannotWrite));

/** The first Ctrl-C asks what is under way to stop and say what it has; the second ends the program at once. */
const listenForStop = (): (() => boolean) => {
  let interrupted = false;
  process.once('SIGINT', () => {
    interrupted = true;
  });
  return () => interrupted;
};

try {
  process.exitCode = await runKinplate(process.argv.slice(2), terminal, {
    shipped: fileURLToPath(new URL('../seed-data', import.meta.url)),
    now: () => new Date(),
    listenForStop,
  });
} catch (error) {
  if (error instanceof TroubleError) process.exitCode = sayTrouble(terminal, error.trouble);
  else {
    terminal.err('kinplate met a bug of its own. Nothing was changed.');
    console.error(error);
    process.exitCode = exitCodes.bug;
  }
}

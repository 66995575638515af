import { fstatSync } from 'node:fs';

/** How often it is looked whether the starter is still there, in milliseconds, where nothing tells. */
const lookEvery = 500;

/**
 * Calls `stop` when whoever started this program is gone, however it went: a host nobody can end would hold the atlas. The start script's end closes the channel between the two;
 * the end of whoever wrote into our standard input closes that; of any other starter it is seen that we have another parent.
 */
export const endWithStarter = (stop: () => void): void => {
  if (process.connected) process.once('disconnect', stop);
  if (isPipe(0)) {
    process.stdin.once('end', stop).once('error', stop).resume();
    // What it holds up is the host's own work, not this.
    if ('unref' in process.stdin) process.stdin.unref();
  }
  const starter = process.ppid;
  const looking = setInterval(() => {
    if (process.ppid === starter) return;
    clearInterval(looking);
    stop();
  }, lookEvery);
  looking.unref();
};

/** A terminal is for signals, and a file or nothing ends at once without meaning anything. */
const isPipe = (descriptor: number): boolean => {
  try {
    const found = fstatSync(descriptor);
    return found.isFIFO() || found.isSocket();
  } catch {
    return false;
  }
};

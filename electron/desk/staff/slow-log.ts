import { appendFile, mkdir, rename, stat } from 'node:fs/promises';
import path from 'node:path';

/** Calls that took no longer are not written down, in milliseconds. */
export const slowFrom = 100;
/** A log this long makes way for a new one; the one before is kept. Bytes. */
const longest = 128 * 1024;

/** A call that was slow: its name and its sizes, never what it asked or was answered. */
export interface SlowCall {
  readonly name: string;
  readonly milliseconds: number;
  /** Bytes of the argument and of the answer. */
  readonly asked: number;
  readonly answered: number;
  readonly ended: 'answered' | 'cancelled';
}

/** The log of slow calls of a data folder; a folder that cannot be written to has none. */
export const slowLogIn = (folder: string, now: () => Date): ((call: SlowCall) => Promise<void>) => {
  const file = path.join(folder, 'slow-calls.log');
  let writing = Promise.resolve();
  const write = async ({ name, milliseconds, asked, answered, ended }: SlowCall): Promise<void> => {
    const line = `${now().toISOString()} ${name} ${Math.round(milliseconds)} ms, asked with ${asked} bytes, ${ended === 'answered' ? `answered with ${answered} bytes` : 'cancelled'}\n`;
    const size = await stat(file).then(
      (found) => found.size,
      () => 0,
    );
    await mkdir(folder, { recursive: true });
    if (size + line.length > longest) await rename(file, path.join(folder, 'slow-calls.before.log'));
    await appendFile(file, line);
  };
  return (call) => {
    if (call.milliseconds < slowFrom) return writing;
    writing = writing.then(() => write(call)).catch(() => {});
    return writing;
  };
};

import { chmodSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/** A page that leads to the address, in a file that only its user may read. */
export interface WindowNote {
  readonly file: string;
  /** Takes it away again: the window is open, or will not be. */
  remove(): void;
}

/**
 * What a program is started with can be read by everybody on the machine (proc(5), /proc/<pid>/cmdline), so a browser is not given the address, which carries the key, but a file that
 * leads there. The folder is made where it is not, for its user alone.
 * @throws what the file system throws where it cannot be written
 */
export const writeWindowNote = (folder: string, address: string): WindowNote => {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const file = path.join(folder, 'open-window.html');
  // One left over may have another mode, and a mode is only given to what is made.
  rmSync(file, { force: true });
  writeFileSync(file, pageTo(address), { flag: 'wx', mode: 0o600 });
  chmodSync(file, 0o600);
  return { file, remove: () => rmSync(file, { force: true }) };
};

const pageTo = (address: string): string => `<!doctype html>
<html lang="en-GB">
<meta charset="utf-8">
<meta name="referrer" content="no-referrer">
<meta http-equiv="refresh" content="0;url=${address}">
<title>Kinplate</title>
<p>Kinplate is opening. <a href="${address}">Open it here</a> if it does not.</p>
</html>
`;

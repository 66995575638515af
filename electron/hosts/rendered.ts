import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';

/** One file of the built window, as both hosts send it. */
export interface RenderedFile {
  readonly type: string;
  readonly body: Uint8Array<ArrayBuffer>;
}

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff': 'font/woff',
  '.woff2': 'font/woff2',
  '.txt': 'text/plain; charset=utf-8',
};

/**
 * Reads the built window into memory, keyed by its path in the address (`/index.html`). What is asked for is looked
 * up among these keys and never joined to a folder, so no address reaches another file.
 */
export const readRendered = async (folder: string): Promise<ReadonlyMap<string, RenderedFile>> => {
  const files = new Map<string, RenderedFile>();
  for (const entry of await readdir(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const file = path.join(entry.parentPath, entry.name);
    const type = types[path.extname(file)];
    if (type === undefined) continue;
    const address = `/${path.relative(folder, file).split(path.sep).join('/')}`;
    files.set(address, { type, body: new Uint8Array(await readFile(file)) });
  }
  return files;
};

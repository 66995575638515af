import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { makeDemoPack } from './make-demo-pack.ts';

/** Writes the demo pack's folder anew. Files that are no longer made are removed; nothing else lives in it. Returns the paths written. */
export const writeDemoPack = (folder: string): readonly string[] => {
  const files = makeDemoPack();
  rmSync(folder, { recursive: true, force: true });
  for (const [path, text] of files) {
    const full = join(folder, path);
    mkdirSync(dirname(full), { recursive: true });
    writeFileSync(full, text);
  }
  return [...files.keys()];
};

import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project's folder. */
export const root = fileURLToPath(new URL('../..', import.meta.url));

const stamp = 'sources.txt';
const rooms = ['reasoner', 'db', 'electron', 'renderer'];
const files = ['package-lock.json', 'tsconfig.json'];

/** One hash over everything the build is made from: what is in it counts, not when it was written. */
export const sourcesHash = () => {
  const hash = createHash('sha256');
  const take = (file) => hash.update(`${file}\0`).update(readFileSync(path.join(root, file)));
  const walk = (folder) => {
    const entries = readdirSync(path.join(root, folder), { withFileTypes: true });
    for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const inside = `${folder}/${entry.name}`;
      if (entry.isDirectory()) walk(inside);
      else if (!entry.name.endsWith('.md') && folder !== 'electron/start') take(inside);
    }
  };
  for (const file of files) take(file);
  for (const room of rooms) walk(room);
  return hash.digest('hex');
};

export const isBuilt = () => {
  const file = path.join(root, 'build', stamp);
  return existsSync(file) && readFileSync(file, 'utf8') === sourcesHash();
};

/** Marks a folder as built from the sources of this hash. */
export const stampBuilt = (folder, hash) => writeFileSync(path.join(folder, stamp), hash);

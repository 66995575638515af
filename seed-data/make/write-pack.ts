import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { makeDemoPack } from './make-demo-pack.ts';
import { makeVocabulary } from './make-vocabulary.ts';

/** The packs that come with the program, by the folder each stands in. */
export const shippedPacks: ReadonlyMap<string, () => ReadonlyMap<string, string>> = new Map([
  ['vocabulary', makeVocabulary],
  ['demo-pack', makeDemoPack],
]);

/** Writes their folders anew. Files that are no longer made are removed; nothing else lives in them. Returns the paths written. */
export const writePacks = (parent: string): readonly string[] =>
  [...shippedPacks].flatMap(([name, make]) => {
    const folder = join(parent, name);
    const files = make();
    rmSync(folder, { recursive: true, force: true });
    for (const [path, text] of files) {
      const full = join(folder, path);
      mkdirSync(dirname(full), { recursive: true });
      writeFileSync(full, text);
    }
    return [...files.keys()].map((path) => join(name, path));
  });

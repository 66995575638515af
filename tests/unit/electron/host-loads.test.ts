import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { importsOf } from '../../house/imports.mjs';

const root = path.join(import.meta.dirname, '../../..');

/** Every file and package whose values a program loads, by following its imports; packages by their names. */
const loadedBy = (entry: string): ReadonlySet<string> => {
  const loaded = new Set<string>();
  const follow = (file: string): void => {
    if (loaded.has(file)) return;
    loaded.add(file);
    for (const { specifier, typesOnly } of importsOf(file, readFileSync(path.join(root, file), 'utf8'))) {
      if (typesOnly) continue;
      if (specifier.startsWith('.')) follow(path.posix.join(path.posix.dirname(file), specifier));
      else loaded.add(specifier);
    }
  };
  follow(entry);
  return loaded;
};

test.each(['electron/hosts/loopback/host.ts', 'electron/hosts/electron/main.ts'])(
  '[B1] %s loads no store: its thread could not ask one',
  (entry) => {
    const loaded = loadedBy(entry);
    expect(loaded.has('electron/desk/staff/staff.ts'), 'imports are followed').toBe(true);
    expect([...loaded].filter((each) => /sqlite3|drizzle|^db\/(store|driver)/.test(each))).toEqual([]);
  },
);

test('[B1] the worker does, so the look above would find it', () => {
  expect(loadedBy('electron/desk/staff/worker.ts').has('sqlite3')).toBe(true);
});

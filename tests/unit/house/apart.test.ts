import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import config from '../../../vitest.config.ts';

const root = path.join(import.meta.dirname, '../../..');
const [together, apart] = (config.test?.projects ?? []).map(
  (project) => (project as { test: { include: string[]; exclude: string[] } }).test,
);

/** The files of the suite, and what each is made of. */
const files = readdirSync(path.join(root, 'tests'), { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.tsx?$/.test(name))
  .map((name) => ({ file: `tests/${name.replaceAll(path.sep, '/')}`, text: readFileSync(path.join(root, 'tests', name), 'utf8') }));

/** Whether a file, or one of the suite that it imports, puts something in the place of a module. What else is doubled is put back after each test. */
const doubles = (at: string, seen: Set<string> = new Set()): boolean => {
  const one = files.find(({ file }) => file === at);
  if (one === undefined || seen.has(at)) return false;
  seen.add(at);
  if (/\bvi\.(?:mock|doMock|hoisted|resetModules)\(/.test(one.text)) return true;
  return [...one.text.matchAll(/from '(\.\.?\/[^']+)'/g)].some(([, from = '']) =>
    doubles(path.posix.join(path.posix.dirname(at), from), seen),
  );
};

test('a test that puts something in the place of a module has everything loaded for itself, and no other but those that count what is run', () => {
  const doubling = files.filter(({ file }) => /\.test\.tsx?$/.test(file) && doubles(file));
  expect(doubling.map(({ file }) => file).sort()).toEqual(apart?.include.filter((pattern) => !pattern.includes('*')).sort());
  // What runs apart does not run a second time with the others.
  expect(together?.exclude).toEqual(expect.arrayContaining(apart?.include ?? ['?']));
});

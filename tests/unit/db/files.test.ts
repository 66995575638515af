import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { moveIfThere, removeAtlas } from '../../../db/plain/files.ts';
import { freshFolder } from './kit.ts';

test('[P5] of an atlas and what stands beside it all goes that can, and what cannot is told', async () => {
  const folder = freshFolder();
  const file = join(folder, 'part.sqlite');
  for (const suffix of ['', '-wal', '-journal']) writeFileSync(file + suffix, 'x');
  // A folder is not removed as a file is.
  mkdirSync(`${file}-shm`);
  await expect(removeAtlas(file)).rejects.toThrow('part.sqlite-shm');
  expect(readdirSync(folder)).toEqual(['part.sqlite-shm']);
});

test('[P5] what is not there is not moved, and what cannot be moved is told', async () => {
  const folder = freshFolder();
  const file = join(folder, 'atlas.sqlite');
  expect(await moveIfThere(file, `${file}.aside`)).toBe(false);
  writeFileSync(file, 'x');
  expect(await moveIfThere(file, `${file}.aside`)).toBe(true);
  mkdirSync(join(folder, 'taken'));
  await expect(moveIfThere(`${file}.aside`, join(folder, 'taken'))).rejects.toThrow();
  expect(readdirSync(folder)).toEqual(['atlas.sqlite.aside', 'taken']);
});

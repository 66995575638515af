import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { moveSideFiles, setAsideBefore } from '../../../../db/mend/set-aside.ts';
import { freshFolder } from '../kit.ts';

const put = (folder: string, ...names: readonly string[]): void => {
  for (const name of names) writeFileSync(join(folder, name), name);
};

test('[P3] files that were set aside before are told by their name, the newest first, without what stands beside them', async () => {
  const folder = freshFolder();
  const [old, young] = ['atlas.sqlite.damaged-2026-03-01T08-00-00-000Z', 'atlas.sqlite.damaged-2026-03-02T08-00-00-000Z'];
  put(folder, old, young, `${young}-wal`, `${young}-shm`, `${old}-journal`, 'atlas.sqlite', 'atlas.sqlite-wal');
  put(folder, 'other.sqlite.damaged-2026-03-03T08-00-00-000Z', 'a copy of atlas.sqlite.damaged-2026-03-03T08-00-00-000Z');
  expect(await setAsideBefore(join(folder, 'atlas.sqlite'))).toEqual([join(folder, young), join(folder, old)]);
});

test('[P3] where nothing was, and where there is no folder, there is none', async () => {
  const folder = freshFolder();
  expect(await setAsideBefore(join(folder, 'atlas.sqlite'))).toEqual([]);
  expect(await setAsideBefore(join(folder, 'none', 'atlas.sqlite'))).toEqual([]);
});

test('[P3] what stands beside a file goes where the file went, each under its own ending, and the file itself stays', async () => {
  const folder = freshFolder();
  const [from, to] = [join(folder, 'atlas.sqlite'), join(folder, 'aside')];
  put(folder, 'atlas.sqlite', 'atlas.sqlite-wal', 'atlas.sqlite-journal');
  await moveSideFiles(from, to);
  expect(readdirSync(folder).sort()).toEqual(['aside-journal', 'aside-wal', 'atlas.sqlite']);
  expect(readFileSync(`${to}-wal`, 'utf8')).toBe('atlas.sqlite-wal');
  // Done before, it is done.
  await moveSideFiles(from, to);
  expect(existsSync(`${to}-journal`)).toBe(true);
});

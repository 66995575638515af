import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { sheetIn } from '../../../../db/mend/sheet-in.ts';
import { writeAside } from '../../../../db/mend/write-aside.ts';
import { photoIdOf } from '../../../../db/shop/case-photos.ts';
import { freshFolder } from '../kit.ts';
import { jpeg, png } from '../photos/pictures.ts';
import { gathered, keptPhoto } from './gathered.ts';
import { photoRow, sheetOf, sheetRow } from './small-file.ts';

const names = (folder: string): readonly string[] => readdirSync(folder).sort();

test('[P3] where there is nothing to write nothing is, and an empty folder of packs goes', async () => {
  const folder = freshFolder();
  mkdirSync(join(folder, 'packs'));
  expect(await writeAside(folder, gathered())).toBe(false);
  expect(names(folder)).toEqual([]);
  expect(await writeAside(folder, gathered())).toBe(false);
});

test('[P3] each sheet is a file of its own, numbered, that can be read back', async () => {
  const folder = freshFolder();
  mkdirSync(join(folder, 'packs'));
  const sheets = new Map(['own-1', 'a/b'].map((id) => [id, sheetRow(id)]));
  expect(await writeAside(folder, gathered({ sheets }))).toBe(true);
  expect(names(folder)).toEqual(['0001.json', '0002.json']);
  expect(sheetIn(readFileSync(join(folder, '0001.json'), 'utf8'))).toEqual(sheetOf('own-1'));
  expect(sheetIn(readFileSync(join(folder, '0002.json'), 'utf8'))).toEqual(sheetOf('a/b'));
});

test('[P3] a file that is there is not written over', async () => {
  const folder = freshFolder();
  writeFileSync(join(folder, '0001.json'), 'somebody’s');
  await expect(writeAside(folder, gathered({ sheets: new Map([['own-1', sheetRow('own-1')]]) }))).rejects.toThrow(/EEXIST/);
  expect(readFileSync(join(folder, '0001.json'), 'utf8')).toBe('somebody’s');
});

test('[P3] photographs nobody’s case shows are written by their hash, each as the sort it is; one that changed meanwhile is not', async () => {
  const folder = freshFolder();
  const webp = { ...photoRow(), type: 'image/webp' };
  const strayPhotos = [
    keptPhoto(photoIdOf(jpeg), photoRow()),
    keptPhoto('c'.repeat(64), null),
    keptPhoto(photoIdOf(png), photoRow(png)),
    keptPhoto('d'.repeat(64), webp),
  ];
  expect(await writeAside(folder, gathered({ strayPhotos }))).toBe(true);
  expect(names(folder)).toEqual(['photographs']);
  expect(names(join(folder, 'photographs'))).toEqual([`${photoIdOf(jpeg)}.jpg`, `${photoIdOf(png)}.png`, `${'d'.repeat(64)}.webp`].sort());
  expect(readFileSync(join(folder, 'photographs', `${photoIdOf(jpeg)}.jpg`))).toEqual(jpeg);
  const one = freshFolder();
  expect(await writeAside(one, gathered({ strayPhotos: strayPhotos.slice(0, 1) }))).toBe(true);
});

test('[P3] rows of sheets that are lost are a line of JSON each', async () => {
  const folder = freshFolder();
  const strayRows = [1, 2].map((n) => ({ table: 'case_details', row: { sheet: 'own-9', n, notes: 'Oil.' } }));
  expect(await writeAside(folder, gathered({ strayRows }))).toBe(true);
  expect(names(folder)).toEqual(['rows-without-a-sheet.txt']);
  expect(readFileSync(join(folder, 'rows-without-a-sheet.txt'), 'utf8')).toBe(
    '{"table":"case_details","sheet":"own-9","n":1,"notes":"Oil."}\n{"table":"case_details","sheet":"own-9","n":2,"notes":"Oil."}\n',
  );
});

test('[P3] packs that were kept as files are something, and stay', async () => {
  const folder = freshFolder();
  mkdirSync(join(folder, 'packs', 'pack-01'), { recursive: true });
  expect(await writeAside(folder, gathered())).toBe(true);
  expect(existsSync(join(folder, 'packs', 'pack-01'))).toBe(true);
});

test.skipIf(process.platform === 'win32')('[P3] what is written is its owner’s alone', async () => {
  const folder = freshFolder();
  const strayPhotos = [keptPhoto('a'.repeat(64), photoRow())];
  await writeAside(folder, gathered({ sheets: new Map([['own-1', sheetRow('own-1')]]), strayPhotos }));
  const mode = (...path: readonly string[]): number => statSync(join(folder, ...path)).mode & 0o777;
  expect([mode('0001.json'), mode('photographs'), mode('photographs', `${'a'.repeat(64)}.jpg`)]).toEqual([0o600, 0o700, 0o600]);
});

import { mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { type OpenSources, openSources } from '../../../../db/mend/sources.ts';
import { photoIdOf } from '../../../../db/shop/case-photos.ts';
import { freshFolder } from '../kit.ts';
import { jpeg, png } from '../photos/pictures.ts';
import { emptyStoreFirst, fileOf, sheetOf, sheetRow } from './small-file.ts';

const empty = emptyStoreFirst();
const opened: OpenSources[] = [];
afterEach(() => {
  for (const sources of opened.splice(0)) sources.close();
});

/** A data folder whose atlas holds one sheet, and whatever else is put into it. */
const folderWith = async (files: Readonly<Record<string, string | Buffer | null>> = {}): Promise<string> => {
  const folder = freshFolder();
  await fileOf(empty, { sheets: [sheetRow('own-1')] }, join(folder, 'atlas.sqlite'));
  for (const [name, content] of Object.entries(files)) {
    const path = join(folder, name);
    mkdirSync(content === null ? path : join(path, '..'), { recursive: true });
    if (content !== null) writeFileSync(path, content);
  }
  return folder;
};
const sourcesOf = async (folder: string): Promise<OpenSources> => {
  const sources = await openSources(folder, join(folder, 'atlas.sqlite'), empty.layouts);
  opened.push(sources);
  return sources;
};

const first = '2026-03-01T08-00-00-000Z';
const second = '2026-03-02T08-00-00-000Z';
const third = '2026-03-03T08-00-00-000Z';
const iso = (stamp: string): string => stamp.replace(/T(\d\d)-(\d\d)-(\d\d)-/, 'T$1:$2:$3.');

describe('backups', () => {
  test('[P3] the newest comes first, whatever its name begins with, and is read as of its time', async () => {
    const folder = await folderWith({ backups: null });
    const named = (name: string, title: string) => fileOf(empty, { sheets: [sheetRow('own-1', title)] }, join(folder, 'backups', name));
    await named(`${second}-asked.sqlite`, 'two');
    await named(`a copy of ${third}-before-pack.sqlite`, 'three');
    await named(`${first}-hourly.sqlite`, 'one');
    const sources = await sourcesOf(folder);
    expect(sources.backups().map(({ at }) => at)).toEqual([third, second, first].map(iso));
    expect(sources.backups().map((source) => [...source.table('sheets').rows.values()].map(({ row }) => row.title))).toEqual([
      ['three'],
      ['two'],
      ['one'],
    ]);
    expect(sources.backups().map(({ file }) => file)[1]).toBe(join(folder, 'backups', `${second}-asked.sqlite`));
    expect([sources.damaged.file, sources.damaged.at]).toEqual([join(folder, 'atlas.sqlite'), null]);
    // Opened once, and when they are asked for.
    expect(sources.backups()).toBe(sources.backups());
  });

  test('[P3] what is no copy of an atlas by its name is none, and one that cannot be read is passed over', async () => {
    const folder = await folderWith({
      'backups/notes.sqlite': 'a name without a time',
      [`backups/${third}-asked.sqlite-wal`]: 'beside a file',
      [`backups/.${third}-asked.sqlite.77.part`]: 'half made',
      [`backups/${third}-asked.sqlite.txt`]: 'another kind of file',
      [`backups/${third}-asked.sqlite`]: null,
    });
    await fileOf(empty, {}, join(folder, 'backups', `${first}-asked.sqlite`));
    expect((await sourcesOf(folder)).backups().map(({ at }) => at)).toEqual([iso(first)]);
  });

  test('[P3] no folder of backups, or a file of its name, is no reason not to mend', async () => {
    expect((await sourcesOf(await folderWith())).backups()).toEqual([]);
    expect((await sourcesOf(await folderWith({ backups: 'a letter' }))).backups()).toEqual([]);
  });

  test.skipIf(process.platform === 'win32')(
    '[P3] a folder of backups that cannot be looked into is said, and not taken for none',
    async () => {
      const folder = await folderWith();
      symlinkSync('backups', join(folder, 'backups'));
      await expect(sourcesOf(folder)).rejects.toThrow(/ELOOP/);
    },
  );

  test('[P3] they are let go of with the file itself', async () => {
    const folder = await folderWith({ backups: null });
    await fileOf(empty, {}, join(folder, 'backups', `${first}-asked.sqlite`));
    const sources = await openSources(folder, join(folder, 'atlas.sqlite'), empty.layouts);
    const [backup] = sources.backups();
    sources.close();
    expect(() => backup?.close()).toThrow(/EBADF/);
    expect(() => sources.damaged.close()).toThrow(/EBADF/);
  });

  test('[P3] where none was asked for, the file alone is let go of', async () => {
    const folder = await folderWith({ backups: null });
    await fileOf(empty, {}, join(folder, 'backups', `${first}-asked.sqlite`));
    const sources = await openSources(folder, join(folder, 'atlas.sqlite'), empty.layouts);
    sources.close();
    expect(() => sources.damaged.close()).toThrow(/EBADF/);
    rmSync(join(folder, 'backups'), { recursive: true });
    expect(sources.backups()).toEqual([]);
  });
});

const sheetJson = (id: string, title: string): string => JSON.stringify(sheetOf(id, title), null, 2);

describe('sheets written aside before', () => {
  test('[P3] they are taken of every folder an earlier mending left, the newest first, each as of its time', async () => {
    const folder = await folderWith({
      [`recovered-${first}/0001.json`]: sheetJson('own-1', 'first'),
      [`recovered-${third}/0002.json`]: sheetJson('own-2', 'third'),
      [`recovered-${third}/0001.json`]: sheetJson('own-1', 'third'),
      [`recovered-${second}/0001.json`]: sheetJson('own-1', 'second'),
    });
    expect((await sourcesOf(folder)).sheetFiles()).toEqual([
      { file: join(`recovered-${third}`, '0001.json'), at: iso(third), id: 'own-1', body: JSON.stringify(sheetOf('own-1', 'third')) },
      { file: join(`recovered-${third}`, '0002.json'), at: iso(third), id: 'own-2', body: JSON.stringify(sheetOf('own-2', 'third')) },
      { file: join(`recovered-${second}`, '0001.json'), at: iso(second), id: 'own-1', body: JSON.stringify(sheetOf('own-1', 'second')) },
      { file: join(`recovered-${first}`, '0001.json'), at: iso(first), id: 'own-1', body: JSON.stringify(sheetOf('own-1', 'first')) },
    ]);
  });

  test('[P3] a folder that is not done yet is none, nor is a file or a folder of another name', async () => {
    const folder = await folderWith({
      [`recovered-${first}.part/0001.json`]: sheetJson('own-1', 'half'),
      [`old-recovered-${first}/0001.json`]: sheetJson('own-1', 'another'),
      'recovered/0001.json': sheetJson('own-1', 'another'),
      'recovered-letter': 'a letter',
      [`recovered-${second}/photographs`]: 'a letter',
      [`recovered-${second}/0001.json`]: sheetJson('own-1', 'taken'),
      'recovered-by hand/0001.json': sheetJson('own-2', 'of no time'),
    });
    expect((await sourcesOf(folder)).sheetFiles().map(({ id, at }) => [id, at])).toEqual([
      ['own-2', null],
      ['own-1', iso(second)],
    ]);
  });

  test('[P3] files in it that are no sheets, or cannot be read, are passed over', async () => {
    const folder = await folderWith({
      [`recovered-${first}/0001.json`]: sheetJson('own-1', 'cut').slice(0, -2),
      [`recovered-${first}/0002.json`]: '{"id":"own-2"}',
      [`recovered-${first}/0003.json`]: null,
      [`recovered-${first}/0004.txt`]: sheetJson('own-4', 'no sheet by its name'),
      [`recovered-${first}/0005.json`]: sheetJson('own-5', 'taken'),
    });
    expect((await sourcesOf(folder)).sheetFiles().map(({ id }) => id)).toEqual(['own-5']);
  });
});

describe('photographs written aside before', () => {
  const id = photoIdOf(jpeg);

  test('[P3] one is found by its hash, and has no small picture', async () => {
    const folder = await folderWith({
      [`recovered-${first}/photographs/${photoIdOf(png)}.png`]: png,
      [`recovered-${first}/photographs/${id}.jpg`]: jpeg,
    });
    const photo = (await sourcesOf(folder)).photoFile(id);
    expect([photo?.id, photo?.small, photo?.from]).toEqual([id, false, { file: join('photographs', `${id}.jpg`), at: iso(first) }]);
    const row = { id, type: 'image/jpeg', width: 16, height: 12, size: jpeg.length, bytes: jpeg, thumbnail_type: null, thumbnail: null };
    expect(photo?.read()).toEqual(row);
    expect((await sourcesOf(folder)).photoFile(photoIdOf(png))?.read()).toMatchObject({ type: 'image/png', bytes: png });
  });

  test('[P3] another picture of that name is not it, nor is what is no picture, or cannot be read, or is not there', async () => {
    const noPicture = Buffer.from('no picture');
    const folder = await folderWith({
      [`recovered-${first}/photographs/${id}.jpg`]: png,
      [`recovered-${first}/photographs/${photoIdOf(noPicture)}.jpg`]: noPicture,
      [`recovered-${first}/photographs/${photoIdOf(png)}.png`]: null,
    });
    const sources = await sourcesOf(folder);
    expect([id, photoIdOf(noPicture), photoIdOf(png), 'a'.repeat(64)].map((of) => sources.photoFile(of))).toEqual([null, null, null, null]);
  });

  test('[P3] where one of an earlier mending is spoilt, an older one is taken', async () => {
    const folder = await folderWith({
      [`recovered-${third}/photographs/${id}.jpg`]: jpeg.subarray(0, 100),
      [`recovered-${second}/photographs/${id}.jpg`]: null,
      [`recovered-${first}/photographs/${id}.jpg`]: jpeg,
    });
    expect((await sourcesOf(folder)).photoFile(id)?.from?.at).toBe(iso(first));
  });

  test('[P3] of two that are whole the newer is taken', async () => {
    const folder = await folderWith({
      [`recovered-${first}/photographs/${id}.jpg`]: jpeg,
      [`recovered-${second}/photographs/${id}.jpg`]: jpeg,
    });
    expect((await sourcesOf(folder)).photoFile(id)?.from?.at).toBe(iso(second));
  });
});

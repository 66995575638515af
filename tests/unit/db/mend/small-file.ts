import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, afterEach, beforeAll } from 'vitest';
import { Connection } from '../../../../db/driver/connection.ts';
import type { Statement } from '../../../../db/driver/driver.ts';
import { migrate } from '../../../../db/driver/migrate.ts';
import { sqliteDriver } from '../../../../db/driver/sqlite-driver.ts';
import { layoutsOf } from '../../../../db/mend/layouts.ts';
import { rowInserted } from '../../../../db/mend/rows.ts';
import { openSource, type Source } from '../../../../db/mend/source.ts';
import { migrations } from '../../../../db/migrations/index.ts';
import type { Layout, SalvagedRow } from '../../../../db/salvage/salvage.ts';
import { photoIdOf } from '../../../../db/shop/case-photos.ts';
import { freshFolder } from '../kit.ts';
import { jpeg, png } from '../photos/pictures.ts';

export const pageSize = 4096;

/** An empty store, made before the first test of a file; each test writes rows into a copy of it. */
export const emptyStoreFirst = () => {
  const empty = {} as { file: string; layouts: readonly Layout[] };
  beforeAll(async () => {
    empty.file = join(mkdtempSync(join(tmpdir(), 'kinplate-empty-')), 'empty.sqlite');
    const connection = await Connection.open(empty.file, { mode: 'write', busyMs: 200 });
    await migrate(connection, migrations);
    empty.layouts = await layoutsOf(sqliteDriver(connection));
    await connection.close();
  });
  afterAll(() => rmSync(dirname(empty.file), { recursive: true, force: true }));
  return empty;
};

/** Opens files as sources, which are closed after the test. */
export const sourcesOf = (empty: { readonly layouts: readonly Layout[] }) => {
  const opened: Source[] = [];
  afterEach(() => {
    for (const source of opened.splice(0)) source.close();
  });
  return (file: string, of: string | null = null): Source => {
    const source = openSource(file, of, empty.layouts);
    opened.push(source);
    return source;
  };
};

/** Rows as somebody could have written them who asks nothing: references and checks are not held. */
export const writeRows = async (file: string, statements: readonly Statement[]): Promise<void> => {
  const connection = await Connection.open(file, { mode: 'write', busyMs: 200 });
  await connection.script('pragma foreign_keys = off; pragma ignore_check_constraints = on');
  await connection.transaction('immediate', async () => {
    for (const { sql, params = [] } of statements) await connection.run(sql, [...params]);
  });
  await connection.close();
};

/** A file of these rows, by table. */
export const fileOf = async (
  empty: { readonly file: string },
  rows: Readonly<Record<string, readonly SalvagedRow[]>>,
  file = join(freshFolder(), 'atlas.sqlite'),
): Promise<string> => {
  copyFileSync(empty.file, file);
  await writeRows(
    file,
    Object.entries(rows).flatMap(([table, of]) => of.map((row) => rowInserted(table, row))),
  );
  return file;
};

type Edit = (text: string) => string;

/** Changes the page on which a text stands, letter for letter; `copies` of it are put at the end of the file, where nothing leads to them. */
export const editPage = (file: string, text: string, edit: Edit | 'wipe' | null, copies: readonly Edit[] = []): void => {
  const bytes = readFileSync(file);
  const at = bytes.indexOf(text);
  if (at < 0) throw new Error(`"${text}" stands nowhere in ${file}`);
  const start = Math.floor(at / pageSize) * pageSize;
  const page = bytes.toString('latin1', start, start + pageSize);
  const edited = (by: Edit): Buffer => {
    const made = Buffer.from(by(page), 'latin1');
    if (made.length !== pageSize) throw new Error('a page keeps its length');
    return made;
  };
  const loose = copies.map(edited);
  if (edit === 'wipe') bytes.fill(0xa5, start, start + pageSize);
  else if (edit !== null) edited(edit).copy(bytes, start);
  writeFileSync(file, Buffer.concat([bytes, ...loose]));
};

export const at = '2026-03-04T12:00:00.000Z';

export const sheetOf = (id: string, title = `Unit ${id}`) => ({
  id,
  title,
  story: '',
  kind: 'found' as const,
  claimed: null,
  claimedMaker: null,
  observations: [],
  absent: [],
  chosen: {},
});

export const sheetRow = (id: string, title = `Unit ${id}`, savedAt = at): SalvagedRow => ({
  id,
  origin: 'own',
  pack: null,
  position: 1,
  title,
  kind: 'found',
  claimed: null,
  observations: 0,
  body: JSON.stringify(sheetOf(id, title)),
  saved_at: savedAt,
});

export const photoRow = (bytes = jpeg, thumbnail: SalvagedRow[string] = png): SalvagedRow => ({
  id: photoIdOf(bytes),
  type: bytes === png ? 'image/png' : 'image/jpeg',
  width: 16,
  height: 12,
  size: bytes.length,
  bytes,
  thumbnail_type: 'image/png',
  thumbnail,
});

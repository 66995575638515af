import { randomBytes } from 'node:crypto';
import { mkdir, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { and, eq } from 'drizzle-orm';
import { readLists } from '../atlas/read-lists.ts';
import type { Reader } from '../driver/driver.ts';
import * as t from '../schema.ts';
import { parseSheet } from '../sheets/read-sheet.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { canonicalText } from './canonical.ts';
import type { Allowance, Pack } from './pack.ts';
import { reasonOf } from './read-files.ts';

/** A loaded pack, as it was loaded. Run it in a transaction where others may write. Throws `not-found`. */
export const packFrom = async (connection: Reader, id: string): Promise<Pack> => {
  const { orm } = connection;
  const [row] = await orm.select().from(t.packs).where(eq(t.packs.id, id));
  if (row === undefined) throw new TroubleError(trouble('not-found', `pack ${id}`, `The atlas holds no pack "${id}".`));
  const { lists, parts } = await readLists(connection, { view: { of: 'one', pack: id } });
  const samples = await orm
    .select({ id: t.sheets.id, body: t.sheets.body })
    .from(t.sheets)
    .where(and(eq(t.sheets.pack, id), eq(t.sheets.origin, 'sample')));

  return {
    head: {
      format: 'kinplate atlas pack',
      version: 1,
      id,
      title: row.title,
      edition: row.edition,
      invented: row.invented,
      note: row.note,
      ...(row.leansOn === null ? {} : { leansOn: row.leansOn }),
    },
    ...lists,
    parts,
    allowed: await connection.all<Allowance>(
      `select m.id as model, p.slot, p.id as part, s.role from sits s join models m on m.n = s.model join parts p on p.n = s.part where s.pack = ?`,
      [id],
    ),
    sheets: samples.map(({ id: sheet, body }) => {
      const parsed = parseSheet(body, `sheet ${sheet}`);
      if (!parsed.ok) throw new TroubleError(parsed.trouble);
      return parsed.value.sheet;
    }),
  };
};

/**
 * Writes a pack's canonical text into a folder that does not exist yet, or is empty: whole or not at all, because it is
 * written beside it and then renamed. Throws `pack-cannot-write`.
 */
export const writePack = async (pack: Pack, folder: string): Promise<void> => {
  const target = resolve(folder);
  const refuse = (why: string): never => {
    throw new TroubleError(trouble('pack-cannot-write', folder, `The pack was not written: ${why}. Nothing was changed in ${folder}.`));
  };
  const there = await readdir(target).catch((error: NodeJS.ErrnoException) =>
    error.code === 'ENOENT' ? [] : error.code === 'ENOTDIR' ? refuse('a file of this name is there') : refuse(reasonOf(error)),
  );
  if (there.length > 0) refuse('the folder is not empty');
  const beside = `${target}.partial-${randomBytes(4).toString('hex')}`;
  try {
    for (const [path, text] of canonicalText(pack)) {
      await mkdir(dirname(join(beside, path)), { recursive: true });
      await writeFile(join(beside, path), text, { flush: true });
    }
    await rename(beside, target);
  } catch (error) {
    await rm(beside, { recursive: true, force: true });
    if ((error as NodeJS.ErrnoException).code === undefined) throw error;
    refuse(reasonOf(error));
  }
};

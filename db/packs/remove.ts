import { eq } from 'drizzle-orm';
import type { Connection } from '../driver/connection.ts';
import * as t from '../schema.ts';
import { TroubleError, trouble } from '../trouble.ts';
import { removeRows } from './remove-rows.ts';

/**
 * Takes a pack out of the atlas, its sample sheets with it; own sheets stay. Run it inside a transaction.
 * Throws `not-found`, and `pack-needed` while another pack leans on it, or speaks of something only this one has.
 */
export const removePack = async (connection: Connection, id: string): Promise<void> => {
  const [row] = await connection.orm.select().from(t.packs).where(eq(t.packs.id, id));
  if (row === undefined) throw new TroubleError(trouble('not-found', `pack ${id}`, `The atlas holds no pack "${id}".`));
  const leaning = (await connection.orm.select({ id: t.packs.id, leansOn: t.packs.leansOn }).from(t.packs)).find(({ leansOn }) =>
    leansOn?.includes(id),
  );
  if (leaning !== undefined)
    throw new TroubleError(
      trouble('pack-needed', `pack ${id}`, `The pack "${id}" was not removed: the pack "${leaning.id}" leans on it. Nothing was changed.`),
    );
  await connection.run('pragma defer_foreign_keys = on');
  await removeRows(connection, id);
  await connection.orm.delete(t.packs).where(eq(t.packs.id, id));
  const [dangling] = await connection.all<{ table: string; parent: string }>('pragma foreign_key_check');
  if (dangling !== undefined) {
    throw new TroubleError(
      trouble(
        'pack-needed',
        `pack ${id}`,
        `The pack "${id}" was not removed: another pack of the atlas refers to ${dangling.parent} that only this one has (from ${dangling.table}). Nothing was changed.`,
      ),
    );
  }
};

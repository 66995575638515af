import type { Connection } from '../driver/connection.ts';
import { troubleOf } from '../driver/trouble-of.ts';
import { loadPack } from '../packs/load.ts';
import type { ExpandCode } from '../packs/pack.ts';
import * as t from '../schema.ts';
import { checkSheet, parseSheet } from '../sheets/read-sheet.ts';
import { knownTo, listSheets, openSheet, removeSheet, saveSheet } from '../sheets/sheet-shelf.ts';
import { done, failed, type Outcome, TroubleError } from '../trouble.ts';
import { readAtlas } from './read-atlas.ts';
import type { Store } from './store.ts';

interface Setting {
  readonly now: () => Date;
  readonly expandCode: ExpandCode | undefined;
  readonly migrated: readonly number[];
  readonly writable: boolean;
}

/** The store over an open, migrated connection. */
export const storeOver = (connection: Connection, setting: Setting): Store => {
  /** Turns expected failures from below into values; a bug goes on up. */
  const guard = async <T>(answer: () => Promise<T>): Promise<Outcome<T>> => {
    try {
      return done(await answer());
    } catch (error) {
      const found = troubleOf(error, connection.file);
      if (found === null) throw error;
      return failed(found);
    }
  };
  const now = () => setting.now().toISOString();
  const read = <T>(answer: () => Promise<T>) => guard(() => connection.transaction('deferred', answer));
  const write = <T>(change: () => Promise<T>) => guard(() => connection.transaction('immediate', change));
  const valueIn = <T>(outcome: Outcome<T>): T => {
    if (!outcome.ok) throw new TroubleError(outcome.trouble);
    return outcome.value;
  };

  return {
    file: connection.file,
    writable: setting.writable,
    migrated: setting.migrated,

    readAtlas: async () => valueIn(await read(() => readAtlas(connection))),
    packs: () =>
      read(() =>
        connection.orm
          .select({ id: t.packs.id, title: t.packs.title, edition: t.packs.edition, invented: t.packs.invented, note: t.packs.note })
          .from(t.packs)
          .orderBy(t.packs.id),
      ),
    loadPack: (folder, options = {}) =>
      write(() =>
        loadPack(
          connection,
          folder,
          { ...options, ...(setting.expandCode === undefined ? {} : { expandCode: setting.expandCode }) },
          now(),
        ),
      ),

    listSheets: () => read(() => listSheets(connection)),
    openSheet: (id) => read(() => openSheet(connection, id)),
    saveSheet: (sheet) =>
      write(async () => {
        valueIn(checkSheet(sheet, await knownTo(connection, sheet)));
        return await saveSheet(connection, sheet, now());
      }),
    removeSheet: (id) =>
      write(async () => {
        await removeSheet(connection, id);
        return null;
      }),
    readSheet: (text, file) =>
      read(async () => {
        const sheet = valueIn(parseSheet(text, file));
        return valueIn(checkSheet(sheet, await knownTo(connection, sheet), file));
      }),
    checkSheet: (sheet) => read(async () => valueIn(checkSheet(sheet, await knownTo(connection, sheet)))),

    close: () => connection.close(),
  };
};

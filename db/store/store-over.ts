import type { Connection } from '../driver/connection.ts';
import { troubleOf } from '../driver/trouble-of.ts';
import { packFrom, writePack } from '../packs/export.ts';
import { loadPack } from '../packs/load.ts';
import type { ExpandCode } from '../packs/pack.ts';
import { removePack } from '../packs/remove.ts';
import * as t from '../schema.ts';
import { checkSheet, parseSheet } from '../sheets/read-sheet.ts';
import { knownTo, listSheets, openSheet, removeSheet, saveSheet } from '../sheets/sheet-shelf.ts';
import { done, failed, type Outcome, TroubleError } from '../trouble.ts';
import { descentOf } from './descent.ts';
import { fitsOf } from './fits.ts';
import { noSuchNode } from './node-refs.ts';
import { familyPage, makerPage, modelPage, partPage } from './pages.ts';
import { readAtlas } from './read-atlas.ts';
import { relationOf } from './related.ts';
import { searchAtlas } from './search.ts';
import { modelsSharingCore } from './shares-core.ts';
import type { Store } from './store.ts';
import { supersessionOf } from './supersession.ts';
import { vocabularyOf } from './vocabulary.ts';

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

    removePack: (id) =>
      write(async () => {
        await removePack(connection, id);
        return null;
      }),
    exportPack: (id, folder) =>
      guard(async () => {
        const pack = await connection.transaction('deferred', () => packFrom(connection, id));
        await writePack(pack, folder);
        return null;
      }),

    vocabulary: () => read(() => vocabularyOf(connection)),
    search: (text, limit) => read(() => searchAtlas(connection, text, limit)),
    maker: (id) => read(() => makerPage(connection, id)),
    family: (id) => read(() => familyPage(connection, id)),
    model: (id) => read(() => modelPage(connection, id)),
    part: (id) => read(() => partPage(connection, id)),
    fits: (part, judge) => read(() => fitsOf(connection, part, judge)),
    descent: (family) => read(() => descentOf(connection, family)),
    related: (a, b) => read(() => relationOf(connection, a, b)),
    supersession: (part) =>
      read(async () => {
        const line = await supersessionOf(connection, part);
        return line.length === 0 ? noSuchNode('part', part) : line;
      }),
    sharesCore: (model) => read(() => modelsSharingCore(connection, model)),

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
        const { sheet, places } = valueIn(parseSheet(text, file));
        return valueIn(checkSheet(sheet, await knownTo(connection, sheet), { file, places }));
      }),
    checkSheet: (sheet) => read(async () => valueIn(checkSheet(sheet, await knownTo(connection, sheet)))),

    close: () => connection.close(),
  };
};

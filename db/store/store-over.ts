import type { SheetId } from '../../reasoner/index.ts';
import { addPhoto, describePhoto, photoBytes, photosOf, readPhoto, removePhoto } from '../cases/case-photos.ts';
import { describeCase, keepEntry, openCase, openCaseFile } from '../cases/case-shelf.ts';
import { listCases } from '../cases/list-cases.ts';
import { putBackCases } from '../cases/recover-cases.ts';
import { learningShelf } from '../drills/learning-shelf.ts';
import type { Connection } from '../driver/connection.ts';
import { sqliteDriver } from '../driver/sqlite-driver.ts';
import { troubleOf } from '../driver/trouble-of.ts';
import { packFrom, writePack } from '../packs/export.ts';
import { loadPack } from '../packs/load.ts';
import type { Asked } from '../packs/pack.ts';
import { removePack } from '../packs/remove.ts';
import * as t from '../schema.ts';
import { checkSheet, parseSheet } from '../sheets/read-sheet.ts';
import { knownTo, listSheets, openSheet, removeSheet, saveSheet } from '../sheets/sheet-shelf.ts';
import { done, failed, type Outcome, TroubleError, trouble } from '../trouble.ts';
import { descentOf } from './descent.ts';
import { fitsOf, keptFitsOf } from './fits.ts';
import { type FitEngine, fitsAreKept, fitsAreOld, keepFits } from './keep-fits.ts';
import { noSuchNode } from './node-refs.ts';
import { familyPage, makerPage, modelPage, partPage } from './pages.ts';
import { editionOf, readAtlas } from './read-atlas.ts';
import { relationOf } from './related.ts';
import { relationOfNodes } from './related-nodes.ts';
import { searchAtlas } from './search.ts';
import { modelsSharingCore } from './shares-core.ts';
import type { Store } from './store.ts';
import { supersessionOf } from './supersession.ts';
import { partsOfModels, treeOf } from './tree.ts';
import { vocabularyOf } from './vocabulary.ts';

interface Setting {
  readonly now: () => Date;
  readonly asked: Asked;
  readonly fitEngine: FitEngine | undefined;
  readonly migrated: readonly number[];
  readonly writable: boolean;
}

/** The store over an open, migrated connection. */
export const storeOver = (connection: Connection, setting: Setting): Store => {
  const driver = sqliteDriver(connection);
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
  const read = <T>(answer: () => Promise<T>) => guard(() => driver.read(() => answer()));
  const write = <T>(change: () => Promise<T>) => guard(() => connection.transaction('immediate', change));
  const keepFitsAnew = async (): Promise<void> => {
    await fitsAreOld(connection);
    if (setting.fitEngine !== undefined) await keepFits(connection, setting.fitEngine);
  };
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
      write(async () => {
        const loaded = await loadPack(connection, folder, { ...setting.asked, ...options }, now());
        if (loaded.changed) await keepFitsAnew();
        return loaded;
      }),

    removePack: (id) =>
      write(async () => {
        await removePack(connection, id);
        await keepFitsAnew();
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
    fits: async (part, judge) => {
      const upToDate = await read(() => fitsAreKept(connection, setting.fitEngine));
      if (!upToDate.ok) return upToDate;
      if (!upToDate.value && setting.writable && setting.fitEngine !== undefined) {
        // An atlas from before fits were kept, or whose last change was made without the engine.
        const kept = await write(async () => keepFitsAnew());
        if (!kept.ok) return kept;
      }
      return read(async () =>
        (await fitsAreKept(connection, setting.fitEngine)) ? keptFitsOf(connection, part) : fitsOf(connection, part, judge),
      );
    },
    descent: (family) => read(() => descentOf(connection, family)),
    related: (a, b) => read(() => relationOf(connection, a, b)),
    relatedNodes: (a, b) => read(() => relationOfNodes(connection, a, b)),
    tree: () => read(() => treeOf(connection)),
    treeParts: (models) => read(() => partsOfModels(connection, models)),
    supersession: (part) =>
      read(async () => {
        const line = await supersessionOf(connection, part);
        return line.length === 0 ? noSuchNode('part', part) : line;
      }),
    sharesCore: (model) => read(() => modelsSharingCore(connection, model)),

    listSheets: () => read(() => listSheets(connection)),
    openSheet: (id) => read(() => openSheet(connection, id)),
    saveSheet: (sheet, judged) =>
      write(async () => {
        valueIn(checkSheet(sheet, await knownTo(connection, sheet)));
        if (judged.verdict.edition !== (await editionOf(connection))) throw new TroubleError(atlasChanged(sheet.id));
        const at = setting.now();
        const saved = await saveSheet(connection, sheet, at.toISOString());
        await openCase(connection, sheet.id, judged.who, at);
        await keepEntry(connection, sheet, judged, at.toISOString());
        return saved;
      }),
    removeSheet: (id) =>
      write(async () => {
        await removeSheet(connection, id);
        return null;
      }),
    readSheet: (text, file) =>
      read(async () => {
        const { sheet, places } = valueIn(parseSheet(text, file));
        const { slipOf } = setting.asked;
        const known = await knownTo(connection, sheet);
        return valueIn(checkSheet(sheet, slipOf === undefined ? known : { ...known, slipOf }, { file, places }));
      }),
    checkSheet: (sheet) => read(async () => valueIn(checkSheet(sheet, await knownTo(connection, sheet)))),

    putBackCases: (recovered) =>
      write(async () => {
        await putBackCases(connection, recovered);
        return null;
      }),
    listCases: (filter) => read(() => listCases(connection, filter)),
    openCase: (sheet, asOf) => read(() => openCaseFile(connection, sheet, asOf)),
    describeCase: (sheet, details) =>
      write(async () => {
        await describeCase(connection, sheet, details, now());
        return await openCaseFile(connection, sheet, null);
      }),
    addPhoto: (sheet, photo) => {
      const read = readPhoto(photo);
      if (!read.ok) return Promise.resolve(read);
      return write(async () => {
        await addPhoto(connection, sheet, read.value, photo, now());
        return await photosOf(connection, sheet);
      });
    },
    describePhoto: (sheet, photo, caption, about) =>
      write(async () => {
        await describePhoto(connection, sheet, photo, { caption, about });
        return await photosOf(connection, sheet);
      }),
    removePhoto: (sheet, photo) =>
      write(async () => {
        await removePhoto(connection, sheet, photo);
        return await photosOf(connection, sheet);
      }),
    photo: (photo, which) => read(() => photoBytes(connection, photo, which)),

    learning: learningShelf(connection, read, write, setting.now),

    close: () => connection.close(),
  };
};

const atlasChanged = (sheet: SheetId) =>
  trouble('atlas-changed', `sheet ${sheet}`, 'The atlas changed while the sheet was judged, so it was not saved. Save it again.');

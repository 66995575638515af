import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll } from 'vitest';
import type { MendStep, Store } from '../../../../db/index.ts';
import { mendFolder } from '../../../../electron/desk/mend.ts';
import { openAtlas } from '../../../../electron/desk/open-house.ts';
import { copyOf, fillShop, type Shop, shipped } from '../../../damage/shop.ts';
import { freshConnection, freshFolder, valueIn } from '../kit.ts';

export const pageSize = 4096;
export const now = new Date('2026-03-04T12:00:00.000Z');

/** The atlas of a shop with 20 sheets, filled before the first test of a file and removed after the last. */
export const shopFilledFirst = (): Shop => {
  const shop = {} as Shop;
  beforeAll(async () => {
    Object.assign(shop, await fillShop(mkdtempSync(join(tmpdir(), 'kinplate-shop-')), { sheets: 20, photos: 4 }));
  });
  afterAll(() => rmSync(shop.folder, { recursive: true, force: true }));
  return shop;
};

/** Everything the shop entered, as it is read back. */
export const everythingIn = async (file: string) => {
  const store = valueIn(await openAtlas(file));
  try {
    return await everythingOf(store);
  } finally {
    await store.close();
  }
};
export const everythingOf = async (store: Store) => {
  const own = valueIn(await store.sheets.list()).filter(({ origin }) => origin === 'own');
  const sheets = [];
  for (const { id } of own) {
    const file = valueIn(await store.cases.open(id, null));
    const photos = [];
    for (const photo of file.photos) photos.push(valueIn(await store.photos.bytes(photo.id, 'whole')).bytes.toString('base64'));
    sheets.push({ sheet: valueIn(await store.sheets.open(id)), file, photos });
  }
  const learning = [];
  for (const { id } of valueIn(await store.learning.learners())) {
    const { now: _, ...record } = valueIn(await store.learning.record(id));
    learning.push({ ...record, cards: [...record.cards] });
  }
  return { own, sheets, learning, packs: valueIn(await store.packs.list()), edition: (await store.atlas.read()).edition };
};

/** Overwrites the pages of one sort (SQLite's file format: 10 and 13 are leaves) on which a text stands. */
export const spoilPages = (bytes: Buffer, types: readonly number[], text: string): number => {
  let many = 0;
  for (let page = 1; page < bytes.length / pageSize; page += 1) {
    const part = bytes.subarray(page * pageSize, (page + 1) * pageSize);
    if (!types.includes(part[0] ?? 0) || !part.includes(text)) continue;
    part.fill(0xa5);
    many += 1;
  }
  return many;
};

export const spoilPage = (bytes: Buffer, page: number): void => {
  bytes.fill(0xa5, (page - 1) * pageSize, page * pageSize);
};

export const mend = (folder: string, onStep?: (step: MendStep) => void | Promise<void>) => mendFolder(folder, shipped, now, onStep);

/** Ways to damage copies of a shop. */
export const damageTo = (shop: Shop) => {
  /** A data folder with a copy of the shop's atlas in it. */
  const damagedFolder = (spoil: (bytes: Buffer) => void): { readonly folder: string; readonly file: string; readonly bytes: Buffer } => {
    const folder = freshFolder();
    const file = copyOf(shop, folder);
    const bytes = readFileSync(file);
    spoil(bytes);
    writeFileSync(file, bytes);
    return { folder, file, bytes };
  };

  const rootOf = async (table: string): Promise<number> => {
    const connection = await freshConnection(copyOf(shop, freshFolder()));
    const [found] = await connection.all<{ rootpage: number }>('select rootpage from sqlite_master where name = ?', [table]);
    await connection.close();
    return found?.rootpage ?? Number.NaN;
  };

  /** The tables of the shop alone damaged at their roots, so that SQLite finds nothing of them by its own way. */
  const noRoots = async () => {
    const roots = await Promise.all(['sheets', 'case_entries', 'case_details', 'cases'].map(rootOf));
    return damagedFolder((bytes) => {
      for (const root of roots) spoilPage(bytes, root);
    });
  };
  return { damagedFolder, rootOf, noRoots };
};

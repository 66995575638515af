import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { getTableColumns, getTableName, is } from 'drizzle-orm';
import { getTableConfig, SQLiteTable } from 'drizzle-orm/sqlite-core';
import { describe, expect, test } from 'vitest';
import type { Connection } from '../../../db/driver/connection.ts';
import { doorTo } from '../../../db/driver/door.ts';
import { hashOf, migrate } from '../../../db/driver/migrate.ts';
import { schemaText } from '../../../db/driver/schema-text.ts';
import { sqliteDriver } from '../../../db/driver/sqlite-driver.ts';
import { readAtlas } from '../../../db/graph/read-atlas.ts';
import { migrations } from '../../../db/migrations/index.ts';
import type { Migration } from '../../../db/migrations/migration.ts';
import { loadPack } from '../../../db/packs/load.ts';
import { groupBy } from '../../../db/plain/group-by.ts';
import * as schema from '../../../db/schema.ts';
import { caseShelf } from '../../../db/shop/case-shelf.ts';
import { openCaseFile } from '../../../db/shop/kept-cases.ts';
import { fileIdOf } from '../../../db/shop/kept-files.ts';
import type { CourseId } from '../../../db/shop/learning.ts';
import { learningShelf } from '../../../db/shop/learning-shelf.ts';
import { photoShelf } from '../../../db/shop/photo-shelf.ts';
import { sheetShelf } from '../../../db/shop/sheet-shelf.ts';
import { asId, type CaseVerdict, type Sheet, type SheetId, type Subject, type TopicId } from '../../../reasoner/index.ts';
import { rowCounts, rowsAsSql } from './fill.ts';
import { expandH7, freshConnection, noon, smallPack, valueIn } from './kit.ts';
import { jpeg, png } from './photos/pictures.ts';

/** Migrations are never edited once they have been on a disk: their hashes, in order. A new one adds a line. */
const hashes = [
  '2ad1c0c3174562036aa20a4caa8c154a79c898fe7527c65579f54efb0085a98a',
  '27b5389b6f230a76baa38febab07d27f578c77099a17883e0bc5799a9f099bc2',
  '0b23f147e1c264aca3bb45f09dd7b066cd6a9a924d92508ac7c4976b9b627522',
  '780c1eab66bdffc97026b911d7f144c9a44d3afc7f4d4e040f03fe7dcae46d77',
  '4a194b2e9750581228132aea2f86d8fa71aecaefc7bcb16ab3e8a1a95c9db2c2',
  '10fc69f7faba6e7dcf5df223c0ca59d132c392cff04f51ddc051395020f2bb93',
  '2cf3ef5e55ec43a9872c97c38ceb31a53bbfb6294fb16483e6b0e7ab8956afda',
  'fa63f25c3d6d16344c1676869c2635c6cca6feedb9133e23648e988b500540a5',
  '7ad2a45b91a5224f1887d5f5e1e4d542bf7ebf22a7fe876e78f5cdb3126b8c9f',
  '14c90d219108e6f275da455b90a7e84ae690de1a4964b755a1b69bd25be1d536',
  'd330b86a5bd30b1907cbf54b4ba0218acf4e05d59810b01258b583c61efd57d6',
  '52a0fa8c94a0ab4d75c94836912f200b2c9e721e7b422e4472a637d134bba7d8',
  '8976206714779afb3deb787a7cfc1cbe8fcbd44cd827dd626940539a29a53deb',
  'f4d7462021494fcaaedecd2c95d85e245b268c53ab98cd257d28bc1d2919da85',
  '4303e77e6978f20a2e2a5d5a50c94eafbc93de6f7f48b3966a918411ad54e3bd',
  '670249c84b3ca4038f22e23bf5501a669e9a4119503dbee4215593e33d2ac719',
  'ee67eacc9b0b6c26cdf22455174db842ded0d47e1051f400f71813d11d5081bb',
  'e6ab7f4d9470c77eecd27bee48941d80581d2c751fa32d2987c247b16b14344d',
  '8e157ccbadeb541498115032bc5f988f32fb21f1db54b8e01ead33b81c741082',
  '6d18098ba9fa6f5c4c34aa8548464723f025fbd6c3dfaafffd6724a6d2bb2ecd',
  'a109ade6ad4766b370111c4018cc21145e5fefd95d2a25241134e9f8e80253d0',
  '56cce74a8f26d03f23d00f1ccda28b8f855d43945f51e35a97eb6bf57ed0c556',
  'c84d1efc35f209a07a0e38ef209f4deb0424b08ef8238e0126bc03c7f20b8972',
  '3fd4116336e9d6e0ae3915af9b0df9f77d9ac34350a95e040e0be7a8cfddbf85',
  'ce56aa9e96b5626186ea53c7db3dbb9b01402c3fc1feae0e67fc54ae4fa5be10',
  '9fbc6f283c39ccc2a6b816e49666b3985f010a5e5095d518c0d3a64f0113d899',
  'b28b91d0776a7bc48a32e9843843bf2cf9bcc7c88d9efe4b3a4c6c3f04bb8471',
  'bc3ff367914d65ac7766b6a8ede75cb9246213f1acf19696fdef7e97c2aaabc1',
];

const ownSheet: Sheet = {
  id: asId<SheetId>('own-1'),
  title: 'Brought in on a rainy day',
  story: '',
  kind: 'found',
  claimed: null,
  claimedMaker: null,
  observations: [],
  absent: [],
  chosen: {},
};

const filled = async (): Promise<Connection> => {
  const connection = await freshConnection();
  await migrate(connection, migrations);
  await loadPack(sqliteDriver(connection), smallPack, { expandCode: expandH7 }, noon.toISOString());
  const door = doorTo(sqliteDriver(connection), () => noon);
  // Written out, so that a fixture does not change with what the reasoner says.
  const verdict: CaseVerdict = { kind: 'contradiction', edition: 'small 2026-03-02', sentences: ['Two blade counts.'] };
  valueIn(await sheetShelf(door, {}).save(ownSheet, { verdict, who: 'Marit' }));
  const photo = { name: 'housing.jpg', bytes: jpeg, thumbnail: png, caption: 'as brought in', about: null };
  valueIn(await photoShelf(door).add(ownSheet.id, photo));
  const word = {
    by: 'maker',
    person: 'Ines',
    day: '2026-03-02',
    decision: 'The plate is ours.',
    ground: 'their letter of 1 March',
  } as const;
  valueIn(await caseShelf(door).say(ownSheet.id, word, 'Marit'));
  await connection.script(`
    insert into keyring (key, name, since, who, withdrawn_at, withdrawn_who, at) values
      ('11qYAYKxCrfVS/7TyWQHOg7hcvPapiMlrwIaaPcHURo=', 'Tern Works', '2026-03-04T12:00:00.000Z', 'Osk', null, null, '2026-03-04T12:00:00.000Z');
    insert into unit_numbers (sheet, n, says, text, key) values ('own-1', 1, 'serial number', 'H-11 207', 'h11207');
    insert into case_origins (sheet, n, number, at, who) values ('own-1', 1, '2025-0031', '2026-03-04T12:00:00.000Z', 'Marit');
    insert into cases_left (sheet, n, at, who, reason, entry, otherwise)
      values ('own-1', 1, '2026-03-04T12:00:00.000Z', 'Osk', 'The customer has the unit.', 1, 'of another');
    insert into table_templates (name, headings, matching, saved_at) values ('the list', '["number"]',
      '{"kind":"parts","sheet":null,"headings":1,"columns":[{"is":"numbers"}],"slot":null,"maker":null}', '2026-03-04T12:00:00.000Z');
    update packs set mapped = '[{"list":"features","id":"blades","to":"cw-blades"}]' where id = 'small';
    insert into own_words (pack, cell, own, said)
      values ('small', 'parts/cw-tern-9/facts/cw-blades', '[{"kind":"count","from":8,"to":8}]', '[{"kind":"count","from":7,"to":7}]');
  `);
  await connection.script(shopRoomRows);
  await keepLearning(connection);
  return connection;
};

const logo = fileIdOf(png);
/** What the shop says of itself, has on its shelves, asks for a part, and keeps on paper. */
const shopRoomRows = `
  insert into shop_settings (key, value, at, who) values
    ('letterhead', '{"name":"Saltmarsh Rotor & Fuel","lines":["Port Hallow"],"logo":{"file":"${logo}","type":"image/png","width":1,"height":1}}', '${noon.toISOString()}', 'Marit'),
    ('money', '{"code":"XTS","written":"","before":false,"decimals":2,"hour":40}', '${noon.toISOString()}', 'Marit');
  insert into kept_files (id, type, size, bytes) values ('${logo}', 'image/png', ${png.length}, x'${png.toString('hex')}');
  insert into documents (about, of, file, n, name, title, at, who)
    values ('part', 'bh-tern', '${logo}', 1, 'sheet.png', 'the supplier’s sheet', '${noon.toISOString()}', 'Marit');
  insert into stock (line, n, at, who, gone, part, words, number, many, condition, price, money, place, note)
    values ('line-1', 1, '${noon.toISOString()}', 'Osk', 0, 'bh-tern', 'Tern bearing housing', '', 2, 'new', 12.5, 'XTS', 'Rack 3', '');
  insert into shop_prices (part, n, at, who, price, money, note) values ('bh-tern', 1, '${noon.toISOString()}', 'Osk', 15, 'XTS', '');
  insert into samples (id, part, slot, feature, value, u, how, from_sheet, entry, case_number, kept_at, who, out_by, at) values
    ('sample-1', 'cw-tern-9', 'compressor-wheel', 'cw-blades', '{"kind":"count","from":7,"to":7}', null, '', 'found-1', 'o1', '2026-0001', '${noon.toISOString()}', 'Osk', null, '${noon.toISOString()}'),
    ('sample-2', 'cw-tern-9', 'compressor-wheel', 'cw-inducer', '{"kind":"measure","value":30.5}', 0.01, 'calliper', 'found-1', 'o2', '2026-0001', '${noon.toISOString()}', 'Osk', 'Marit', '${noon.toISOString()}');
  insert into journal_carried (entry, turn, list, from_id, to_id, moved, there, seen) values
    (1, 0, 'parts', 'cw-tern', 'cw-tern-9', '{"rows":[["samples",["sample-1"],["sample-1"]]],"texts":[]}', '[["samples",["sample-2"]]]',
      '{"list":"parts","from":"cw-tern","to":"cw-tern-9","rows":[{"of":"samples","many":1}],"stays":[]}');
`;

/** A course, a learner on it, and one answer with its card. */
const keepLearning = async (connection: Connection): Promise<void> => {
  const shelf = learningShelf(doorTo(sqliteDriver(connection), () => noon));
  const course = asId<CourseId>('first-year');
  await shelf.saveCourse({ id: course, name: 'First year', families: [asId('petrel')], kinds: null, newPerDay: 5 });
  await shelf.saveLearner({ id: asId('jory'), name: 'Jory', course, level: 'by eye' });
  const card = {
    due: noon.toISOString(),
    stability: 2,
    difficulty: 5,
    elapsed_days: 0,
    scheduled_days: 0,
    learning_steps: 1,
    reps: 1,
    lapses: 0,
    state: 1,
  };
  const [asked, answered] = ['tern', 'petrel'].map((id) => ({ kind: 'family', id, text: id }) as const) as [Subject, Subject];
  const answer = {
    topic: asId<TopicId>('name:petrel'),
    seed: 7,
    edition: '1',
    response: ['a'],
    right: false,
    confused: { asked, answered },
  };
  await shelf.keepAnswer(asId('jory'), answer, () => card);
};

const fixtureOf = (number: number): string => join(import.meta.dirname, 'fixtures', `filled-${String(number).padStart(4, '0')}.sql`);

/** A filled database as it was under an older schema. */
const filledAs = async (number: number): Promise<Connection> => {
  const connection = await freshConnection();
  await migrate(connection, migrations.slice(0, number));
  await connection.script(
    `pragma foreign_keys = off; begin; ${await readFile(fixtureOf(number), 'utf8')} commit; pragma foreign_keys = on;`,
  );
  return connection;
};

test('the committed schema is the one the migrations make', async () => {
  const connection = await freshConnection();
  await migrate(connection, migrations);
  await expect(await schemaText(connection)).toMatchFileSnapshot('../../../db/schema.snapshot.sql');
});

test('no migration has been edited', () => {
  expect(migrations.map(hashOf)).toEqual(hashes);
});

test('drizzle’s tables are the database’s, column by column', async () => {
  const connection = await freshConnection();
  await migrate(connection, migrations);
  const tables = Object.values(schema).filter((value) => is(value, SQLiteTable)) as SQLiteTable[];
  expect(tables.map(getTableName).sort()).toEqual(
    (
      await connection.all<{ name: string }>(
        `select name from sqlite_master where type = 'table' and name not like 'search\\_words%' escape '\\' and name <> 'migrations' order by name`,
      )
    ).map(({ name }) => name),
  );
  for (const table of tables) {
    const name = getTableName(table);
    const config = getTableConfig(table);
    const keys = new Set(config.primaryKeys.flatMap((key) => key.columns.map((column) => column.name)));
    const ours = Object.values(getTableColumns(table)).map((column) => ({
      name: column.name,
      type: column.getSQLType(),
      required: column.notNull || keys.has(column.name),
      key: column.primary || keys.has(column.name),
    }));
    const theirs = (await connection.all<{ name: string; type: string; notnull: number; pk: number }>(`pragma table_info(${name})`)).map(
      (column) => ({
        name: column.name,
        type: column.type.toLowerCase(),
        required: column.notnull === 1 || column.pk > 0,
        key: column.pk > 0,
      }),
    );
    expect(ours.sort(byName), name).toEqual(theirs.sort(byName));

    const ourKeys = config.foreignKeys.map((key) => {
      const { columns, foreignTable, foreignColumns } = key.reference();
      return `${columns.map((column) => column.name)} → ${getTableName(foreignTable)}.${foreignColumns.map((column) => column.name)} ${key.onDelete ?? 'no action'}`;
    });
    const theirKeys = [
      ...groupBy(
        await connection.all<{ id: number; seq: number; from: string; table: string; to: string; on_delete: string }>(
          `select * from pragma_foreign_key_list('${name}') order by id, seq`,
        ),
        ({ id }) => id,
      ).values(),
    ].map((key) => `${key.map(({ from }) => from)} → ${key[0]?.table}.${key.map(({ to }) => to)} ${key[0]?.on_delete.toLowerCase()}`);
    expect(ourKeys.sort(), name).toEqual(theirKeys.sort());
  }
});
const byName = (a: { name: string }, b: { name: string }) => (a.name < b.name ? -1 : 1);

describe('every migration migrates a filled database', () => {
  // fixtures/filled-000n.sql holds the rows of a filled database as schema n had them.
  test.each(migrations.map(({ number, name }) => ({ number, name })))('from $number $name on', async ({ number }) => {
    expect(existsSync(fixtureOf(number)), `${fixtureOf(number)} is missing`).toBe(true);
    const connection = await freshConnection();
    await migrate(connection, migrations.slice(0, number));
    await connection.script(
      `pragma foreign_keys = off; begin; ${await readFile(fixtureOf(number), 'utf8')} commit; pragma foreign_keys = on;`,
    );
    const before = await rowCounts(connection);
    expect(before.parts).toBeGreaterThan(10);

    await migrate(connection, migrations);
    expect(await connection.all('pragma foreign_key_check')).toEqual([]);
    expect(await connection.all('pragma integrity_check')).toEqual([{ integrity_check: 'ok' }]);
    // What was counted by the year alone is counted by letter since 28.
    const { case_numbers: _, ...others } = before;
    expect(await rowCounts(connection)).toMatchObject({ ...others, migrations: migrations.length });

    const fresh = await filled();
    expect(await readAtlas(connection)).toEqual(await readAtlas(fresh));
    // Where samples stand is said by their order alone.
    const sheets = 'select id, origin, pack, title, kind, claimed, observations, body, saved_at from sheets order by pack, position, id';
    expect(await connection.all(sheets)).toEqual(await fresh.all(sheets));
    const words = `select s.node_id from search_words w join search_terms s on s.n = w.rowid where search_words match '"petrel"*' order by w.rowid`;
    expect(await connection.all(words)).toEqual(await fresh.all(words));
  });

  test('[P4] a sheet saved before cases were kept has a case from the day it was last saved, and no entry that nobody wrote', async () => {
    const connection = await filledAs(2);
    await migrate(connection, migrations);
    expect(await connection.transaction('deferred', () => openCaseFile(connection, ownSheet.id, null))).toMatchObject({
      number: '2026-0001',
      openedOn: '2026-03-04',
      customer: '',
      photos: [],
      history: [],
    });
    expect(await connection.all('select * from case_counts')).toEqual([
      { letter: '', year: 2026, last: 1 },
      { letter: 'A', year: 2026, last: 1 },
    ]);
  });

  test('[P4] a case numbered before counters had letters keeps its number; the next has the letter, and the count goes on', async () => {
    const connection = await filledAs(25);
    await migrate(connection, migrations);
    const opened = async (sheet: SheetId) => (await connection.transaction('deferred', () => openCaseFile(connection, sheet, null))).number;
    expect(await opened(ownSheet.id)).toBe('2026-0001');
    const shelf = sheetShelf(
      doorTo(sqliteDriver(connection), () => noon),
      {},
    );
    const verdict: CaseVerdict = { kind: 'contradiction', edition: 'small 2026-03-02', sentences: [] };
    const next = { ...ownSheet, id: asId<SheetId>('own-2') };
    expect(valueIn(await shelf.save(next, { verdict, who: '' })).number).toBe('A-2026-0002');
    for (const letter of ['I', 'O', 'a', 'AB', '1'])
      for (const table of ['cases', 'case_counts'])
        await expect(connection.run(`update ${table} set letter = ?`, [letter]), `${table} ${letter}`).rejects.toThrow(/CHECK/);
  });

  /** An atlas of before letters counted by themselves, with these cases and this count, and what each letter gives next in that year. */
  const countedOn = async (cases: readonly (readonly [string, number])[], last: number, counter?: string) => {
    const connection = await filledAs(27);
    await connection.script(`delete from sheets where origin = 'own'; delete from case_numbers;
      insert into case_numbers (year, last) values (2026, ${last});
      ${counter === undefined ? '' : `insert into shop_settings (key, value, at, who) values ('counter', '{"letter":"${counter}"}', '', '')`};`);
    for (const [n, [letter, number]] of cases.entries())
      await connection.run(`insert into cases (sheet, year, number, opened_on, letter) values (?, 2026, ?, '2026-03-04', ?)`, [
        `own-${n}`,
        number,
        letter,
      ]);
    await migrate(connection, migrations);
    expect(await connection.all('pragma foreign_key_check')).toEqual([]);
    const rows = await connection.all<{ letter: string; year: number; last: number }>('select * from case_counts');
    expect(rows.every(({ year }) => year === 2026)).toBe(true);
    return Object.fromEntries(rows.map(({ letter, last: of }) => [letter, of]));
  };

  test('[P1] letters that were counted together go on each from its own last number, and others begin anew', async () => {
    const cases = [
      ['A', 1],
      ['A', 2],
      ['K', 3],
      ['A', 4],
      ['K', 5],
    ] as const;
    expect(await countedOn(cases, 5)).toEqual({ A: 4, K: 5 });
  });

  test('[P1] a number of a removed case may have had any letter: each goes on after it', async () => {
    const all = Object.fromEntries([...'ABCDEFGHJKLMNPQRSTUVWXYZ'].map((letter) => [letter, 3]));
    expect(
      await countedOn(
        [
          ['A', 1],
          ['K', 2],
          ['A', 4],
          ['K', 5],
        ],
        5,
      ),
      'in the midst',
    ).toEqual({ ...all, A: 4, K: 5 });
    expect(
      await countedOn(
        [
          ['A', 1],
          ['K', 2],
        ],
        3,
      ),
      'the last given',
    ).toEqual(all);
    expect(await countedOn([['A', 2]], 2), 'the first given').toEqual({
      ...Object.fromEntries(Object.keys(all).map((one) => [one, 1])),
      A: 2,
    });
    expect(await countedOn([], 3), 'all of them').toEqual(all);
  });

  test('[P1] the counter itself goes on from the numbers it gave before it had a letter; other letters do not', async () => {
    expect(
      await countedOn(
        [
          ['', 1],
          ['', 2],
          ['A', 3],
        ],
        3,
      ),
    ).toEqual({ '': 2, A: 3 });
    expect(
      await countedOn(
        [
          ['', 1],
          ['', 2],
        ],
        2,
      ),
    ).toEqual({ '': 2, A: 2 });
    expect(
      await countedOn(
        [
          ['', 1],
          ['', 2],
          ['A', 3],
        ],
        3,
        'K',
      ),
    ).toEqual({ '': 2, A: 3, K: 2 });
  });

  test('[P8] what a plate was seen to say before numbers were kept is found by what it says; what was told, and other letters, are not', async () => {
    const connection = await filledAs(15);
    await connection.run(`update features set says = 'serial number' where id = 'bh-letters'`);
    const one = (id: string, feature: string, sure: string, text: string | null) => ({
      id,
      slot: 'bearing-housing',
      feature,
      value: { kind: 'mark', text },
      sure: { kind: sure },
    });
    const observations = [
      one('a', 'bh-letters', 'told', 'X-1'),
      one('b', 'bh-letters', 'seen', 'H-11 207'),
      one('c', 'bh-letters', 'seen', null),
      one('d', 'ch-letters', 'seen', 'MERROWBY'),
    ];
    await connection.run(`update sheets set body = ? where id = 'own-1'`, [JSON.stringify({ ...ownSheet, observations })]);
    await migrate(connection, migrations);
    expect(await connection.all('select sheet, n, says, text, key from unit_numbers')).toEqual([
      { sheet: 'own-1', n: 1, says: 'serial number', text: 'H-11 207', key: null },
    ]);
    const shelf = caseShelf(doorTo(sqliteDriver(connection), () => noon));
    expect(valueIn(await shelf.before({ ...ownSheet, id: asId<SheetId>('new'), serial: 'h11/207' })).same).toMatchObject([
      { sheet: 'own-1', by: { says: 'serial number', text: 'H-11 207' } },
    ]);
  });

  test('the newest fixture is what a filled database holds now', async () => {
    const connection = await filled();
    await expect(await rowsAsSql(connection)).toMatchFileSnapshot(fixtureOf(migrations.length));
  });
});

describe('the migrator', () => {
  const next = migrations.length + 1;
  const and = (sql: string): Migration[] => [...migrations, { number: next, name: 'next', sql }];

  test('a table rebuilt keeps its children and its triggers', async () => {
    const first = migrations.slice(0, 1);
    const connection = await filledAs(1);
    const before = await rowCounts(connection);
    expect(await migrate(connection, [...first, { number: 2, name: 'rebuild', sql: rebuildParts }])).toEqual([2]);
    expect(await rowCounts(connection)).toMatchObject({ ...before, migrations: 2 });
    expect(before.facts).toBeGreaterThan(10);
    expect(await connection.all('pragma foreign_keys')).toEqual([{ foreign_keys: 1 }]);
    // The trigger is back, and foreign keys hold again.
    await connection.run(`update parts set name = 'renamed' where id = 'bh-tern'`);
    expect(await connection.all(`select value from meta where key = 'renamed'`)).toEqual([{ value: 'bh-tern' }]);
    await expect(connection.run(`update parts set slot = 'nowhere' where id = 'bh-tern'`)).rejects.toThrow(/FOREIGN KEY/);
  });

  test('a migration that fails half-way leaves the database as it was', async () => {
    const connection = await filled();
    const before = [await schemaText(connection), await rowCounts(connection)];
    await expect(
      migrate(connection, and('create table extra (a text); delete from facts; insert into nowhere values (1);')),
    ).rejects.toThrow(/nowhere/);
    expect([await schemaText(connection), await rowCounts(connection)]).toEqual(before);
    expect(await connection.all('pragma foreign_keys')).toEqual([{ foreign_keys: 1 }]);
  });

  test('a migration that leaves rows without their parents is refused', async () => {
    const connection = await filled();
    await expect(migrate(connection, and('delete from slots;'))).rejects.toThrow(/without their "slots"/);
    expect(await connection.all('select count(*) as c from slots')).toEqual([{ c: 5 }]);
  });

  test('run twice, the second time it does nothing', async () => {
    const connection = await filled();
    expect(await migrate(connection, migrations)).toEqual([]);
  });

  test('a database from a newer version is refused, and left as it was', async () => {
    const connection = await filled();
    await migrate(connection, and('create table later (a text);'));
    await expect(migrate(connection, migrations)).rejects.toMatchObject({ trouble: { code: 'database-newer' } });
    expect(await connection.all(`select count(*) as c from parts`)).toEqual([{ c: 15 }]);
  });

  test('a database that went through another migration of the same number is refused', async () => {
    const connection = await filled();
    await migrate(connection, and('create table later (a text);'));
    await expect(migrate(connection, and('create table sooner (a text);'))).rejects.toMatchObject({
      trouble: { code: 'database-foreign' },
    });
  });

  test('another program’s database is refused', async () => {
    const connection = await freshConnection();
    await connection.script('create table accounts (a text)');
    await expect(migrate(connection, migrations)).rejects.toMatchObject({ trouble: { code: 'database-foreign' } });
    expect(await connection.all('select name from sqlite_master')).toEqual([{ name: 'accounts' }]);
  });

  test('a gap in the numbers is a bug', async () => {
    const connection = await freshConnection();
    await expect(migrate(connection, [{ number: 2, name: 'second', sql: '' }])).rejects.toThrow('number 2 in place 1');
  });

  test('two programs opening a new file at once: one migrates, both go on', async () => {
    const one = await freshConnection(undefined, 30_000);
    const two = await freshConnection(one.file, 30_000);
    const ran = await Promise.all([migrate(one, migrations), migrate(two, migrations)]);
    // Each step is a transaction of its own, and either may run the next.
    expect(ran.flat().sort((a, b) => a - b)).toEqual(migrations.map(({ number }) => number));
  });
});

/** What a later migration may have to do to schema 1: another column in a table with children, a view over it and a trigger on it. */
const rebuildParts = `
create trigger parts_renamed after update of name on parts begin insert or replace into meta (key, value) values ('renamed', new.id); end;
drop view edges;
create table parts_rebuilt (
  n integer primary key, id text not null unique, pack text not null references packs (id), position integer not null,
  slot text not null references slots (id), name text not null, maker text references makers (id),
  pattern_of integer references parts (n), supersedes integer references parts (n), source text not null references sources (id), weight real
);
insert into parts_rebuilt select *, null from parts;
drop table parts;
alter table parts_rebuilt rename to parts;
create trigger parts_renamed after update of name on parts begin insert or replace into meta (key, value) values ('renamed', new.id); end;
`;

import { expect, test } from 'vitest';
import { sqliteDriver } from '../../../../db/driver/sqlite-driver.ts';
import { layoutsOf, lettersIndex, numbersIndex, photosIndex, yearCounts, yearsIndex } from '../../../../db/mend/layouts.ts';
import { freshConnection } from '../kit.ts';

const layoutsWith = async (script: string) => {
  const connection = await freshConnection();
  await connection.script(script);
  return layoutsOf(sqliteDriver(connection));
};

const indexes = [
  { name: 'cases_by_number', kind: 'index', columns: ['letter', 'year', 'number', 'sheet'], rowid: null },
  { name: 'sqlite_autoindex_cases_2', kind: 'index', columns: ['year', 'number', 'sheet'], rowid: null },
  { name: 'cases_by_letter', kind: 'index', columns: ['letter', 'sheet'], rowid: null },
  { name: 'case_photos_by_photo', kind: 'index', columns: ['photo', 'sheet'], rowid: null },
  { name: 'case_numbers', kind: 'index', columns: ['year', 'last'], rowid: null },
];

test('[P3] a table is stored by its columns in their order; the row id of one is the column that is its whole key', async () => {
  const layouts = await layoutsWith(`
    create table b_numbered (text text, n integer primary key);
    create table a_loud (n INTEGER PRIMARY KEY, text text);
    create table c_texts (id text primary key, n integer);
    create table d_short (n int primary key, text text);
    create table e_two (a integer, b integer, primary key (a, b));
    create table f_none (a integer, b text);
  `);
  expect(layouts).toEqual([
    { name: 'a_loud', kind: 'table', columns: ['n', 'text'], defaults: {}, rowid: 'n' },
    { name: 'b_numbered', kind: 'table', columns: ['text', 'n'], defaults: {}, rowid: 'n' },
    { name: 'c_texts', kind: 'table', columns: ['id', 'n'], defaults: {}, rowid: null },
    { name: 'd_short', kind: 'table', columns: ['n', 'text'], defaults: {}, rowid: null },
    { name: 'e_two', kind: 'table', columns: ['a', 'b'], defaults: {}, rowid: null },
    { name: 'f_none', kind: 'table', columns: ['a', 'b'], defaults: {}, rowid: null },
    ...indexes,
  ]);
});

test('[P3] one without row ids is stored by its key first, in the order of the key, and has no row id', async () => {
  const layouts = await layoutsWith(`
    create table keyed (first text, low text, last text, high text, primary key (high, low)) without rowid;
    create table numbered (text text, n integer primary key) without rowid;
  `);
  expect(layouts).toEqual([
    { name: 'keyed', kind: 'index', columns: ['high', 'low', 'first', 'last'], defaults: {}, rowid: null },
    { name: 'numbered', kind: 'index', columns: ['n', 'text'], defaults: {}, rowid: null },
    ...indexes,
  ]);
});

test('[P3] views, search tables and SQLite’s own tables are none; a name that merely begins so is one', async () => {
  const layouts = await layoutsWith(`
    create table counted (n integer primary key autoincrement);
    create table sqlitex (n integer);
    create view seen as select n from counted;
    create virtual table found using fts5(text);
    create temp table passing (n integer);
  `);
  const names = layouts.map(({ name }) => name);
  expect(names.filter((name) => !name.startsWith('found_'))).toEqual([
    'counted',
    'sqlitex',
    numbersIndex,
    yearsIndex,
    lettersIndex,
    photosIndex,
    yearCounts,
  ]);
});

test('[P3] what stands in a column of rows from before it is a text or a number; what SQLite works out stands for nothing', async () => {
  const [layout] = await layoutsWith(`create table preset (
    none text, empty text default '', quoted text default 'it''s ''so''', lines text default 'a
b', digits text default '12', zero integer default 0, below real default -1.5, said text default null, worked integer default (1 + 1),
    time text default current_timestamp, double text default "a"
  )`);
  expect(layout?.defaults).toEqual({
    empty: '',
    quoted: "it's 'so'",
    lines: 'a\nb',
    digits: '12',
    zero: 0,
    below: -1.5,
    said: null,
    worked: null,
    time: null,
    double: null,
  });
});

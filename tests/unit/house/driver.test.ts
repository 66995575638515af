import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const root = fileURLToPath(new URL('../../..', import.meta.url));

/** Code alone: what a comment says of transactions binds nobody. */
const withoutComments = (text: string): string => text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|\s)\/\/.*$/gm, '$1');

/** What only the driver and the migrations may know: that there are transactions, and that it is SQLite in this process. */
const driversOwn: readonly (readonly [string, RegExp])[] = [
  ['a transaction', /transaction/i],
  ['a pragma', /\bpragma\b(?!_)/i],
  ['begin, commit, rollback or a savepoint as SQL', /[`'"]\s*(begin(?! an)|commit|end transaction|rollback|savepoint|release)\b/i],
  ['sqlite3', /\bsqlite3\b/],
  ['the connection', /driver\/connection\.ts|\bConnection\b/],
  ['drizzle run by itself', /sqlite-proxy/],
];

/** A command of the command line has a name, which is no SQL. */
const withoutName = (text: string): string => text.replace(/^ {2}name: 'begin',$/m, '');

const faultsIn = (text: string): string[] =>
  driversOwn.flatMap(([what, how]) => (how.test(withoutName(withoutComments(text))) ? [what] : []));

const sources = readdirSync(root, { recursive: true, encoding: 'utf8' })
  .map((file) => file.split(path.sep).join('/'))
  .filter((file) => /^(db|electron|reasoner|renderer|seed-data)\/.*\.(ts|tsx|mts)$/.test(file))
  .filter((file) => !/^db\/(driver|migrations)\//.test(file));

describe('[R5] what the driver alone knows', () => {
  test('[R5] nothing else speaks of transactions, pragmas, or of SQLite in this process', () => {
    expect(sources.length).toBeGreaterThan(300);
    expect(sources.flatMap((file) => faultsIn(readFileSync(path.join(root, file), 'utf8')).map((what) => `${file}: ${what}`))).toEqual([]);
  });

  test.each([
    ["await connection.transaction('immediate', body);", ['a transaction']],
    ["await reader.all('pragma foreign_key_check');", ['a pragma']],
    ['const sql = `begin immediate`;', ['begin, commit, rollback or a savepoint as SQL']],
    ["import { Connection } from '../driver/connection.ts';", ['the connection']],
    ["import sqlite3 from 'sqlite3';", ['sqlite3']],
    ["const text = 'it begins, and they commit to it';", []],
    ["const label = 'Begin an atlas';", []],
    ["await reader.all('select * from pragma_foreign_key_check');", []],
    ['// Run it in a transaction.', []],
    ['/** One transaction. */ const a = 1;', []],
  ])('[R5] %s', (line, faults) => {
    expect(faultsIn(line)).toEqual(faults);
  });
});

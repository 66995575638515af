import { spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import Papa from 'papaparse';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { exitCodes } from '../../../electron/command-line/exit-codes.ts';
import { listingsJsonSchema, listingsSchema } from '../../../electron/command-line/listings-schema.ts';
import { holding } from './holding.ts';
import { kinplateRun } from './kinplate-run.ts';

const demoPack = path.join(import.meta.dirname, '../../../seed-data/demo-pack');
/** How many sample sheets the demo pack brings. */
const samples = readdirSync(path.join(demoPack, 'sheets')).length;
let scratch: string;
beforeEach(() => {
  scratch = mkdtempSync(path.join(tmpdir(), 'kinplate-listings-'));
});
afterEach(() => rmSync(scratch, { recursive: true, force: true }));

const kinplate = async (args: readonly string[], stopped = () => false) =>
  kinplateRun([...args, '--data', await holding(demoPack)], { shipped: path.dirname(demoPack), stopped });

const header = 'unit,title,maker,claimed,slot,feature,value,how,u,note';
/** A folder as a shop gathers it: samples, a table with a good and a bad unit, a torn sheet, a picture, bytes in another encoding. */
const gather = (): string => {
  const folder = path.join(scratch, 'listings');
  mkdirSync(folder);
  for (const name of readdirSync(path.join(demoPack, 'sheets')).filter((file) => /^s0[1-7]/.test(file)))
    cpSync(path.join(demoPack, 'sheets', name), path.join(folder, name));
  writeFileSync(
    path.join(folder, 'gathered.csv'),
    [
      header,
      'q1,=HYPERLINK("x"),Merrowby,Petrel 13 Cartridge,turbine wheel,blade count,11,seen,,'.replace(
        '=HYPERLINK("x")',
        '"=HYPERLINK(""x"")"',
      ),
      'q2,No count,,Petrel 13 Cartridge,turbine wheel,blade count,eleven,seen,,',
    ].join('\n'),
  );
  writeFileSync(path.join(folder, 'torn.json'), '{ "id": "torn"');
  writeFileSync(path.join(folder, 'umlaut.csv'), Buffer.concat([Buffer.from(`${header}\nq3,`), Buffer.from([0xfc, 0xe4, 0xf6])]));
  writeFileSync(path.join(folder, 'photo.jpg'), '');
  return folder;
};

describe('kinplate listings', () => {
  test('[T1] judges every sheet of a folder; those that cannot be read are listed with file, row and column, and stop no other', async () => {
    const folder = gather();
    const { code, out, err } = await kinplate(['listings', folder, '--format', 'json']);
    expect(code).toBe(exitCodes.badInput);
    expect(err).toContain('photo.jpg');
    const { rows, complete, cautions } = listingsSchema.parse(JSON.parse(out));
    expect(complete).toBe(true);
    expect(cautions).toHaveLength(3);
    expect(rows).toHaveLength(7 + 2 + 1 + 1);
    const unreadable = rows.filter(({ standing }) => standing === 'unreadable');
    expect(unreadable.map(({ source }) => source)).toEqual(['gathered.csv, unit q2', 'torn.json', 'umlaut.csv']);
    expect(unreadable[0]?.sentences).toEqual([
      'gathered.csv, row 3, column value: found "eleven", expected a whole number such as 11, or a range such as 10..11.',
    ]);
    expect(unreadable[1]?.sentences.join()).toMatch(/torn\.json, row 1/);
    expect(unreadable[2]?.sentences.join()).toContain('UTF-8');
    expect(rows[0]?.standing).toBe('no name');
    expect((await kinplate(['listings', folder, '--format', 'json'])).out, 'the same bytes again').toBe(out);
  });

  test('[K1] as text it is in the same order, with why and what each may be called, and the cautions at the end', async () => {
    const folder = gather();
    const { out } = await kinplate(['listings', folder]);
    const { rows } = listingsSchema.parse(JSON.parse((await kinplate(['listings', folder, '--format', 'json'])).out));
    const places = rows.map(({ source }) => out.indexOf(`· ${source}\n`) + out.indexOf(`${source}\n`));
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    for (const { sentences, may } of rows) for (const said of [...sentences, ...(may === null ? [] : [may])]) expect(out).toContain(said);
    expect(out).toMatch(/Cautions:\n.*burst/s);
  });

  test('[T1] as CSV no cell is read as a formula, and every row is there', async () => {
    const { out } = await kinplate(['listings', gather(), '--format', 'csv']);
    const { data } = Papa.parse<string[]>(out, { delimiter: ',', skipEmptyLines: true });
    expect(data).toHaveLength(1 + 11 + 3);
    expect(data.flat().some((cell) => cell === '\'=HYPERLINK("x")')).toBe(true);
    for (const cell of data.flat()) expect(cell).not.toMatch(/^[=+@\t\r-]/);
  });

  test('stopped, it prints what was judged and names the rest; the exit code says so', async () => {
    let asked = 0;
    const { code, out } = await kinplate(['listings', path.join(demoPack, 'sheets'), '--format', 'json'], () => {
      asked += 1;
      return asked >= 4;
    });
    expect(code).toBe(exitCodes.stopped);
    const { rows, complete } = listingsSchema.parse(JSON.parse(out));
    expect(complete).toBe(false);
    expect(rows).toHaveLength(samples);
    expect(rows.filter(({ standing }) => standing === 'not reached')).toHaveLength(samples - 4);
  });

  test('progress goes to the other channel, and one table or one sheet file may be named', async () => {
    const all = await kinplate(['listings', path.join(demoPack, 'sheets')]);
    expect(all.code).toBe(exitCodes.stands);
    expect(all.err).toContain(`25 of ${samples} judged`);
    const one = await kinplate(['listings', path.join(demoPack, 'sheets/s01-petrel-13-claim.json')]);
    expect(one.out).toMatch(/^1 row, atlas /);
  });

  test('[T1] a folder that is not there, or holds no sheet, and a command line that says too much are refused', async () => {
    expect((await kinplate(['listings', path.join(scratch, 'none')])).code).toBe(exitCodes.noInput);
    expect((await kinplate(['listings', scratch])).code).toBe(exitCodes.noInput);
    expect((await kinplate(['listings'])).code).toBe(exitCodes.usage);
    expect((await kinplate(['listings', 'a', 'b'])).code).toBe(exitCodes.usage);
    expect((await kinplate(['listings', scratch, '--format', 'xml'])).code).toBe(exitCodes.usage);
    expect((await kinplate(['packs', '--format', 'csv'])).code).toBe(exitCodes.usage);
  });

  test('[T1] kinplate schema listings prints its JSON Schema', async () => {
    const { out, code } = await kinplateRun(['schema', 'listings'], { shipped: path.dirname(demoPack) });
    expect(code).toBe(exitCodes.stands);
    expect(JSON.parse(out)).toEqual(JSON.parse(JSON.stringify(listingsJsonSchema())));
    expect(JSON.parse(out).$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    // What the schema says is what a program made from it would read.
    const read = z.fromJSONSchema(JSON.parse(out));
    expect(read.safeParse(JSON.parse((await kinplate(['listings', gather(), '--format', 'json'])).out)).success).toBe(true);
  });

  test('Ctrl-C stops the program between two sheets, and what it has is printed', async () => {
    const folder = path.join(scratch, 'many');
    mkdirSync(folder);
    const text = readFileSync(path.join(demoPack, 'sheets/s07-true-petrel.json'), 'utf8');
    for (let n = 0; n < 1500; n += 1) writeFileSync(path.join(folder, `unit-${n}.json`), text);
    const root = path.join(import.meta.dirname, '../../..');
    const child = spawn(
      process.execPath,
      ['electron/start/run-ts.mjs', 'electron/command-line/kinplate.ts', 'listings', folder, '--pack', demoPack, '--format', 'json'],
      { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] },
    );
    let out = '';
    child.stdout.on('data', (chunk: Buffer) => {
      out += String(chunk);
    });
    child.stderr.on('data', (chunk: Buffer) => {
      if (String(chunk).includes('judged')) child.kill('SIGINT');
    });
    const code = await new Promise((resolve) => child.once('close', resolve));
    expect(code).toBe(exitCodes.stopped);
    const { rows, complete } = listingsSchema.parse(JSON.parse(out));
    expect(complete).toBe(false);
    expect(rows).toHaveLength(1500);
    expect(rows.some(({ standing }) => standing === 'stands')).toBe(true);
  });
});

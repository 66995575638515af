import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { exitCodes } from '../../../electron/command-line/exit-codes.ts';
import { begunHouse } from './begun-house.ts';
import { kinplateRun } from './kinplate-run.ts';

const fixtures = path.join(import.meta.dirname, '../db/fixtures');
let data: string;
const kinplate = (...args: string[]) => kinplateRun([...args, '--data', data], { shipped: fixtures });
const written = (name: string, text: string): string => {
  writeFileSync(path.join(data, name), text);
  return path.join(data, name);
};
beforeEach(async () => {
  data = mkdtempSync(path.join(tmpdir(), 'kinplate-stock-'));
  const house = await begunHouse(data, fixtures);
  if (!house.ok) throw new Error(house.trouble.sentence);
  await house.value.close();
});
afterEach(() => rmSync(data, { recursive: true, force: true }));

test('[P1] the letter of the counter is taken in from a file, told, and refused where it is none', async () => {
  expect((await kinplate('shop')).out).toContain('this counter\tA\n');
  const set = (letter: unknown) => kinplate('shop', 'set', written('counter.json', JSON.stringify({ key: 'counter', value: { letter } })));
  expect(await set('K')).toMatchObject({ code: 0, err: '' });
  for (const letter of ['I', 'O', 'k', 'AB', '', 1])
    expect(await set(letter)).toMatchObject({
      code: exitCodes.badInput,
      err: expect.stringContaining('expected one capital letter from A to Z, but not I or O. Nothing was changed.'),
    });
  expect((await kinplate('shop')).out).toContain('this counter\tK\n');
});

test('[P1] a setting there is none of is told by the name it was given', async () => {
  const file = written('other.json', '{ "key": "mony", "value": null }');
  expect((await kinplate('shop', 'set', file)).err).toBe(`${file}, row 1, key: found "mony", expected a known key. Nothing was changed.`);
});

test('[P11] a script puts parts on the list, takes of one, writes the table and reads it again', async () => {
  expect(await kinplate('stock', 'add', '--what', 'Heat shield', '--price', '3')).toMatchObject({
    code: exitCodes.badInput,
    err: expect.stringContaining('has not said in what money it asks'),
  });
  const money = { key: 'money', value: { code: 'XTS', written: '', before: false, decimals: 2, hour: null } };
  expect(await kinplate('shop', 'set', written('money.json', JSON.stringify(money)))).toMatchObject({ code: 0, err: '' });
  const added = await kinplate(
    'stock',
    'add',
    '--part',
    'bh-tern',
    '--many',
    '3',
    '--condition',
    'new',
    '--price',
    '12,5',
    '--where',
    'Rack 2',
  );
  expect(added).toMatchObject({ code: 0, err: '' });
  expect((await kinplate('stock', 'add', '--what', 'Heat shield', '--number', 'COBBLE 7')).code).toBe(0);
  const number = await kinplate('number', 'berth', '120/3301');
  expect(number.code).toBe(0);
  expect(number.out).toMatch(/^BERTH 120-3301: Tern bearing housing, merrowby, bearing-housing\n {2}used in /);
  expect(number.out).toContain('  in stock: 3, new, 12.50 XTS, Rack 2\n');
  expect((await kinplate('number', 'cobble7')).out).toBe(
    'No part of the atlas has the number cobble7.\nOn the shelf, told in words: 1, Heat shield, not looked at yet, price not known\n',
  );
  const near = await kinplate('number', 'BERTH 102-3301');
  expect(near).toMatchObject({ code: exitCodes.open, out: expect.stringContaining('Near, if two signs changed places: BERTH 120-3301') });
  expect((await kinplate('stock', 'take', 'bh-tern', '--many', '2', '--who', 'Osk')).out).toMatch(/^1 left of .+\.\n$/);
  expect(await kinplate('stock', 'take', 'bh-tern', '--many', '2')).toMatchObject({ code: exitCodes.badInput, out: '' });
  expect((await kinplate('stock', 'take', 'bh-gannet')).code).toBe(exitCodes.noInput);
  const listed = await kinplate('stock', '--text', 'rack');
  expect(listed.out).toBe(`${added.out.trim()}\t1\t${listed.out.split('\t')[2]}\t${listed.out.split('\t')[3]}\tnew\t12.50 XTS\tRack 2\t\n`);
  expect((await kinplate('stock', '--text', 'nothing so called')).code).toBe(exitCodes.open);
  const table = written('stock.csv', (await kinplate('stock', '--csv')).out.replace('Rack 2', 'Rack 4'));
  expect((await kinplate('stock', 'read', table, '--look')).out).toBe('0 new, 1 changed, 1 as they are; nothing was changed.\n');
  expect((await kinplate('stock', '--text', 'rack 4')).out).toBe('');
  expect((await kinplate('stock', 'read', table, '--who', 'Osk')).out).toBe('0 new, 1 changed, 1 as they are.\n');
  expect((await kinplate('stock', '--text', 'rack 4', '--format', 'json')).out).toContain('"who": "Osk"');
  const faulty = await kinplate('stock', 'read', written('bad.csv', 'what,how many\nA,some\nB\uFFFD,1\n'));
  expect(faulty).toMatchObject({ code: exitCodes.badInput, out: '' });
  expect(faulty.err).toContain('not UTF-8');
});

test('[P13] [P14] a script takes in prices and keeps a paper, and writes both again', async () => {
  expect(await kinplate('prices', 'read', written('prices.csv', 'part,price,money\nbh-tern,15,XTS\n'), '--who', 'Osk')).toMatchObject({
    code: 0,
    out: '1 of 1 prices were changed.\n',
  });
  expect((await kinplate('prices')).out).toBe('bh-tern\t15 XTS\tTern bearing housing\t\n');
  expect((await kinplate('prices', '--csv')).out).toBe('part,state,name,price,money,note\r\nbh-tern,1,Tern bearing housing,15,XTS,\r\n');
  expect((await kinplate('prices', 'read', written('bad.csv', 'part,price\nbh-tern,some\n'))).code).toBe(exitCodes.badInput);
  const letter = written('letter.txt', 'Dear Osk');
  expect((await kinplate('paper', 'add', letter)).code).toBe(exitCodes.usage);
  const added = await kinplate('paper', 'add', letter, '--part', 'bh-tern', '--title', 'a letter');
  expect(added).toMatchObject({ code: 0, err: '' });
  expect((await kinplate('papers', '--part', 'bh-tern')).out).toBe(
    `${added.out.trim()}\tpart\tbh-tern\tletter.txt\ta letter\ttext/plain\t8 bytes\n`,
  );
  expect((await kinplate('paper', 'write', added.out.trim(), path.join(data, 'out.txt'))).code).toBe(0);
  expect(readFileSync(path.join(data, 'out.txt'), 'utf8')).toBe('Dear Osk');
  expect((await kinplate('paper', 'write', '0'.repeat(64), path.join(data, 'none.txt'))).code).toBe(exitCodes.noInput);
});

test('[P10] what the shop says of itself is set from a file and told; a file that says no setting changes nothing', async () => {
  const head = { key: 'letterhead', value: { name: 'Saltmarsh Rotor & Fuel', lines: ['Quay 4', 'Port Hallow'] } };
  expect((await kinplate('shop')).out).toContain('money\tnot said\n');
  expect((await kinplate('shop', 'set', written('head.json', JSON.stringify(head)), '--who', 'Ines')).code).toBe(0);
  expect((await kinplate('shop')).out).toContain('letterhead\tSaltmarsh Rotor & Fuel, Quay 4, Port Hallow\n');
  for (const wrong of ['{', '{"key":"colour","value":1}', JSON.stringify({ ...head, value: { ...head.value, name: 'two\nlines' } })])
    expect(await kinplate('shop', 'set', written('wrong.json', wrong))).toMatchObject({ code: exitCodes.badInput, out: '' });
  expect(JSON.parse((await kinplate('shop', '--format', 'json')).out)).toMatchObject({
    letterhead: { value: { ...head.value, logo: null }, who: 'Ines' },
    money: { value: null, version: null },
  });
});

test('[L1] a file that is named and is not there is told by its name and why, whatever the command', async () => {
  const none = path.join(data, 'none.file');
  for (const args of [
    ['verdict', '--sheet', none],
    ['listings', none],
    ['prices', 'read', none],
    ['stock', 'read', none],
    ['shop', 'set', none],
    ['paper', 'add', none, '--part', 'x'],
    ['change', 'look', none],
    ['case', 'take-in', none],
    ['trust', 'add', none],
    ['pack', 'load', fixtures, '--map', none],
    ['table', 'look', none],
  ])
    expect(await kinplate(...args), args.join(' ')).toMatchObject({
      code: exitCodes.noInput,
      err: expect.stringContaining(`${none} cannot be read: there is no such file.`),
    });
  expect((await kinplate('stock', 'read', data)).err).toBe(`${data} cannot be read: it is a folder.`);
});

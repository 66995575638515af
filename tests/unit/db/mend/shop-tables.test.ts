import { getTableColumns, getTableName, is } from 'drizzle-orm';
import { SQLiteTable } from 'drizzle-orm/sqlite-core';
import { describe, expect, test } from 'vitest';
import { isLettered, isNumbered, isShown, jsonIn, keyOfRow, photoHolds, shopTables } from '../../../../db/mend/shop-tables.ts';
import type { SalvagedRow } from '../../../../db/salvage/salvage.ts';
import * as schema from '../../../../db/schema.ts';
import { photoIdOf } from '../../../../db/shop/case-photos.ts';
import { jpeg, png } from '../photos/pictures.ts';
import { card } from './card.ts';

const tableNamed = (name: string) => {
  const table = shopTables.find((one) => one.name === name);
  if (table === undefined) throw new Error(`no table ${name}`);
  return table;
};

type Values = readonly unknown[];
const bytes = (value: string): Buffer => Buffer.from(value);

const publicKey = '11qYAYKxCrfVS/7TyWQHOg7hcvPapiMlrwIaaPcHURo=';
const noText: Values = [null, undefined, 7, bytes('a text')];
const noLetter = [null, undefined, 'I', 'O', 'b', 'AB', 7, bytes('B')];
const noId: Values = [...noText, ''];
const noWhole: Values = [null, undefined, '1', 1.5, 2 ** 31, -(2 ** 31), Number.POSITIVE_INFINITY, bytes('1')];
const wholes: Values = [-(2 ** 31) + 1, -1, 0, 2 ** 31 - 1];
const noYear: Values = [null, '2026', 2026.5, 1900, 10_000];
const years: Values = [1901, 9999];
const noTime: Values = [
  null,
  7,
  '',
  '2026-03-04',
  '2026-03-04T12:00:00',
  '2026-03-04T12:00:00.000',
  '2026-03-04T12:00:00+01:00',
  '2026-03-04T12:00Z',
  '2026-03-04 12:00:00Z',
  'x2026-03-04T12:00:00Z',
  '2026-03-04T12:00:00Zx',
  '2026-13-04T12:00:00Z',
  '2025-02-29T12:00:00Z',
  '2026-03-04T24:00:00Z',
  '2026-03-04T12:60:00Z',
  '2026-03-04T12:00:61Z',
  bytes('2026-03-04T12:00:00Z'),
];
const times: Values = ['2026-03-04T12:00:00Z', '2026-03-04T12:00:00.5Z', '2024-02-29T23:59:59.999Z'];
const noDay: Values = [
  null,
  7,
  '',
  '2026-3-4',
  '2026-03-04T',
  ' 2026-03-04',
  '2026-00-04',
  '2026-13-04',
  '2026-03-00',
  '2026-04-31',
  '2025-02-29',
  bytes('2026-03-04'),
];
const days: Values = ['2024-02-29', '2026-12-31'];
const noHash: Values = [null, 7, '', 'a'.repeat(63), 'a'.repeat(65), 'A'.repeat(64), `${'a'.repeat(63)}g`, bytes('a'.repeat(64))];
const hashes: Values = ['0123456789abcdef'.repeat(4)];
const noFlag: Values = [null, true, '1', 2, -1];
const noNames: Values = [7, '', '["a"', '{"0":"a"}', '"a"', 'null', '[1]', '["a",null]', bytes('["a"]')];
const lists: Values = ['[]', '["a","b"]'];
const noSubject: Values = [
  7,
  '',
  '{"kind":"family","id":"a","text":"A"',
  'null',
  '[]',
  '"a"',
  '{"id":"a","text":"A"}',
  '{"kind":"family","text":"A"}',
  '{"kind":"family","id":"a"}',
  '{"kind":1,"id":"a","text":"A"}',
  '{"kind":"family","id":1,"text":"A"}',
  '{"kind":"family","id":"a","text":1}',
];
const subjects: Values = [null, '{"kind":"family","id":"a","text":"A"}'];

const sheet = {
  id: 'own-1',
  title: 'Unit 1',
  story: 'as it came in',
  kind: 'found',
  claimed: 'Petrel 3',
  claimedMaker: null,
  observations: [{ id: 'o-1', slot: 's', feature: 'f', value: { kind: 'presence', present: true }, sure: { kind: 'seen' } }],
  absent: [],
  chosen: {},
};
const body = JSON.stringify(sheet);
const noBody: Values = [
  null,
  7,
  '',
  body.slice(0, -1),
  '{}',
  '[]',
  JSON.stringify({ ...sheet, id: 'own-2' }),
  JSON.stringify({ ...sheet, colour: 'grey' }),
  bytes(body),
];

const { last_review: _, ...newCard } = card;
const figures = ['stability', 'difficulty', 'elapsed_days', 'scheduled_days', 'learning_steps', 'reps', 'lapses', 'state'];
const noCard: Values = [
  null,
  7,
  '',
  JSON.stringify(card).slice(0, -1),
  'null',
  '[]',
  ...noTime.filter((value) => !Buffer.isBuffer(value)).map((due) => JSON.stringify({ ...card, due })),
  ...noTime.filter((value) => !Buffer.isBuffer(value)).map((last) => JSON.stringify({ ...card, last_review: last })),
  ...figures.flatMap((name) => [null, '1', undefined].map((value) => JSON.stringify({ ...card, [name]: value }))),
];

const verdict = JSON.stringify({ kind: 'verdict', edition: 'small 1' });
const photo = photoIdOf(jpeg);
const lastByte = Buffer.from(jpeg);
lastByte[lastByte.length - 1] = 0;

const letterhead = { name: 'Saltmarsh Rotor & Fuel', lines: ['Port Hallow'], logo: null };

interface Case {
  readonly row: SalvagedRow;
  /** By column: values with which the row is none. */
  readonly refused: Readonly<Record<string, Values>>;
  /** By column: other values with which it is one. */
  readonly taken: Readonly<Record<string, Values>>;
}

const at = '2026-03-04T12:00:00.000Z';

/** A row of every table as the program keeps it. */
const cases: Readonly<Record<string, Case>> = {
  sheets: {
    row: {
      id: 'own-1',
      origin: 'own',
      pack: null,
      position: 3,
      title: 'Unit 1',
      kind: 'found',
      claimed: 'Petrel 3',
      observations: 1,
      body,
      saved_at: at,
    },
    refused: {
      id: [null, '', 'own-2', bytes('own-1')],
      origin: [null, '', 'sample', bytes('own')],
      pack: ['small', '', undefined],
      position: noWhole,
      title: [null, '', 'Unit 2', bytes('Unit 1')],
      kind: [null, 'planned', bytes('found')],
      claimed: [null, '', 'Petrel', bytes('Petrel 3')],
      observations: [null, 0, 2, '1'],
      body: [
        ...noBody,
        ...[{ title: 'Unit 2' }, { kind: 'planned' }, { claimed: null }, { observations: [] }].map((other) =>
          JSON.stringify({ ...sheet, ...other }),
        ),
      ],
      saved_at: noTime,
    },
    taken: { position: wholes, saved_at: times, body: [JSON.stringify({ ...sheet, story: 'told anew' })] },
  },
  case_counts: {
    row: { letter: 'B', year: 2026, last: 12 },
    refused: { letter: noLetter, year: noYear, last: [...noWhole, 0, -1] },
    taken: { letter: ['', 'A', 'Z'], year: years, last: [1, 2 ** 31 - 1] },
  },
  cases: {
    row: { sheet: 'own-1', year: 2026, number: 12, opened_on: '2026-03-04', letter: 'B' },
    refused: { letter: noLetter, sheet: noId, year: noYear, number: [...noWhole, 0, -1], opened_on: noDay },
    taken: { year: years, number: [1, 2 ** 31 - 1], opened_on: days, letter: ['', 'A', 'Z'] },
  },
  case_details: {
    row: { sheet: 'own-1', n: 1, at, customer: 'Aalis', looked_by: 'Osk', notes: 'Oil at the seal.', who: 'Osk' },
    refused: { sheet: noId, n: noWhole, at: noTime, customer: noText, looked_by: noText, notes: noText, who: noText },
    taken: { n: wholes, at: times, customer: [''], looked_by: [''], notes: [''], who: [''] },
  },
  case_entries: {
    row: { sheet: 'own-1', n: 1, at, who: 'Osk', edition: 'small 1', body, verdict, claim_status: 'open' },
    refused: {
      sheet: [null, '', 'own-2', bytes('own-1')],
      n: noWhole,
      at: noTime,
      who: noText,
      edition: [null, undefined, '', 'small 2', bytes('small 1')],
      body: noBody,
      verdict: [null, 7, '', verdict.slice(0, -1), 'null', '[]', '"small 1"', '{}', '{"edition":"small 2"}', bytes(verdict)],
      claim_status: [undefined, '', 'closed', 7, bytes('open')],
    },
    taken: { n: wholes, at: times, who: [''], claim_status: [null, 'ruled out', 'stands'] },
  },
  own_words: {
    row: { pack: 'small', cell: 'parts/cw-tern-9/facts/cw-blades', own: '[{"kind":"count","from":8,"to":8}]', said: null },
    refused: {
      pack: noId,
      cell: [...noId, 'parts', 'parts/', '/x', '7/x'],
      own: [undefined, null, 7, '', '[', bytes('[1]')],
      said: [undefined, 7, '', '[', '[{"kind":"count","from":8,"to":8}]', bytes('[1]')],
    },
    taken: { own: ['[true]', '["a text",1024]'], said: ['[true]'], cell: ['allowed/tern-9/cw-tern-4', 'makers/merrowby'] },
  },
  case_words: {
    row: {
      sheet: 'own-1',
      n: 1,
      at,
      who: 'Osk',
      decided_by: 'shop',
      person: 'Wenna',
      day: '2026-03-04',
      decision: 'Keep it.',
      ground: 'Paid.',
    },
    refused: {
      sheet: noId,
      n: [...noWhole, 0, -1],
      at: noTime,
      who: noText,
      decided_by: [null, undefined, '', 'customer', 7, bytes('shop')],
      person: noText,
      day: noDay,
      decision: noText,
      ground: noText,
    },
    taken: { n: [1, 2 ** 31 - 1], at: times, who: [''], decided_by: ['maker'], day: days },
  },
  unit_numbers: {
    row: { sheet: 'own-1', n: 1, says: 'serial number', text: 'K 0017', key: 'K0017' },
    refused: {
      sheet: noId,
      n: noWhole,
      says: [null, '', 'number', bytes('serial number')],
      text: noText,
      key: [undefined, 7, bytes('K0017')],
    },
    taken: { n: wholes, says: ['part number'], text: [''], key: [null, ''] },
  },
  case_origins: {
    row: { sheet: 'own-1', n: 1, number: '2026-0007', at, who: 'Osk' },
    refused: { sheet: noId, n: noWhole, number: noText, at: noTime, who: noText },
    taken: { n: wholes, at: times, who: [''] },
  },
  cases_left: {
    row: { sheet: 'own-1', n: 1, at, who: 'Osk', reason: 'told so', entry: 1, otherwise: 'a'.repeat(64) },
    refused: { sheet: noId, n: noWhole, at: noTime, who: noText, reason: noText, entry: noWhole, otherwise: noHash },
    taken: { n: wholes, at: times, who: [''], entry: wholes, otherwise: hashes },
  },
  keyring: {
    row: { key: publicKey, name: 'Tern Works', since: at, who: 'Osk', withdrawn_at: null, withdrawn_who: null, at },
    refused: {
      key: [...noText, '', publicKey.slice(1), `${publicKey}A`, publicKey.replace('=', '')],
      name: [...noText, '', ' Tern', 'Tern\nWorks', 'x'.repeat(201)],
      since: noTime,
      who: noText,
      withdrawn_at: [undefined, 7, '2026-03-04', at],
      withdrawn_who: [undefined, 7, '', 'Osk'],
      at: noTime,
    },
    taken: { name: ['x'.repeat(200)], since: times, who: [''], at: times },
  },
  table_templates: {
    row: {
      name: 'the list',
      headings: '["number"]',
      matching: '{"kind":"parts","sheet":null,"headings":1,"columns":[{"is":"numbers"}],"slot":null,"maker":null}',
      saved_at: at,
    },
    refused: {
      name: noId,
      headings: [...noText, 'number', '[1]', '{}'],
      matching: [...noText, '{}', '{"kind":"parts","sheet":null,"headings":1,"columns":[{"is":"anything"}],"slot":null,"maker":null}'],
      saved_at: noTime,
    },
    taken: { headings: ['[]'], saved_at: times },
  },
  photos: {
    row: {
      id: photo,
      type: 'image/jpeg',
      width: 16,
      height: 12,
      size: jpeg.length,
      bytes: jpeg,
      thumbnail_type: 'image/png',
      thumbnail: png,
    },
    refused: {
      id: [...noHash, 'a'.repeat(64), photoIdOf(png)],
      type: [null, '', 'image/gif', bytes('image/jpeg')],
      width: [...noWhole, 0, -1],
      height: [...noWhole, 0, -1],
      size: [null, jpeg.length - 1, jpeg.length + 1, String(jpeg.length)],
      bytes: [null, jpeg.toString('latin1'), lastByte, jpeg.subarray(1), Buffer.alloc(0)],
      thumbnail_type: [null, '', 'image/gif', bytes('image/png')],
      thumbnail: [null, '', 'a picture', 7],
    },
    taken: {
      type: ['image/png', 'image/webp'],
      width: [1, 2 ** 31 - 1],
      height: [1, 2 ** 31 - 1],
      thumbnail_type: ['image/jpeg', 'image/webp'],
    },
  },
  case_photos: {
    row: { sheet: 'own-1', photo, added_at: at, caption: 'nose', about_slot: null, about_observation: 'o-1', n: 2 },
    refused: {
      sheet: noId,
      photo: noHash,
      added_at: noTime,
      caption: noText,
      about_slot: ['s', 7, bytes('s')],
      about_observation: [undefined, 7, bytes('o-1')],
      n: noWhole,
    },
    taken: { photo: hashes, added_at: times, caption: [''], about_observation: [null], n: wholes },
  },
  shop_settings: {
    row: { key: 'letterhead', value: JSON.stringify(letterhead), at, who: 'Ines' },
    refused: {
      key: [...noText, '', 'colour', 'money', 'measures', 'people', 'counter'],
      value: [
        null,
        '',
        'null',
        '[]',
        JSON.stringify(letterhead).slice(0, -1),
        ...[{ name: 1 }, { lines: 'Quay 4' }, { lines: [4] }, { logo: 'sign' }].map((other) => JSON.stringify({ ...letterhead, ...other })),
        bytes(JSON.stringify(letterhead)),
      ],
      at: noTime,
      who: noText,
    },
    taken: {
      value: [JSON.stringify({ ...letterhead, logo: { file: photo } }), JSON.stringify({ ...letterhead, lines: [] })],
      at: times,
      who: [''],
    },
  },
  kept_files: {
    row: { id: photo, type: 'image/jpeg', size: jpeg.length, bytes: jpeg },
    refused: { id: [...noHash, ...hashes], type: noId, size: [...noWhole, 0, jpeg.length - 1], bytes: [null, '', lastByte, png] },
    taken: { type: ['application/pdf'] },
  },
  documents: {
    row: { about: 'part', of: 'bh-1', file: photo, n: 1, name: 'sheet.pdf', title: 'The supplier’s sheet', at, who: 'Ines' },
    refused: {
      about: [...noText, '', 'model'],
      of: noId,
      file: noHash,
      n: noWhole,
      name: noText,
      title: noText,
      at: noTime,
      who: noText,
    },
    taken: { about: ['source'], n: wholes, title: [''], at: times, who: [''] },
  },
  stock: {
    row: {
      line: 'l-1',
      n: 1,
      at,
      who: 'Ines',
      gone: 0,
      part: 'bh-1',
      words: 'bearing housing',
      number: '',
      many: 3,
      condition: 'new',
      price: 12.5,
      money: 'XTS',
      place: 'Rack 3',
      note: '',
    },
    refused: {
      line: noId,
      n: noWhole,
      at: noTime,
      who: noText,
      gone: noFlag,
      part: [7, undefined, bytes('bh-1')],
      words: noText,
      number: noText,
      many: [...noWhole, -1],
      condition: [...noText, 'fair'],
      price: [null, undefined, '12.5', 0, -1],
      money: [null, undefined, 7, bytes('XTS')],
      place: noText,
      note: noText,
    },
    taken: { n: wholes, at: times, gone: [1], part: [null], many: [0], condition: ['not looked at yet'], price: [0.01, 12] },
  },
  shop_prices: {
    row: { part: 'bh-1', n: 1, at, who: 'Ines', price: 12.5, money: 'XTS', note: '' },
    refused: {
      part: noId,
      n: noWhole,
      at: noTime,
      who: noText,
      price: [null, undefined, '12.5', 0, -1],
      money: [null, undefined, 7],
      note: noText,
    },
    taken: { n: wholes, at: times, price: [0.01], who: [''] },
  },
  samples: {
    row: {
      id: 's-1',
      part: 'cw-9',
      slot: 'compressor-wheel',
      feature: 'cw-inducer',
      value: '{"kind":"measure","value":52.03}',
      u: 0.01,
      how: 'calliper',
      from_sheet: 'found-1',
      entry: 'o1',
      case_number: '2026-0001',
      kept_at: at,
      who: 'Ines',
      out_by: null,
      at,
    },
    refused: {
      ...Object.fromEntries(['id', 'part', 'slot', 'feature', 'from_sheet', 'entry'].map((name) => [name, noId])),
      value: [null, '', 'null', '{"kind":"measure"}', '{"kind":"measure","value":"52"}', '{"kind":"presence","present":true}', bytes('{}')],
      u: [null, undefined, 0, -0.01, '0.01'],
      how: noText,
      case_number: noText,
      kept_at: noTime,
      who: noText,
      out_by: [7, undefined, bytes('Osk')],
      at: noTime,
    },
    taken: { how: [''], kept_at: times, at: times, who: [''], out_by: ['', 'Osk'], u: [2] },
  },
  courses: {
    row: { id: 'first-week', name: 'First week', families: '["petrel"]', kinds: '["looks"]', new_per_day: 4 },
    refused: { id: noId, name: noText, families: noNames, kinds: noNames, new_per_day: [...noWhole, -1] },
    taken: { name: [''], families: [null, ...lists], kinds: [null, ...lists], new_per_day: [0, 2 ** 31 - 1] },
  },
  learners: {
    row: { id: 'wenna', name: 'Wenna', course: 'first-week', since: at, n: 1, level: 'by eye' },
    refused: {
      id: noId,
      name: noText,
      course: [undefined, 7, bytes('first-week')],
      since: noTime,
      n: noWhole,
      level: [undefined, null, '', 'expert', 7],
    },
    taken: { name: [''], course: [null, ''], since: times, n: wholes, level: ['measured'] },
  },
  drill_cards: {
    row: { learner: 'wenna', topic: 'looks:petrel+skua', due: at, card: JSON.stringify(card) },
    refused: { learner: noId, topic: noId, due: noTime, card: noCard },
    taken: { due: times, card: [JSON.stringify(newCard), JSON.stringify({ ...card, state: 0, reps: -1 })] },
  },
  drill_answers: {
    row: {
      learner: 'wenna',
      n: 1,
      topic: 'looks:petrel+skua',
      seed: 17,
      edition: 'small 1',
      first: 1,
      response: '["choice-1"]',
      correct: 0,
      asked: '{"kind":"family","id":"petrel","text":"Petrel"}',
      answered: '{"kind":"family","id":"skua","text":"Skua"}',
      at,
    },
    refused: {
      learner: noId,
      n: noWhole,
      topic: noId,
      seed: noWhole,
      edition: noText,
      first: noFlag,
      response: [null, ...noNames],
      correct: noFlag,
      asked: noSubject,
      answered: noSubject,
      at: noTime,
    },
    taken: {
      n: wholes,
      seed: wholes,
      edition: [''],
      first: [0],
      response: lists,
      correct: [1],
      asked: subjects,
      answered: subjects,
      at: times,
    },
  },
};

const shown = (value: unknown): string =>
  Buffer.isBuffer(value) ? `bytes ${value.toString('latin1').slice(0, 20)}` : (JSON.stringify(value) ?? 'nothing').slice(0, 60);
const spoilt = (row: SalvagedRow, column: string, value: unknown): SalvagedRow => ({ ...row, [column]: value as SalvagedRow[string] });

describe('rows that hang together in themselves', () => {
  test('[P3] every table of the shop is asked here, with every column it has', () => {
    expect(Object.keys(cases).sort()).toEqual(shopTables.map(({ name }) => name).sort());
    const columns = new Map(
      Object.values<unknown>(schema)
        .filter((one) => is(one, SQLiteTable))
        .map((one) => [getTableName(one), Object.values(getTableColumns(one)).map(({ name }) => name)]),
    );
    for (const [name, { row, refused }] of Object.entries(cases)) {
      expect(Object.keys(row).sort()).toEqual(columns.get(name)?.sort());
      expect(Object.keys(refused).sort()).toEqual(Object.keys(row).sort());
    }
  });

  test('[P3] whose a row is, what tells it from others, and when it was written', () => {
    expect(shopTables.map(({ name, keys, whose, at: when }) => [name, keys.join(' '), whose, when])).toEqual([
      ['sheets', 'id origin', { column: 'id', table: 'sheets' }, 'saved_at'],
      ['case_counts', 'letter year', null, null],
      ['cases', 'sheet', { column: 'sheet', table: 'sheets' }, null],
      ['case_details', 'sheet n', { column: 'sheet', table: 'sheets' }, 'at'],
      ['case_entries', 'sheet n', { column: 'sheet', table: 'sheets' }, 'at'],
      ['case_words', 'sheet n', { column: 'sheet', table: 'sheets' }, 'at'],
      ['unit_numbers', 'sheet n', { column: 'sheet', table: 'sheets' }, null],
      ['case_origins', 'sheet n', { column: 'sheet', table: 'sheets' }, 'at'],
      ['cases_left', 'sheet n', { column: 'sheet', table: 'sheets' }, 'at'],
      ['own_words', 'pack cell', null, null],
      ['keyring', 'key', null, 'at'],
      ['table_templates', 'name', null, 'saved_at'],
      ['photos', 'id', null, null],
      ['case_photos', 'sheet photo', { column: 'sheet', table: 'sheets' }, 'added_at'],
      ['shop_settings', 'key', null, 'at'],
      ['kept_files', 'id', null, null],
      ['documents', 'about of file', null, 'at'],
      ['stock', 'line n', null, 'at'],
      ['shop_prices', 'part n', null, 'at'],
      ['samples', 'id', null, 'at'],
      ['courses', 'id', null, null],
      ['learners', 'id', { column: 'id', table: 'learners' }, null],
      ['drill_cards', 'learner topic', { column: 'learner', table: 'learners' }, null],
      ['drill_answers', 'learner topic seed', { column: 'learner', table: 'learners' }, 'at'],
    ]);
  });

  test.each(Object.entries(cases))(
    '[P3] a row of %s as the program keeps it is one, and so it is with whatever else may stand in it',
    (name, { row, taken }) => {
      const { holds } = tableNamed(name);
      expect(holds(row)).toBe(true);
      for (const [column, values] of Object.entries(taken))
        for (const value of values) expect([column, shown(value), holds(spoilt(row, column, value))]).toEqual([column, shown(value), true]);
    },
  );

  test.each(Object.entries(cases))('[P3] a row of %s with one column spoilt is none', (name, { row, refused }) => {
    const { holds } = tableNamed(name);
    for (const [column, values] of Object.entries(refused))
      for (const value of values) expect([column, shown(value), holds(spoilt(row, column, value))]).toEqual([column, shown(value), false]);
  });

  test.each(Object.entries(cases))('[P3] a row of %s is none where one of its columns cannot be read, whichever it is', (name, { row }) => {
    for (const column of Object.keys(row))
      expect([column, tableNamed(name).holds(spoilt(row, column, undefined))]).toEqual([column, false]);
  });

  test('[P3] a sheet that claims nothing says so in its row and in its body', () => {
    const { row } = cases.sheets as Case;
    const none = { ...row, claimed: null, body: JSON.stringify({ ...sheet, claimed: null }) };
    expect(tableNamed('sheets').holds(none)).toBe(true);
    expect(tableNamed('sheets').holds({ ...none, claimed: '' })).toBe(false);
  });

  test('[P3] what the shop says under each key is of its own shape; no price has no money, and no money no price', () => {
    const setting = tableNamed('shop_settings');
    const of = (key: string, value: unknown) => setting.holds({ key, value: JSON.stringify(value), at, who: '' });
    const money = { code: 'XTS', written: '', before: false, decimals: 2, hour: null };
    expect([
      of('money', money),
      of('measures', { unit: 'mm', comma: true }),
      of('people', { names: ['Ines'] }),
      of('counter', { letter: 'K' }),
    ]).toEqual([true, true, true, true]);
    for (const field of ['code', 'written', 'before', 'decimals'])
      expect([field, of('money', { ...money, [field]: null })]).toEqual([field, false]);
    for (const [key, value] of [
      ['money', null],
      ['measures', null],
      ['measures', { unit: 'mm' }],
      ['measures', { comma: true }],
      ['people', {}],
      ['people', { names: [1] }],
      ['letterhead', null],
      ...['', 'I', 'O', 'k', 'AB', 7].map((letter) => ['counter', { letter }] as const),
      ['counter', {}],
    ] as const)
      expect([key, value, of(key, value)]).toEqual([key, value, false]);
    for (const name of ['stock', 'shop_prices'])
      expect(tableNamed(name).holds({ ...(cases[name] as Case).row, price: null, money: null })).toBe(true);
  });

  test('[P3] a decision that was taken back has nothing in it; with a word left of it, the row is none', () => {
    const { row } = cases.case_words as Case;
    const { holds } = tableNamed('case_words');
    const back: SalvagedRow = { ...row, decided_by: null, person: null, day: null, decision: null, ground: null };
    expect(holds(back)).toBe(true);
    for (const column of ['person', 'day', 'decision', 'ground']) {
      expect(holds({ ...back, [column]: row[column] ?? null })).toBe(false);
      expect(holds({ ...back, [column]: '' })).toBe(false);
    }
  });

  test('[P3] a photograph is of a slot or of an entry, never of both, and may be of neither', () => {
    const { row } = cases.case_photos as Case;
    const { holds } = tableNamed('case_photos');
    expect(holds({ ...row, about_slot: 's', about_observation: null })).toBe(true);
    expect(holds({ ...row, about_slot: null, about_observation: null })).toBe(true);
    expect(holds({ ...row, about_slot: 's', about_observation: 'o-1' })).toBe(false);
  });

  test('[P3] an entry whose verdict and row say of no edition is none', () => {
    const { row } = cases.case_entries as Case;
    expect(tableNamed('case_entries').holds({ ...row, edition: null, verdict: '{"edition":null}' })).toBe(false);
  });

  test('[P3] a photograph holds without its small picture, and not without anything else', () => {
    const { row, refused } = cases.photos as Case;
    expect(photoHolds({ ...row, thumbnail: null, thumbnail_type: null })).toBe(true);
    expect(photoHolds(row)).toBe(true);
    for (const [column, values] of Object.entries(refused))
      for (const value of values)
        expect([column, shown(value), photoHolds(spoilt(row, column, value))]).toEqual([
          column,
          shown(value),
          column.startsWith('thumbnail'),
        ]);
  });
});

describe('what is asked of a row', () => {
  test('[P3] a row of the index of case numbers has a year, a number from 1 and a sheet', () => {
    const row = { year: 2026, number: 12, sheet: 'own-1' };
    expect(isNumbered(row)).toBe(true);
    for (const year of years) expect(isNumbered(spoilt(row, 'year', year))).toBe(true);
    for (const year of noYear) expect(isNumbered(spoilt(row, 'year', year))).toBe(false);
    for (const number of [1, 2 ** 31 - 1]) expect(isNumbered(spoilt(row, 'number', number))).toBe(true);
    for (const number of [...noWhole, 0, -1]) expect(isNumbered(spoilt(row, 'number', number))).toBe(false);
    for (const of of noId) expect(isNumbered(spoilt(row, 'sheet', of))).toBe(false);
  });

  test('[P3] a row of the index of letters has a letter a counter may have, or none, and a sheet', () => {
    const row = { letter: 'B', sheet: 'own-1' };
    expect([isLettered(row), isLettered({ ...row, letter: '' })]).toEqual([true, true]);
    for (const letter of noLetter) expect(isLettered(spoilt(row, 'letter', letter))).toBe(false);
    for (const of of noId) expect(isLettered(spoilt(row, 'sheet', of))).toBe(false);
  });

  test('[P3] a row of the index of photographs has a photograph by its hash and a sheet', () => {
    const row = { photo, sheet: 'own-1' };
    expect(isShown(row)).toBe(true);
    for (const of of noHash) expect(isShown(spoilt(row, 'photo', of))).toBe(false);
    for (const of of noId) expect(isShown(spoilt(row, 'sheet', of))).toBe(false);
  });

  test('[P3] a key is the columns that tell a row apart, in their order, and nothing where one is not there', () => {
    expect(keyOfRow({ keys: ['sheet', 'n'] }, { n: 2, sheet: 'own-1', at })).toBe('["own-1",2]');
    expect(keyOfRow({ keys: ['n', 'sheet'] }, { n: 2, sheet: 'own-1', at })).toBe('[2,"own-1"]');
    expect(keyOfRow({ keys: ['sheet', 'n'] }, { sheet: 'own-1' })).toBe('["own-1",null]');
    expect(keyOfRow({ keys: ['sheet'] }, { sheet: '1' })).not.toBe(keyOfRow({ keys: ['sheet'] }, { sheet: 1 }));
  });

  test('[P3] JSON is read of a text that is some, of nothing else', () => {
    expect(jsonIn('{"a":[1,null]}')).toEqual({ a: [1, null] });
    expect(jsonIn('null')).toBe(null);
    expect([jsonIn('{"a":[1,null]'), jsonIn(''), jsonIn(null), jsonIn(7), jsonIn(bytes('{}'))]).toEqual(Array(5).fill(undefined));
  });
});

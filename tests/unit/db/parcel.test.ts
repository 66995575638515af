import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import type { ShopWord, Store } from '../../../db/index.ts';
import { shown } from '../../../db/read/faults.ts';
import { asId, type Sheet, type SheetId } from '../../../reasoner/index.ts';
import { keepSheet } from './keep-sheet.ts';
import { filledStore, freshStore, troubleIn, valueIn } from './kit.ts';
import { jpeg, png, webp } from './photos/pictures.ts';
import { jpegWithPosition } from './photos/with-position.ts';

const mine = asId<SheetId>('mine');
const word: ShopWord = { by: 'maker', person: 'Osk', day: '2026-03-10', decision: 'The plate is theirs.', ground: 'their letter' };

const shop = async (start = '2026-03-04T12:00:00.000Z'): Promise<{ store: Store; clock: { now: string }; sheet: Sheet }> => {
  const clock = { now: start };
  const store = await filledStore({ now: () => new Date(clock.now) });
  return { store, clock, sheet: { ...valueIn(await store.sheets.open(asId<SheetId>('found-01'))), id: mine } };
};

/** A case with everything in it. */
const fullCase = async () => {
  const at = await shop();
  const { store, clock, sheet } = at;
  valueIn(await keepSheet(store, { ...sheet, title: 'As brought in' }, 'Marit'));
  clock.now = '2026-03-05T09:30:00.000Z';
  valueIn(await keepSheet(store, { ...sheet, serial: 'H-11 207' }, 'Osk'));
  valueIn(await store.cases.describe(mine, { customer: 'Réka, berth 4', lookedBy: 'Marit', notes: 'Shaft is blue.\nAgain.' }));
  valueIn(await store.cases.say(mine, word, 'Ines'));
  valueIn(await store.cases.say(mine, null, 'Ines'));
  const observation = sheet.observations[0]?.id ?? asId('o1');
  for (const [bytes, about] of [
    [jpeg, null],
    [webp, { kind: 'observation' as const, observation }],
    [png, { kind: 'slot' as const, slot: sheet.observations[0]?.slot ?? asId('shaft') }],
  ] as const)
    valueIn(await store.photos.add(mine, { name: 'a', bytes, thumbnail: png, caption: 'a wheel', about }));
  return at;
};
const fileOf = async (store: Store, sheet: SheetId = mine): Promise<Buffer> => valueIn(await store.cases.write(sheet)).bytes;
const jsonOf = (zip: Buffer) => JSON.parse(strFromU8(unzipSync(zip)['case.json'] ?? new Uint8Array()));

/** The file with its case said otherwise. */
const said = (zip: Buffer, change: (json: ReturnType<typeof jsonOf>) => unknown): Buffer => {
  const json = jsonOf(zip);
  change(json);
  return Buffer.from(zipSync({ ...unzipSync(zip), 'case.json': strToU8(JSON.stringify(json)) }));
};
const withFiles = (zip: Buffer, change: (files: Zippable) => unknown): Buffer => {
  const files: Zippable = unzipSync(zip);
  change(files);
  return Buffer.from(zipSync(files));
};

describe('the one file that holds a case', () => {
  test('[P9] is the same bytes for the same case, and any reader of ZIPs finds in it what is kept', async () => {
    const { store, clock } = await fullCase();
    const zip = await fileOf(store);
    clock.now = '2031-01-01T00:00:00.000Z';
    expect((await fileOf(store)).equals(zip)).toBe(true);
    const files = unzipSync(zip);
    expect(Object.keys(files)[0]).toBe('case.json');
    expect(Object.keys(files)).toHaveLength(7);
    const { photos, history, words } = valueIn(await store.cases.open(mine, null));
    const json = jsonOf(zip);
    expect(json).toMatchObject({ kinplate: 'case', version: 1, number: 'A-2026-0001', openedOn: '2026-03-04', origins: [] });
    expect(json.history.map((one: { sheet: Sheet }) => one.sheet)).toEqual(history.map(({ sheet }) => sheet));
    expect(json.words.map((one: { word: unknown }) => one.word)).toEqual(words.map((one) => one.word));
    for (const [index, { id }] of photos.entries()) {
      expect(json.photographs[index].sha256).toBe(id);
      expect(Buffer.from(files[json.photographs[index].file] ?? []).equals(valueIn(await store.photos.bytes(id, 'whole')).bytes)).toBe(
        true,
      );
    }
  });

  test('[P9] comes out of one shop and into another whole: all but its number is as it was, and where it came from is kept', async () => {
    const { store } = await fullCase();
    const zip = await fileOf(store);
    const other = await shop('2027-02-01T12:00:00.000Z');
    valueIn(await keepSheet(other.store, { ...other.sheet, id: asId('theirs') }));
    expect(valueIn(await other.store.cases.look(zip, 'case.zip'))).toMatchObject({
      number: 'A-2026-0001',
      title: 'A Petrel that turns too easily',
      customer: 'Réka, berth 4',
      entries: 2,
      photos: 3,
      here: null,
    });
    expect(valueIn(await other.store.cases.takeIn(zip, 'case.zip', { as: null, who: 'Jory' }))).toEqual({
      sheet: mine,
      number: 'A-2027-0002',
      elsewhere: { first: 'A-2026-0001', many: 1 },
    });
    const [was, is] = [valueIn(await store.cases.open(mine, null)), valueIn(await other.store.cases.open(mine, null))];
    const origins = [{ number: 'A-2026-0001', at: '2027-02-01T12:00:00.000Z', who: 'Jory' }];
    expect(is).toEqual({ ...was, number: 'A-2027-0002', origins });
    expect(valueIn(await other.store.sheets.open(mine))).toEqual(valueIn(await store.sheets.open(mine)));
    for (const { id } of was.photos)
      for (const which of ['whole', 'thumbnail'] as const)
        expect(valueIn(await other.store.photos.bytes(id, which)).bytes.equals(valueIn(await store.photos.bytes(id, which)).bytes)).toBe(
          true,
        );
    expect(
      valueIn(await other.store.cases.list({ text: 'A-2026-0001' })).map(({ number }) => number),
      'found by the number it had',
    ).toEqual(['A-2027-0002']);
    expect(valueIn(await other.store.cases.list({ text: 'h11207' })), 'and by what is stamped on its unit').toHaveLength(1);
  });

  test('[P1] a number that a case here had elsewhere is given to no other case, and no more are passed over than those', async () => {
    const { store } = await fullCase();
    const zip = await fileOf(store);
    const other = await shop('2026-06-01T12:00:00.000Z');
    const save = async (id: string) => valueIn(await keepSheet(other.store, { ...other.sheet, id: asId(id) })).number;
    const comesAs = async (number: string, as: string) => {
      const file = said(zip, (json) => Object.assign(json, { number }));
      return valueIn(await other.store.cases.takeIn(file, 'case.zip', { as: asId(as), who: '' })).number;
    };
    expect(await comesAs('A-2026-0003', 'a'), 'not its own either').toBe('A-2026-0001');
    expect(await comesAs('A-2026-0002', 'b')).toBe('A-2026-0004');
    expect(await comesAs('A-2026-0005', 'c')).toBe('A-2026-0006');
    for (const number of ['B-2026-0007', '2026-0007', 'A-2025-0007', 'A-2026-0011']) await comesAs(number, `of ${number}`);
    expect(await save('d')).toBe('A-2026-0012');
    const numbers = valueIn(await other.store.cases.list({})).map(({ number }) => number);
    expect([...numbers].sort(), 'a seventh of another letter or year is another number').toEqual(
      [1, 4, 6, 7, 8, 9, 10, 12].map((n) => `A-2026-${String(n).padStart(4, '0')}`),
    );
  });

  test('[P1] a number that comes in with this counter’s letter and was not given here is told; one that was, or is of another letter, is not', async () => {
    const { store, sheet } = await fullCase();
    const zip = await fileOf(store);
    valueIn(await keepSheet(store, { ...sheet, id: asId('second') }));
    valueIn(await keepSheet(store, { ...sheet, id: asId('third') }));
    const told = async (number: string, sheetOf = 'mine') => {
      const file = said(zip, (json) => {
        Object.assign(json, { number });
        for (const one of [json, ...json.history]) one.sheet.id = sheetOf;
      });
      return valueIn(await store.cases.look(file, 'case.zip')).elsewhere;
    };
    expect(await told('A-2026-0001'), 'its own').toBeNull();
    expect(await told('A-2026-0001', 'other'), 'another case has it').toEqual({ first: 'A-2026-0001', many: 1 });
    expect(await told('A-2026-0003', 'third')).toBeNull();
    expect(await told('A-2026-0004', 'other'), 'past the last').toEqual({ first: 'A-2026-0004', many: 1 });
    expect(await told('A-2025-0001', 'other'), 'in another year').toEqual({ first: 'A-2025-0001', many: 1 });
    for (const number of ['K-2026-0004', '2026-0001', '2026-0004']) expect(await told(number, 'other'), number).toBeNull();
    valueIn(await store.sheets.remove(asId('third')));
    expect(await told('A-2026-0003', 'third'), 'of a case that was removed').toBeNull();
    valueIn(await store.settings.save('counter', { letter: 'K' }, 'Osk'));
    expect(await told('A-2026-0004', 'other'), 'no longer this counter’s letter').toBeNull();
    expect(await told('K-2026-0001', 'other')).toEqual({ first: 'K-2026-0001', many: 1 });
    const k = said(zip, (json) => Object.assign(json, { number: 'K-2026-0001' }));
    const taken = valueIn(await store.cases.takeIn(k, 'case.zip', { as: asId('fourth'), who: '' }));
    expect(taken, 'told of what it was before it came in').toEqual({
      sheet: 'fourth',
      number: 'K-2026-0002',
      elsewhere: { first: 'K-2026-0001', many: 1 },
    });
  });

  test('[P9] out, in and out again differs in the number and in one origin more, and in nothing else, whatever the case', async () => {
    const { store, clock, sheet } = await shop();
    const text = fc.string({ maxLength: 20, unit: 'grapheme' });
    const some = fc.record({
      saves: fc.array(fc.record({ title: text, story: text, keep: fc.nat(3), who: text }), { minLength: 1, maxLength: 3 }),
      details: fc.array(fc.record({ customer: text, lookedBy: text, notes: text }), { maxLength: 2 }),
      words: fc.array(fc.option(fc.record({ decision: text, day: fc.constantFrom('2026-01-31', '2024-02-29') })), { maxLength: 3 }),
      pictures: fc.subarray([jpeg, png, webp]),
    });
    let n = 0;
    await fc.assert(
      fc.asyncProperty(some, async ({ saves, details, words, pictures }) => {
        n += 1;
        const id = asId<SheetId>(`case ${n}`);
        for (const { title, story, keep, who } of saves)
          valueIn(await keepSheet(store, { ...sheet, id, title, story, observations: sheet.observations.slice(0, keep) }, who));
        clock.now = new Date(Date.parse(clock.now) + 1000).toISOString();
        for (const one of details) valueIn(await store.cases.describe(id, one));
        for (const one of words)
          valueIn(await store.cases.say(id, one === null ? null : { ...word, day: one.day, decision: `d ${one.decision}` }, ''));
        for (const bytes of pictures) valueIn(await store.photos.add(id, { name: 'a', bytes, thumbnail: png, caption: 'c', about: null }));
        const first = await fileOf(store, id);
        const empty = await shop('2030-06-01T12:00:00.000Z');
        valueIn(await empty.store.cases.takeIn(first, 'case.zip', { as: null, who: 'Jory' }));
        const second = await fileOf(empty.store, id);
        const { number, origins, ...same } = jsonOf(first);
        expect(jsonOf(second)).toEqual({
          ...same,
          number: 'A-2030-0001',
          origins: [...origins, { number, at: '2030-06-01T12:00:00.000Z', who: 'Jory' }],
        });
        const back = said(second, (json) => Object.assign(json, { number, origins }));
        expect(JSON.stringify(jsonOf(back)), 'to the order of its fields').toBe(JSON.stringify(jsonOf(first)));
        const [a, b] = [unzipSync(first), unzipSync(second)];
        expect(Object.keys(a)).toEqual(Object.keys(b));
        for (const name of Object.keys(a)) if (name !== 'case.json') expect(Buffer.compare(a[name] ?? jpeg, b[name] ?? png), name).toBe(0);
      }),
      { numRuns: 12 },
    );
  });

  test('[P9] a case that is here already is told and never written over; as a case of its own it is taken in under another id', async () => {
    const { store, sheet } = await fullCase();
    const zip = await fileOf(store);
    valueIn(await keepSheet(store, { ...sheet, title: 'Gone on with here' }));
    const before = valueIn(await store.cases.open(mine, null));
    expect(valueIn(await store.cases.look(zip, 'case.zip')).here).toMatchObject({ title: 'Gone on with here', number: 'A-2026-0001' });
    expect(troubleIn(await store.cases.takeIn(zip, 'case.zip', { as: null, who: '' }))).toMatchObject({ code: 'case-is-here' });
    expect(valueIn(await store.cases.open(mine, null))).toEqual(before);
    const other = asId<SheetId>('another');
    expect(valueIn(await store.cases.takeIn(zip, 'case.zip', { as: other, who: '' }))).toEqual({
      sheet: other,
      number: 'A-2026-0002',
      elsewhere: null,
    });
    expect(valueIn(await store.cases.open(mine, null))).toEqual(before);
    const taken = valueIn(await store.cases.open(other, null));
    expect(taken.history.map((entry) => entry.sheet.id)).toEqual([other, other]);
    expect([taken.photos.length, taken.origins[0]?.number]).toEqual([3, 'A-2026-0001']);
    expect(troubleIn(await store.cases.takeIn(zip, 'case.zip', { as: other, who: '' })).code).toBe('case-is-here');
  });
});

describe('looked at before it is taken in', () => {
  test('[P9] a case is told as the list of the shop it comes from tells it', async () => {
    const { store, clock } = await fullCase();
    clock.now = '2026-03-06T10:00:00.000Z';
    valueIn(await store.cases.describe(mine, { customer: 'Réka, berth 5', lookedBy: 'Marit', notes: '' }));
    valueIn(await keepSheet(store, { ...valueIn(await store.sheets.open(mine)), id: asId('another'), title: 'Saved after it' }));
    const listed = valueIn(await store.cases.list({})).find((one) => one.sheet === mine);
    const { number, openedOn, title, kind, customer, claimed, status, honest, observations, photos, savedAt } = listed ?? {};
    const seen = valueIn(await store.cases.look(await fileOf(store), 'case.zip'));
    expect(seen).toEqual({
      sheet: mine,
      number,
      elsewhere: null,
      openedOn,
      title,
      kind,
      customer,
      claimed,
      status,
      honest,
      observations,
      photos,
      savedAt,
      entries: 2,
      here: listed,
    });
    expect([status, customer]).toEqual(['ruled out', 'Réka, berth 5']);
    expect(honest).not.toEqual([]);
  });

  test('[P9] one that could not be judged, and one that claims nothing, have no status', async () => {
    const { store, sheet } = await shop();
    const { edition } = await store.atlas.read();
    const contradiction = { kind: 'contradiction' as const, edition, sentences: ['Two blade counts.'] };
    valueIn(await store.sheets.save(sheet, { verdict: contradiction, who: '' }));
    expect(valueIn(await store.cases.look(await fileOf(store), 'case.zip'))).toMatchObject({ status: null, honest: [] });
    valueIn(await keepSheet(store, { ...sheet, claimed: null }));
    expect(valueIn(await store.cases.look(await fileOf(store), 'case.zip'))).toMatchObject({ claimed: null, status: null });
  });
});

describe('a file that is none, or says what is not so', () => {
  /** Nothing of it is taken in, and nothing else of the shop's is changed. */
  const refused = async (zip: Buffer): Promise<{ code: string; sentence: string }> => {
    const { store } = await shop();
    const before = JSON.stringify([valueIn(await store.sheets.list()), valueIn(await store.cases.list({}))]);
    const looked = troubleIn(await store.cases.look(zip, 'case.zip'));
    expect(troubleIn(await store.cases.takeIn(zip, 'case.zip', { as: null, who: '' }))).toEqual(looked);
    expect(JSON.stringify([valueIn(await store.sheets.list()), valueIn(await store.cases.list({}))])).toBe(before);
    expect(looked.sentence).toContain(looked.code.startsWith('sheet') ? 'expected' : 'case.zip');
    return looked;
  };

  test('[P9] is refused by what is wrong in it', async () => {
    const { store } = await fullCase();
    const zip = await fileOf(store);
    expect((await refused(Buffer.from('no ZIP'))).code).toBe('case-file-unreadable');
    expect((await refused(Buffer.alloc(0))).code).toBe('case-file-unreadable');
    expect((await refused(Buffer.from(zipSync({ 'notes.txt': strToU8('x') })))).sentence).toContain('“notes.txt”');
    expect((await refused(Buffer.from(zipSync({})))).sentence).toContain('case.json');
    expect((await refused(withFiles(zip, (files) => delete files['photographs/2.webp']))).sentence).toContain(
      'no file “photographs/2.webp”',
    );
    expect((await refused(withFiles(zip, (files) => Object.assign(files, { 'photographs/9.jpg': jpeg })))).sentence).toContain(
      'says nothing of',
    );
    expect((await refused(withFiles(zip, (files) => Object.assign(files, { '../case.json': jpeg })))).sentence).toContain('“../case.json”');
    const swapped = (files: Zippable) => Object.assign(files, { 'photographs/1.jpg': files['photographs/3.png'] });
    expect((await refused(withFiles(zip, swapped))).sentence).toContain('another picture than case.json says');
    expect(
      (
        await refused(
          said(zip, (json) => {
            json.version = 2;
          }),
        )
      ).sentence,
    ).toContain('case.json, row 1, version');
    expect(
      (
        await refused(
          said(zip, (json) => {
            json.history[0].sheet.id = 'other';
          }),
        )
      ).sentence,
    ).toContain('history[0].sheet.id');
    expect(
      (
        await refused(
          said(zip, (json) => {
            json.sheet.title = 'other';
          }),
        )
      ).sentence,
    ).toContain('another sheet than the last');
    expect(
      (
        await refused(
          said(zip, (json) => {
            json.history[1].verdict.claim.status = 'maybe';
          }),
        )
      ).code,
    ).toBe('case-file-invalid');
    expect(
      (
        await refused(
          said(zip, (json) => {
            json.left = [{ at: json.history[0].at, who: '', reason: 'x', entry: 3, otherwise: 'a'.repeat(64) }];
          }),
        )
      ).sentence,
    ).toContain('1 to 2');
    expect(
      (
        await refused(
          said(zip, (json) => {
            json.photographs[1] = json.photographs[0];
          }),
        )
      ).sentence,
    ).toContain('one file for two');
    const unknown = (json: { sheet: Sheet; history: { sheet: Sheet }[] }) => {
      for (const at of [json, ...json.history]) Object.assign(at.sheet, { absent: ['no-such-slot'] });
    };
    expect((await refused(said(zip, unknown))).code).toBe('sheet-unknown');
  });

  const x = (letters: number): string => 'x'.repeat(letters);
  const texts = (least: 0 | 1, most: number): readonly [readonly unknown[], readonly unknown[]] => [
    [x(least), x(most)],
    [...(least === 0 ? [] : ['']), x(most + 1), 1, null],
  ];
  const instants = [
    ['2026-03-04T12:00:00Z', '2026-03-04T12:00:00.000Z'],
    ['2026-03-04', '2026-03-04 12:00:00Z', '2026-02-30T12:00:00.000Z', 'yesterday', '', null],
  ] as const;
  const numbers = [
    ['2026-0001', '1999-123456789', 'A-2026-0001', 'Z-1999-123456789'],
    [
      '2026-001',
      '2026-1234567890',
      '202-0001',
      '12026-0001',
      '2026-0001a',
      'a2026-0001',
      '2026-000a',
      'MMXX-0001',
      'I-2026-0001',
      'O-2026-0001',
      'a-2026-0001',
      'AB-2026-0001',
      'A2026-0001',
      '-2026-0001',
      '',
      7,
      null,
    ],
  ] as const;
  const days = [
    ['2024-02-29', '2026-12-31'],
    ['2026-02-29', '2026-3-4', '4 March 2026', '2026-03-04T12:00:00.000Z', '', null],
  ] as const;
  const statuses = [
    ['stands', 'open', 'ruled out'],
    ['maybe', '', null],
  ] as const;
  const ids = texts(1, 200);
  const hex = 'a1'.repeat(32);
  const hashes = [
    [hex, '0123456789abcdef'.repeat(4)],
    [hex.slice(1), `${hex}a`, `x${hex.slice(1)}`, ` ${hex}`, hex.toUpperCase(), '', null],
  ] as const;
  const whether = [
    [true, false],
    ['yes', 0, null],
  ] as const;
  const verdict = 'history.1.verdict';
  const names = ['honest', 'open', 'names'].flatMap((list): (readonly [string, readonly unknown[], readonly unknown[]])[] => [
    [`${verdict}.${list}.0.id`, ...ids],
    [`${verdict}.${list}.0.text`, ...texts(0, 20_000)],
    [`${verdict}.${list}.0.rung`, ...texts(1, 100)],
    [`${verdict}.${list}.0.status`, ...statuses],
  ]);

  /** Field by field: what may stand there, and what may not. */
  const fields: readonly (readonly [string, readonly unknown[], readonly unknown[]])[] = [
    ['kinplate', ['case'], ['sheet', '', null]],
    ['version', [1], [0, 2, '1', null]],
    ['number', ...numbers],
    ['openedOn', ...days],
    ['origins.0.number', ...numbers],
    ['origins.0.at', ...instants],
    ['origins.0.who', ...texts(0, 200)],
    ['details.1.at', ...instants],
    ['details.1.who', ...texts(0, 200)],
    ['details.1.customer', ...texts(0, 300)],
    ['details.1.lookedBy', ...texts(0, 200)],
    ['details.1.notes', ...texts(0, 20_000)],
    ['history.1.at', ...instants],
    ['history.1.who', ...texts(0, 200)],
    [`${verdict}.kind`, [], ['guess', '', null]],
    [`${verdict}.edition`, ...texts(0, 2000)],
    ...names,
    [`${verdict}.claim`, [null], ['', []]],
    [`${verdict}.claim.text`, ...texts(0, 20_000)],
    [`${verdict}.claim.name`, ['x', x(200), null], ['', x(201), 1]],
    [`${verdict}.claim.status`, ...statuses],
    [`${verdict}.slots.0.slot`, ...ids],
    [`${verdict}.slots.0.name`, ...texts(0, 1000)],
    [`${verdict}.slots.0.left`, [0, 1, 634_000], [-1, 0.5, '3', null]],
    [`${verdict}.slots.0.parts`, [[], null], ['', {}]],
    [`${verdict}.slots.0.parts.0.id`, ...ids],
    [`${verdict}.slots.0.parts.0.name`, ...texts(0, 1000)],
    [`${verdict}.slots.0.absent`, ...whether],
    [`${verdict}.slots.0.doubtful`, ...whether],
    [`${verdict}.fit`, ['drops in', 'after work', 'will not fit', 'not known', null], ['fits', '']],
    [`${verdict}.sentences.0`, ...texts(0, 20_000)],
    [`${verdict}.cautions.0`, ...texts(0, 20_000)],
    [`${verdict}.ticket.may.0`, ...texts(0, 20_000)],
    [`${verdict}.ticket.mustNot.0`, ...texts(0, 20_000)],
    ['words.0.at', ...instants],
    ['words.0.who', ...texts(0, 200)],
    ['words.0.word.by', ['shop', 'maker'], ['owner', '', null]],
    ['words.0.word.person', ...texts(1, 200)],
    ['words.0.word.day', ...days],
    ['words.0.word.decision', ...texts(1, 1000)],
    ['words.0.word.ground', ...texts(1, 1000)],
    ['left.0.at', ...instants],
    ['left.0.who', ...texts(0, 200)],
    ['left.0.reason', ...texts(1, 1000)],
    ['left.0.entry', [1, 2], [0, -1, 1.5, '1', null]],
    ['left.0.otherwise', ...hashes],
    [
      'photographs.0.file',
      [],
      [
        'a/photographs/1.jpg',
        'photographs/1.jpg.png2',
        'photographs/1000.jpg',
        'photographs/1.gif',
        'photographs/a.jpg',
        'photographs/.jpg',
        'photographs/1-jpg',
        '',
        null,
      ],
    ],
    [
      'photographs.0.thumbnail',
      [],
      [
        'a/thumbnails/1.png',
        'thumbnails/1.pngx',
        'thumbnails/1000.png',
        'thumbnails/1.gif',
        'thumbnails/a.png',
        'thumbnails/.png',
        'thumbnails/1-png',
        '',
        null,
      ],
    ],
    ['photographs.0.sha256', [], hashes[1]],
    ['photographs.0.addedAt', ...instants],
    ['photographs.0.caption', ...texts(0, 500)],
    ['photographs.0.about', [null, { kind: 'slot', slot: 'shaft' }, { kind: 'observation', observation: x(200) }], ['shaft', []]],
    ['photographs.1.about.kind', [], ['part', '', null]],
    ['photographs.1.about.observation', ...ids],
    ['photographs.2.about.slot', ...ids],
  ];
  /** The things that have fields: of each nothing may be said that is not of the format, and nothing left out. */
  const things = [
    ...new Set(['', 'sheet', 'history.1', 'words.1', ...fields.map(([path]) => path.split('.').slice(0, -1).join('.'))]),
  ].filter((path) => !/\.(sentences|cautions|may|mustNot)$/.test(path));

  type Held = Record<string, unknown>;
  const heldAt = (json: unknown, path: string): Held =>
    path.split('.').reduce<Held>((at, step) => (step === '' ? at : (at[step] as Held)), json as Held);
  const put = (json: unknown, path: string, value: unknown) => {
    const steps = path.split('.');
    heldAt(json, steps.slice(0, -1).join('.'))[steps.at(-1) ?? ''] = value;
  };
  const columnOf = (path: string) => path.replace(/\.(\d+)/g, '[$1]');

  /** A case with nothing empty in it, and what comes of it where something is said otherwise. */
  const looking = async () => {
    const { store } = await fullCase();
    const at = '2026-03-06T08:00:00.000Z';
    const zip = said(await fileOf(store), (json) => {
      json.origins = [{ number: '2025-0099', at, who: 'Jory' }];
      json.left = [{ at, who: 'Osk', reason: 'He has it in writing.', entry: 2, otherwise: hex }];
    });
    const { store: other } = await shop();
    const look = (change: (json: ReturnType<typeof jsonOf>) => unknown) => other.cases.look(said(zip, change), 'case.zip');
    expect(await look(() => undefined)).toMatchObject({ ok: true });
    return { zip, other, look };
  };

  test('[P9] [R6] is refused by the field that says what it may not, and taken where each is at its bound', async () => {
    const { look } = await looking();
    for (const [path, may, mayNot] of fields) {
      const answer = (value: unknown) => look((json) => put(json, path, value));
      for (const value of may) expect(await answer(value), `${path} ${value}`).toMatchObject({ ok: true });
      for (const value of mayNot)
        expect(troubleIn(await answer(value)), `${path} ${value}`).toMatchObject({
          code: 'case-file-invalid',
          place: `case.zip, case.json, row 1, ${columnOf(path)}`,
        });
    }
  });

  test.each([
    ['words.0.word.person', '', 'at least 1 letter'],
    ['details.0.who', 'x'.repeat(201), 'at most 200 letters'],
    ['number', '2026-7', 'a case number, as A-2026-0007'],
    ['openedOn', '4 March 2026', 'a day, as 2026-03-04'],
    ['words.0.word.day', '2026-02-30', 'a day, as 2026-03-04'],
    ['history.0.at', '2026-03-04 12:00', 'a time, as 2026-03-04T12:00:00.000Z'],
    ['left.0.otherwise', 'beef', '64 hexadecimal digits'],
    ['photographs.0.sha256', 'beef', '64 hexadecimal digits'],
    ['photographs.0.file', 'wheel.jpg', 'a file such as photographs/1.jpg'],
    ['photographs.0.thumbnail', 'wheel.jpg', 'a file such as thumbnails/1.jpg'],
  ])('[P9] what was expected of %s is said in words', async (path, found, expected) => {
    const { look } = await looking();
    expect(troubleIn(await look((json) => put(json, path, found))).sentence).toBe(
      `case.zip, case.json, row 1, ${columnOf(path)}: found ${shown(found)}, expected ${expected}. Nothing was taken in.`,
    );
  });

  test('[P9] is refused where something in it has a field too many or one too few', async () => {
    const { zip, look } = await looking();
    const refusedAt = async (column: string, change: (thing: Held) => unknown, path: string) =>
      expect(troubleIn(await look((json) => change(heldAt(json, path))))).toMatchObject({
        code: 'case-file-invalid',
        place: `case.zip, case.json, row 1, ${column}`,
      });
    for (const path of things) {
      const within = path === '' ? '' : `${columnOf(path)}.`;
      await refusedAt(`${within}colour`, (thing) => Object.assign(thing, { colour: 'grey' }), path);
      for (const field of Object.keys(heldAt(jsonOf(zip), path)))
        if (!(field === 'ticket' || field === 'serial'))
          await refusedAt(
            `${within}${field}`,
            (thing) => {
              delete thing[field];
            },
            path,
          );
    }
  });

  test('[P9] a verdict may be that the sheet contradicts itself, and one kept before there were tickets has none', async () => {
    const { look } = await looking();
    const contradiction = { kind: 'contradiction', edition: 'small 2026-03-02', sentences: ['Two of its entries cannot both hold.'] };
    expect(await look((json) => put(json, verdict, contradiction))).toMatchObject({ ok: true, value: { status: null, honest: [] } });
    expect(troubleIn(await look((json) => put(json, verdict, { ...contradiction, names: [] }))).place).toBe(
      'case.zip, case.json, row 1, history[1].verdict.names',
    );
    expect(await look((json) => delete json.history[1].verdict.ticket)).toMatchObject({ ok: true });
  });

  test('[P9] [R6] lists have as many entries as they may, and no more', async () => {
    const { zip, other, look } = await looking();
    const origins = (many: number) =>
      look((json) => {
        json.origins = Array(many).fill(json.origins[0]);
      });
    expect(await origins(1000)).toMatchObject({ ok: true });
    expect(troubleIn(await origins(1001)).sentence).toMatch(/^case\.zip, case\.json, row 1, origins: .*, expected at most 1000 entries\. /);
    const nothing = await look((json) => {
      json.details = [];
    });
    expect(troubleIn(nothing).sentence).toMatch(/^case\.zip, case\.json, row 1, details: .*, expected at least 1 entry\. /);
    // As many as there may be are looked at one by one, and only then is one of them twice.
    const photographs = (many: number) =>
      look((json) => {
        json.photographs = Array(many).fill(json.photographs[0]);
      });
    expect(troubleIn(await photographs(100)).sentence).toContain('one file for two');
    expect(troubleIn(await photographs(101)).sentence).toMatch(/ photographs: .*, expected at most 100 entries\. /);
    const named = (number: string) =>
      said(
        withFiles(zip, (files) => {
          for (const [was, is] of [
            ['photographs/1.jpg', `photographs/${number}.jpg`],
            ['thumbnails/1.png', `thumbnails/${number}.png`],
          ] as const) {
            files[is] = files[was] as Uint8Array;
            if (is !== was) delete files[was];
          }
        }),
        (json) => Object.assign(json.photographs[0], { file: `photographs/${number}.jpg`, thumbnail: `thumbnails/${number}.png` }),
      );
    for (const number of ['1', '99', '100', '007'])
      expect(await other.cases.look(named(number), 'case.zip'), number).toMatchObject({ ok: true });
  });

  test('[P2] [P9] a photograph in it that tells where it was taken is refused, and so is a small picture that is none', async () => {
    const { store } = await fullCase();
    const zip = await fileOf(store);
    const telling = jpegWithPosition();
    const with1 = (bytes: Buffer) =>
      said(
        withFiles(zip, (files) => Object.assign(files, { 'photographs/1.jpg': bytes })),
        (json) => {
          json.photographs[0].sha256 = createHash('sha256').update(bytes).digest('hex');
        },
      );
    expect((await refused(with1(telling))).sentence).toContain('more than a picture');
    expect((await refused(with1(Buffer.from('GIF89a')))).code).toBe('photo-unreadable');
    expect((await refused(withFiles(zip, (files) => Object.assign(files, { 'thumbnails/1.png': telling })))).sentence).toContain(
      'more than a picture',
    );
  });

  test('[P9] [R6] sizes are looked at before anything is inflated, and a file that lies about its own is cut off', async () => {
    const { store } = await fullCase();
    const zip = await fileOf(store);
    /** Where the directory says how large a file is. */
    const sizeAt = (of: Buffer, name: string): number => of.lastIndexOf(name) - 46 + 24;
    const withSize = (of: Buffer, name: string, size: number): Buffer => {
      const copy = Buffer.from(of);
      copy.writeUInt32LE(size, sizeAt(copy, name));
      return copy;
    };
    expect((await refused(withSize(zip, 'photographs/1.jpg', 11 * 1024 * 1024))).code).toBe('case-file-too-large');
    expect((await refused(withSize(zip, 'thumbnails/1.png', 96 * 1024 + 1))).code).toBe('case-file-too-large');
    expect((await refused(withSize(zip, 'case.json', 64 * 1024 * 1024 + 1))).code).toBe('case-file-too-large');
    const bomb = Buffer.from(zipSync({ 'case.json': [new Uint8Array(60 * 1024 * 1024), { level: 9 }] }));
    expect(bomb.length).toBeLessThan(100_000);
    expect((await refused(withSize(bomb, 'case.json', 1000))).sentence).toContain('holds more than the 1000 bytes it says');
    expect((await refused(withSize(zip, 'case.json', 3))).sentence).toContain('holds more than the 3 bytes');
    const many = Object.fromEntries(Array.from({ length: 211 }, (_, n) => [`photographs/${n}.jpg`, new Uint8Array(1)]));
    expect((await refused(Buffer.from(zipSync(many)))).sentence).toContain('it holds 211 files');
  });

  test('[P9] cut short anywhere, or with any byte another, it is refused or is the same case', async () => {
    const { store } = await fullCase();
    const zip = await fileOf(store);
    const { store: other } = await shop();
    const whole = valueIn(await other.cases.look(zip, 'case.zip'));
    for (let length = 0; length < zip.length; length += 97)
      expect((await other.cases.look(zip.subarray(0, length), 'case.zip')).ok, `${length}`).toBe(false);
    let refusals = 0;
    for (let at = 0; at < zip.length; at += 13) {
      const copy = Buffer.from(zip);
      copy[at] = (copy[at] ?? 0) ^ (1 << (at % 8));
      const looked = await other.cases.look(copy, 'case.zip');
      // Times and versions of a ZIP say nothing of what is in it.
      if (looked.ok) expect(looked.value).toEqual(whole);
      else refusals += 1;
    }
    expect(refusals).toBeGreaterThan(zip.length / 13 / 2);
  });

  test('[P9] an atlas that does not know what its sheet speaks of takes nothing of it', async () => {
    const { store } = await fullCase();
    const empty = await freshStore();
    expect(troubleIn(await empty.cases.takeIn(await fileOf(store), 'case.zip', { as: null, who: '' })).code).toBe('sheet-unknown');
    expect(valueIn(await empty.cases.list({}))).toEqual([]);
  });
});

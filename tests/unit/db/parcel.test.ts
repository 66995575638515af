import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { strFromU8, strToU8, unzipSync, type Zippable, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import type { ShopWord, Store } from '../../../db/index.ts';
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
    expect(json).toMatchObject({ kinplate: 'case', version: 1, number: '2026-0001', openedOn: '2026-03-04', origins: [] });
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
      number: '2026-0001',
      title: 'A Petrel that turns too easily',
      customer: 'Réka, berth 4',
      entries: 2,
      photos: 3,
      here: null,
    });
    expect(valueIn(await other.store.cases.takeIn(zip, 'case.zip', { as: null, who: 'Jory' }))).toEqual({
      sheet: mine,
      number: '2027-0002',
    });
    const [was, is] = [valueIn(await store.cases.open(mine, null)), valueIn(await other.store.cases.open(mine, null))];
    const origins = [{ number: '2026-0001', at: '2027-02-01T12:00:00.000Z', who: 'Jory' }];
    expect(is).toEqual({ ...was, number: '2027-0002', origins });
    expect(valueIn(await other.store.sheets.open(mine))).toEqual(valueIn(await store.sheets.open(mine)));
    for (const { id } of was.photos)
      for (const which of ['whole', 'thumbnail'] as const)
        expect(valueIn(await other.store.photos.bytes(id, which)).bytes.equals(valueIn(await store.photos.bytes(id, which)).bytes)).toBe(
          true,
        );
    expect(
      valueIn(await other.store.cases.list({ text: '2026-0001' })).map(({ number }) => number),
      'found by the number it had',
    ).toEqual(['2027-0002']);
    expect(valueIn(await other.store.cases.list({ text: 'h11207' })), 'and by what is stamped on its unit').toHaveLength(1);
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
          number: '2030-0001',
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
    expect(valueIn(await store.cases.look(zip, 'case.zip')).here).toMatchObject({ title: 'Gone on with here', number: '2026-0001' });
    expect(troubleIn(await store.cases.takeIn(zip, 'case.zip', { as: null, who: '' }))).toMatchObject({ code: 'case-is-here' });
    expect(valueIn(await store.cases.open(mine, null))).toEqual(before);
    const other = asId<SheetId>('another');
    expect(valueIn(await store.cases.takeIn(zip, 'case.zip', { as: other, who: '' }))).toEqual({ sheet: other, number: '2026-0002' });
    expect(valueIn(await store.cases.open(mine, null))).toEqual(before);
    const taken = valueIn(await store.cases.open(other, null));
    expect(taken.history.map((entry) => entry.sheet.id)).toEqual([other, other]);
    expect([taken.photos.length, taken.origins[0]?.number]).toEqual([3, '2026-0001']);
    expect(troubleIn(await store.cases.takeIn(zip, 'case.zip', { as: other, who: '' })).code).toBe('case-is-here');
  });
});

describe('looked at before it is taken in', () => {
  test('[P9] a case is told as the list of the shop it comes from tells it', async () => {
    const { store, clock } = await fullCase();
    clock.now = '2026-03-06T10:00:00.000Z';
    valueIn(await store.cases.describe(mine, { customer: 'Réka, berth 5', lookedBy: 'Marit', notes: '' }));
    const [listed] = valueIn(await store.cases.list({}));
    const { number, openedOn, title, kind, customer, claimed, status, honest, observations, photos, savedAt } = listed ?? {};
    const seen = valueIn(await store.cases.look(await fileOf(store), 'case.zip'));
    expect(seen).toEqual({
      sheet: mine,
      number,
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

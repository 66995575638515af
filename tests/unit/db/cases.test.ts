import { cp, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { casesCsv, type PhotoId, type Store } from '../../../db/index.ts';
import { cleanPhoto } from '../../../db/photos/clean-photo.ts';
import type { PhotoToAdd } from '../../../db/shop/case-photos.ts';
import { asId, type ObservationId, type Sheet, type SheetId, type SlotId } from '../../../reasoner/index.ts';
import { pictureOf } from '../../damage/shop.ts';
import { keepSheet } from './keep-sheet.ts';
import { filledStore, freshConnection, freshFolder, freshStore, smallPack, troubleIn, valueIn } from './kit.ts';
import { jpeg, png, pngOf, webp } from './photos/pictures.ts';
import { jpegWithPosition } from './photos/with-position.ts';

const id = (text: string) => asId<SheetId>(text);
const picture = (bytes: Buffer, rest: Partial<PhotoToAdd> = {}): PhotoToAdd => ({
  name: 'IMG_0417.jpg',
  bytes,
  thumbnail: png,
  caption: '',
  about: null,
  ...rest,
});

/** A store whose clock is turned by hand. */
const withClock = async (start: string): Promise<{ store: Store; clock: { now: string }; sheet: Sheet }> => {
  const clock = { now: start };
  const store = await filledStore({ now: () => new Date(clock.now) });
  return { store, clock, sheet: valueIn(await store.sheets.open(id('found-01'))) };
};
const counted = async (store: Store) => ({
  cases: valueIn(await store.cases.list({})).length,
  history: (await store.cases.open(id('mine'), null).then((found) => (found.ok ? found.value.history.length : 0))) as number,
});

describe('case numbers', () => {
  test('[P1] run through the year in which a case was opened, begin anew with the next, and are never given twice', async () => {
    const { store, clock, sheet } = await withClock('2026-03-04T12:00:00.000Z');
    const number = async (name: string) => {
      valueIn(await keepSheet(store, { ...sheet, id: id(name) }));
      return valueIn(await store.cases.open(id(name), null)).number;
    };
    expect(await number('a')).toBe('A-2026-0001');
    expect(await number('b')).toBe('A-2026-0002');
    expect(await number('a'), 'saved again, it keeps its number').toBe('A-2026-0001');
    valueIn(await store.sheets.remove(id('b')));
    expect(await number('c'), 'the number of a removed case stays its own').toBe('A-2026-0003');
    expect(await number('b'), 'so does it when the same sheet comes back').toBe('A-2026-0004');
    clock.now = '2027-01-05T12:00:00.000Z';
    expect(await number('d')).toBe('A-2027-0001');
  });

  test('[P1] the letter of the counter stands in the number from the first save on; another letter alters no number that was given, and counts its own', async () => {
    const { store, clock, sheet } = await withClock('2026-03-04T12:00:00.000Z');
    const number = async (name: string) => valueIn(await keepSheet(store, { ...sheet, id: id(name) })).number;
    const called = async (letter: string) => valueIn(await store.settings.save('counter', { letter }, 'Osk'));
    expect([await number('a'), await number('b')]).toEqual(['A-2026-0001', 'A-2026-0002']);
    await called('K');
    expect(await number('c')).toBe('K-2026-0001');
    expect(await number('a'), 'saved again under another letter').toBe('A-2026-0001');
    valueIn(await store.sheets.remove(id('c')));
    await called('A');
    expect(await number('d')).toBe('A-2026-0003');
    await called('K');
    expect(await number('e'), 'the number of a removed case stays its own, whatever letter there was meanwhile').toBe('K-2026-0002');
    clock.now = '2027-01-05T12:00:00.000Z';
    expect(await number('f')).toBe('K-2027-0001');
    expect(valueIn(await store.sheets.opened(id('e'))).saved?.number).toBe('K-2026-0002');
    expect(valueIn(await store.cases.list({ text: 'k-2026' })).map(({ sheet: of }) => of)).toEqual(['e']);
    expect(
      valueIn(await store.cases.list({ text: '2026-0002' })).map(({ number: of }) => of),
      'found without its letter too',
    ).toEqual(['K-2026-0002', 'A-2026-0002']);
  });

  test('[P1] twenty-five sheets saved at once get twenty-five numbers', async () => {
    const { store, sheet } = await withClock('2026-03-04T12:00:00.000Z');
    await Promise.all(Array.from({ length: 25 }, async (_, n) => valueIn(await keepSheet(store, { ...sheet, id: id(`s${n}`) }))));
    const numbers = valueIn(await store.cases.list({})).map(({ number }) => number);
    expect([...numbers].sort()).toEqual(Array.from({ length: 25 }, (_, n) => `A-2026-${String(n + 1).padStart(4, '0')}`));
  });
});

describe('history', () => {
  test('[P1] every save with something changed keeps sheet, verdict, edition and who; the same again keeps none', async () => {
    const { store, clock, sheet } = await withClock('2026-03-04T12:00:00.000Z');
    const mine = { ...sheet, id: id('mine') };
    valueIn(await keepSheet(store, mine, 'Marit'));
    clock.now = '2026-03-05T12:00:00.000Z';
    valueIn(await keepSheet(store, mine, 'Marit'));
    expect(await counted(store)).toEqual({ cases: 1, history: 1 });
    const changed = { ...mine, observations: mine.observations.slice(1) };
    valueIn(await keepSheet(store, changed, 'Osk'));
    const { history, lookedBy } = valueIn(await store.cases.open(id('mine'), null));
    expect(history.map(({ at, who, edition }) => ({ at, who, edition }))).toEqual([
      { at: '2026-03-04T12:00:00.000Z', who: 'Marit', edition: 'small 2026-03-02' },
      { at: '2026-03-05T12:00:00.000Z', who: 'Osk', edition: 'small 2026-03-02' },
    ]);
    expect(history.map((entry) => entry.sheet)).toEqual([mine, changed]);
    expect(history.every(({ verdict }) => verdict.kind === 'verdict')).toBe(true);
    expect(lookedBy, 'who opened it looked at it').toBe('Marit');
  });

  test('[P1] the same sheet saved under a newer atlas that judges it otherwise is kept again, with that verdict and edition', async () => {
    const { store, clock, sheet } = await withClock('2026-03-04T12:00:00.000Z');
    const mine = { ...sheet, id: id('mine') };
    valueIn(await keepSheet(store, mine));
    const folder = join(freshFolder(), 'newer');
    await cp(smallPack, folder, { recursive: true });
    // The nameless wheel of seven blades turns out to have nine: what the sheet saw is now of no listed wheel.
    for (const [file, from, to] of [
      ['pack.json', '2026-03-02', '2026-04-01'],
      ['facts.csv', 'cw-quay-13,cw-blades,7,', 'cw-quay-13,cw-blades,9,'],
    ] as const) {
      const text = await readFile(join(folder, file), 'utf8');
      expect(text, file).toContain(from);
      await writeFile(join(folder, file), text.replace(from, to));
    }
    valueIn(await store.packs.load(folder));
    clock.now = '2026-03-06T12:00:00.000Z';
    valueIn(await keepSheet(store, mine));
    const { history } = valueIn(await store.cases.open(id('mine'), null));
    expect(history.map(({ edition }) => edition)).toEqual(['small 2026-03-02', 'small 2026-04-01']);
    expect(history.map((entry) => entry.sheet)).toEqual([mine, mine]);
    const [first, second] = history.map(({ verdict }) => verdict);
    expect(second).not.toEqual({ ...first, edition: second?.edition });
    valueIn(await keepSheet(store, mine));
    expect(
      valueIn(await store.cases.open(id('mine'), null)).history,
      'saved again under the same atlas it is kept no third time',
    ).toHaveLength(2);
  });

  test('[P1] read as it stood on a day: entries, words and photographs up to then, and not before it was opened', async () => {
    const { store, clock, sheet } = await withClock('2026-03-04T12:00:00.000Z');
    const mine = { ...sheet, id: id('mine'), title: 'As brought in' };
    valueIn(await keepSheet(store, mine));
    valueIn(await store.photos.add(mine.id, picture(jpeg)));
    clock.now = '2026-03-06T12:00:00.000Z';
    valueIn(await keepSheet(store, { ...mine, title: 'Opened up' }));
    valueIn(await store.cases.describe(mine.id, { customer: 'Pilot station', lookedBy: 'Osk', notes: 'Shaft is blue.' }));
    valueIn(await store.photos.add(mine.id, picture(webp)));
    const then = valueIn(await store.cases.open(mine.id, '2026-03-05T23:59:59.999Z'));
    expect(then).toMatchObject({ title: 'As brought in', customer: '', notes: '', number: 'A-2026-0001' });
    expect([then.history.length, then.photos.length]).toEqual([1, 1]);
    const now = valueIn(await store.cases.open(mine.id, null));
    expect(now).toMatchObject({ title: 'Opened up', customer: 'Pilot station', notes: 'Shaft is blue.' });
    expect([now.history.length, now.photos.length]).toEqual([2, 2]);
    expect(troubleIn(await store.cases.open(mine.id, '2026-03-03T12:00:00.000Z'))).toMatchObject({ code: 'not-found' });
  });

  test('[P1] a verdict of another edition than the atlas is not kept: the sheet is not saved, and the case is not half there', async () => {
    const { store, sheet } = await withClock('2026-03-04T12:00:00.000Z');
    const verdict = { kind: 'contradiction', edition: 'small 1999-01-01', sentences: [] } as const;
    expect(troubleIn(await store.sheets.save({ ...sheet, id: id('mine') }, { verdict, who: '' }))).toMatchObject({ code: 'atlas-changed' });
    expect(await counted(store)).toEqual({ cases: 0, history: 0 });
    expect(troubleIn(await store.sheets.open(id('mine')))).toMatchObject({ code: 'not-found' });
  });

  test('[P1] a sample saved becomes a case; removed, its sample shows again and the case is gone with its photographs', async () => {
    const { store, sheet } = await withClock('2026-03-04T12:00:00.000Z');
    expect(troubleIn(await store.cases.open(sheet.id, null))).toMatchObject({ code: 'not-found' });
    valueIn(await keepSheet(store, sheet));
    const [photo] = valueIn(await store.photos.add(sheet.id, picture(jpeg)));
    valueIn(await store.sheets.remove(sheet.id));
    expect(troubleIn(await store.cases.open(sheet.id, null))).toMatchObject({ code: 'not-found' });
    expect(troubleIn(await store.photos.bytes(photo?.id as PhotoId, 'whole'))).toMatchObject({ code: 'not-found' });
    expect(valueIn(await store.sheets.open(sheet.id))).toEqual(sheet);
  });

  test('[P1] a case stays when its pack is taken out and loaded again, and when the program starts anew', async () => {
    const file = `${freshFolder()}/atlas.sqlite`;
    const first = await filledStore({ file });
    const sheet = valueIn(await first.sheets.open(id('found-01')));
    valueIn(await keepSheet(first, { ...sheet, id: id('mine') }));
    valueIn(await first.photos.add(id('mine'), picture(jpeg)));
    valueIn(await first.packs.remove('small'));
    const before = valueIn(await first.cases.open(id('mine'), null));
    await first.close();
    const second = await freshStore({ file });
    valueIn(await second.packs.load(smallPack));
    expect(valueIn(await second.cases.open(id('mine'), null))).toEqual(before);
  });
});

describe('what is written beside the sheet', () => {
  test('[P1] who wrote it and when stays where the same is written again; each thing that is another is written', async () => {
    const { store, clock, sheet } = await withClock('2026-03-04T12:00:00.000Z');
    const mine = { ...sheet, id: id('mine') };
    valueIn(await keepSheet(store, mine, 'Marit'));
    const details = { customer: 'Pilot station', lookedBy: 'Marit', notes: 'Oil.' };
    const write = async (changed: Partial<typeof details>, who: string) => {
      clock.now = new Date(Date.parse(clock.now) + 3_600_000).toISOString();
      const { customer, lookedBy, notes, describedBy, describedAt } = valueIn(
        await store.cases.describe(mine.id, { ...details, ...changed }, undefined, who),
      );
      return [customer, lookedBy, notes, describedBy, describedAt.slice(11, 13)];
    };
    expect(await write({}, 'Marit')).toEqual(['Pilot station', 'Marit', 'Oil.', 'Marit', '13']);
    expect(await write({}, 'Osk')).toEqual(['Pilot station', 'Marit', 'Oil.', 'Marit', '13']);
    expect(await write({ lookedBy: 'Ines' }, 'Osk')).toEqual(['Pilot station', 'Ines', 'Oil.', 'Osk', '15']);
    expect(await write({ lookedBy: 'Ines', customer: 'Réka' }, 'Ines')).toEqual(['Réka', 'Ines', 'Oil.', 'Ines', '16']);
    expect(await write({ lookedBy: 'Ines', customer: 'Réka', notes: '' }, 'Osk')).toEqual(['Réka', 'Ines', '', 'Osk', '17']);
    expect(troubleIn(await store.cases.describe(id('nobody'), details)).code).toBe('not-found');
    expect(troubleIn(await store.cases.open(id('nobody'), null)).code).toBe('not-found');
    expect(troubleIn(await store.cases.open(id('found-01'), null)).code).toBe('not-found');
  });

  test('[P1] as it stood on a day it has the title it had then, and one that is open now says who saved it last, and when', async () => {
    const { store, clock, sheet } = await withClock('2026-03-04T12:00:00.000Z');
    valueIn(await keepSheet(store, { ...sheet, id: id('mine'), title: 'Grey unit' }, 'Marit'));
    clock.now = '2026-03-05T12:00:00.000Z';
    valueIn(await keepSheet(store, { ...sheet, id: id('mine'), title: 'Grey unit, cleaned' }, 'Osk'));
    expect(valueIn(await store.cases.open(id('mine'), '2026-03-04T23:00:00.000Z')).title).toBe('Grey unit');
    expect(valueIn(await store.cases.open(id('mine'), null)).title).toBe('Grey unit, cleaned');
    const saved = { at: '2026-03-05T12:00:00.000Z', who: 'Osk', number: 'A-2026-0001' };
    expect(valueIn(await store.sheets.opened(id('mine')))).toMatchObject({ saved, whole: expect.any(String) });
    expect(valueIn(await store.sheets.opened(sheet.id))).toMatchObject({ saved: null, whole: null });
  });

  test('[P3] a row that was spoilt on the disk is told by its place, wherever it is read', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const store = await filledStore({ file });
    valueIn(await keepSheet(store, { ...valueIn(await store.sheets.open(id('found-01'))), id: id('mine') }));
    const onDisk = await freshConnection(file);
    await onDisk.run(`update case_entries set body = '{"id":"mine"}'`);
    expect(troubleIn(await store.cases.open(id('mine'), null))).toMatchObject({
      code: 'sheet-invalid',
      place: expect.stringContaining('case of sheet mine, entry 1'),
    });
    expect(troubleIn(await store.cases.lastTold())).toMatchObject({ code: 'sheet-invalid', place: expect.stringContaining('mine') });
    await onDisk.run(`update sheets set body = '[]' where id = 'mine'`);
    expect(troubleIn(await store.sheets.open(id('mine')))).toMatchObject({
      code: 'sheet-invalid',
      place: expect.stringContaining('sheet mine'),
    });
  });
});

describe('photographs', () => {
  const grey = { depth: 8, colour: 0 };
  /** A picture of that many bytes once it is cleaned. */
  const jpegAsLongAs = (bytes: number): Buffer => {
    const cleaned = cleanPhoto(pictureOf(1, 0), 'p');
    return pictureOf(1, bytes - (cleaned.ok ? cleaned.value.bytes.length : Number.NaN));
  };
  const setUp = async () => {
    const { store, clock, sheet } = await withClock('2026-03-04T12:00:00.000Z');
    for (const name of ['one', 'two']) valueIn(await keepSheet(store, { ...sheet, id: id(name) }));
    return { store, clock, sheet };
  };

  test('[P1] the same picture is stored once, whichever cases and files it comes from, and goes with the last case that shows it', async () => {
    const { store } = await setUp();
    const [plain] = valueIn(await store.photos.add(id('one'), picture(jpeg)));
    const again = valueIn(await store.photos.add(id('one'), picture(jpeg, { caption: 'the same' })));
    expect(again.map(({ id: of, caption }) => [of, caption])).toEqual([[plain?.id, 'the same']]);
    const [other] = valueIn(await store.photos.add(id('two'), picture(jpeg)));
    expect(other?.id).toBe(plain?.id);
    valueIn(await store.photos.remove(id('one'), plain?.id as PhotoId));
    expect(valueIn(await store.photos.bytes(plain?.id as PhotoId, 'whole')).type).toBe('image/jpeg');
    valueIn(await store.photos.remove(id('two'), plain?.id as PhotoId));
    expect(troubleIn(await store.photos.bytes(plain?.id as PhotoId, 'whole'))).toMatchObject({ code: 'not-found' });
  });

  test('[P1] what is stored carries no position; its id is the hash of what is stored', async () => {
    const { store } = await setUp();
    const [added] = valueIn(await store.photos.add(id('one'), picture(jpegWithPosition(), { thumbnail: jpegWithPosition() })));
    for (const which of ['whole', 'thumbnail'] as const) {
      const { bytes } = valueIn(await store.photos.bytes(added?.id as PhotoId, which));
      expect(bytes.includes('PORT-HALLOW')).toBe(false);
      if (which === 'whole') expect(bytes.length).toBe(added?.bytes);
    }
  });

  test('[P3] a photograph whose bytes were altered on the disk is not served as whole: it is named, and the same picture added again makes it whole', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const store = await filledStore({ file });
    valueIn(await keepSheet(store, { ...valueIn(await store.sheets.open(id('found-01'))), id: id('one') }));
    const [photo] = valueIn(await store.photos.add(id('one'), picture(jpeg)));
    const { bytes } = valueIn(await store.photos.bytes(photo?.id as PhotoId, 'whole'));
    const onDisk = await freshConnection(file);
    const spoilt = Buffer.from(bytes);
    spoilt[200] = (spoilt[200] ?? 0) ^ 1;
    await onDisk.run('update photos set bytes = ?', [spoilt]);
    const trouble = troubleIn(await store.photos.bytes(photo?.id as PhotoId, 'whole'));
    expect(trouble).toMatchObject({ code: 'photo-altered', place: `photograph ${photo?.id}` });
    expect(trouble.sentence).toContain(photo?.id);
    expect(valueIn(await store.photos.bytes(photo?.id as PhotoId, 'thumbnail')).type).toBe('image/png');
    valueIn(await store.photos.add(id('one'), picture(jpeg)));
    expect(valueIn(await store.photos.bytes(photo?.id as PhotoId, 'whole')).type).toBe('image/jpeg');
  });

  test('[P1] a photograph is tied to a slot of the atlas or an entry of the saved sheet, and to nothing else', async () => {
    const { store, sheet } = await setUp();
    const [first] = sheet.observations;
    const shown = valueIn(
      await store.photos.add(id('one'), picture(jpeg, { about: { kind: 'observation', observation: first?.id as ObservationId } })),
    );
    expect(shown[0]?.about).toEqual({ kind: 'observation', observation: first?.id });
    const slot = asId<SlotId>('compressor-wheel');
    const [tied] = valueIn(await store.photos.describe(id('one'), shown[0]?.id as PhotoId, 'nose', { kind: 'slot', slot }));
    expect(tied).toMatchObject({ caption: 'nose', about: { kind: 'slot', slot } });
    for (const about of [
      { kind: 'slot', slot: asId<SlotId>('propeller') },
      { kind: 'observation', observation: asId<ObservationId>('o99') },
    ] as const)
      expect(troubleIn(await store.photos.add(id('one'), picture(webp, { about })))).toMatchObject({ code: 'not-found', place: 'about' });
    expect(valueIn(await store.cases.open(id('one'), null)).photos, 'nothing was kept of those refused').toHaveLength(1);
  });

  test('[R6] a case holds a hundred photographs; one more is refused, and one removed makes room', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const store = await filledStore({ file });
    valueIn(await keepSheet(store, { ...valueIn(await store.sheets.open(id('found-01'))), id: id('one') }));
    const [shown] = valueIn(await store.photos.add(id('one'), picture(jpeg)));
    const onDisk = await freshConnection(file);
    for (const into of [
      `photos (id, type, width, height, size, bytes, thumbnail_type, thumbnail) select printf('%064d', k), type, width, height, size, bytes, thumbnail_type, thumbnail from photos`,
      `case_photos (sheet, photo, added_at, caption, n) select sheet, printf('%064d', k), added_at, caption, k + 1 from case_photos`,
    ])
      await onDisk.run(`with recursive many (k) as (select 1 union all select k + 1 from many where k < 98) insert into ${into}, many`);
    expect(valueIn(await store.photos.add(id('one'), picture(webp)))).toHaveLength(100);
    expect(troubleIn(await store.photos.add(id('one'), picture(png)))).toMatchObject({ code: 'photos-too-many', place: 'sheet one' });
    valueIn(await store.photos.remove(id('one'), shown?.id as PhotoId));
    expect(valueIn(await store.photos.add(id('one'), picture(png)))).toHaveLength(100);
  });

  test.each([
    ['as wide as it may be', true, () => pngOf(512, 12, grey)],
    ['as high as it may be', true, () => pngOf(16, 512, grey)],
    ['too wide', false, () => pngOf(513, 12, grey)],
    ['too high', false, () => pngOf(16, 513, grey)],
    ['as long as it may be', true, () => jpegAsLongAs(96 * 1024)],
    ['too long', false, () => jpegAsLongAs(96 * 1024 + 1)],
  ])('[R6] a small picture that is %s', async (_, kept, thumbnail) => {
    const { store } = await setUp();
    const outcome = await store.photos.add(id('one'), picture(jpeg, { thumbnail: thumbnail() }));
    expect(outcome.ok ? true : outcome.trouble.code).toBe(kept || 'photo-too-large');
    expect(valueIn(await store.cases.open(id('one'), null)).photos).toHaveLength(kept ? 1 : 0);
  });

  test('[T1] a damaged file and a sheet that is no case keep nothing', async () => {
    const { store } = await setUp();
    expect(troubleIn(await store.photos.add(id('one'), picture(jpeg.subarray(0, 300))))).toMatchObject({ code: 'photo-damaged' });
    expect(troubleIn(await store.photos.add(id('one'), picture(jpeg, { thumbnail: Buffer.from('none') })))).toMatchObject({
      code: 'photo-unreadable',
    });
    expect(troubleIn(await store.photos.add(id('found-01'), picture(jpeg)))).toMatchObject({ code: 'not-found' });
    expect(valueIn(await store.cases.open(id('one'), null)).photos).toEqual([]);
  });
});

describe('finding cases', () => {
  const shelf = async () => {
    const { store, clock, sheet } = await withClock('2026-03-04T12:00:00.000Z');
    const save = async (name: string, day: string, rest: Partial<Sheet>, customer: string, notes: string, who: string) => {
      clock.now = `${day}T12:00:00.000Z`;
      valueIn(await keepSheet(store, { ...sheet, id: id(name), ...rest }, who));
      valueIn(await store.cases.describe(id(name), { customer, lookedBy: who, notes }));
    };
    await save('a', '2026-03-04', { title: 'Grey unit off the quay' }, 'Pilot station', 'Oil in the outlet.', 'Marit');
    await save('b', '2026-03-10', { title: 'Cutter', claimed: null, claimedMaker: null }, 'Réka', '=2+3', 'Osk');
    await save('c', '2026-04-02', { title: '@harbour', observations: [] }, '+44 spare', 'line one\nline "two", three', 'Osk');
    return store;
  };
  const found = async (store: Store, filter: Parameters<Store['cases']['list']>[0]) =>
    valueIn(await store.cases.list(filter)).map(({ sheet }) => sheet);

  test.each([
    [{}, ['c', 'b', 'a']],
    [{ text: 'QUAY pilot' }, ['a']],
    [{ text: 'A-2026-0002' }, ['b']],
    [{ text: 'reka' }, ['b']],
    [{ text: 'outlet' }, ['a']],
    [{ text: ' pilot   quay ' }, ['a']],
    [{ text: 'pilot réka' }, []],
    [{ text: '   ' }, ['c', 'b', 'a']],
    [{ text: 'ＧＲＥＹ osk' }, []],
    [{ text: 'ＧＲＥＹ marit' }, ['a']],
    [{ text: 'petrel' }, ['c', 'a']],
    [{ text: '%' }, []],
    [{ from: '2026-03-10' }, ['c', 'b']],
    [{ from: '2026-03-05', to: '2026-03-31' }, ['b']],
    [{ status: 'none' }, ['b']],
    [{ status: 'ruled out' }, ['a']],
    [{ status: 'open' }, ['c']],
    [{ lookedBy: 'Osk' }, ['c', 'b']],
    [{ lookedBy: 'Osk', text: 'cutter' }, ['b']],
  ] as const)('[P1] %j finds %j', async (filter, wanted) => {
    expect(await found(await shelf(), filter)).toEqual(wanted);
  });

  test('[P1] a case stands in the list with what it was told last, by which edition, its photographs and the numbers of its unit', async () => {
    const store = await shelf();
    valueIn(await store.photos.add(id('a'), picture(jpeg)));
    valueIn(await store.photos.add(id('a'), picture(webp)));
    const sheet = valueIn(await store.sheets.open(id('a')));
    valueIn(await keepSheet(store, { ...sheet, serial: 'H-11 207' }, 'Osk'));
    const { edition } = await store.atlas.read();
    const contradiction = { kind: 'contradiction' as const, edition, sentences: ['Two blade counts.'] };
    valueIn(await store.sheets.save(valueIn(await store.sheets.open(id('b'))), { verdict: contradiction, who: 'Osk' }));
    const listed = new Map(valueIn(await store.cases.list({})).map((one) => [one.sheet as string, one]));
    const told = valueIn(await store.cases.open(id('a'), null)).history.at(-1)?.verdict;
    if (told?.kind !== 'verdict') throw new Error('no verdict');
    expect(told.honest.length + told.open.length).toBeGreaterThan(1);
    expect(listed.get('a')).toEqual({
      sheet: 'a',
      number: 'A-2026-0001',
      openedOn: '2026-03-04',
      savedAt: '2026-04-02T12:00:00.000Z',
      title: 'Grey unit off the quay',
      kind: 'found',
      customer: 'Pilot station',
      lookedBy: 'Marit',
      notes: 'Oil in the outlet.',
      claimed: sheet.claimed,
      status: 'ruled out',
      honest: told.honest.map(({ text }) => text),
      open: told.open.map(({ text }) => text),
      edition: 'small 2026-03-02',
      observations: sheet.observations.length,
      photos: 2,
      numbers: [{ says: 'serial number', text: 'H-11 207' }],
      word: null,
    });
    expect(listed.get('b')).toMatchObject({ status: null, honest: [], open: [], edition: 'small 2026-03-02', photos: 0, numbers: [] });
  });

  test('[P1] CSV per RFC 4180: what was written is read back, row by row, quotes, commas and line ends whole', async () => {
    const cases = valueIn(await (await shelf()).cases.list({}));
    const csv = casesCsv(cases);
    expect(csv.endsWith('\r\n')).toBe(true);
    expect(csv.replaceAll('\r\n', '').includes('\r')).toBe(false);
    const { data, errors } = Papa.parse<Record<string, string>>(csv, { header: true, skipEmptyLines: true });
    expect(errors).toEqual([]);
    expect(data.map((row) => [row.number, row.claimed, row['status of the claim']].join())).toHaveLength(3);
    expect(data.map(({ notes }) => notes)).toEqual(['line one\nline "two", three', "'=2+3", 'Oil in the outlet.']);
  });

  test('[P1] no cell begins what a spreadsheet would reckon out, whatever was typed', async () => {
    const { data } = Papa.parse<string[]>(casesCsv(valueIn(await (await shelf()).cases.list({}))));
    for (const cell of data.flat()) expect(cell).not.toMatch(/^[\s\p{Cc}\p{Cf}]*[=+\-@＝＋－＠]/u);
    const [one] = valueIn(await (await shelf()).cases.list({ lookedBy: 'Marit' }));
    if (one === undefined) throw new Error('no case');
    // A tab or a line end may begin a cell of its own.
    for (const [title, written] of [
      ['\t=1', "'\t'=1"],
      ['\n@x', "'\n'@x"],
    ] as const)
      expect(Papa.parse<string[]>(casesCsv([{ ...one, title }])).data[1]?.[3]).toBe(written);
    for (const title of ['=1+1', ' =1+1', '\u200b=1', '－1', '|calc', '-2', '+3', '%0'])
      expect(Papa.parse<string[]>(casesCsv([{ ...one, title }])).data[1]?.[3]).toBe(`'${title}`);
    for (const title of ['A=B', 'three - four', 'plain']) expect(casesCsv([{ ...one, title }])).toContain(`,${title},`);
  });
});

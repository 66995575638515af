import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { migrate } from '../../../db/driver/migrate.ts';
import { readAtlas } from '../../../db/graph/read-atlas.ts';
import {
  checkSheet,
  inspectPack,
  type KnownToAtlas,
  readPack,
  readSheetTable,
  readSheetText,
  sheetText,
  tableColumns,
} from '../../../db/index.ts';
import { migrations } from '../../../db/migrations/index.ts';
import type { Fault } from '../../../db/read/faults.ts';
import { type Feature, type Observation, type Sheet, type SheetId, slipOf } from '../../../reasoner/index.ts';
import { rangedIds } from '../../../seed-data/make/vocabulary/plausible.ts';
import { demoAtlas } from '../seed/demo-atlas.ts';
import { copyOfSmallPack, expandH7, freshConnection, freshFolder, freshStore, troubleIn, valueIn } from './kit.ts';

const asked = { expandCode: expandH7, slipOf };
type Entry = Record<string, unknown>;
type SheetFile = { observations: Entry[] } & Entry;
const sample = 'sheets/found-01.json';

/** The small pack with ranges for its wheel's blades and exducer, changed by `change` before it is read. */
const packWith = async (change: (features: Entry[], sheet: SheetFile) => void = () => undefined): Promise<string> => {
  const folder = await copyOfSmallPack();
  const json = async (file: string) => JSON.parse(await readFile(join(folder, file), 'utf8'));
  const features = (await json('features.json')) as Entry[];
  const sheet = (await json(sample)) as SheetFile;
  Object.assign(features.find(({ id }) => id === 'cw-blades') as Entry, { plausible: { from: 3, to: 20 } });
  Object.assign(features.find(({ id }) => id === 'cw-exducer') as Entry, { plausible: { from: 20, to: 200 } });
  change(features, sheet);
  await writeFile(join(folder, 'features.json'), JSON.stringify(features, null, 2));
  await writeFile(join(folder, sample), JSON.stringify(sheet, null, 2));
  return folder;
};
const faultsOf = async (folder: string): Promise<readonly Fault[]> =>
  (troubleIn(await readPack(folder, asked)).all ?? []) as readonly Fault[];
const featureIn = (features: Entry[], id: string): Entry => features.find((feature) => feature.id === id) as Entry;
const rangeOf = (features: readonly Feature[], id: string) => features.find((feature) => feature.id === id)?.plausible;

describe('[O7] what is plausible is data of the vocabulary', () => {
  test('[O7] it is read, kept, read back, told to the window, and exported the same to the byte', async () => {
    const folder = await packWith();
    const store = await freshStore({ slipOf });
    valueIn(await store.packs.load(folder));
    const { features } = await store.atlas.read();
    expect(rangeOf(features, 'cw-blades')).toEqual({ from: 3, to: 20 });
    expect(rangeOf(features, 'cw-exducer')).toEqual({ from: 20, to: 200 });
    expect(features.filter((feature) => 'plausible' in feature)).toHaveLength(2);
    expect(rangeOf(valueIn(await store.atlas.vocabulary()).features, 'cw-exducer')).toEqual({ from: 20, to: 200 });
    const out = join(freshFolder(), 'out');
    valueIn(await store.packs.export('small', out));
    expect(valueIn(await readPack(out, asked))).toEqual(valueIn(await readPack(folder, asked)));
    const [second, again] = [await freshStore(), join(freshFolder(), 'again')];
    valueIn(await second.packs.load(out));
    valueIn(await second.packs.export('small', again));
    expect(await readFile(join(again, 'features.json'), 'utf8')).toBe(await readFile(join(out, 'features.json'), 'utf8'));
  });

  test('[O7] a filled database from before says of nothing that it is plausible, and takes only ranges that are some', async () => {
    const connection = await freshConnection();
    const before = migrations.findIndex(({ name }) => name === 'plausible sizes');
    await migrate(connection, migrations.slice(0, before));
    const fixture = join(import.meta.dirname, 'fixtures', `filled-${String(before).padStart(4, '0')}.sql`);
    await connection.script(`pragma foreign_keys = off; begin; ${await readFile(fixture, 'utf8')} commit; pragma foreign_keys = on;`);
    await migrate(connection, migrations);
    const { features } = await readAtlas(connection);
    expect(features.length).toBeGreaterThan(5);
    expect(features.some((feature) => 'plausible' in feature)).toBe(false);
    const set = (from: number | null, to: number | null, id: string) =>
      connection.run('update features set plausible_from = ?, plausible_to = ? where id = ?', [from, to, id]);
    await set(20, 200, 'cw-exducer');
    expect(rangeOf((await readAtlas(connection)).features, 'cw-exducer')).toEqual({ from: 20, to: 200 });
    for (const [from, to, id] of [
      [20, 20, 'cw-exducer'],
      [20, null, 'cw-exducer'],
      [null, 200, 'cw-exducer'],
      [1, 2, 'ch-letters'],
    ] as const)
      await expect(set(from, to, id), `${from} ${to} ${id}`).rejects.toThrow(/CHECK/);
  });

  test.each<[string, string, unknown, string]>([
    ['the wrong way round', 'cw-exducer', { from: 200, to: 20 }, '`from` less than `to`'],
    ['one figure alone', 'cw-exducer', { from: 20, to: 20 }, '`from` less than `to`'],
    ['a range without an end', 'cw-exducer', { from: 20 }, 'a number'],
    ['part of a blade', 'cw-blades', { from: 2.5, to: 20 }, 'whole numbers, zero or more'],
    ['less than no blade', 'cw-blades', { from: -1, to: 20 }, 'whole numbers, zero or more'],
    ['a range of letters', 'ch-letters', { from: 1, to: 2 }, 'nothing plausible, for a mark'],
  ])('[O7] %s is a fault with its place', async (_, id, plausible, expected) => {
    let at = -1;
    const found = await faultsOf(
      await packWith((features) => {
        featureIn(features, id).plausible = plausible;
        at = features.findIndex((feature) => feature.id === id);
      }),
    );
    const own = found.filter(({ file }) => file === 'features.json');
    expect(own).toHaveLength(1);
    expect(own[0]?.column).toMatch(new RegExp(`^\\[${at}\\]\\.plausible`));
    expect(own[0]?.expected).toContain(expected);
  });

  test('[O7] a part whose limits reach outside is a fault: the part or the range is wrong', async () => {
    const upTo = (to: number) => packWith((features) => Object.assign(featureIn(features, 'cw-exducer'), { plausible: { from: 20, to } }));
    // The widest exducer of the small pack is 57.1 + 0.2 mm.
    valueIn(await readPack(await upTo(57.3), asked));
    const found = await faultsOf(await upTo(57.29));
    expect(found).toMatchObject([
      { file: 'facts.csv', column: 'value', found: '56.9 to 57.3 mm', expected: 'what the feature holds plausible, 20 to 57.29 mm' },
    ]);
    // What may have been meant is said with it.
    const slipped = await packWith();
    const facts = await readFile(join(slipped, 'facts.csv'), 'utf8');
    await writeFile(join(slipped, 'facts.csv'), facts.replace('cw-exducer,46.1,', 'cw-exducer,2.25,'));
    expect((await faultsOf(slipped)).map(({ expected }) => expected)).toEqual([
      'what the feature holds plausible, 20 to 200 mm (57.15 mm, if it was read in inches; or 22.5 mm, if the decimal point slipped)',
    ]);
    const blades = (from: number) =>
      packWith((features) => Object.assign(featureIn(features, 'cw-blades'), { plausible: { from, to: 20 } }));
    valueIn(await readPack(await blades(6), asked));
    expect((await faultsOf(await blades(7))).map(({ file, found: what }) => `${file} ${what}`)).toEqual([
      'facts.csv 6',
      'facts.csv 6',
      'facts.csv 6',
    ]);
    const recess = await packWith((features) =>
      Object.assign(featureIn(features, 'ch-recess-diameter'), { plausible: { from: 10, to: 98.03 } }),
    );
    expect((await faultsOf(recess)).map(({ found: what }) => what)).toEqual(['98 to 98.035 mm', '98.01 to 98.04 mm']);
  });

  test('[O7] a sound pack is told which of its measures and counts nobody drew a range for', async () => {
    const told = valueIn(await inspectPack(await packWith(), asked)).warnings.filter(({ file }) => file === 'features.json');
    expect(told).toHaveLength(1);
    expect(told[0]?.sentence).toMatch(
      /^features\.json: 3 of 5 measures and counts have no plausible range \("ch-recess-diameter", "bh-spigot-diameter" and "np-year"\)\. /,
    );
    expect(told[0]?.means).toBe('No reading of them is ever asked about, whatever its size.');
    const whole = await packWith((features) => {
      for (const feature of features)
        if (feature.kind === 'measure' || feature.kind === 'count') feature.plausible ??= { from: 1, to: 5000 };
    });
    expect(valueIn(await inspectPack(whole, asked)).warnings.filter(({ file }) => file === 'features.json')).toEqual([]);
  });

  test('[O7] the demo vocabulary has a range for every measure and count, and for nothing else', () => {
    const figures = demoAtlas.features.filter(({ kind }) => kind === 'measure' || kind === 'count');
    expect([...rangedIds].sort()).toEqual(figures.map(({ id }) => id as string).sort());
    for (const { id, plausible } of figures) expect(plausible, id).toBeDefined();
  });
});

describe('[O7] where nobody can be asked, what is implausible is refused with the likely slip, unless it comes confirmed', () => {
  const exducer =
    (value: number, more: Entry = {}) =>
    (sheet: SheetFile) => {
      const entry = sheet.observations.find(({ feature }) => feature === 'cw-exducer') as Entry;
      Object.assign(entry, { value: { kind: 'measure', value } }, more);
    };
  const blades =
    (from: number, to: number, more: Entry = {}) =>
    (sheet: SheetFile) => {
      const entry = sheet.observations.find(({ feature }) => feature === 'cw-blades') as Entry;
      Object.assign(entry, { value: { kind: 'count', from, to } }, more);
    };
  const storeWith = async () => {
    const store = await freshStore({ slipOf });
    valueIn(await store.packs.load(await packWith()));
    return store;
  };
  const fileOf = async (change: (sheet: SheetFile) => void): Promise<string> => {
    const sheet = JSON.parse(await readFile(join(await packWith(), sample), 'utf8')) as SheetFile;
    change(sheet);
    return JSON.stringify(sheet, null, 2);
  };

  test.each<[string, (sheet: SheetFile) => void, string, string]>([
    [
      '5720 mm',
      exducer(5720),
      'observations[1].value.value',
      '57.2 mm, if the decimal point slipped; or "confirmed": true beside it, where it was read so (An exducer diameter of 5720 mm lies outside what is usual, 20 to 200 mm)',
    ],
    [
      '2.25 mm',
      exducer(2.25),
      'observations[1].value.value',
      '57.15 mm, if it was read in inches; or 22.5 mm, if the decimal point slipped; or "confirmed": true',
    ],
    ['111 blades', blades(111, 111), 'observations[0].value.from', '11 blades, if a figure was written twice; or "confirmed": true'],
    [
      '10 to 111 blades',
      blades(10, 111),
      'observations[0].value.from',
      '10 to 11 blades, if a figure was written twice; or "confirmed": true',
    ],
    ['2 blades', blades(2, 2), 'observations[0].value.from', 'a usual figure; or "confirmed": true'],
    [
      '0 mm',
      exducer(0),
      'observations[1].value.value',
      'a figure that can be (An exducer diameter of 0 mm cannot be: a length is greater than zero)',
    ],
    ['−3 mm', exducer(-3), 'observations[1].value.value', 'a figure that can be (An exducer diameter of -3 mm cannot be'],
    ['−3 mm, confirmed', exducer(-3, { confirmed: true }), 'observations[1].value.value', 'a figure that can be'],
    [
      '±181 mm',
      exducer(57.2, { sure: { kind: 'measured', u: 181 } }),
      'observations[1].sure.u',
      'a figure that can be (An uncertainty u of 181 mm cannot be',
    ],
    [
      '5720 mm, only told',
      exducer(5720, { sure: { kind: 'told' } }),
      'observations[1].value.value',
      '57.2 mm, if the decimal point slipped',
    ],
  ])('[O7] a sheet file with %s', async (_, change, place, expected) => {
    const text = await fileOf(change);
    const trouble = troubleIn(await (await storeWith()).sheets.read(text, 'unit.json'));
    expect(trouble.code).toBe('sheet-invalid');
    expect(trouble.place).toMatch(/^unit\.json, row \d+, /);
    expect(trouble.place).toContain(place);
    expect(trouble.sentence).toContain(`expected ${expected}`);
    // A sample of a pack comes in by the same door.
    const found = await faultsOf(await packWith((_features, sheet) => change(sheet)));
    expect(found.map(({ file, column }) => `${file} ${column}`)).toEqual([`${sample} ${place}`]);
    expect(found[0]?.expected).toContain(expected);
  });

  test.each<[string, (sheet: SheetFile) => void]>([
    ['5720 mm', exducer(5720, { confirmed: true })],
    ['111 blades', blades(111, 111, { confirmed: true })],
  ])('[O7] %s comes in confirmed, and the confirmation is kept: on the shelf, in the file and in a pack', async (_, change) => {
    const store = await storeWith();
    const read = valueIn(await store.sheets.read(await fileOf(change), 'unit.json'));
    expect(read.observations.filter(({ confirmed }) => confirmed === true)).toHaveLength(1);
    const folder = await packWith((_features, sheet) => change(sheet));
    const other = await freshStore({ slipOf });
    valueIn(await other.packs.load(folder));
    expect(valueIn(await other.sheets.open('found-01' as SheetId)).observations).toEqual(read.observations);
    const out = join(freshFolder(), 'out');
    valueIn(await other.packs.export('small', out));
    expect((JSON.parse(await readFile(join(out, sample), 'utf8')) as Sheet).observations).toEqual(read.observations);
  });

  test('[O7] a confirmation is yes or not there', async () => {
    for (const confirmed of [false, 'yes', null]) {
      const trouble = troubleIn(await (await storeWith()).sheets.read(await fileOf(exducer(5720, { confirmed })), 'unit.json'));
      expect(trouble.sentence).toContain('observations[1].confirmed');
    }
  });

  test('[O7] what is on the shelf already is never lost to a range drawn later', async () => {
    const store = await storeWith();
    const sheet = valueIn(await store.sheets.open('found-01' as SheetId));
    const old: Sheet = {
      ...sheet,
      observations: sheet.observations.map((one) =>
        one.value.kind === 'measure' ? { ...one, value: { kind: 'measure', value: 5720 } } : one,
      ),
    };
    expect(valueIn(await store.sheets.check(old))).toEqual(old);
  });
});

describe('[O7] a sheet held against an atlas in memory', () => {
  const known: KnownToAtlas = {
    slot: (id) => demoAtlas.slots.find((one) => one.id === id),
    feature: (id) => demoAtlas.features.find((one) => one.id === id),
    part: (id) => demoAtlas.parts.find((one) => one.id === id),
    maker: (id) => demoAtlas.makers.find((one) => one.id === id),
    slipOf,
  };
  const seen = (id: string, feature: string, value: Observation['value'], sure: Observation['sure'] = { kind: 'seen' }) =>
    ({ id, slot: known.feature(feature as Feature['id'])?.slot, feature, value, sure }) as Observation;
  const exducer = (value: number) => seen('exducer', 'compressor-wheel-exducer', { kind: 'measure', value }, { kind: 'measured', u: 0.02 });
  const blades = (from: number, to = from) => seen('blades', 'turbine-wheel-blades', { kind: 'count', from, to });
  const of = (...observations: readonly Observation[]): Sheet => ({
    id: 'new' as SheetId,
    title: '',
    story: '',
    kind: 'found',
    claimed: null,
    claimedMaker: null,
    observations,
    absent: [],
    chosen: {},
  });
  const inWindow = (sheet: Sheet) => checkSheet(sheet, known);
  const inFile = (sheet: Sheet) => readSheetText(sheetText(sheet), 'unit.json', known);
  const sentencesOf = (outcome: ReturnType<typeof inFile>): string[] => {
    const trouble = troubleIn(outcome);
    return (trouble.all ?? [trouble]).map(({ sentence }) => sentence);
  };

  test.each<[Observation, string]>([
    [
      exducer(5720),
      'An exducer diameter of 5720 mm lies outside what is usual, 20 to 260 mm. It would be 57.2 mm, if the decimal point slipped. Say that it is what was read, or enter it again.',
    ],
    [
      exducer(2.25),
      'An exducer diameter of 2.25 mm lies outside what is usual, 20 to 260 mm. It would be 57.15 mm, if it was read in inches; or 22.5 mm, if the decimal point slipped. Say that it is what was read, or enter it again.',
    ],
    [blades(2), 'A count of 2 blades lies outside what is usual, 5 to 24. Say that it is what was read, or enter it again.'],
  ])('[O7] who can be asked is asked %#', (entry, question) => {
    const trouble = troubleIn(inWindow(of(entry)));
    expect(trouble).toMatchObject({ code: 'sheet-doubted', sentence: question });
    expect(inWindow(of({ ...entry, confirmed: true }))).toMatchObject({ ok: true });
  });

  test.each<[Observation, string]>([
    [
      exducer(2.25),
      'unit.json, row 15, observations[0].value.value: found "2.25", expected 57.15 mm, if it was read in inches; or 22.5 mm, if the decimal point slipped; or "confirmed": true beside it, where it was read so (An exducer diameter of 2.25 mm lies outside what is usual, 20 to 260 mm).',
    ],
    [
      blades(111),
      'unit.json, row 15, observations[0].value.from: found "111", expected 11 blades, if a figure was written twice; or "confirmed": true beside it, where it was read so (A count of 111 blades lies outside what is usual, 5 to 24).',
    ],
    [
      blades(10, 111),
      'unit.json, row 15, observations[0].value.from: found "10 to 111", expected 10 to 11 blades, if a figure was written twice; or "confirmed": true beside it, where it was read so (A count of 10 to 111 blades lies outside what is usual, 5 to 24).',
    ],
    [
      { ...exducer(57.2), sure: { kind: 'measured', u: 1000 } },
      'unit.json, row 19, observations[0].sure.u: found "1000", expected a figure that can be (An uncertainty u of 1000 mm cannot be: with it the exducer diameter could be anything at all).',
    ],
  ])('[O7] in a file nobody is asked: %#', (entry, sentence) => {
    expect(troubleIn(inFile(of(entry)))).toMatchObject({ code: 'sheet-invalid', sentence });
    expect(inFile(of(blades(11)))).toMatchObject({ ok: true, value: of(blades(11)) });
  });

  test('[T1] a file that is no sheet, with its name', () => {
    expect(troubleIn(readSheetText('[]', 'unit.json', known)).place).toBe('unit.json, row 1');
    expect(troubleIn(readSheetText('{', 'unit.json', known)).code).toBe('sheet-unreadable');
  });

  test('[O7] an entry of another kind than its feature is that and no more: its figure is asked about by nobody', () => {
    const count = seen('exducer', 'compressor-wheel-exducer', { kind: 'count', from: 5720, to: 5720 }, { kind: 'told' });
    expect(sentencesOf(inWindow(of(count)))).toEqual([
      'sheet new, observations[0].value.kind: found "count", expected measure, which the exducer diameter is.',
    ]);
  });

  test('[O7] what is wrong is said before what is only doubted, each once and in the order of the sheet', () => {
    const sheet = { ...of(exducer(5720), exducer(57.2), blades(111), blades(11)), claimedMaker: 'nobody' as Sheet['claimedMaker'] };
    const places = [
      'claimedMaker',
      'observations[1].id',
      'observations[3].id',
      'observations[0].value.value',
      'observations[2].value.from',
    ];
    const told = troubleIn(inWindow(sheet));
    expect(told).toMatchObject({ code: 'sheet-unknown', place: 'sheet new, claimedMaker' });
    expect(told.all?.map(({ code, place }) => `${code} ${place}`)).toEqual(
      places.map((place, n) => `${n === 0 ? 'sheet-unknown' : n < 3 ? 'sheet-invalid' : 'sheet-doubted'} sheet new, ${place}`),
    );
    const read = troubleIn(inFile(sheet));
    expect(read.all?.map(({ place }) => place?.replace(/^unit\.json, row \d+, /, ''))).toEqual(places);
    expect(read.all?.map(({ code }) => code)).toEqual(['sheet-unknown', ...Array<string>(4).fill('sheet-invalid')]);
  });
});

describe('[O7] tables of sheets', () => {
  const terms = { ...demoAtlas, slipOf };
  const row = (cells: Partial<Record<(typeof tableColumns)[number], string>>) =>
    tableColumns.map((column) => cells[column] ?? '').join(',');
  const table = (cells: Parameters<typeof row>[0]) =>
    readSheetTable(`${tableColumns.join(',')}\n${row({ unit: 'a', ...cells })}\n`, 'units.csv', terms);
  const exducer = { feature: 'compressor-wheel-exducer', how: 'measured', u: '0.02' };

  test.each<[string, Parameters<typeof row>[0], string, string]>([
    [
      '5720 mm',
      { ...exducer, value: '5720' },
      'value',
      '57.2 mm, if the decimal point slipped; or “measured confirmed” under how, where it was read so',
    ],
    ['2.25 without its inches', { ...exducer, value: '2.25' }, 'value', '57.15 mm, if it was read in inches'],
    [
      'millimetres said to be inches',
      { ...exducer, value: '57.2 in', u: '0.02 mm' },
      'value',
      '57.2 mm, if it was read in millimetres and entered in inches',
    ],
    [
      '111 blades',
      { feature: 'turbine-wheel-blades', how: 'told', value: '111' },
      'value',
      '11 blades, if a figure was written twice; or “told confirmed” under how',
    ],
    ['0 mm', { ...exducer, value: '0 mm' }, 'value', 'a figure that can be'],
    ['0 mm, confirmed', { ...exducer, value: '0', how: 'measured confirmed' }, 'value', 'a figure that can be'],
    [
      'an uncertainty of a metre',
      { ...exducer, value: '57.2', u: '1000' },
      'u',
      'a figure that can be (An uncertainty u of 1000 mm cannot be',
    ],
    ['a confirmation of nothing', { ...exducer, value: '57.2', how: 'confirmed' }, 'how', 'measured or told, for a measure'],
    ['a confirmation that nothing could be seen', { ...exducer, value: '?', how: 'measured confirmed', u: '' }, 'how', 'nothing beside ?'],
  ])('[O7] %s spoils its unit, with row and column', (_, cells, column, expected) => {
    const [unit] = table(cells);
    const found = JSON.stringify(cells[column as keyof typeof cells]);
    expect(unit).toMatchObject({ ok: false, faults: [{ row: 2, column, found, expected: expect.stringContaining(expected) }] });
  });

  test('[O7] with its confirmation it is taken, and the confirmation kept', () => {
    const [unit] = table({ ...exducer, value: '5720', how: 'measured  confirmed' });
    expect(unit).toMatchObject({
      ok: true,
      sheet: { observations: [{ value: { kind: 'measure', value: 5720 }, sure: { kind: 'measured', u: 0.02 }, confirmed: true }] },
    });
    const [usual] = table({ ...exducer, value: '57.2' });
    expect(usual?.ok === true && 'confirmed' in (usual.sheet.observations[0] ?? {})).toBe(false);
  });
});

import ExcelJS from 'exceljs';
import { describe, expect, test } from 'vitest';
import { factsOut, modelsOut, partsFound, partsOut, type TableOut } from '../../../../db/tables/bring-out.ts';
import type { CellSheet } from '../../../../db/tables/cells.ts';
import { known } from '../../../../db/tables/known.ts';
import { headingRowIn, matchColumns, matchSheet } from '../../../../db/tables/match-columns.ts';
import { readDelimited } from '../../../../db/tables/read-delimited.ts';
import { readXlsx } from '../../../../db/tables/read-xlsx.ts';
import { tableCsv, tableXlsx } from '../../../../db/tables/write-table.ts';
import type { Atlas, Part } from '../../../../reasoner/index.ts';
import { demoAtlas } from '../../seed/demo-atlas.ts';
import { valueIn } from '../kit.ts';
import { weatherRows } from './weather-rows.ts';
import { atlasAfter, feature, readSheet, sheetOf, usesOf, weatherAtlas } from './weather-shop.ts';

const demo = known(demoAtlas);
const match = (...headings: string[]) =>
  matchColumns(
    'parts',
    headings.map((heading) => ({ heading, sample: [] })),
    demo,
    null,
  ).map(({ use, sure }) =>
    use.is === 'figure'
      ? `${sure}: ${use.part} of ${use.features.length > 3 ? use.features.length : use.features.join(' ')}${use.unit === null ? '' : ` in ${use.unit}`}`
      : `${sure}: ${use.is}`,
  );
const faultsOf = (read: ReturnType<typeof readSheet>) => read.faults.map(({ row, column, sentence }) => `${row} ${column}: ${sentence}`);

describe('[I2] columns', () => {
  test('are known by their headings: the table’s own words, the atlas’s names and other words, with units taken off, case and accents passed over', () => {
    expect(match('Part-No.', 'DESCRIPTION', 'Mäker', 'Slot', 'shelf', 'Replaces')).toEqual([
      'certain: numbers',
      'certain: name',
      'certain: maker',
      'certain: slot',
      'none: ignored',
      'certain: supersedes',
    ]);
    expect(match('Inducer diameter (in)')).toEqual(['certain: size of compressor-wheel-inducer turbine-wheel-inducer in inch']);
    expect(match('eye diameter [mm]', 'cutback angle, °', 'Tip Height')).toEqual([
      'certain: size of compressor-wheel-inducer in mm',
      'certain: size of turbine-wheel-cutback-angle in deg',
      'certain: size of compressor-wheel-tip-height turbine-wheel-tip-height',
    ]);
    expect(match('compressor wheel bore', 'impeller exducer dia', 'hub diameter behind the blades of the turbine wheel')).toEqual([
      'certain: size of compressor-wheel-bore',
      'certain: size of compressor-wheel-exducer',
      'certain: size of turbine-wheel-hub',
    ]);
    expect(match('tip hieght', 'bore +', 'bore lower', 'tip height min', 'tip height max')).toEqual([
      'likely: size of compressor-wheel-tip-height turbine-wheel-tip-height',
      'certain: upper of compressor-wheel-bore',
      'certain: lower of compressor-wheel-bore',
      'certain: least of compressor-wheel-tip-height turbine-wheel-tip-height',
      'certain: greatest of compressor-wheel-tip-height turbine-wheel-tip-height',
    ]);
  });

  test('that may be several things are not taken for one of them, nor are two for the same', () => {
    const [bolt] = matchColumns(
      'parts',
      [{ heading: 'rim land', sample: [] }],
      demo,
      demoAtlas.slots.filter(({ name }) => name === 'compressor housing').map(({ id }) => id),
    );
    expect(bolt).toMatchObject({ sure: 'asked', use: { is: 'ignored' } });
    expect(bolt?.others.length).toBeGreaterThan(1);
    expect(match('maker', 'make', 'bore', 'Bore (mm)')).toEqual([
      'certain: maker',
      'asked: ignored',
      'certain: size of compressor-wheel-bore',
      'asked: ignored',
    ]);
    expect(match('part number', 'old number')).toEqual(['certain: numbers', 'certain: numbers']);
  });

  test('speak of the features of those kinds of part the rows are of', () => {
    const rows = sheetOf(
      ['number', 'type', 'inducer'],
      ['GUST 1', 'impeller', 51.5],
      ['GUST 2', 'exhaust wheel', 52],
      ['GUST 3', 'flywheel', ''],
    ).rows;
    expect(matchSheet('parts', rows, 1, demo, null)[2]).toMatchObject({
      use: { features: ['compressor-wheel-inducer', 'turbine-wheel-inducer'] },
    });
    expect(matchSheet('parts', rows.slice(0, 2), 1, demo, null)[2]).toMatchObject({ use: { features: ['compressor-wheel-inducer'] } });
    expect(match('inducer')[0]).toContain('of 4');
  });

  test('without headings are known by what stands under them, and the row of the headings by what it says', () => {
    const slots = ['impeller', 'turbine wheel', 'what'].map((text) => ({ text, is: 'text' as const }));
    expect(matchColumns('parts', [{ heading: '', sample: slots }], demo, null)[0]).toMatchObject({ use: { is: 'slot' }, sure: 'likely' });
    expect(matchColumns('parts', [{ heading: '', sample: slots.slice(1) }], demo, null)[0]).toMatchObject({ use: { is: 'ignored' } });
    expect(
      headingRowIn(
        'parts',
        sheetOf(['Weather shop, list of parts'], [], ['part number', 'maker', 'bore'], ['GUST 1', 'Hoarfrost', 5]).rows,
        demo,
      ),
    ).toBe(3);
    expect(headingRowIn('parts', sheetOf(['GUST 1', 5]).rows, demo)).toBe(0);
  });
});

const head = ['number', 'slot', 'maker', 'inducer diameter', 'bore'];
const row = (...cells: (string | number)[]) => readSheet(sheetOf(head, cells));

describe('[I3] a row', () => {
  test('is a new part, or one of the atlas by its number; what it does not say stays as it is', () => {
    const first = row('GUST 1; GUST 1A', 'impeller', 'Sirocco & Daughter', 51.5, '?');
    expect(first.counts).toEqual({ rows: 1, added: 1, altered: 0, same: 0, faulty: 0, left: 0 });
    const atlas = atlasAfter(weatherAtlas, first);
    expect(atlas.parts).toEqual([
      {
        id: 'sirocco-gust-1',
        slot: 'compressor-wheel',
        name: 'compressor wheel GUST 1',
        maker: 'sirocco',
        numbers: ['GUST 1', 'GUST 1A'],
        source: 'sheet',
        facts: {
          'compressor-wheel-inducer': { kind: 'measure', nominal: 51.5, lower: 0, upper: 0 },
          'compressor-wheel-bore': { kind: 'not known' },
        },
      },
    ]);
    expect(readSheet(sheetOf(head, ['gust-1', 'impeller', '', '', '']), { atlas }).counts).toMatchObject({ same: 1 });
    const second = readSheet(sheetOf(['number', 'slot', 'bore'], ['gust 1a', 'impeller', '6 H7']), { atlas });
    expect(second.counts).toMatchObject({ altered: 1, added: 0 });
    expect(atlasAfter(atlas, second).parts[0]).toMatchObject({
      name: 'compressor wheel GUST 1',
      facts: { 'compressor-wheel-inducer': { nominal: 51.5 }, 'compressor-wheel-bore': { nominal: 6, lower: 0, upper: 0.012, code: 'H7' } },
    });
  });

  test.each([
    [['GUST 1', 'impellor', 'Sirocco', 51.5, ''], /^2 1: Found "impellor", expected a kind of part/],
    [['GUST 1', 'impeller', 'Siroco', 51.5, ''], /^2 2: Found "Siroco", expected a maker of the atlas/],
    [['GUST 1', 'impeller', '', 51.5, ''], /^2 2: Nothing says who makes this part/],
    [['', 'impeller', 'Sirocco', 51.5, ''], /^2 null: Nothing in this row says which part it is/],
    [['GUST 1', '', 'Sirocco', 51.5, ''], /^2 1: Found nothing, expected what kind of part it is/],
    [['GUST 1', 'heat shield', 'Sirocco', 51.5, ''], /^2 3: Found "51.5", expected nothing: a heat shield has no such feature/],
    [['1.23E+12', 'impeller', 'Sirocco', 51.5, ''], /^2 0: A spreadsheet has shortened this number/],
  ])('%j is marked in the cell that is wrong, and once', (cells, expected) => {
    const read = row(...cells);
    expect(faultsOf(read)).toEqual([expect.stringMatching(expected)]);
    expect(read.edits).toEqual([]);
  });

  test('is read again as it was mended: a cell written anew, a maker added, a figure confirmed, a row left out', () => {
    const sheet = sheetOf(head, ['GUST 1', 'impellor', 'Föhn', 515, 6], ['GUST 1', 'impeller', 'none', 51.5, 6]);
    const mended = (more: object) =>
      readSheet(sheet, { mended: { cells: { '2:1': 'impeller', '2:0': 'GUST 2' }, makers: ['föhn'], confirmed: ['2:3'], ...more } });
    const read = mended({});
    expect(faultsOf(read)).toEqual([]);
    expect(read.edits.map((edit) => ('put' in edit ? `${edit.list} ${edit.put.id}` : ''))).toEqual([
      'features compressor-wheel-inducer',
      'sources sheet',
      'makers fohn',
      'parts fohn-gust-2',
      'parts compressor-wheel-gust-1',
    ]);
    expect(faultsOf(mended({ confirmed: [] }))).toEqual([expect.stringMatching(/^2 3: An inducer diameter of 515 mm lies outside/)]);
    // A part of 515 mm is one: what an inducer may measure takes it in from now on, and no further.
    const [wide] = read.edits;
    expect(wide).toEqual({ list: 'features', put: { ...feature('compressor-wheel-inducer'), plausible: { from: 15, to: 515 } } });
    expect(mended({ cells: { '2:0': 'GUST 2' } }).edits.every((edit) => !('put' in edit) || edit.list !== 'features')).toBe(true);
    // Nor does a row that stays out for another fault.
    const still = mended({ cells: { '2:1': 'impeller', '2:0': 'GUST 2', '2:4': 'about 6' } });
    expect(still.counts).toMatchObject({ faulty: 1 });
    expect(still.edits.some((edit) => 'put' in edit && edit.list === 'features')).toBe(false);
    expect(mended({ left: [2] }).counts).toMatchObject({ rows: 1, added: 1, left: 1 });
  });

  test('tells full blades from splitters where both stand in one cell, and speaks of parts of its own table', () => {
    const read = readSheet(
      sheetOf(
        ['number', 'slot', 'maker', 'full blade count', 'supersedes'],
        ['GUST 2', 'impeller', 'Sirocco', '6+6', 'gust 1'],
        ['GUST 1', 'impeller', 'Sirocco', 7, ''],
      ),
    );
    expect(faultsOf(read)).toEqual([]);
    expect(atlasAfter(weatherAtlas, read).parts).toMatchObject([
      {
        supersedes: 'sirocco-gust-1',
        facts: { 'compressor-wheel-full-blades': { from: 6 }, 'compressor-wheel-splitter-blades': { from: 6 } },
      },
      { facts: { 'compressor-wheel-full-blades': { from: 7 } } },
    ]);
    expect(Object.keys(atlasAfter(weatherAtlas, read).parts[1]?.facts ?? {})).toEqual(['compressor-wheel-full-blades']);
  });

  test('that is about the same part as another is refused, whichever way the number is written', () => {
    expect(
      faultsOf(readSheet(sheetOf(head, ['GUST 1', 'impeller', 'Sirocco', 51.5, ''], ['gust-1', 'impeller', 'Sirocco', 51.5, '']))),
    ).toEqual([expect.stringMatching(/^3 null: Row 2 is about the same part/)]);
    // The same number of another maker, or of another kind of part, is another part’s.
    expect(
      readSheet(sheetOf(head, ['GUST 1', 'impeller', 'Sirocco', 51.5, ''], ['GUST 1', 'impeller', 'Hoarfrost', 51.5, ''])).counts,
    ).toMatchObject({ added: 2 });
  });
});

test('[I4] of three hundred parts with ten faults exactly these ten are found, in their cells; mended, all come in, and brought in again alter nothing', () => {
  const rows = weatherRows();
  const spoil: [number, number, string][] = [
    [5, 4, '1,234'],
    [17, 3, 'Simoom'],
    [33, 2, 'flywheel'],
    [48, 5, '524'],
    [77, 7, '6.5'],
    [101, 8, 'fluted'],
    [150, 4, '2 1/0"'],
    [222, 0, '1.23E+11'],
    [250, 5, '52.4 -0.05'],
    [299, 6, '6 H99'],
  ];
  for (const [at, column, text] of spoil) (rows[at] as (string | number)[])[column] = text;
  const sheet = sheetOf(...rows);
  const read = readSheet(sheet);
  expect(read.faults.map(({ row: at, column }) => [at, column])).toEqual(spoil.map(([at, column]) => [at + 1, column]));
  expect(read.counts).toEqual({ rows: 300, added: 290, altered: 0, same: 0, faulty: 10, left: 0 });
  const good = weatherRows();
  const cells = Object.fromEntries(spoil.map(([at, column]) => [`${at + 1}:${column}`, String((good[at] as (string | number)[])[column])]));
  const mended = readSheet(sheet, { mended: { cells } });
  expect(mended.faults).toEqual([]);
  expect(mended.counts).toMatchObject({ added: 300, faulty: 0 });
  const atlas = atlasAfter(weatherAtlas, mended);
  expect(new Set(atlas.parts.map(({ id }) => id)).size).toBe(300);
  expect(readSheet(sheet, { mended: { cells }, atlas }).counts).toMatchObject({ added: 0, altered: 0, same: 300 });
});

const roundTrip = async (out: TableOut): Promise<readonly CellSheet[]> => [
  valueIn(readXlsx(await tableXlsx(out), 'out.xlsx')).sheets[0] as CellSheet,
  valueIn(readDelimited(tableCsv(out), 'out.csv')).sheets[0] as CellSheet,
];
const withCell = (sheet: CellSheet, at: number, column: number, text: string): CellSheet => ({
  ...sheet,
  rows: sheet.rows.map((cells, index) => (index === at ? Object.assign([...cells], { [column]: { text, is: 'text' as const } }) : cells)),
});
const some = demoAtlas.parts.filter((_, at) => at % 9 === 0);

describe('[I5] what is brought out and brought in again', () => {
  test('changes nothing: parts, models and facts, as a workbook and as CSV', async () => {
    for (const [kind, out] of [
      ['parts', partsOut(some, demo)],
      ['models', modelsOut(demoAtlas.models, demo)],
      ['facts', factsOut(some.slice(0, 20), demo)],
    ] as const) {
      for (const sheet of await roundTrip(out)) {
        const read = readSheet(sheet, { kind, atlas: demoAtlas });
        expect(faultsOf(read)).toEqual([]);
        expect(read.edits).toEqual([]);
        expect(read.counts).toMatchObject({ rows: out.rows.length, same: out.rows.length, added: 0, altered: 0 });
      }
    }
  });

  test('into an atlas without them gives the same parts again', () => {
    const sheet = sheetOf(partsOut(some, demo).headings, ...partsOut(some, demo).rows);
    const [column] = [partsOut(some, demo).headings.length - 1];
    const bare = { ...sheet, rows: sheet.rows.map((cells) => cells.slice(0, column)) };
    const left = demoAtlas.parts.filter((part) => !some.includes(part));
    const read = readSheet(bare, {
      atlas: {
        ...demoAtlas,
        parts: [...left, ...some.filter(({ id }) => left.some(({ patternOf, supersedes }) => patternOf === id || supersedes === id))],
      },
    });
    const plain = ({ factSources: _, source: __, facts, ...rest }: Part) => ({
      ...rest,
      facts: Object.fromEntries(Object.entries(facts).sort()),
    });
    const put = new Map(
      read.edits.flatMap((edit) => ('put' in edit && edit.list === 'parts' ? [[edit.put.id, plain(edit.put as unknown as Part)]] : [])),
    );
    const wanted = some.filter(({ id }) => put.has(id));
    expect(wanted.length).toBeGreaterThan(some.length / 2);
    expect(wanted.map((part) => put.get(part.id))).toEqual(wanted.map(plain));
  });

  const out = partsOut(some, demo);
  const sheet = sheetOf(out.headings, ...out.rows);
  const column = out.headings.findIndex((heading) => heading.startsWith('inducer diameter'));
  const at = out.rows.findIndex((cells) => typeof cells[column] === 'string' && cells[column] !== '') + 1;
  const id = String(out.rows[at - 1]?.[0]);
  const one = demoAtlas.parts.find((part) => part.id === id) as Part;
  const fact = Object.keys(one.facts).find((key) => key.endsWith('-inducer')) as keyof Part['facts'];
  const moved: Atlas = {
    ...demoAtlas,
    parts: demoAtlas.parts.map((part) =>
      part.id === id ? { ...part, facts: { ...part.facts, [fact]: { kind: 'measure', nominal: 60, lower: 0, upper: 0 } } } : part,
    ),
  };

  test('changes the one cell that was edited, and nothing else of the part', () => {
    const read = readSheet(withCell(sheet, at, column, '61,2 ±0,1'), { atlas: demoAtlas });
    expect(read.counts).toMatchObject({ altered: 1, same: some.length - 1 });
    const [edited] = atlasAfter(demoAtlas, read).parts.filter((part) => part.id === id);
    const { factSources: _, ...rest } = edited as Part;
    const { factSources: __, ...before } = one;
    expect(rest).toEqual({ ...before, facts: { ...one.facts, [fact]: { kind: 'measure', nominal: 61.2, lower: -0.1, upper: 0.1 } } });
    expect(edited?.factSources?.[fact]).toBe('sheet');
  });

  test('takes away what was emptied, and only what had been there; a cell that was never brought out takes nothing away', () => {
    const read = readSheet(withCell(sheet, at, column, ''), { atlas: demoAtlas });
    expect(read.counts).toMatchObject({ altered: 1 });
    expect(atlasAfter(demoAtlas, read).parts.find((part) => part.id === id)?.facts).toEqual(
      Object.fromEntries(Object.entries(one.facts).filter(([key]) => key !== fact)),
    );
    const unmarked = { ...sheet, rows: sheet.rows.map((cells) => cells.slice(0, -1)) };
    expect(readSheet(withCell(unmarked, at, column, ''), { atlas: demoAtlas }).counts).toMatchObject({ altered: 0 });
  });

  test('is in dispute where the atlas has moved on under a cell that was edited, and under no other', () => {
    expect(readSheet(sheet, { atlas: moved }).counts).toMatchObject({ altered: 0, faulty: 0 });
    const edited = withCell(sheet, at, column, '61.2');
    const read = readSheet(edited, { atlas: moved });
    expect(read.faults).toMatchObject([{ row: at + 1, column, confirm: 'moved on', likely: [{ text: '60' }] }]);
    expect(read.edits).toEqual([]);
    const confirmed = readSheet(edited, { atlas: moved, mended: { confirmed: [`${at + 1}:${column}`] } });
    expect(atlasAfter(moved, confirmed).parts.find((part) => part.id === id)?.facts[fact]).toMatchObject({ nominal: 61.2 });
    // Both came to the same.
    expect(readSheet(withCell(sheet, at, column, '60'), { atlas: moved }).counts).toMatchObject({ faulty: 0, altered: 0 });
  });

  test('of a model allows and disallows what was edited in a slot’s cell', () => {
    const models = modelsOut(demoAtlas.models.slice(0, 3), demo);
    const slot = models.headings.indexOf('compressor wheel');
    const before = demoAtlas.models[0];
    const listed = String(models.rows[0]?.[slot]).split('; ');
    const other = demoAtlas.parts.find(
      (part) => part.slot === 'compressor-wheel' && part.numbers.length > 0 && !before?.allowed.some((each) => each.part === part.id),
    );
    const read = readSheet(
      withCell(sheetOf(models.headings, ...models.rows), 1, slot, [...listed.slice(1), `${other?.numbers[0]} (service)`].join('; ')),
      { kind: 'models', atlas: demoAtlas },
    );
    expect(faultsOf(read)).toEqual([]);
    expect(read.edits).toEqual([
      { allow: { model: before?.id, slot: 'compressor-wheel', part: other?.id, role: 'service' } },
      { disallow: { model: before?.id, part: before?.allowed.find((each) => each.slot === 'compressor-wheel')?.part } },
    ]);
  });
});

test('[I6] another program opens the workbook: texts stay texts, sizes are numbers, headings stay in sight, and the column of marks is hidden', async () => {
  const nasty = ['=1+1', '1/4', '00412', '<b>&"\u2028', '@x', '412'];
  const parts = nasty.map((number, at) => ({ ...(some[0] as Part), id: `p${at}` as Part['id'], numbers: [number] }));
  const out = partsOut(parts, known({ ...demoAtlas, parts }));
  const book = new ExcelJS.Workbook();
  // Its types are of another edition of Node’s.
  await book.xlsx.load((await tableXlsx(out)) as never);
  const [sheet] = book.worksheets;
  const column = out.headings.indexOf('numbers') + 1;
  expect(nasty.map((_, at) => sheet?.getRow(at + 2).getCell(column).value)).toEqual(nasty);
  expect(sheet?.getRow(2).getCell(column).numFmt).toBe('@');
  expect(sheet?.getRow(1).values).toEqual([undefined, ...out.headings]);
  expect(sheet?.views[0]).toMatchObject({ state: 'frozen', ySplit: 1 });
  expect(sheet?.getColumn(out.headings.length).hidden).toBe(true);
  expect(sheet?.getColumn(out.headings.length - 1).hidden).toBeFalsy();
  const sizes = out.headings.findIndex(
    (heading) => heading.endsWith('(mm)') && typeof out.rows[0]?.[out.headings.indexOf(heading)] === 'number',
  );
  if (sizes >= 0) expect(typeof sheet?.getRow(2).getCell(sizes + 1).value).toBe('number');
  expect(tableCsv(out)).toContain("'=1+1");
});

test('[I6] what is brought out may be all, of one slot, or what every word of a text is found in', () => {
  const wheels = partsFound('', 'compressor-wheel' as Part['slot'], demo);
  expect(wheels.length).toBe(demoAtlas.parts.filter(({ slot }) => slot === 'compressor-wheel').length);
  expect(partsOut(wheels, demo).headings.length).toBeGreaterThan(20);
  const [part] = wheels;
  expect(partsFound(`${part?.numbers[0]?.toLowerCase()} ${part?.maker}`, null, demo)).toContain(part);
  expect(partsFound('nothing is called so', null, demo)).toEqual([]);
  expect(usesOf(sheetOf(partsOut(wheels, demo).headings), 'parts', demoAtlas).filter(({ is }) => is === 'ignored')).toEqual([]);
});

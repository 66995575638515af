import ExcelJS from 'exceljs';
import { zipSync } from 'fflate';
import { expect, test } from 'vitest';
import type { Cells } from '../../../../db/tables/cells.ts';
import { readDelimited, textIn } from '../../../../db/tables/read-delimited.ts';
import { readXlsx } from '../../../../db/tables/read-xlsx.ts';
import { limits } from '../../../../reasoner/plain/limits.ts';
import { valueIn } from '../kit.ts';

const texts = ({ sheets }: Cells): string[][] => (sheets[0]?.rows ?? []).map((row) => row.map(({ text }) => text));
const delimited = (text: string) => texts(valueIn(readDelimited(text, 't.csv')));
const sentence = (of: { ok: boolean; trouble?: { code: string; sentence: string } }) =>
  of.ok ? 'none' : `${of.trouble?.code}: ${of.trouble?.sentence}`;

test('[I1] a text is taken apart by RFC 4180, whichever sign stands between its cells, with or without a byte order mark and carriage returns', () => {
  // RFC 4180, 2.1 to 2.7.
  expect(delimited('aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n')).toEqual([
    ['aaa', 'bbb', 'ccc'],
    ['zzz', 'yyy', 'xxx'],
  ]);
  expect(delimited('"aaa","b \r\nbb","c""cc"\r\nzzz,yyy,xxx')).toEqual([
    ['aaa', 'b \r\nbb', 'c"cc'],
    ['zzz', 'yyy', 'xxx'],
  ]);
  expect(delimited('\uFEFFname;bore\nSleet;5,02\nHail;6,1\n')).toEqual([
    ['name', 'bore'],
    ['Sleet', '5,02'],
    ['Hail', '6,1'],
  ]);
  expect(delimited('name\tbore, mm\nSleet\t2 1/4"\n')).toEqual([
    ['name', 'bore, mm'],
    ['Sleet', '2 1/4"'],
  ]);
  // One column, with commas in one cell alone.
  expect(delimited('number\nGUST 1\n')).toEqual([['number'], ['GUST 1']]);
  expect(delimited("a,b\n'-2 ±0.5,'=1+1\n")[1]).toEqual(['-2 ±0.5', '=1+1']);
  expect(textIn(Buffer.from([0x41, 0xb1])).text).toBe('A±');
  expect(textIn(Buffer.from('\uFEFFA±', 'utf16le')).text.replace('\uFEFF', '')).toBe('A±');
});

test('[I1] a quote that is not closed, a text without cells and one past a limit are refused with the row', () => {
  expect(sentence(readDelimited('a,b\n"c,d\n', 't.csv'))).toMatch(
    /^table-unreadable: t\.csv, row 2: found a quote that is opened and not closed, in /,
  );
  expect(sentence(readDelimited('\n\n', 't.csv'))).toBe(
    'table-unreadable: t.csv: found no cells, expected headings and rows. Nothing was brought in.',
  );
  expect(sentence(readDelimited('a\n'.repeat(limits.spreadsheetRows), 't.csv'))).toBe('none');
  expect(sentence(readDelimited('a\n'.repeat(limits.spreadsheetRows + 1), 't.csv'))).toMatch(
    /^table-too-large: .* 20001 rows; the most is 20000/,
  );
  expect(
    sentence(
      readDelimited(
        Array(limits.spreadsheetColumns + 1)
          .fill('a')
          .join(),
        't.csv',
      ),
    ),
  ).toMatch(/^table-too-large: .*row 1 has 301 cells/);
});

test('[I1] of a workbook every cell is what it holds: numbers whole, formulas by their value, dates and errors said to be such, texts with what programs hide in them', async () => {
  const book = new ExcelJS.Workbook();
  book.addWorksheet('aside', { state: 'hidden' }).addRow(['not this one']);
  const sheet = book.addWorksheet('Parts');
  sheet.addRow([
    'text',
    51.6,
    0.1 + 0.2,
    new Date(Date.UTC(2026, 3, 1)),
    true,
    { formula: 'B1*2', result: 103.2 },
    { formula: 'A1', result: 'text' },
    { error: '#REF!' },
    { formula: 'B1' },
  ]);
  sheet.addRow([
    { richText: [{ text: 'in' }, { font: { bold: true }, text: 'ducer' }] },
    412,
    0.5,
    1e-7,
    '  spaces ',
    null,
    'a\nb',
    'x_x000D_y',
    1234567890123456,
  ]);
  sheet.getCell('B2').numFmt = '00000';
  sheet.getCell('C2').numFmt = '0.0%';
  sheet.getCell('B1').numFmt = '#,##0.00 "days"';
  sheet.getCell('D4').value = 'far';
  const bytes = Buffer.from(await book.xlsx.writeBuffer());
  const read = valueIn(readXlsx(bytes, 'p.xlsx'));
  expect(read.sheets.map(({ name, hidden }) => [name, hidden])).toEqual([
    ['aside', true],
    ['Parts', false],
  ]);
  const rows = read.sheets[1]?.rows ?? [];
  expect(rows[0]?.map(({ text, is }) => `${is} ${text}`)).toEqual([
    'text text',
    'number 51.6',
    'number 0.3',
    'date 2026-04-01',
    'text yes',
    'number 103.2',
    'text text',
    'error #REF!',
    'not reckoned ',
  ]);
  expect(rows[1]?.map(({ text, is }) => `${is} ${text}`)).toEqual([
    'text inducer',
    'text 00412',
    'text 50%',
    'number 0.0000001',
    'text spaces',
    'text ',
    'text a\nb',
    'text x\ry',
    'cut short 1234567890123460',
  ]);
  expect(rows[2]).toEqual([]);
  expect(rows[3]?.map(({ text }) => text)).toEqual(['', '', '', 'far']);
});

const zipOf = (sheet: string): Buffer =>
  Buffer.from(
    zipSync({
      '_rels/.rels': Buffer.from('<Relationships><Relationship Id="a" Type="x/officeDocument" Target="/xl/workbook.xml"/></Relationships>'),
      'xl/workbook.xml': Buffer.from('<workbook xmlns:r="x"><sheets><sheet name="S" r:id="b"/></sheets></workbook>'),
      'xl/_rels/workbook.xml.rels': Buffer.from(
        '<Relationships><Relationship Id="b" Type="x/worksheet" Target="worksheets/s.xml"/></Relationships>',
      ),
      'xl/worksheets/s.xml': Buffer.from(sheet),
    }),
  );

test('[I1] [R6] no file makes more of itself than may come in: sizes are looked at before anything is inflated, places before rows are made, and no entity is expanded', () => {
  const cellAt = (place: string) =>
    zipOf(`<worksheet><sheetData><row><c r="${place}" t="inlineStr"><is><t>x</t></is></c></row></sheetData></worksheet>`);
  expect(sentence(readXlsx(cellAt('KN20000'), 'p.xlsx'))).toBe('none');
  expect(sentence(readXlsx(cellAt('KN20001'), 'p.xlsx'))).toMatch(/^table-too-large: .*something in row 20001/);
  expect(sentence(readXlsx(cellAt('KO1'), 'p.xlsx'))).toMatch(/^table-too-large: .*something in column 301/);
  expect(
    sentence(
      readXlsx(Buffer.from(zipSync({ 'xl/workbook.xml': new Uint8Array(limits.spreadsheetUnpackedBytes + 1) }, { level: 1 })), 'bomb.xlsx'),
    ),
  ).toMatch(/^table-too-large: bomb\.xlsx is too large/);
  const entity = zipOf(
    '<!DOCTYPE w [<!ENTITY a "aaaaaaaaaa">]><worksheet><sheetData><row><c r="A1" t="inlineStr"><is><t>&a;&amp;</t></is></c></row></sheetData></worksheet>',
  );
  const read = readXlsx(entity, 'p.xlsx');
  expect(read.ok ? texts(read.value) : sentence(read)).toEqual([['&a;&']]);
  expect(sentence(readXlsx(Buffer.from('no zip'), 'p.xlsx'))).toMatch(/^table-unreadable: p\.xlsx cannot be read as a spreadsheet/);
  expect(sentence(readXlsx(zipOf('<worksheet><sheetData><row'), 'p.xlsx'))).toMatch(/^table-unreadable: .*is no XML/);
  expect(sentence(readXlsx(Buffer.from(zipSync({ 'content.xml': new Uint8Array(3) })), 'p.ods'))).toMatch(/OpenDocument/);
});

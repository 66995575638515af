import { zipSync } from 'fflate';
import Papa from 'papaparse';
import { idText, words } from '../../../db/atlas/schemas.ts';
import { partsOut } from '../../../db/tables/bring-out.ts';
import type { Cells } from '../../../db/tables/cells.ts';
import { tableKinds } from '../../../db/tables/column-use.ts';
import { known } from '../../../db/tables/known.ts';
import { headingRowIn, matchColumns } from '../../../db/tables/match-columns.ts';
import { readDelimited, textIn } from '../../../db/tables/read-delimited.ts';
import { readTable } from '../../../db/tables/read-table.ts';
import { readXlsx } from '../../../db/tables/read-xlsx.ts';
import { asItIs } from '../../../db/tables/rows.ts';
import { tableCsv } from '../../../db/tables/write-table.ts';
import { halfIn } from '../../../reasoner/plain/well-formed.ts';
import { seeded } from '../../damage/damage-run.ts';
import { weatherRows } from '../../unit/db/tables/weather-rows.ts';
import { asked, atlasAfter, thisTable, weatherAtlas } from '../../unit/db/tables/weather-shop.ts';

export interface MutatedTables {
  readonly read: number;
  readonly refused: number;
  readonly faults: number;
  readonly edits: number;
  /** What must not be: each as a line. */
  readonly wrong: readonly string[];
}

/** What a person, a program or a hostile hand may leave in a cell. */
const oddities = [
  '',
  ' ',
  '?',
  'n/a',
  '-',
  '—',
  '0',
  '-1',
  '1e400',
  '1E+12',
  '1,234',
  '1.234.567,8',
  '1/0',
  '0/0"',
  '½',
  '2½"',
  '51,5 ± 0,05',
  '+0/-0',
  '..',
  '3..',
  '6+6',
  '6+',
  '10 h6',
  '10 h01',
  'H7',
  '=1+1',
  '=HYPERLINK("http://x")',
  '@SUM(A1)',
  '+1',
  "'=1",
  '<img src=x onerror=alert(1)>',
  '&amp;',
  ']]>',
  '\u0000',
  '\u0007bell',
  '\ud800',
  '\u202e51.5',
  '\u200b',
  '\r\n',
  'a\tb',
  '"',
  '""',
  'a"b',
  ';',
  '|',
  '| |',
  'compressor wheel',
  'turbine wheel',
  'Hoarfrost',
  'none',
  '__proto__',
  'constructor',
  'toString',
  'GUST 1000',
  'GUST-1000',
  '9'.repeat(400),
  'x'.repeat(4001),
  '(blank)',
  '“”',
  '1'.repeat(8),
  '360.1°',
  '𝟓𝟏',
  '٥١',
  'ﬁ',
  'İ',
  'ß',
  'Σς',
] as const;

/**
 * Spreadsheets of the weather shop, mutated: cells, rows and columns of them, signs of their text, bytes of their workbook. Each is read, matched and read against the
 * atlas, and what comes of it is written out. Gives what must not be: something thrown, a fault outside the table, an edit no list could hold, a text that could be a formula.
 */
export const mutatedTables = ({ seed, tables }: { readonly seed: number; readonly tables: number }): MutatedTables => {
  const next = seeded(seed);
  const below = (count: number): number => Math.floor(next() * count);
  const pick = <T>(of: readonly T[]): T => of[below(of.length)] as T;
  const base = weatherRows().map((row) => row.map(String));
  const beside = known(weatherAtlas);
  const wrong: string[] = [];
  let [read, refused, faults, edits] = [0, 0, 0, 0];
  for (let n = 0; n < tables; n += 1) {
    const from = 1 + below(base.length - 12);
    const rows = [base[0] as string[], ...base.slice(from, from + 10)].map((row) => [...row]);
    for (let times = below(12); times > 0; times -= 1) mutateRows(rows, below, pick);
    const what = `table ${n} of seed ${seed}`;
    try {
      const cells = below(3) === 0 ? workbookOf(rows, below) : textOf(rows, below, pick);
      if (!cells.ok) {
        refused += 1;
        if (!/^table-/.test(cells.trouble.code) || !cells.trouble.sentence.endsWith('.'))
          wrong.push(`${what}: ${JSON.stringify(cells.trouble)}`);
        continue;
      }
      const [sheet] = cells.value.sheets as [Cells['sheets'][number]];
      const kind = below(4) > 0 ? 'parts' : pick(tableKinds);
      const headings = headingRowIn(kind, sheet.rows, beside);
      const heads = headings === 0 ? [] : (sheet.rows[headings - 1] ?? []);
      const width = Math.max(0, ...sheet.rows.map((row) => row.length));
      const columns = matchColumns(
        kind,
        Array.from({ length: width }, (_, at) => ({
          heading: heads[at]?.text ?? '',
          sample: sheet.rows.slice(headings, headings + 20).flatMap((row) => row[at] ?? []),
        })),
        beside,
        null,
      );
      const taken = readTable(sheet, {
        known: beside,
        matching: {
          kind,
          sheet: null,
          headings,
          columns: columns.map(({ use }) => use),
          slot: below(3) === 0 ? (weatherAtlas.slots[0]?.id ?? null) : null,
          maker: below(3) === 0 ? 'none' : null,
        },
        // What is typed comes through a door that takes whole signs alone.
        mended: { ...asItIs, makers: below(3) === 0 ? [pick(oddities).replace(/\p{Surrogate}/gu, '\uFFFD')] : [] },
        reading: asked,
        source: thisTable,
      });
      read += 1;
      faults += taken.faults.length;
      edits += taken.edits.length;
      for (const fault of taken.faults)
        if (
          fault.row <= headings ||
          fault.row > sheet.rows.length ||
          (fault.column !== null && (fault.column < 0 || fault.column >= width)) ||
          !/[.!?]$/.test(fault.sentence)
        )
          wrong.push(`${what}: ${JSON.stringify(fault)}`);
      for (const edit of taken.edits) if ('put' in edit && !holds(edit.put)) wrong.push(`${what}: ${JSON.stringify(edit)}`);
      if (halfIn(taken) !== null) wrong.push(`${what}: half a surrogate pair at ${halfIn(taken)?.join('.')}`);
      if (n % 10 > 0) continue;
      const brought = atlasAfter(weatherAtlas, taken);
      const out = partsOut(brought.parts, known(brought));
      const { data } = Papa.parse<string[]>(tableCsv(out), { delimiter: ',', newline: '\r\n', skipEmptyLines: true });
      if (data.length !== out.rows.length + 1) wrong.push(`${what}: ${data.length} rows of ${out.rows.length + 1}`);
      if (data.some((row, at) => at > 0 && row.some((cell) => /^[=+@]|^-(?![\d.]+$)/.test(cell)))) wrong.push(`${what}: a formula`);
    } catch (error) {
      wrong.push(`${what}: thrown ${(error as Error).stack}`);
    }
  }
  return { read, refused, faults, edits, wrong };
};

/** What any list asks of its entries. */
const holds = (put: Readonly<Record<string, unknown>>): boolean =>
  idText.safeParse(put.id).success &&
  words.safeParse(put.name ?? put.title).success &&
  ((put.numbers ?? []) as readonly string[]).every((number) => number.trim() === number && number !== '' && !/\p{Cc}/u.test(number));

const mutateRows = (rows: string[][], below: (count: number) => number, pick: <T>(of: readonly T[]) => T): void => {
  const row = pick(rows);
  const at = below(row.length + 1);
  switch (below(7)) {
    case 0:
    case 1:
    case 2:
      row[at] = pick(oddities);
      return;
    case 3:
      row.splice(at, 1);
      return;
    case 4:
      rows.splice(1 + below(rows.length - 1), 0, [...pick(rows)]);
      return;
    case 5: {
      const text = row[at] ?? '';
      const sign = below(text.length + 1);
      row[at] = text.slice(0, sign) + pick(oddities).slice(0, 3) + text.slice(sign + below(2));
      return;
    }
    default: {
      const other = below(row.length + 1);
      for (const each of rows) [each[at], each[other]] = [each[other] ?? '', each[at] ?? ''];
    }
  }
};

const textOf = (rows: readonly string[][], below: (count: number) => number, pick: <T>(of: readonly T[]) => T) => {
  const text = Papa.unparse(rows as string[][], { delimiter: pick([',', ';', '\t']), newline: pick(['\n', '\r\n']) });
  const bytes = Buffer.from(`${below(3) === 0 ? '\uFEFF' : ''}${text}`);
  for (let times = below(3); times > 0; times -= 1) bytes[below(bytes.length)] = below(256);
  const { text: given } = textIn(bytes);
  return readDelimited(given, 'mutated.csv');
};

/** A workbook as some programs write it, with signs of its XML, or bytes of its archive, changed. */
const workbookOf = (rows: readonly string[][], below: (count: number) => number) => {
  const escaped = (text = '') => text.replace(/&/g, '&amp;').replace(/</g, '&lt;');
  const cells = rows
    .map(
      (row) =>
        `<row>${row.map((text) => (/^-?\d+(\.\d+)?$/.test(text) ? `<c s="${below(3)}"><v>${text}</v></c>` : `<c t="inlineStr"><is><t>${escaped(text)}</t></is></c>`)).join('')}</row>`,
    )
    .join('');
  const sheet = Buffer.from(`<worksheet><sheetData>${cells}</sheetData></worksheet>`);
  for (let times = below(4); times > 0; times -= 1) sheet[below(sheet.length)] = below(256);
  const zip = Buffer.from(
    zipSync(
      {
        'xl/workbook.xml': Buffer.from('<workbook><sheets><sheet name="S" id="b"/></sheets></workbook>'),
        'xl/_rels/workbook.xml.rels': Buffer.from(
          '<Relationships><Relationship Id="b" Type="worksheet" Target="s.xml"/><Relationship Id="c" Type="styles" Target="styles.xml"/></Relationships>',
        ),
        'xl/styles.xml': Buffer.from('<styleSheet><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="9"/></cellXfs></styleSheet>'),
        'xl/s.xml': sheet,
      },
      { level: 0 },
    ),
  );
  if (below(4) === 0) zip[below(zip.length)] = below(256);
  return readXlsx(zip, 'mutated.xlsx');
};

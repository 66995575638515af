import { Parser } from 'saxen';
import { limits } from '../../reasoner/plain/limits.ts';
import { unzip, type Zipped } from '../shop/parcel/unzip.ts';
import { done, failed, type Outcome, TroubleError, trouble } from '../trouble.ts';
import { type Cell, type CellSheet, type Cells, type CellsTaken, noCell, strictly, tooLong } from './cells.ts';

/**
 * A workbook of spreadsheets (ECMA-376 part 1, SpreadsheetML) as cells: of a formula its value, of a number what it is and not how it is rounded, of a date that it is one.
 * Every size is looked at before anything is inflated, and a cell out of bounds is told before its row is made. No entity is expanded but the five of XML.
 * Troubles: `table-unreadable`, `table-too-large`.
 */
export const readXlsx = (bytes: Buffer, file: string, taken: CellsTaken = strictly): Outcome<Cells> => {
  const unzipped = unzip(bytes, file, () => limits.spreadsheetUnpackedBytes, {
    most: { bytes: limits.spreadsheetBytes, files: 2000, unpacked: limits.spreadsheetUnpackedBytes },
    codes: { unreadable: 'table-unreadable', tooLarge: 'table-too-large', invalid: 'table-unreadable' },
    words: { as: 'as a spreadsheet', nothing: 'Nothing was brought in.', names: 'the files of a spreadsheet' },
  });
  if (!unzipped.ok) return unzipped;
  try {
    return done(workbookIn(unzipped.value, file, taken));
  } catch (error) {
    if (error instanceof TroubleError) return failed(error.trouble);
    throw error;
  }
};

type Files = ReadonlyMap<string, Zipped>;

const workbookIn = (files: Files, file: string, taken: CellsTaken): Cells => {
  const broken = (what: string) =>
    new TroubleError(trouble('table-unreadable', file, `${file} cannot be read as a spreadsheet: ${what}. Nothing was brought in.`));
  const xml = (name: string): string | null => files.get(name)?.bytes().toString('utf8') ?? null;
  const read = (name: string, text: string, hears: Hears) => {
    const wrong = parseXml(text, hears);
    if (wrong !== null) throw broken(`${name} in it is no XML (${wrong})`);
  };
  const related = (of: string): { readonly id: string; readonly type: string; readonly target: string }[] => {
    const [folder, name] = [of.slice(0, of.lastIndexOf('/') + 1), of.slice(of.lastIndexOf('/') + 1)];
    const [text, found] = [xml(`${folder}_rels/${name}.rels`), [] as { id: string; type: string; target: string }[]];
    if (text === null) return found;
    read(`${name}.rels`, text, {
      open: (tag, { Id: id = '', Type: type = '', Target: target = '' }) => {
        if (tag === 'Relationship') found.push({ id, type: type.slice(type.lastIndexOf('/') + 1), target: placeIn(folder, target) });
      },
    });
    return found;
  };
  const book = related('').find(({ type }) => type === 'officeDocument')?.target ?? 'xl/workbook.xml';
  const text = xml(book);
  if (text === null)
    throw broken(files.has('content.xml') ? 'it is an OpenDocument file; save it as .xlsx or .csv' : 'no workbook is in it');
  const parts = related(book);
  const named: { name: string; hidden: boolean; id: string }[] = [];
  let from1904 = false;
  read(book, text, {
    open: (tag, attributes) => {
      if (tag === 'workbookPr') from1904 = attributes.date1904 === '1' || attributes.date1904 === 'true';
      if (tag !== 'sheet') return;
      const id = Object.entries(attributes).find(([key]) => key === 'id' || key.endsWith(':id'))?.[1] ?? '';
      named.push({ name: attributes.name ?? '', hidden: (attributes.state ?? 'visible') !== 'visible', id });
    },
  });
  const textOf = (type: string): string | null => {
    const part = parts.find((one) => one.type === type);
    return part === undefined ? null : xml(part.target);
  };
  const strings = sharedStrings(textOf('sharedStrings'), (name, xmlText, hears) => read(name, xmlText, hears));
  const formats = formatsIn(textOf('styles'), (name, xmlText, hears) => read(name, xmlText, hears));
  const notes: string[] = [];
  const sheets = named.flatMap(({ name, hidden, id }): CellSheet[] => {
    const part = parts.find((one) => one.id === id);
    // Sheets of charts and macros hold no cells.
    if (part === undefined || part.type !== 'worksheet') return [];
    const sheet = xml(part.target);
    if (sheet === null) throw broken(`the sheet “${name}” is not in it`);
    const cells = cellsOf(sheet, { name, file, strings, formats, from1904, read, taken });
    if (cells.merged > 0)
      notes.push(
        `In the sheet “${name}” ${cells.merged === 1 ? 'one field spans' : `${cells.merged} fields span`} several cells: what is written there counts for the first of them alone.`,
      );
    return [{ name, hidden, rows: cells.rows }];
  });
  if (sheets.length === 0) throw broken('no sheet with cells is in it');
  return { file, sheets, notes };
};

interface Hears {
  open?(tag: string, attributes: Readonly<Record<string, string>>): void;
  text?(text: string): void;
  close?(tag: string): void;
}

/** Names without their prefix: some programs write `x:c` for `c`. Gives what is wrong with the text, or null. */
const parseXml = (text: string, hears: Hears): string | null => {
  const local = (name: string) => name.slice(name.indexOf(':') + 1);
  let wrong: string | null = null;
  const parser = new Parser();
  parser.on('openTag', (name, attributes, decode) => {
    if (hears.open === undefined) return;
    const own: Record<string, string> = {};
    for (const [key, value] of Object.entries(attributes())) own[key] = decode(value);
    hears.open(local(name), own);
  });
  parser.on('closeTag', (name) => hears.close?.(local(name)));
  parser.on('text', (found, decode) => hears.text?.(decode(found)));
  parser.on('cdata', (found) => hears.text?.(found));
  parser.on('error', (error) => {
    wrong ??= error.message;
    parser.stop();
  });
  // What a warning is said of, such as an attribute given twice, no cell is read by.
  parser.on('warn', () => {});
  const ended = parser.parse(text.startsWith('\uFEFF') ? text.slice(1) : text);
  return wrong ?? ended?.message ?? null;
};

type Read = (name: string, text: string, hears: Hears) => void;

/** `xl/` and `../styles.xml` give `styles.xml`; a target from the root begins with a slash. */
const placeIn = (folder: string, target: string): string => {
  const steps = (target.startsWith('/') ? target : `${folder}${target}`).split('/');
  const place: string[] = [];
  for (const step of steps) {
    if (step === '..') place.pop();
    else if (step !== '' && step !== '.') place.push(step);
  }
  return place.join('/');
};

const sharedStrings = (text: string | null, read: Read): readonly string[] => {
  const strings: string[] = [];
  if (text === null) return strings;
  // What stands in rPh says how the text is pronounced, and is no part of it.
  let [own, inText, aside] = ['', false, false];
  read('sharedStrings', text, {
    open: (tag) => {
      if (tag === 'si') own = '';
      else if (tag === 't') inText = !aside;
      else if (tag === 'rPh') aside = true;
    },
    text: (found) => {
      if (inText) own += found;
    },
    close: (tag) => {
      if (tag === 'si') strings.push(unescaped(own));
      else if (tag === 't') inText = false;
      else if (tag === 'rPh') aside = false;
    },
  });
  return strings;
};

/** ST_Xstring (ECMA-376 part 1, 22.9.2.19): signs XML cannot hold are written `_x000D_`. */
const unescaped = (text: string): string =>
  text.includes('_x')
    ? whole(text.replace(/_x([0-9A-Fa-f]{4})_/g, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16))))
    : text;

/** Without half a surrogate pair, which may be written so too. */
const whole = (text: string): string => text.replace(/\p{Surrogate}/gu, '\uFFFD');

/** The number format of each style, as its code. */
const formatsIn = (text: string | null, read: Read): readonly string[] => {
  const [codes, formats] = [new Map<string, string>(), [] as string[]];
  if (text === null) return formats;
  let inCells = false;
  read('styles', text, {
    open: (tag, { numFmtId = '0', formatCode = '' }) => {
      if (tag === 'numFmt') codes.set(numFmtId, formatCode);
      else if (tag === 'cellXfs') inCells = true;
      else if (tag === 'xf' && inCells) formats.push(codes.get(numFmtId) ?? builtIn(Number(numFmtId)));
    },
    close: (tag) => {
      if (tag === 'cellXfs') inCells = false;
    },
  });
  return formats;
};

/** Formats with numbers of their own (ECMA-376 part 1, 18.8.30): dates and times, those of some languages too, and percentages. All others show the number. */
const builtIn = (id: number): string => {
  if ((id >= 14 && id <= 22) || (id >= 27 && id <= 36) || (id >= 45 && id <= 47) || (id >= 50 && id <= 58)) return 'yyyy-mm-dd';
  return id === 9 || id === 10 ? '0%' : '';
};

/** A format without its texts, colours and conditions. */
const bareFormat = (format: string): string => (format.split(';')[0] ?? '').replace(/"[^"]*"|\\.|_.|\*.|\[(?!h|m|s)[^\]]*\]/gi, '');

interface Reading {
  readonly name: string;
  readonly file: string;
  readonly strings: readonly string[];
  readonly formats: readonly string[];
  readonly from1904: boolean;
  readonly read: Read;
  readonly taken: CellsTaken;
}

const cellsOf = (
  xml: string,
  { name, file, strings, formats, from1904, read, taken }: Reading,
): { readonly rows: readonly (readonly Cell[])[]; readonly merged: number } => {
  const tooLarge = (found: string, most: string) =>
    new TroubleError(
      trouble(
        'table-too-large',
        file,
        `${file}, sheet “${name}”, is too large: ${found}; the most is ${most}. Nothing was brought in; take it apart into several.`,
      ),
    );
  const rows: Cell[][] = [];
  let [row, column, merged] = [0, -1, 0];
  let cell: { readonly type: string; readonly format: string; value: string | null; inline: string; formula: boolean } | null = null;
  let into: 'value' | 'inline' | null = null;
  let aside = false;
  read(name, xml, {
    open: (tag, attributes) => {
      if (tag === 'row') {
        row = wholeNumber(attributes.r) ?? row + 1;
        column = -1;
      } else if (tag === 'c') {
        const at = /^([A-Z]{1,3})(\d{1,7})$/.exec(attributes.r ?? '');
        column = at === null ? column + 1 : columnAt(at[1] as string);
        if (at !== null) row = Number(at[2]);
        const format = formats[wholeNumber(attributes.s) ?? -1] ?? '';
        cell = { type: attributes.t ?? 'n', format: bareFormat(format), value: null, inline: '', formula: false };
      } else if (tag === 'v') into = 'value';
      else if (tag === 't') into = aside ? null : 'inline';
      else if (tag === 'rPh') aside = true;
      else if (tag === 'f' && cell !== null) cell.formula = true;
      else if (tag === 'mergeCell') merged += 1;
    },
    text: (text) => {
      if (cell === null || into === null) return;
      if (into === 'value') cell.value = (cell.value ?? '') + text;
      else cell.inline += text;
    },
    close: (tag) => {
      if (tag === 'v' || tag === 't') into = null;
      else if (tag === 'rPh') aside = false;
      else if (tag === 'c' && cell !== null) {
        const read = cellRead(cell, strings, from1904);
        cell = null;
        if (read === null) return;
        if (row > limits.spreadsheetRows) throw tooLarge(`there is something in row ${row}`, `row ${limits.spreadsheetRows}`);
        if (column >= limits.spreadsheetColumns)
          throw tooLarge(`there is something in column ${column + 1}`, `${limits.spreadsheetColumns} columns`);
        const long = read.text.length > taken.letters;
        if (long && !taken.each) throw tooLarge(`a cell of row ${row} holds ${read.text.length} characters`, `${taken.letters}`);
        while (rows.length < row) rows.push([]);
        const own = rows[row - 1];
        if (own === undefined) return;
        while (own.length < column) own.push(noCell);
        own[column] = long ? tooLong(read.text) : read;
      }
    },
  });
  return { rows, merged };
};

const wholeNumber = (text: string | undefined): number | null => (text !== undefined && /^\d{1,9}$/.test(text) ? Number(text) : null);
const columnAt = (letters: string): number => [...letters].reduce((at, letter) => at * 26 + letter.charCodeAt(0) - 64, 0) - 1;

/** ST_CellType (ECMA-376 part 1, 18.18.11). Null where nothing stands. */
const cellRead = (
  cell: {
    readonly type: string;
    readonly format: string;
    readonly value: string | null;
    readonly inline: string;
    readonly formula: boolean;
  },
  strings: readonly string[],
  from1904: boolean,
): Cell | null => {
  const text = (of: string): Cell | null => (of.trim() === '' ? null : { text: of.trim(), is: 'text' });
  switch (cell.type) {
    case 's':
      return text(strings[wholeNumber(cell.value ?? '') ?? -1] ?? '');
    case 'inlineStr':
      return text(unescaped(cell.inline));
    case 'str':
      return cell.value === null && cell.formula ? { text: '', is: 'not reckoned' } : text(unescaped(cell.value ?? ''));
    case 'b':
      return cell.value === null ? null : text(cell.value === '1' ? 'yes' : 'no');
    case 'e':
      return { text: cell.value ?? '#', is: 'error' };
    case 'd':
      return cell.value === null ? null : { text: cell.value.slice(0, 10), is: 'date' };
    default:
      if (cell.value === null || cell.value.trim() === '') return cell.formula ? { text: '', is: 'not reckoned' } : null;
      return numberCell(cell.value.trim(), cell.format, from1904);
  }
};

const numberCell = (value: string, format: string, from1904: boolean): Cell => {
  const number = Number(value);
  if (!Number.isFinite(number)) return { text: value, is: 'text' };
  if (/[ymdhs]/i.test(format) && !/general/i.test(format)) return { text: dayOf(number, from1904), is: 'date' };
  // A spreadsheet keeps fifteen figures, and binary arithmetic adds more behind them.
  const exact = Number(number.toPrecision(15));
  if (Number.isInteger(exact) && Math.abs(exact) >= 1e15) return { text: plain(exact), is: 'cut short' };
  if (format.includes('%')) return { text: `${plain(Number((exact * 100).toPrecision(15)))}%`, is: 'text' };
  // A number kept with noughts before it is a name of figures.
  if (/^0{2,}$/.test(format) && Number.isInteger(exact) && exact >= 0)
    return { text: plain(exact).padStart(format.length, '0'), is: 'text' };
  return { text: plain(exact), is: 'number' };
};

/** The shortest decimal, never with an exponent. */
const plain = (value: number): string => {
  const text = String(value);
  if (!text.includes('e')) return text;
  return Math.abs(value) < 1 ? value.toFixed(15).replace(/0+$/, '') : BigInt(Math.round(value)).toString();
};

/** Days are counted from the last of December 1899, since 1900 is taken for a leap year (ECMA-376 part 1, 18.17.4.1), or from the first of January 1904. */
const dayOf = (serial: number, from1904: boolean): string => {
  const day = new Date(Math.round((serial - (from1904 ? 24107 : 25569)) * 86_400_000));
  return Number.isNaN(day.getTime()) ? String(serial) : day.toISOString().slice(0, 10);
};

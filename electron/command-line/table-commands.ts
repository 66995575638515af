import { readFile, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import type { ZodType } from 'zod';
import {
  asItIs,
  type ChangeSeen,
  cellsHanded,
  columnsBy,
  fits,
  headingRowIn,
  type Known,
  knownTable,
  type Matching,
  type Mended,
  matchingSchema,
  matchSheet,
  mendedSchema,
  type Outcome,
  parseJson,
  type Store,
  sayUse,
  sheetIn,
  type TableRead,
} from '../../db/index.ts';
import type { Source } from '../../reasoner/index.ts';
import { columnName } from '../../reasoner/plain/column-name.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { counted } from '../../reasoner/plain/text.ts';
import { refusal, well } from '../bridge/reply.ts';
import type { ColumnMatch } from '../bridge/table-calls.ts';
import { sourceOf, tableRead, tableWritten } from '../desk/tables.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { fileText, jsonFault, unread } from './given-text.ts';
import { dataOption, formatOption, sayingOptions, type ValuesOf } from './option.ts';
import { jsonText, sayTrouble, sayUsage, type Terminal } from './terminal.ts';
import { withStore } from './with-atlas.ts';
import { writeWhole } from './write-whole.ts';

const kinds = { kind: { kind: 'among', words: ['parts', 'models', 'facts'] } } as const;
const readingOptions = {
  ...kinds,
  sheet: { kind: 'text', value: '<name>' },
  headings: { kind: 'text', value: '<row>' },
  slot: { kind: 'text', value: '<slot>' },
  maker: { kind: 'text', value: '<maker>' },
  template: { kind: 'text', value: '<name>' },
  matching: { kind: 'text', value: '<file>' },
  mended: { kind: 'text', value: '<file>' },
  'source-kind': {
    kind: 'among',
    words: ['measured in the shop', 'published', 'common practice, no source', 'invented'],
    shown: '[--source-kind <kind>]',
  },
} as const;

interface Opened {
  readonly known: Known;
  readonly matching: Matching;
  readonly headings: readonly string[];
  readonly matches: readonly ColumnMatch[] | null;
  readonly by: string | null;
  readonly notes: readonly string[];
  readonly read: TableRead;
  readonly source: Source;
}

/** A table as its options say it is to be read, against the atlas. */
const openTable = async (file: string, options: ValuesOf<typeof readingOptions>, store: Store, now: Date): Promise<Outcome<Opened>> => {
  const bytes = await bytesOf(file);
  if (!bytes.ok) return bytes;
  const cells = cellsHanded(bytes.value, basename(file));
  if (!cells.ok) return cells;
  const mended = await jsonIn<Mended>(options.mended, mendedSchema, asItIs);
  if (!mended.ok) return mended;
  const given = await jsonIn<Matching | null>(options.matching, matchingSchema, null);
  if (!given.ok) return given;
  const sheet = sheetIn(cells.value, given.value?.sheet ?? options.sheet ?? null);
  if (sheet === undefined || (options.sheet !== undefined && sheet.name !== options.sheet))
    return refusal(
      'not-found',
      options.sheet ?? null,
      `${file} has no sheet “${options.sheet}”; it has ${cells.value.sheets.map(({ name }) => `“${name}”`).join(', ')}.`,
    );
  const known = knownTable(await store.atlas.read());
  const kind = given.value?.kind ?? options.kind;
  const row = given.value?.headings ?? (options.headings === undefined ? headingRowIn(kind, sheet.rows, known) : Number(options.headings));
  if (!Number.isInteger(row) || row < 0)
    return refusal('usage', '--headings', `--headings takes the number of a row, 0 where there are none; found “${options.headings}”.`);
  const heads = row === 0 ? [] : (sheet.rows[row - 1] ?? []);
  const width = sheet.rows.reduce((most, each) => Math.max(most, each.length), 0);
  const headings = Array.from({ length: width }, (_, at) => heads[at]?.text ?? '');
  const listed = await store.templates.list();
  if (!listed.ok) return listed;
  const template =
    options.template === undefined
      ? listed.value.find((one) => one.matching.kind === kind && fits(one, headings))
      : listed.value.find(({ name }) => name === options.template);
  if (options.template !== undefined && template === undefined)
    return refusal('not-found', options.template, `No way of reading a table is kept under the name “${options.template}”.`);
  const named = slotCalled(options.slot, known);
  if (!named.ok) return named;
  const makers = options.maker === undefined || options.maker === 'none' ? [] : known.maker(options.maker);
  if (options.maker !== undefined && options.maker !== 'none' && makers.length !== 1)
    return refusal('not-found', options.maker, `The atlas has no maker “${options.maker}”, or several of that name.`);
  const slot = named.value ?? template?.matching.slot ?? null;
  const matches = given.value !== null || template !== undefined ? null : matchSheet(kind, sheet.rows, row, known, slot);
  const matching: Matching = given.value ?? {
    kind,
    sheet: sheet.name,
    headings: row,
    columns: matches?.map(({ use }) => use) ?? (template === undefined ? [] : columnsBy(template, headings)),
    slot,
    maker: options.maker === 'none' ? 'none' : makers[0] === undefined ? (template?.matching.maker ?? null) : { id: makers[0].id },
  };
  const source = sourceOf(basename(file), options['source-kind'], now);
  return well({
    known,
    matching,
    headings,
    matches,
    by: given.value === null ? (template?.name ?? null) : null,
    notes: cells.value.notes,
    read: tableRead(sheet, matching, mended.value, known, source),
    source,
  });
};

/** `kinplate table look`: what a spreadsheet is read as, every cell that cannot be, and what bringing it in would change. */
export const tableLookCommand = command({
  name: 'table look',
  words: { shown: '<file>', least: 1, most: 1, otherwise: 'table look takes one file, .xlsx or .csv.' },
  options: { ...readingOptions, ...formatOption, ...dataOption },
  help: ['what each column of a spreadsheet is taken for, every cell that cannot be read, and what bringing it in would change'],
  run: ({ words: [file = ''], options: { format, data, ...options } }, terminal, { now }) =>
    withStore({ pack: [], data }, 'read', terminal, async (store) => {
      const opened = await openTable(file, options, store, now());
      if (!opened.ok) return sayTrouble(terminal, opened.trouble);
      const { read, matching, matches, headings, by, notes } = opened.value;
      const seen = read.edits.length === 0 ? null : await store.changes.look(read.edits);
      if (seen !== null && !seen.ok) return sayTrouble(terminal, seen.trouble);
      const wrong = read.faults.length > 0 || (seen?.value.faults.length ?? 0) > 0;
      if (format === 'json')
        terminal.out(
          jsonText({
            file,
            notes,
            template: by,
            matching,
            headings,
            matches,
            counts: read.counts,
            faults: read.faults,
            change: seen?.value ?? null,
          }),
        );
      else {
        for (const note of notes) terminal.out(`${note}\n`);
        if (by !== null) terminal.out(`Read as it is kept in “${by}”.\n`);
        for (const [column, use] of matching.columns.entries()) {
          const match = matches?.[column];
          terminal.out(
            `${columnName(column)}\t${headings[column] === '' ? '(no heading)' : headings[column]}\t${sayUse(use, matching.kind, opened.value.known)}${match === undefined ? '' : `\t${match.why}`}\n`,
          );
        }
        sayRead(read, headings, terminal);
        for (const fault of seen?.value.faults ?? []) terminal.out(`${sayFault(fault, read)}\n`);
        for (const { of, added, altered, removed } of seen?.value.counts ?? [])
          terminal.out(`It would change ${of}: ${added} added, ${altered} altered, ${removed} removed.\n`);
      }
      return wrong ? exitCodes.badInput : exitCodes.stands;
    }),
});

/** `kinplate table bring`: the same made, as one change. */
export const tableBringCommand = command({
  name: 'table bring',
  words: { shown: '<file>', least: 1, most: 1, otherwise: 'table bring takes one file, .xlsx or .csv.' },
  options: {
    ...readingOptions,
    ...sayingOptions,
    'leave-faulty': { kind: 'flag' },
    ...formatOption,
    ...dataOption,
  },
  help: [
    'a spreadsheet brought into the atlas as one change; refused where a cell cannot be read, but with --leave-faulty, which leaves its row out',
  ],
  run: (
    { words: [file = ''], options: { format, data, who = '', why = '', 'leave-faulty': leaveFaulty, ...options } },
    terminal,
    { now },
  ) =>
    withStore({ pack: [], data }, 'write', terminal, async (store) => {
      const opened = await openTable(file, options, store, now());
      if (!opened.ok) return sayTrouble(terminal, opened.trouble);
      const { read, headings, source } = opened.value;
      if (read.faults.length > 0 && !leaveFaulty) {
        sayRead(read, headings, terminal);
        terminal.err(
          'Nothing was brought in. Mend the cells, name a file of mended cells with --mended, or leave their rows out with --leave-faulty.',
        );
        return exitCodes.badInput;
      }
      const nothing = { change: null, counts: [] };
      if (read.edits.length === 0) {
        terminal.out(
          format === 'json'
            ? jsonText({ ...nothing, rows: read.counts, faults: read.faults })
            : 'Nothing in it is otherwise than the atlas has it.\n',
        );
        return exitCodes.stands;
      }
      const seen = await store.changes.look(read.edits);
      if (!seen.ok) return sayTrouble(terminal, seen.trouble);
      if (seen.value.faults.length > 0) {
        for (const fault of seen.value.faults) terminal.err(sayFault(fault, read));
        terminal.err('Nothing was brought in.');
        return exitCodes.badInput;
      }
      const made = await store.changes.make(read.edits, { who, why, source: source.title, head: seen.value.head });
      if (!made.ok) return sayTrouble(terminal, made.trouble);
      if (format === 'json') terminal.out(jsonText({ ...made.value, rows: read.counts, faults: read.faults }));
      else {
        sayRead(read, headings, terminal);
        terminal.out(made.value.change === null ? 'There was nothing to change.\n' : `Brought in as change ${made.value.change}.\n`);
      }
      return exitCodes.stands;
    }),
});

/** `kinplate table write`: what the atlas holds, as a spreadsheet that can be edited and brought in again. */
export const tableWriteCommand = command({
  name: 'table write',
  words: { shown: '<out.xlsx|out.csv>', least: 1, most: 1, otherwise: 'table write takes the file to write, .xlsx or .csv.' },
  options: { ...kinds, slot: { kind: 'text', value: '<slot>' }, find: { kind: 'text', value: '<words>' }, ...dataOption },
  help: ['parts, models or facts as a spreadsheet that can be edited and brought in again, all or those found by their words'],
  run: async ({ words: [file = ''], options: { kind, slot, find = '', data } }, terminal) => {
    const format = /\.(xlsx|csv)$/i.exec(file)?.[1]?.toLowerCase() as 'xlsx' | 'csv' | undefined;
    if (format === undefined) return sayUsage(terminal, 'table write writes .xlsx or .csv: name the file so.');
    return withStore({ pack: [], data }, 'read', terminal, async (store) => {
      const known = knownTable(await store.atlas.read());
      const named = slotCalled(slot, known);
      if (!named.ok) return sayTrouble(terminal, named.trouble);
      const { bytes, rows } = await tableWritten(kind, named.value, find, format, known);
      const written = await writeWhole(file, bytes);
      if (!written.ok) return sayTrouble(terminal, written.trouble);
      terminal.err(`· ${file}: ${counted(rows, 'row')}`);
      return exitCodes.stands;
    });
  },
});

/** The slot somebody names; null where nobody does. */
const slotCalled = (slot: string | undefined, known: Known): Outcome<Matching['slot']> => {
  if (slot === undefined) return well(null);
  const found = known.slot(slot);
  return found.length === 1
    ? well(found[0]?.id ?? null)
    : refusal('not-found', slot, `The atlas has no slot “${slot}”; it has ${known.beside.slots.map(({ id }) => id).join(', ')}.`);
};

/** What the atlas has against an edit, with the row it comes from. */
const sayFault = ({ edit, sentence }: ChangeSeen['faults'][number], { rows }: TableRead): string => {
  const row = edit === null ? null : (rows[edit] ?? null);
  return `${row === null ? '' : `row ${row}: `}${sentence}`;
};

const sayRead = ({ counts, faults }: TableRead, headings: readonly string[], terminal: Terminal): void => {
  const { rows, added, altered, same, faulty } = counts;
  terminal.out(
    `${counted(rows, 'row')}: ${added} new, ${altered} altered, ${same} as the atlas has them, ${faulty} with a cell that cannot be read.\n`,
  );
  for (const { row, column, sentence, likely } of faults) {
    const heading = column === null ? '' : ` (${headings[column] || 'no heading'})`;
    const meant = likely.map(({ text, why }) => `${text}, ${why}`).join('; or ');
    terminal.out(
      `${column === null ? `row ${row}` : `${columnName(column)}${row}`}${heading}: ${sentence}${meant === '' ? '' : ` Perhaps ${meant}.`}\n`,
    );
  }
};

const bytesOf = async (file: string): Promise<Outcome<Buffer>> => {
  try {
    const { size } = await stat(file);
    if (size > limits.spreadsheetBytes)
      return refusal(
        'table-too-large',
        file,
        `${file} is too large: it is ${size} bytes; the most is ${limits.spreadsheetBytes}. Nothing was brought in.`,
      );
    return well(await readFile(file));
  } catch (error) {
    return unread(file, error);
  }
};

/** What a file of JSON holds, by its schema; `otherwise` where none is named. */
const jsonIn = async <T>(file: string | undefined, schema: ZodType<T>, otherwise: T): Promise<Outcome<T>> => {
  if (file === undefined) return well(otherwise);
  const text = await fileText(file);
  if (!text.ok) return text;
  const read = parseJson(text.value, schema);
  return read.ok ? read : refusal('table-unreadable', file, jsonFault(file, read).sentence);
};

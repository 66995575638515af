import Papa from 'papaparse';
import type { Feature, Observation, ObservationId, Sheet, SheetId, SlotId, Unseen } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { groupBy } from '../plain/group-by.ts';
import { shown } from '../read/faults.ts';
import { expectedBy } from '../read/parse-json.ts';
import { quotingFault } from '../read/quoting-fault.ts';
import { implausibleAsked, impossibleAsked } from './check-sheet.ts';
import { readEntry } from './read-entry.ts';
import { sheetSchema } from './schema.ts';
import { type Named, named, oneOf, type TableTerms } from './table-terms.ts';

/** Columns of a table of sheets, in the order they must have. */
export const tableColumns = ['unit', 'title', 'maker', 'claimed', 'slot', 'feature', 'value', 'how', 'u', 'note'] as const;
type Column = (typeof tableColumns)[number];
type Cells = Readonly<Record<Column, string>>;

/** One thing wrong in a table; `row` as a spreadsheet counts it, header included. */
export interface TableFault {
  readonly file: string;
  readonly row: number | null;
  readonly column: Column | null;
  readonly found: string;
  readonly expected: string;
  readonly sentence: string;
}

/** One unit of a table: its sheet, or all that is wrong with its rows. */
export type TableUnit =
  | { readonly source: string; readonly ok: true; readonly sheet: Sheet }
  | { readonly source: string; readonly ok: false; readonly faults: readonly TableFault[] };

interface Row {
  readonly row: number;
  readonly cells: Cells;
}

/**
 * A CSV of found units, one entry a row (SHEET-TABLES.md), as sheets. A fault in the rows of one unit spoils that unit and no other; a
 * table that cannot be taken apart into rows is one fault by itself. Nothing is saved, nothing throws.
 */
export const readSheetTable = (text: string, file: string, terms: TableTerms): TableUnit[] => {
  if (text.length > limits.tableLetters)
    return [{ source: file, ok: false, faults: [tooMuch(file, null, `${text.length} characters`, `${limits.tableLetters} at most`)] }];
  const table = rowsOf(text, file);
  if ('fault' in table) return [{ source: file, ok: false, faults: [table.fault] }];
  const known = named(terms);
  return [
    ...table.bad,
    ...[...groupBy(table.rows, ({ cells }) => cells.unit)].map(([unit, rows]): TableUnit => {
      const [over] = rows.slice(limits.unitRows);
      if (over === undefined) return tableUnit(unit, rows, file, known);
      const faults = [tooMuch(file, over.row, `${rows.length} rows of unit ${shown(unit)}`, `${limits.unitRows} at most`)];
      return { source: `${file}, unit ${unit}`, ok: false, faults };
    }),
  ];
};

const tooMuch = (file: string, row: number | null, found: string, expected: string): TableFault =>
  fault({ file, row, column: null }, found, expected);

/** The rows, with those that do not fit the header apart; both comma and semicolon are read, since spreadsheets write either. */
const rowsOf = (
  text: string,
  file: string,
): { readonly rows: readonly Row[]; readonly bad: readonly TableUnit[] } | { readonly fault: TableFault } => {
  const delimiter = (text.split(/\r?\n/, 1)[0] ?? '').includes(';') ? ';' : ',';
  // A byte order mark is left out by the parser.
  const parsed = Papa.parse<string[]>(text, { delimiter });
  const badQuotes = new Map(parsed.errors.map((error) => [error.row ?? 0, error.code]));
  const [header = [], ...body] = parsed.data;
  const heads = header.map((cell) => cell.trim().toLowerCase());
  const misquoted = (index: number, cells: readonly string[]): readonly [found: string, expected: string] | null => {
    const code = badQuotes.get(index);
    if (code === undefined) return null;
    const [found, expected] = quotingFault(code);
    return [`${found}${takenIn(cells)}`, expected];
  };
  const headFault = misquoted(0, header);
  if (heads.join() !== tableColumns.join() || headFault !== null) {
    const found = headFault?.[0] ?? shown(header.join(delimiter));
    return { fault: fault({ file, row: 1, column: null }, found, `the header ${tableColumns.join(delimiter)}`) };
  }
  const rows: Row[] = [];
  const bad: TableUnit[] = [];
  const spoilt = (row: number, column: Column | null, found: string, expected: string) =>
    bad.push({ source: `${file}, row ${row}`, ok: false, faults: [fault({ file, row, column }, found, expected)] });
  body.forEach((cells, index) => {
    const row = index + 2;
    const quoting = misquoted(index + 1, cells);
    // Spreadsheets leave empty rows behind.
    if (cells.every((cell) => cell.trim() === '')) return;
    if (quoting !== null) {
      spoilt(row, null, ...quoting);
      return;
    }
    if (cells.length !== tableColumns.length) {
      spoilt(row, null, `${cells.length} cells`, `${tableColumns.length} cells (${tableColumns.join(', ')})`);
      return;
    }
    const own = Object.fromEntries(tableColumns.map((column, at) => [column, (cells[at] as string).trim()])) as Cells;
    if (own.unit === '') spoilt(row, 'unit', 'nothing', 'an id for the unit, the same on each of its rows');
    else rows.push({ row, cells: own });
  });
  return { rows, bad };
};

/** A quote that is not closed takes in whatever stands below it, up to the next one: other units' rows too. */
const takenIn = (cells: readonly string[]): string => {
  const below = cells
    .join()
    .split('\n')
    .slice(1)
    .filter((line) => line.trim() !== '');
  if (below.length === 0) return '';
  return below.length === 1 ? ', and the line below went into the cell' : `, and the ${below.length} lines below went into the cell`;
};

const tableUnit = (unit: string, rows: readonly Row[], file: string, terms: Named): TableUnit => {
  const faults: TableFault[] = [];
  const say = (row: number, column: Column | null, found: string, expected: string) =>
    faults.push(fault({ file, row, column }, found, expected));
  const [first] = rows as [Row, ...Row[]];
  const once = (column: 'title' | 'maker' | 'claimed'): { readonly row: number; readonly text: string } => {
    const told = rows.filter(({ cells }) => cells[column] !== '');
    const [said = first] = told;
    for (const other of told)
      if (other.cells[column] !== said.cells[column])
        say(other.row, column, shown(other.cells[column]), `${shown(said.cells[column])}, as on row ${said.row}, or nothing`);
    return { row: said.row, text: said.cells[column] };
  };
  const maker = once('maker');
  const makers = terms.maker(maker.text);
  if (maker.text !== '' && makers.length !== 1)
    say(maker.row, 'maker', shown(maker.text), makers.length === 0 ? 'a maker of the atlas, by its id, name or trade name' : oneOf(makers));
  const observations: Observation[] = [];
  const observedOn: number[] = [];
  const unseen = new Map<string, Unseen>();
  const absent = new Set<SlotId>();
  for (const { row, cells } of rows) {
    const at = placeIn(terms, cells);
    if (at === null) continue;
    if ('column' in at) say(row, at.column, at.found, at.expected);
    else if (at.feature === null) {
      if (absent.has(at.slot)) say(row, 'feature', 'the same slot empty twice', 'every absent slot once');
      else absent.add(at.slot);
    } else {
      const entry = readEntry(cells, at.feature);
      if (!entry.ok) say(row, entry.column, entry.found, entry.expected);
      else if (entry.kind === 'unseen') {
        if (unseen.has(at.feature.id)) say(row, 'feature', 'the same feature unseen twice', 'every unseen feature once');
        else unseen.set(at.feature.id, { slot: at.slot, feature: at.feature.id, why: 'could not see' });
      } else {
        const slip = terms.slipOf?.(at.feature, entry.value, entry.sure);
        if (slip?.kind === 'impossible')
          say(
            row,
            slip.of === 'uncertainty' ? 'u' : 'value',
            shown(slip.of === 'uncertainty' ? cells.u : cells.value),
            impossibleAsked(slip),
          );
        else if (slip?.kind === 'implausible' && !entry.confirmed)
          say(row, 'value', shown(cells.value), implausibleAsked(slip, `“${entry.sure.kind} confirmed” under how`));
        observedOn.push(row);
        observations.push({
          id: `row-${row}` as ObservationId,
          slot: at.slot,
          feature: at.feature.id,
          value: entry.value,
          sure: entry.sure,
          ...(entry.confirmed ? { confirmed: true } : {}),
          ...(cells.note === '' ? {} : { note: cells.note }),
        });
      }
    }
  }
  const source = `${file}, unit ${unit}`;
  const [title, claimed] = [once('title'), once('claimed')];
  const sheet: Sheet = {
    id: unit as SheetId,
    title: title.text,
    story: '',
    kind: 'found',
    claimed: claimed.text === '' ? null : claimed.text,
    claimedMaker: makers[0]?.id ?? null,
    observations,
    ...(unseen.size === 0 ? {} : { unseen: [...unseen.values()] }),
    absent: [...absent],
    chosen: {},
  };
  if (faults.length > 0) return { source, ok: false, faults };
  // What is too long for a sheet is too long for one from a table.
  const read = sheetSchema.safeParse(sheet, { reportInput: true });
  if (read.success) return { source, ok: true, sheet };
  /** The cell that something within the sheet was read from. */
  const cellOf = ([of, index, within]: readonly PropertyKey[]): Pick<TableFault, 'row' | 'column'> => {
    if (of === 'title') return { row: title.row, column: 'title' };
    if (of === 'claimed') return { row: claimed.row, column: 'claimed' };
    if (of === 'id') return { row: first.row, column: 'unit' };
    if (of === 'observations' && typeof index === 'number')
      return { row: observedOn[index] as number, column: within === 'note' ? 'note' : 'value' };
    return { row: first.row, column: null };
  };
  for (const issue of read.error.issues) {
    const { input } = issue;
    const found = Array.isArray(input) ? `${input.length} entries` : shown(input);
    faults.push(fault({ file, ...cellOf(issue.path) }, found, expectedBy(issue)));
  }
  return { source, ok: false, faults };
};

type Place =
  | { readonly slot: SlotId; readonly feature: Feature | null }
  | { readonly column: Column; readonly found: string; readonly expected: string };

/** Which feature of which slot a row is about; null for a row that only says whose unit it is. `feature: null` is an empty slot. */
const placeIn = (terms: Named, cells: Cells): Place | null => {
  const { slot, feature, value, how, u } = cells;
  if (slot === '' && feature === '') {
    const stray = (['value', 'how', 'u'] as const).find((column) => cells[column] !== '');
    return stray === undefined ? null : { column: 'feature', found: 'nothing', expected: `the feature that ${stray} is about` };
  }
  const slots = terms.slot(slot);
  if (slot !== '' && slots.length !== 1)
    return {
      column: 'slot',
      found: shown(slot),
      expected: slots.length === 0 ? terms.slots.map(({ name }) => name).join(' or ') : oneOf(slots),
    };
  const [of] = slots;
  if (feature === '(absent)') {
    if (of === undefined) return { column: 'slot', found: 'nothing', expected: 'the slot that holds nothing' };
    const stray = value !== '' ? 'value' : how !== '' ? 'how' : u !== '' ? 'u' : null;
    return stray === null
      ? { slot: of.id, feature: null }
      : { column: stray, found: shown(cells[stray]), expected: 'nothing beside (absent)' };
  }
  const found = of === undefined ? terms.feature(feature) : terms.featureOf(of.id, feature);
  if (found.length > 1) return { column: 'feature', found: shown(feature), expected: oneOf(found) };
  const [own] = found;
  if (own === undefined)
    return {
      column: 'feature',
      found: feature === '' ? 'nothing' : shown(feature),
      expected:
        of === undefined ? 'the id of a feature, or its name with its slot beside it' : `a feature of the ${of.name}, by its id or name`,
    };
  return { slot: own.slot, feature: own };
};

const fault = ({ file, row, column }: Pick<TableFault, 'file' | 'row' | 'column'>, found: string, expected: string): TableFault => {
  const place = [file, ...(row === null ? [] : [`row ${row}`]), ...(column === null ? [] : [`column ${column}`])].join(', ');
  return { file, row, column, found, expected, sentence: `${place}: found ${found}, expected ${expected}.` };
};

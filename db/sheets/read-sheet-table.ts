import Papa from 'papaparse';
import type { Atlas, Feature, Observation, ObservationId, Sheet, SheetId, Slot, SlotId, Unseen } from '../../reasoner/index.ts';
import type { SlipOf } from '../read/asked.ts';
import { shown } from '../read/faults.ts';
import { implausibleAsked, impossibleAsked } from './check-sheet.ts';
import { readEntry } from './read-entry.ts';
import { sheetSchema } from './schema.ts';

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

/** The terms a table may use: ids, and the names people write; and what looks for slips in its figures, where slips are looked for. */
export interface TableTerms extends Pick<Atlas, 'slots' | 'features' | 'makers'> {
  readonly slipOf?: SlipOf;
}

interface Row {
  readonly row: number;
  readonly cells: Cells;
}

/**
 * A CSV of found units, one entry a row (SHEET-TABLES.md), as sheets. A fault in the rows of one unit spoils that unit and no other; a
 * table that cannot be taken apart into rows is one fault by itself. Nothing is saved, nothing throws.
 */
export const readSheetTable = (text: string, file: string, terms: TableTerms): TableUnit[] => {
  const table = rowsOf(text, file);
  if ('fault' in table) return [{ source: file, ok: false, faults: [table.fault] }];
  const units = new Map<string, Row[]>();
  for (const row of table.rows) units.set(row.cells.unit, [...(units.get(row.cells.unit) ?? []), row]);
  return [...table.bad, ...[...units].map(([unit, rows]) => tableUnit(unit, rows, file, terms))];
};

/** The rows, with those that do not fit the header apart; both comma and semicolon are read, since spreadsheets write either. */
const rowsOf = (
  text: string,
  file: string,
): { readonly rows: readonly Row[]; readonly bad: readonly TableUnit[] } | { readonly fault: TableFault } => {
  const plain = text.replace(/^\uFEFF/, '');
  const delimiter = (plain.split(/\r?\n/, 1)[0] ?? '').includes(';') ? ';' : ',';
  const parsed = Papa.parse<string[]>(plain, { delimiter });
  const badQuotes = new Map(parsed.errors.map((error) => [error.row ?? 0, error.message]));
  const [header = [], ...body] = parsed.data;
  const heads = header.map((cell) => cell.trim().toLowerCase());
  if (heads.join() !== tableColumns.join() || badQuotes.has(0))
    return { fault: fault({ file, row: 1, column: null }, shown(header.join(delimiter)), `the header ${tableColumns.join(delimiter)}`) };
  const rows: Row[] = [];
  const bad: TableUnit[] = [];
  const spoilt = (row: number, found: string, expected: string) =>
    bad.push({ source: `${file}, row ${row}`, ok: false, faults: [fault({ file, row, column: null }, found, expected)] });
  body.forEach((cells, index) => {
    const row = index + 2;
    const quoting = badQuotes.get(index + 1);
    // Spreadsheets leave empty rows behind.
    if (cells.every((cell) => cell.trim() === '')) return;
    if (quoting !== undefined) spoilt(row, `a quoting fault (${quoting})`, 'cells quoted as RFC 4180 says');
    else if (cells.length !== tableColumns.length)
      spoilt(row, `${cells.length} cells`, `${tableColumns.length} cells (${tableColumns.join(', ')})`);
    else rows.push({ row, cells: Object.fromEntries(tableColumns.map((column, at) => [column, (cells[at] as string).trim()])) as Cells });
  });
  return { rows, bad };
};

const tableUnit = (unit: string, rows: readonly Row[], file: string, terms: TableTerms): TableUnit => {
  const faults: TableFault[] = [];
  const say = (row: number, column: Column | null, found: string, expected: string) =>
    faults.push(fault({ file, row, column }, found, expected));
  const [first] = rows as [Row, ...Row[]];
  if (unit === '') say(first.row, 'unit', 'nothing', 'an id for the unit, the same on each of its rows');
  const once = (column: 'title' | 'maker' | 'claimed'): string => {
    const [said, ...others] = rows.filter(({ cells }) => cells[column] !== '');
    for (const other of others)
      if (other.cells[column] !== said?.cells[column])
        say(other.row, column, shown(other.cells[column]), `${shown(said?.cells[column])}, as on row ${said?.row}, or nothing`);
    return said?.cells[column] ?? '';
  };
  const maker = once('maker');
  const makerId = maker === '' ? null : (makerIn(terms, maker)?.id ?? null);
  if (maker !== '' && makerId === null)
    say(
      rows.find(({ cells }) => cells.maker === maker)?.row ?? first.row,
      'maker',
      shown(maker),
      'a maker of the atlas, by its id, name or trade name',
    );
  const observations: Observation[] = [];
  const unseen: Unseen[] = [];
  const absent: SlotId[] = [];
  for (const { row, cells } of rows) {
    const at = placeIn(terms, cells);
    if (at === null) continue;
    if ('column' in at) say(row, at.column, at.found, at.expected);
    else if (at.feature === null) {
      if (absent.includes(at.slot.id)) say(row, 'feature', 'the same slot empty twice', 'every absent slot once');
      else absent.push(at.slot.id);
    } else {
      const entry = readEntry(cells, at.feature);
      if (!entry.ok) say(row, entry.column, entry.found, entry.expected);
      else if (entry.kind === 'unseen') {
        if (unseen.some(({ feature }) => feature === at.feature?.id))
          say(row, 'feature', 'the same feature unseen twice', 'every unseen feature once');
        else unseen.push({ slot: at.slot.id, feature: at.feature.id, why: 'could not see' });
      } else {
        const slip = terms.slipOf?.(at.feature, entry.value, entry.sure) ?? { kind: 'plausible' };
        if (slip.kind === 'impossible')
          say(
            row,
            slip.of === 'uncertainty' ? 'u' : 'value',
            shown(slip.of === 'uncertainty' ? cells.u : cells.value),
            impossibleAsked(slip),
          );
        else if (slip.kind === 'implausible' && !entry.confirmed)
          say(row, 'value', shown(cells.value), implausibleAsked(slip, `“${entry.sure.kind} confirmed” under how`));
        observations.push({
          id: `row-${row}` as ObservationId,
          slot: at.slot.id,
          feature: at.feature.id,
          value: entry.value,
          sure: entry.sure,
          ...(entry.confirmed ? { confirmed: true } : {}),
          ...(cells.note === '' ? {} : { note: cells.note }),
        });
      }
    }
  }
  const source = unit === '' ? `${file}, row ${first.row}` : `${file}, unit ${unit}`;
  const claimed = once('claimed');
  const sheet: Sheet = {
    id: unit as SheetId,
    title: once('title'),
    story: '',
    kind: 'found',
    claimed: claimed === '' ? null : claimed,
    claimedMaker: makerId,
    observations,
    ...(unseen.length === 0 ? {} : { unseen }),
    absent,
    chosen: {},
  };
  if (faults.length > 0) return { source, ok: false, faults };
  // What is too long for a sheet is too long for one from a table.
  const read = sheetSchema.safeParse(sheet);
  if (read.success) return { source, ok: true, sheet };
  const [issue] = read.error.issues;
  say(first.row, null, `${issue?.path.join('.')}: ${issue?.message}`, 'a sheet within its limits');
  return { source, ok: false, faults };
};

type Place =
  | { readonly slot: Slot; readonly feature: Feature | null }
  | { readonly column: Column; readonly found: string; readonly expected: string };

/** Which feature of which slot a row is about; null for a row that only says whose unit it is. `feature: null` is an empty slot. */
const placeIn = (terms: TableTerms, cells: Cells): Place | null => {
  const { slot, feature, value, how, u } = cells;
  if (slot === '' && feature === '') {
    const stray = (['value', 'how', 'u'] as const).find((column) => cells[column] !== '');
    return stray === undefined ? null : { column: 'feature', found: 'nothing', expected: `the feature that ${stray} is about` };
  }
  const of = slot === '' ? undefined : byName(terms.slots, slot);
  if (slot !== '' && of === undefined)
    return { column: 'slot', found: shown(slot), expected: terms.slots.map(({ name }) => name).join(' or ') };
  if (feature === '(absent)') {
    if (of === undefined) return { column: 'slot', found: 'nothing', expected: 'the slot that holds nothing' };
    const stray = value !== '' ? 'value' : how !== '' ? 'how' : u !== '' ? 'u' : null;
    return stray === null
      ? { slot: of, feature: null }
      : { column: stray, found: shown(cells[stray]), expected: 'nothing beside (absent)' };
  }
  const found =
    terms.features.find(({ id }) => id === feature) ??
    (of === undefined
      ? undefined
      : byName(
          terms.features.filter((each) => each.slot === of.id),
          feature,
        ));
  if (found === undefined || (of !== undefined && found.slot !== of.id))
    return {
      column: 'feature',
      found: feature === '' ? 'nothing' : shown(feature),
      expected:
        of === undefined ? 'the id of a feature, or its name with its slot beside it' : `a feature of the ${of.name}, by its id or name`,
    };
  const own = terms.slots.find(({ id }) => id === found.slot);
  return own === undefined ? { column: 'slot', found: found.slot, expected: 'a slot of the atlas' } : { slot: own, feature: found };
};

const byName = <T extends { readonly id: string; readonly name: string }>(list: readonly T[], text: string): T | undefined =>
  list.find(({ id }) => id === text) ?? list.find(({ name }) => name.toLowerCase() === text.toLowerCase());

const makerIn = ({ makers }: TableTerms, text: string) =>
  byName(makers, text) ?? makers.find(({ tradeNames }) => tradeNames.some(({ name }) => name.toLowerCase() === text.toLowerCase()));

const fault = ({ file, row, column }: Pick<TableFault, 'file' | 'row' | 'column'>, found: string, expected: string): TableFault => {
  const place = [file, ...(row === null ? [] : [`row ${row}`]), ...(column === null ? [] : [`column ${column}`])].join(', ');
  return { file, row, column, found, expected, sentence: `${place}: found ${found}, expected ${expected}.` };
};

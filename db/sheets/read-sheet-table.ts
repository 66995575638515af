import Papa from 'papaparse';
import type { Atlas, Feature, Maker, Observation, ObservationId, Sheet, SheetId, Slot, SlotId, Unseen } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { groupBy } from '../plain/group-by.ts';
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
  if (text.length > limits.tableLetters)
    return [{ source: file, ok: false, faults: [tooMuch(file, null, `${text.length} characters`, `${limits.tableLetters} at most`)] }];
  const table = rowsOf(text, file);
  if ('fault' in table) return [{ source: file, ok: false, faults: [table.fault] }];
  const known = named(terms);
  return [
    ...table.bad,
    ...[...groupBy(table.rows, ({ cells }) => cells.unit)].map(([unit, rows]) =>
      rows.length > limits.unitRows ? tooManyRows(unit, rows, file) : tableUnit(unit, rows, file, known),
    ),
  ];
};

const tooMuch = (file: string, row: number | null, found: string, expected: string): TableFault =>
  fault({ file, row, column: null }, found, expected);

const tooManyRows = (unit: string, rows: readonly Row[], file: string): TableUnit => ({
  source: `${file}, unit ${unit}`,
  ok: false,
  faults: [tooMuch(file, rows[limits.unitRows]?.row ?? null, `${rows.length} rows of unit ${shown(unit)}`, `${limits.unitRows} at most`)],
});

/** The terms by what they are called, so that no row looks through them all. */
interface Named extends Pick<TableTerms, 'slots' | 'slipOf'> {
  readonly slot: (text: string) => Slot | undefined;
  readonly slotOf: (id: SlotId) => Slot | undefined;
  readonly feature: (id: string) => Feature | undefined;
  readonly featureOf: (slot: SlotId, text: string) => Feature | undefined;
  readonly maker: (text: string) => Maker | undefined;
}

const named = ({ slots, features, makers, slipOf }: TableTerms): Named => {
  const ofSlot = groupBy(features, ({ slot }) => slot);
  const inSlot = new Map([...ofSlot].map(([slot, own]) => [slot, byName(own)]));
  const slotsById = firstBy(slots.map((slot) => [slot.id, slot]));
  const featuresById = firstBy(features.map((feature): [string, Feature] => [feature.id, feature]));
  const maker = byName(makers);
  const traded = firstBy(makers.flatMap((each) => each.tradeNames.map(({ name }): [string, Maker] => [name.toLowerCase(), each])));
  return {
    slots,
    ...(slipOf === undefined ? {} : { slipOf }),
    slot: byName(slots),
    slotOf: (id) => slotsById.get(id),
    feature: (id) => featuresById.get(id),
    featureOf: (slot, text) => inSlot.get(slot)?.(text),
    maker: (text) => maker(text) ?? traded.get(text.toLowerCase()),
  };
};

const firstBy = <K, T>(pairs: readonly (readonly [K, T])[]): Map<K, T> => {
  const first = new Map<K, T>();
  for (const [key, value] of pairs) if (!first.has(key)) first.set(key, value);
  return first;
};

/** By its id, else by its name, whatever its capitals. */
const byName = <T extends { readonly id: string; readonly name: string }>(list: readonly T[]): ((text: string) => T | undefined) => {
  const ids = firstBy(list.map((each) => [each.id as string, each]));
  const names = firstBy(list.map((each) => [each.name.toLowerCase(), each]));
  return (text) => ids.get(text) ?? names.get(text.toLowerCase());
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

const tableUnit = (unit: string, rows: readonly Row[], file: string, terms: Named): TableUnit => {
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
  const makerId = maker === '' ? null : (terms.maker(maker)?.id ?? null);
  if (maker !== '' && makerId === null)
    say(
      rows.find(({ cells }) => cells.maker === maker)?.row ?? first.row,
      'maker',
      shown(maker),
      'a maker of the atlas, by its id, name or trade name',
    );
  const observations: Observation[] = [];
  const unseen = new Map<string, Unseen>();
  const absent = new Set<SlotId>();
  for (const { row, cells } of rows) {
    const at = placeIn(terms, cells);
    if (at === null) continue;
    if ('column' in at) say(row, at.column, at.found, at.expected);
    else if (at.feature === null) {
      if (absent.has(at.slot.id)) say(row, 'feature', 'the same slot empty twice', 'every absent slot once');
      else absent.add(at.slot.id);
    } else {
      const entry = readEntry(cells, at.feature);
      if (!entry.ok) say(row, entry.column, entry.found, entry.expected);
      else if (entry.kind === 'unseen') {
        if (unseen.has(at.feature.id)) say(row, 'feature', 'the same feature unseen twice', 'every unseen feature once');
        else unseen.set(at.feature.id, { slot: at.slot.id, feature: at.feature.id, why: 'could not see' });
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
    ...(unseen.size === 0 ? {} : { unseen: [...unseen.values()] }),
    absent: [...absent],
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
const placeIn = (terms: Named, cells: Cells): Place | null => {
  const { slot, feature, value, how, u } = cells;
  if (slot === '' && feature === '') {
    const stray = (['value', 'how', 'u'] as const).find((column) => cells[column] !== '');
    return stray === undefined ? null : { column: 'feature', found: 'nothing', expected: `the feature that ${stray} is about` };
  }
  const of = slot === '' ? undefined : terms.slot(slot);
  if (slot !== '' && of === undefined)
    return { column: 'slot', found: shown(slot), expected: terms.slots.map(({ name }) => name).join(' or ') };
  if (feature === '(absent)') {
    if (of === undefined) return { column: 'slot', found: 'nothing', expected: 'the slot that holds nothing' };
    const stray = value !== '' ? 'value' : how !== '' ? 'how' : u !== '' ? 'u' : null;
    return stray === null
      ? { slot: of, feature: null }
      : { column: stray, found: shown(cells[stray]), expected: 'nothing beside (absent)' };
  }
  const found = terms.feature(feature) ?? (of === undefined ? undefined : terms.featureOf(of.id, feature));
  if (found === undefined || (of !== undefined && found.slot !== of.id))
    return {
      column: 'feature',
      found: feature === '' ? 'nothing' : shown(feature),
      expected:
        of === undefined ? 'the id of a feature, or its name with its slot beside it' : `a feature of the ${of.name}, by its id or name`,
    };
  const own = terms.slotOf(found.slot);
  return own === undefined ? { column: 'slot', found: found.slot, expected: 'a slot of the atlas' } : { slot: own, feature: found };
};

const fault = ({ file, row, column }: Pick<TableFault, 'file' | 'row' | 'column'>, found: string, expected: string): TableFault => {
  const place = [file, ...(row === null ? [] : [`row ${row}`]), ...(column === null ? [] : [`column ${column}`])].join(', ');
  return { file, row, column, found, expected, sentence: `${place}: found ${found}, expected ${expected}.` };
};

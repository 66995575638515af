import type { Feature, Seen, Sure } from '../../reasoner/index.ts';
import { mmPerInch } from '../../reasoner/plain/units.ts';
import { shown } from '../read/faults.ts';
import { isPlain, plainText } from '../read/plain-text.ts';

/** The cells of a table's row that say what was seen, and how sure it is. */
export interface EntryCells {
  readonly value: string;
  readonly how: string;
  readonly u: string;
}

export type ReadEntry =
  | { readonly ok: true; readonly kind: 'seen'; readonly value: Seen; readonly sure: Sure; readonly confirmed: boolean }
  /** Looked for, and could not be seen. */
  | { readonly ok: true; readonly kind: 'unseen' }
  | { readonly ok: false; readonly column: keyof EntryCells; readonly found: string; readonly expected: string };

/** An entry before it is said whether somebody confirmed it. */
type ReadCells = Extract<ReadEntry, { ok: false }> | Omit<Extract<ReadEntry, { kind: 'seen' }>, 'confirmed'>;

const confirming = ' confirmed';

/** One entry of a table (SHEET-TABLES.md). Measures come out in mm or degrees, whatever they were written in. */
export const readEntry = (written: EntryCells, feature: Feature): ReadEntry => {
  // `measured confirmed`: asked whether that is what was read, somebody said yes (O7).
  const confirmed = written.how.endsWith(confirming);
  const cells = confirmed ? { ...written, how: written.how.slice(0, -confirming.length).trimEnd() } : written;
  if (cells.value === '?') {
    if (written.how !== '') return refused('how', written, 'nothing beside ?');
    return cells.u === '' ? { ok: true, kind: 'unseen' } : refused('u', cells, 'nothing beside ?');
  }
  if (cells.value === '') return refused('value', cells, 'a value, or ? where it could not be seen');
  const read = feature.kind === 'measure' ? readMeasure(cells, feature) : readOther(cells, feature.kind, feature);
  // What is refused is told as it stands in the cell.
  return read.ok ? { ...read, confirmed } : refused(read.column, written, read.expected);
};

type OtherKind = Exclude<Feature['kind'], 'measure'>;

const readOther = (cells: EntryCells, kind: OtherKind, { options }: Feature): ReadCells => {
  const value = seenIn(cells.value, kind, options);
  if (typeof value === 'string') return refused('value', cells, value);
  if (cells.how !== 'seen' && cells.how !== 'told') return refused('how', cells, `seen or told, for a ${kind}`);
  return cells.u === '' ? { ok: true, kind: 'seen', value, sure: { kind: cells.how } } : refused('u', cells, `nothing, for a ${kind}`);
};

/** The value, or what was expected in its place. */
const seenIn = (text: string, kind: OtherKind, options: Feature['options'] = []): Seen | string => {
  switch (kind) {
    case 'count': {
      const match = /^(\d{1,9})(?:\.\.(\d{1,9}))?$/.exec(text);
      const [from, to] = [Number(match?.[1]), Number(match?.[2] ?? match?.[1])];
      // Where it is no number neither end is less than the other.
      return from <= to ? { kind: 'count', from, to } : 'a whole number such as 11, or a range such as 10..11';
    }
    case 'choice': {
      const option = options.find(({ id }) => id === text) ?? options.find(({ name }) => name.toLowerCase() === text.toLowerCase());
      return option === undefined ? options.map(({ id }) => id).join(' or ') : { kind: 'choice', option: option.id };
    }
    case 'presence':
      return text === 'yes' || text === 'no' ? { kind: 'presence', present: text === 'yes' } : 'yes, no or ?';
    case 'mark':
      if (text === '(blank)') return { kind: 'mark', text: null };
      return isPlain(text) ? { kind: 'mark', text } : plainText;
  }
};

const readMeasure = (cells: EntryCells, feature: Feature): ReadCells => {
  const angle = feature.unit === 'deg';
  const expected = angle ? 'a number of degrees such as 24.5' : 'a number of millimetres such as 57.2, or of inches such as 2.25 in';
  const value = quantityIn(cells.value, angle);
  if (value === null) return refused('value', cells, expected);
  if (cells.how === 'told')
    return cells.u === ''
      ? { ok: true, kind: 'seen', value: { kind: 'measure', value: value.size }, sure: { kind: 'told' } }
      : refused('u', cells, 'nothing, for what was told');
  if (cells.how !== 'measured') return refused('how', cells, 'measured or told, for a measure');
  // Without a unit of its own the uncertainty is in the value's.
  const u = quantityIn(cells.u, angle, value.inches);
  if (u === null || u.size <= 0) return refused('u', cells, 'the standard uncertainty of the reading, above 0, in the unit of the value');
  return { ok: true, kind: 'seen', value: { kind: 'measure', value: value.size }, sure: { kind: 'measured', u: u.size } };
};

const quantityIn = (text: string, angle: boolean, inchesUnlessSaid = false): { readonly size: number; readonly inches: boolean } | null => {
  const match = /^(-?\d{1,7}(?:\.\d{1,12})?)\s*(mm|in|"|°|deg)?$/.exec(text);
  const number = Number(match?.[1]);
  if (match === null || Math.abs(number) > 1_000_000) return null;
  const unit = match[2];
  if (angle) return unit === undefined || unit === '°' || unit === 'deg' ? { size: number, inches: false } : null;
  if (unit === '°' || unit === 'deg') return null;
  const inches = unit === undefined ? inchesUnlessSaid : unit !== 'mm';
  // Rounded to a hundredth of a nanometre, so that 2.25 in is 57.15 and nothing after it.
  return { size: inches ? Math.round(number * mmPerInch * 1e8) / 1e8 : number, inches };
};

const refused = (column: keyof EntryCells, cells: EntryCells, expected: string): Extract<ReadEntry, { ok: false }> => ({
  ok: false,
  column,
  found: cells[column] === '' ? 'nothing' : shown(cells[column]),
  expected,
});

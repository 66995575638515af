import { type LengthUnit, lengthUnits, mmPerInch } from '../../reasoner/plain/units.ts';
import { withSign } from './figures.ts';

/** What was typed, read as a value, or the sentence that says why it is none. Nothing is guessed. */
export type Read<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly sentence: string };

const read = <T>(value: T): Read<T> => ({ ok: true, value });
const refused = (sentence: string): Read<never> => ({ ok: false, sentence });

/** "10", "10 or 11", "9 to 11", "9–11". */
export function readCount(typed: string): Read<{ readonly from: number; readonly to: number }> {
  const text = typed.trim();
  if (text === '') return refused('A count is wanted: 10, or 10 or 11, or 9 to 11.');
  const parts = /^(\d{1,6})(?:\s*(or|to|-|–|\.\.)\s*(\d{1,6}))?$/i.exec(text);
  if (parts === null) return refused(`“${text}” is no count. Write 10, or 10 or 11, or 9 to 11.`);
  const first = Number(parts[1]);
  const second = parts[3] === undefined ? first : Number(parts[3]);
  const from = Math.min(first, second);
  const to = Math.max(first, second);
  if (parts[2]?.toLowerCase() === 'or' && to - from > 1) {
    return refused(`${from} or ${to} leaves out what lies between. Write ${from} to ${to} if that is possible too.`);
  }
  return read({ from, to });
}

export { type LengthUnit, lengthUnits };

/**
 * A sign, or the one of a diameter, then a decimal number, or a fraction with or without a whole number before it, a space or a hyphen between; then a unit. Two strokes,
 * however a keyboard writes them, are inches.
 */
const measure =
  /^(?:([+-]?)|[øØ⌀]\s*)(?:(\d+(?:[.,]\d+)?|[.,]\d+)|(?:(\d+)(?:\s+|[-‐‑–]))?(\d+)\s*\/\s*(\d+))\s*(?:(mm|millimet(?:er|re)s?|in|inch|inches|["”“″]|''|’’|deg|degrees?|°)\.?)?$/i;

const noMeasure = (text: string): string => `“${text}” is no measure. Write it like ${withSign('57.12')}.`;

/** ½ ⅜ … as a phone’s keyboard offers them, and the slashes made for fractions, as they are typed elsewhere. `2½` is 2 1/2, never 21/2. */
const spelledOut = (text: string): string =>
  text
    .replace(/[¼-¾⅐-⅞]/g, (one) => ` ${one.normalize('NFKD')}`)
    .replace(/[⁄∕]/g, '/')
    .trim();

/**
 * "57.12", "57,12", "57.12 mm", "2.25 in", "13/16 in", "2 1/4 in", "2-1/4 in". A unit that is written wins over the one chosen.
 * A fraction beside a whole number is less than one; alone it may be more: 11/2 is 5.5.
 * @returns millimetres for a length, degrees for an angle.
 */
export function readMeasure(typed: string, kind: 'mm' | 'deg', chosen: LengthUnit): Read<number> {
  const text = typed.trim();
  const parts = measure.exec(spelledOut(text));
  if (text === '' || parts === null) return refused(text === '' ? 'A number is wanted.' : noMeasure(text));
  const [, sign, decimal, whole, over, under, written] = parts;
  const fraction = over === undefined ? 0 : Number(over) / Number(under);
  if (!Number.isFinite(fraction) || (whole !== undefined && !(fraction > 0 && fraction < 1)))
    return refused(`“${text}” is no measure. Write it like 13/16 or 1 3/16.`);
  const unit = written === undefined ? null : /^m/i.test(written) ? 'mm' : /^d|°/i.test(written) ? 'deg' : 'inch';
  if (unit !== null && (unit === 'deg') !== (kind === 'deg')) {
    return refused(kind === 'deg' ? 'This is an angle: degrees are wanted.' : 'This is a length: mm or inch is wanted.');
  }
  const size = decimal === undefined ? Number(whole ?? 0) + fraction : Number(decimal.replace(',', '.'));
  if (!Number.isFinite(size)) return refused(noMeasure(text));
  const total = sign === '-' ? -size : size;
  if (kind === 'deg') return read(total);
  return read((unit ?? chosen) === 'inch' ? rounded(total * mmPerInch) : total);
}

/**
 * How far off a measure may be either way, as it is typed and shown: twice the standard uncertainty (coverage factor k = 2; JCGM 100:2008, 6.2.1),
 * as certificates give it and as agreement is judged by (O2).
 * @returns the standard uncertainty u, half of what was typed; greater than zero, in the units of the measure
 */
export function readUncertainty(typed: string, kind: 'mm' | 'deg', chosen: LengthUnit): Read<number> {
  if (typed.trim() === '') return refused('How far off may it be? A measure needs its ±.');
  const measure = readMeasure(typed, kind, chosen);
  if (!measure.ok) return measure;
  return measure.value > 0 ? read(measure.value / 2) : refused('How far off it may be, ±, must be greater than zero.');
}

/** Removes what binary arithmetic adds after the tenth decimal, far below any instrument. */
const rounded = (value: number): number => Math.round(value * 1e10) / 1e10;

/**
 * The uncertainty a reading starts with when nothing else is said: one step of the instrument either way, all of it
 * equally likely, u = step / √3 (rectangular distribution of half-width a: u = a/√3, JCGM 100:2008, 4.3.7; from memory).
 * @returns u in the feature's unit, to two significant digits, or null where the atlas names no instrument.
 */
export const startingUncertainty = (resolution: number | undefined): number | null =>
  resolution === undefined || !(resolution > 0 && resolution < Number.POSITIVE_INFINITY)
    ? null
    : Number((resolution / Math.sqrt(3)).toPrecision(2));

import { mmPerInch } from '../../reasoner/plain/units.ts';
import type { WrittenUnit } from './column-use.ts';

/** Which sign stands before the decimals in a table’s texts, as its own figures show; `unsaid` where none of them does. */
export type DecimalSign = 'point' | 'comma' | 'unsaid' | 'both';

/** A figure read, or what was expected in its place. Nothing is guessed. */
export type Figure<T> = ({ readonly ok: true } & T) | { readonly ok: false; readonly expected: string };

const refused = (expected: string) => ({ ok: false, expected }) as const;

/**
 * The decimal sign the texts show: one with other than three figures behind it, or with a nought before it, can be no thousands sign.
 * `12,500` and `1.250` show nothing.
 */
export const decimalSignIn = (texts: Iterable<string>): DecimalSign => {
  let [point, comma] = [false, false];
  for (const text of texts) {
    for (const [, whole = '', sign, decimals = ''] of text.matchAll(/(?<![\d.,])(\d*)([.,])(\d+)(?![\d.,])/g)) {
      if (decimals.length === 3 && whole !== '' && !/^0+$/.test(whole) && whole.length < 4) continue;
      if (sign === '.') point = true;
      else comma = true;
    }
  }
  return point ? (comma ? 'both' : 'point') : comma ? 'comma' : 'unsaid';
};

/**
 * A plain decimal: `51.5`, `51,5`, `-3`. A sign that may part thousands is refused: three figures after a comma, but where the table’s commas are decimal; three after
 * a point where they are; and any second sign.
 */
export const decimalIn = (text: string, sign: DecimalSign): Figure<{ readonly value: number }> => {
  const bare = text.replace(/[−–—]/g, '-').replace(/^\+/, '').trim();
  const parts = /^(-?)(\d*)(?:([.,])(\d+))?$/.exec(bare);
  if (parts === null || (parts[2] === '' && parts[4] === undefined))
    return /^-?\d[\d.,'’\u00a0\u2009\u202f ]*\d$/.test(bare)
      ? refused('a figure without signs between its thousands, such as 1234.5')
      : refused('a figure such as 51.5 or 51,5');
  const [, minus, whole = '', found, decimals = ''] = parts;
  const mayPart = found !== undefined && decimals.length === 3 && whole !== '' && !/^0+$/.test(whole) && whole.length < 4;
  if (mayPart && (found === ',' ? sign !== 'comma' : sign === 'comma' || sign === 'both'))
    return refused(`a figure that is plain: ${whole}${decimals} where it is thousands, ${whole}.${decimals}0 where it is decimals`);
  if (whole.length > 7 || decimals.length > 12) return refused('a figure of at most seven figures and twelve decimals');
  const value = Number(`${minus}${whole === '' ? '0' : whole}.${decimals === '' ? '0' : decimals}`);
  return { ok: true, value: value === 0 ? 0 : value };
};

const unitWord = "(?:mm|cm|in|inch|inches|thou|deg|degs|degree|degrees|°|\"|″|”|'')";
const units = new Map<string, WrittenUnit>(
  Object.entries({
    mm: 'mm',
    cm: 'cm',
    in: 'inch',
    inch: 'inch',
    inches: 'inch',
    '"': 'inch',
    '″': 'inch',
    '”': 'inch',
    "''": 'inch',
    thou: 'thou',
    deg: 'deg',
    degs: 'deg',
    degree: 'deg',
    degrees: 'deg',
    '°': 'deg',
  }),
);
export const unitCalled = (text: string): WrittenUnit | null => units.get(text.trim().toLowerCase().replace(/\.$/, '')) ?? null;

const perUnit: Readonly<Record<WrittenUnit, number>> = { mm: 1, cm: 10, inch: mmPerInch, thou: mmPerInch / 1000, deg: 1 };

/** Without what binary arithmetic adds behind the twelfth figure. */
export const plainSize = (value: number): number => (value === 0 ? 0 : Number(value.toPrecision(12)));

/** A figure of the unit in mm, or in degrees. */
export const sizeOf = (value: number, unit: WrittenUnit): number => plainSize(value * perUnit[unit]);

/** One size as it is written: a decimal or a fraction, and the unit beside it. In mm or degrees once it is made so by `sizeOf`. */
interface Written {
  readonly value: number;
  readonly unit: WrittenUnit | null;
}

/** What a size was written as: alone, with limits about it, with deviations from it, or with a code. In mm, or degrees. */
export interface SizeRead {
  readonly nominal: number;
  readonly lower: number;
  readonly upper: number;
  readonly how: 'alone' | 'deviations' | 'limits';
  readonly code: string | null;
}

interface SizeAs {
  readonly angle: boolean;
  /** What a figure without a unit is in; null for mm, or degrees. */
  readonly unit: WrittenUnit | null;
  readonly decimal: DecimalSign;
}

const example = (angle: boolean): string =>
  angle ? 'an angle such as 32, 32 ±0.5 or 31.5..32.5' : 'a size such as 51.5, 51,5 mm, 2 1/4", 51.5 ±0.05, 51.4..51.6 or 10 h6';

/**
 * `51,5`, `2 1/4"`, `51.4–51.6`, `51.5 ±0.05`, `51.5 +0.02/-0`, `10 h6`: a size with what is said of how far it may be off. A unit that is written counts for all figures
 * of the cell; written twice, it must be the same. A lone deviation is refused: the other is not nought for being left out.
 */
export const readSize = (given: string, { angle, unit, decimal }: SizeAs): Figure<SizeRead> => {
  const text = spelled(given);
  const own = unit ?? (angle ? 'deg' : 'mm');
  const of = (pieces: readonly string[]): Figure<{ readonly sizes: readonly number[] }> => {
    const written: Written[] = [];
    for (const piece of pieces) {
      const read = writtenIn(piece, decimal);
      if (!read.ok) return read;
      written.push(read);
    }
    const said = [...new Set(written.flatMap((one) => (one.unit === null ? [] : [one.unit])))];
    if (said.length > 1) return refused('one unit for all figures of the cell');
    const used = said[0] ?? own;
    if ((used === 'deg') !== angle) return refused(angle ? 'degrees: this is an angle' : 'a length: mm or inch');
    return { ok: true, sizes: written.map(({ value }) => sizeOf(value, used)) };
  };
  const alone = writtenIn(text, decimal);
  if (alone.ok) {
    const read = of([text]);
    return read.ok ? { ok: true, nominal: read.sizes[0] as number, lower: 0, upper: 0, how: 'alone', code: null } : read;
  }
  const about = /^(.+?)\s*(?:±|\+\s*\/?\s*-)\s*(\S.*)$/.exec(text);
  if (about !== null) {
    const read = of([about[1] as string, about[2] as string]);
    if (!read.ok) return read;
    const [nominal, off] = read.sizes as [number, number];
    return off < 0
      ? refused('a figure without a sign after ±')
      : { ok: true, nominal, lower: off === 0 ? 0 : -off, upper: off, how: 'deviations', code: null };
  }
  const both = new RegExp(
    `^(.+?)\\s*\\(?\\s*([+-]\\s*[\\d.,]+\\s*${unitWord}?|0)\\s*[/,;|\\s]\\s*([+-]\\s*[\\d.,]+\\s*${unitWord}?|0)\\s*\\)?\\s*(${unitWord})?$`,
    'i',
  ).exec(text);
  if (both !== null) {
    const [, size = '', one = '', other = '', behind = ''] = both;
    const read = of([
      `${size}${behind === '' || writtenUnitOf(size) ? '' : ` ${behind}`}`,
      one.replace(/\s/g, ''),
      other.replace(/\s/g, ''),
    ]);
    if (!read.ok) return read;
    const [nominal, ...off] = read.sizes as [number, number, number];
    return { ok: true, nominal, lower: Math.min(...off), upper: Math.max(...off), how: 'deviations', code: null };
  }
  const range = /^(.+?)(?:\s*\.\.+\s*|\s+to\s+|\s*[–—]\s*|(?<=\S)-(?=[\d.,])|\s+-\s+)(\S.*)$/i.exec(text);
  if (range !== null) {
    const read = of([range[1] as string, range[2] as string]);
    if (!read.ok) return read;
    const [from, to] = read.sizes as [number, number];
    if (from > to) return refused('a range from the smaller size to the larger');
    return { ok: true, ...limitsOf(from, to), how: 'limits', code: null };
  }
  const coded = /^(.+?)\s*([A-Za-z]{1,2}\d{1,2})$/.exec(text);
  if (coded !== null && !angle) {
    const read = of([coded[1] as string]);
    if (!read.ok) return refused(example(angle));
    if ((writtenUnitOf(coded[1] as string) ?? own) !== 'mm') return refused('a size in mm beside an ISO 286 code');
    return { ok: true, nominal: read.sizes[0] as number, lower: 0, upper: 0, how: 'deviations', code: coded[2] as string };
  }
  if (/^.+\s[+-][\d.,]+$/.test(text)) return refused('both deviations, as in 51.5 +0.02/-0');
  return refused(/plain|thousands|fraction/.test(alone.expected) ? alone.expected : example(angle));
};

/** A size in the middle of its limits, and how far they lie from it. */
export const limitsOf = (from: number, to: number): { readonly nominal: number; readonly lower: number; readonly upper: number } => {
  const nominal = plainSize((from + to) / 2);
  return { nominal, lower: plainSize(from - nominal), upper: plainSize(to - nominal) };
};

/** ½ as 1/2, a minus of its own, narrow spaces; a sign for diameter left out. `2½` is 2 1/2. */
const spelled = (text: string): string =>
  text
    .replace(/[¼-¾⅐-⅞]/g, (one) => ` ${one.normalize('NFKD')}`)
    .replace(/[⁄∕]/g, '/')
    .replace(/[\u00a0\u2009\u202f]/g, ' ')
    .replace(/−/g, '-')
    .replace(/^(?:[⌀øØ∅]|dia\.?(?=[\s\d]))\s*/i, '')
    .trim();

const one = new RegExp(
  `^([+-]?)\\s*(?:(\\d*(?:[.,]\\d+)*)|(?:(\\d{1,4})(?:\\s+|-))?(\\d{1,4})\\s*/\\s*(\\d{1,4}))\\s*(${unitWord}\\.?)?$`,
  'i',
);

const writtenUnitOf = (text: string): WrittenUnit | null => {
  const unit = new RegExp(`(${unitWord})\\.?$`, 'i').exec(text.trim())?.[1];
  return unit === undefined ? null : unitCalled(unit);
};

const writtenIn = (text: string, decimal: DecimalSign): Figure<Written> => {
  const parts = one.exec(text.trim());
  if (parts === null) {
    const plain = decimalIn(text, decimal);
    return plain.ok ? { ok: true, value: plain.value, unit: null } : plain;
  }
  const [, sign, plain, whole, over, under, unit] = parts;
  const written = unit === undefined ? null : unitCalled(unit);
  if (over !== undefined && under !== undefined) {
    const fraction = Number(over) / Number(under);
    if (Number(under) === 0 || (whole !== undefined && !(fraction > 0 && fraction < 1)))
      return refused('a fraction such as 13/16 or 2 1/4');
    const value = Number(whole ?? 0) + fraction;
    return { ok: true, value: sign === '-' ? -value : value, unit: written };
  }
  const read = decimalIn(plain ?? '', decimal);
  return read.ok ? { ok: true, value: sign === '-' && read.value !== 0 ? -read.value : read.value, unit: written } : read;
};

/** `10`, `9..11`, `9–11`, `9 to 11`, `10 or 11`, and what is counted behind it. */
export const readWhole = (given: string): Figure<{ readonly from: number; readonly to: number }> => {
  const expected = 'a whole number such as 10, or a range such as 9..11';
  const parts = /^(\d{1,9})(?:[.,]0+)?(?:\s*(\.\.+|-|–|—|\s+to\s+|\s+or\s+)\s*(\d{1,9}))?(?:\s+\p{L}[\p{L} ]*)?$/iu.exec(spelled(given));
  if (parts === null) return refused(expected);
  const [from, to] = [Number(parts[1]), Number(parts[3] ?? parts[1])];
  if (from > to) return refused('a range from the smaller number to the larger');
  if (parts[2]?.trim().toLowerCase() === 'or' && to - from > 1) return refused(`${from}..${to}, where what lies between is possible too`);
  return { ok: true, from, to };
};

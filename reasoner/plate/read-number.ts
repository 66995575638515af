import type { CheckDigit, Era, NumberPattern, NumberPiece, NumberRead } from '../atlas/number-pattern.ts';
import type { SlotId } from '../ids.ts';
import { bare } from '../plain/letters.ts';

/**
 * Every way a pattern reads a number; none when it is not made so. Case, spaces and signs do not count, as with any mark. A check
 * digit that is wrong does not stop the reading: `check` says what was stamped and what should be.
 */
export const readNumber = (pattern: NumberPattern, text: string): readonly NumberRead[] => {
  const number = bare(text);
  const reads: NumberRead[] = [];
  const step = (index: number, at: number, soFar: Partial): void => {
    const piece = pattern.pieces[index];
    if (piece === undefined) {
      const { year, ...rest } = soFar;
      if (at === number.length)
        reads.push({ pattern, ...rest, made: year === null ? { from: pattern.from, to: pattern.to } : { from: year, to: year } });
      return;
    }
    for (const found of readPiece(pattern, piece, number, at))
      step(index + 1, found.end, { ...soFar, ...found.says, texts: [...soFar.texts, found.text] });
  };
  step(0, 0, { texts: [], slot: null, year: null, month: null, check: null });
  return reads;
};

type Partial = Pick<NumberRead, 'texts' | 'slot' | 'month' | 'check'> & { readonly year: number | null };

interface Found {
  readonly text: string;
  readonly end: number;
  readonly says: {
    readonly slot?: SlotId;
    readonly year?: number;
    readonly month?: number;
    readonly check?: NonNullable<NumberRead['check']>;
  };
}

/** Every way a piece reads the signs of a number from `at` on. */
export const readPiece = (pattern: NumberPattern, piece: NumberPiece, number: string, at: number): readonly Found[] => {
  // What is taken may be shorter than its piece where the number ends too soon; it then ends beyond the number, and no reading does.
  const take = (length: number): string => number.slice(at, at + length);
  const found = (text: string, length: number, says: Found['says'] = {}): Found => ({ text: text.toUpperCase(), end: at + length, says });
  switch (piece.kind) {
    case 'fixed': {
      const wanted = bare(piece.text);
      return take(wanted.length) === wanted ? [{ text: piece.text, end: at + wanted.length, says: {} }] : [];
    }
    case 'slot':
      return Object.entries(piece.codes).flatMap(([code, slot]) => {
        const wanted = bare(code);
        return take(wanted.length) === wanted ? [{ text: code, end: at + wanted.length, says: { slot } }] : [];
      });
    case 'digits':
      return figures(take(piece.count)) ? [found(take(piece.count), piece.count)] : [];
    case 'letters': {
      const text = take(piece.count);
      return [...text].every((letter) => placeIn(piece.among, letter) >= 0) ? [found(text, piece.count)] : [];
    }
    case 'year':
      return figures(take(piece.figures))
        ? yearsOf(pattern, Number(take(piece.figures)), piece.figures).map((year) => found(take(piece.figures), piece.figures, { year }))
        : [];
    case 'year letter': {
      const place = placeIn(piece.letters, take(1));
      return place < 0 ? [] : [found(take(1), 1, { year: piece.first + place })];
    }
    case 'month': {
      const month = Number(take(2));
      return figures(take(2)) && month >= 1 && month <= 12 ? [found(take(2), 2, { month })] : [];
    }
    case 'month letter': {
      const place = placeIn(piece.letters, take(1));
      return place < 0 ? [] : [found(take(1), 1, { month: place + 1 })];
    }
    case 'check digit': {
      const wanted = checkDigit(piece, number.slice(0, at));
      const ten = bare(piece.ten);
      const stamped = take(wanted.length);
      const other = [take(1), take(ten.length)].find((text) => figures(text) || text === ten);
      if (bare(wanted) === stamped) return [found(wanted, wanted.length, { check: { stamped: wanted, wanted } })];
      return other === undefined ? [] : [found(other, other.length, { check: { stamped: other.toUpperCase(), wanted } })];
    }
  }
};

/** Whether the signs of a number end within a piece: some more would make one. Nothing yet begins every piece. */
export const begins = (piece: NumberPiece, rest: string): boolean => {
  if (rest === '') return true;
  const starts = (whole: string): boolean => bare(whole).length > rest.length && bare(whole).startsWith(rest);
  switch (piece.kind) {
    case 'fixed':
      return starts(piece.text);
    case 'slot':
      return Object.keys(piece.codes).some(starts);
    case 'digits':
      return rest.length < piece.count && figures(rest);
    case 'letters':
      return rest.length < piece.count && [...rest].every((letter) => placeIn(piece.among, letter) >= 0);
    case 'year':
      return rest.length < piece.figures && figures(rest);
    case 'month':
      return rest === '0' || rest === '1';
    case 'check digit':
      return starts(piece.ten);
    case 'year letter':
    case 'month letter':
      return false;
  }
};

/** The check digit that belongs behind a number; only its figures count. @throws RangeError where the pattern states no weights, or a modulus no figure stands for */
export const checkDigit = ({ weights, modulus, stamps, ten }: CheckDigit, before: string): string => {
  if (weights.length === 0 || !weights.every(Number.isInteger) || !(Number.isInteger(modulus) && modulus >= 2 && modulus <= 11))
    throw new RangeError(`a check digit needs weights and a modulus from 2 to 11; found ${weights.join(', ') || 'none'} and ${modulus}`);
  const sum = [...before.replace(/\D/g, '')].reduce((all, figure, i) => all + Number(figure) * (weights[i % weights.length] ?? 0), 0);
  const remainder = sum % modulus;
  const digit = stamps === 'remainder' ? remainder : (modulus - remainder) % modulus;
  return digit === 10 ? ten : String(digit);
};

/** Years the figures can mean while the pattern was in use; with two figures and no beginning known, none can be told. */
const yearsOf = ({ from, to }: Era, figures: number, count: 2 | 4): readonly number[] => {
  const within = (year: number) => (from === null || year >= from) && (to === null || year <= to);
  if (count === 4) return within(figures) && figures >= 1000 ? [figures] : [];
  if (from === null) return [];
  const first = from + ((((figures - from) % 100) + 100) % 100);
  return within(first) ? [first] : [];
};

const figures = (text: string): boolean => /^\d+$/.test(text);
const placeIn = (letters: string, letter: string): number => letters.toLowerCase().indexOf(letter);

import { describe, expect, test } from 'vitest';
import { asId, checkDigit, type NumberPattern, type NumberPiece, readNumber } from '../../../reasoner/index.ts';
import { writeNumber } from '../../property/plate/write-number.ts';

const pattern = (pieces: readonly NumberPiece[], from: number | null = null, to: number | null = null): NumberPattern => ({
  id: 'made-up',
  name: 'serial number',
  says: 'serial number',
  from,
  to,
  pieces,
});
const running = (count: number): NumberPiece => ({ before: '', kind: 'digits', name: 'running number', count });
const fixed = (text: string): NumberPiece => ({ before: '', kind: 'fixed', text });
const check = (ten: string): NumberPiece => ({
  before: '-',
  kind: 'check digit',
  weights: [2, 3],
  modulus: 11,
  stamps: 'remainder',
  ten,
});
const textsOf = (of: NumberPattern, text: string) => readNumber(of, text).map(({ texts }) => texts.join('|'));

describe('[O5] a number is read piece by piece', () => {
  test('[O5] whole, or not at all: no figure is missing and none is left over', () => {
    const of = pattern([fixed('Kn'), running(3)], 1960, 1980);
    expect(readNumber(of, 'kn 417')).toEqual([
      { pattern: of, texts: ['Kn', '417'], slot: null, month: null, check: null, made: { from: 1960, to: 1980 } },
    ]);
    for (const wrong of ['Kn 41', 'Kn 4170', 'Km 417', 'Kn a17', 'Kn 41a', 'Kn 4a7', '417']) expect(textsOf(of, wrong), wrong).toEqual([]);
  });

  test('[O5] letters are those of the maker’s row, the first and the last of it among them, and are given large', () => {
    const of = pattern([{ before: '', kind: 'letters', name: 'bench', among: 'ADK', count: 2 }, running(1)]);
    expect(textsOf(of, 'ak 5')).toEqual(['AK|5']);
    expect(textsOf(of, 'DA 5')).toEqual(['DA|5']);
    for (const wrong of ['AB 5', 'BA 5', 'A 5', 'AKD 5', 'A']) expect(textsOf(of, wrong), wrong).toEqual([]);
    expect(textsOf(pattern([{ before: '', kind: 'letters', name: 'bench', among: 'ADK', count: 2 }]), 'A')).toEqual([]);
  });

  test('[O5] a code says whose slot it is', () => {
    const of = pattern([{ before: '', kind: 'slot', codes: { W: asId('wheel'), HB: asId('housing') } }, running(1)]);
    expect(['w1', 'hb1', 'h1'].map((text) => readNumber(of, text).map(({ slot }) => slot))).toEqual([['wheel'], ['housing'], []]);
  });

  test('[O5] a month is one of twelve, in two figures or by its letter', () => {
    const figures = pattern([{ before: '', kind: 'month' }, running(1)]);
    const monthsOf = (of: NumberPattern, text: string) => readNumber(of, text).map(({ month }) => month);
    expect(['017', '097', '127'].map((text) => monthsOf(figures, text))).toEqual([[1], [9], [12]]);
    for (const wrong of ['007', '137', '1a7', 'a17', '99', '7']) expect(monthsOf(figures, wrong), wrong).toEqual([]);
    const letter = pattern([running(1), { before: '', kind: 'month letter', letters: 'ABCDEFGHJKLM' }]);
    expect(['7A', '7b', '7M'].map((text) => monthsOf(letter, text))).toEqual([[1], [2], [12]]);
    for (const wrong of ['7N', '7', '7AA']) expect(monthsOf(letter, wrong), wrong).toEqual([]);
  });

  test('[O5] a letter stands for a year, the first of the row for the first year', () => {
    const of = pattern([running(1), { before: '', kind: 'year letter', letters: 'KLM', first: 1971 }]);
    const years = (text: string) => readNumber(of, text).map(({ made }) => made);
    expect(['4K', '4m'].map(years)).toEqual([[{ from: 1971, to: 1971 }], [{ from: 1973, to: 1973 }]]);
    for (const wrong of ['4N', '4', '4KK']) expect(years(wrong), wrong).toEqual([]);
  });
});

describe('[O5] a year is one in which the maker numbered so', () => {
  const yearsRead = (figures: 2 | 4, from: number | null, to: number | null, text: string) =>
    readNumber(pattern([{ before: '', kind: 'year', figures }], from, to), text).map(({ made }) => made.from);

  test('[O5] four figures: the first and the last year among them', () => {
    expect(['1960', '1975', '1980'].map((text) => yearsRead(4, 1960, 1980, text))).toEqual([[1960], [1975], [1980]]);
    for (const wrong of ['1959', '1981', '1904', '2060']) expect(yearsRead(4, 1960, 1980, wrong), wrong).toEqual([]);
    expect(['1000', '1904', '2030'].map((text) => yearsRead(4, null, null, text))).toEqual([[1000], [1904], [2030]]);
    expect(yearsRead(4, null, null, '0999')).toEqual([]);
    expect(yearsRead(4, null, 1980, '1959')).toEqual([1959]);
    expect(yearsRead(4, 1904, null, '0904')).toEqual([]);
  });

  test('[O5] two figures: the first such year since the pattern began; where nobody knows when that was, none', () => {
    expect(['60', '59', '04'].map((text) => yearsRead(2, 1960, null, text))).toEqual([[1960], [2059], [2004]]);
    expect(['80', '81', '59'].map((text) => yearsRead(2, 1960, 1980, text))).toEqual([[1980], [], []]);
    expect(yearsRead(2, null, 1980, '75')).toEqual([]);
    expect(yearsRead(2, null, null, '75')).toEqual([]);
  });
});

describe('[O5] a check digit is compared, and a wrong one does not stop the reading', () => {
  // Weights 2 and 3 over two figures: 12 gives 8; 31 gives 9; 22 gives 10; 33 gives 15, remainder 4.
  const of = (ten: string) => pattern([running(2), check(ten)]);
  const checks = (ten: string, text: string) => readNumber(of(ten), text).map((read) => read.check);

  test('[O5] right, wrong, and the sign for ten', () => {
    expect(checks('X', '12-8')).toEqual([{ stamped: '8', wanted: '8' }]);
    expect(checks('X', '12-7')).toEqual([{ stamped: '7', wanted: '8' }]);
    expect(checks('X', '22-x')).toEqual([{ stamped: 'X', wanted: 'X' }]);
    expect(checks('X', '22-4')).toEqual([{ stamped: '4', wanted: 'X' }]);
    expect(checks('X', '33-x')).toEqual([{ stamped: 'X', wanted: '4' }]);
    expect(textsOf(of('X'), '12-8')).toEqual(['12|8']);
  });

  test('[O5] what is neither a figure nor that sign is no check digit, nor is nothing', () => {
    for (const wrong of ['12-Q', '12', '12-8Q', '12-Q8']) expect(checks('X', wrong), wrong).toEqual([]);
  });

  test('[O5] a maker may write ten as it likes', () => {
    expect(checks('10', '22-10')).toEqual([{ stamped: '10', wanted: '10' }]);
    expect(checks('x', '22-X')).toEqual([{ stamped: 'x', wanted: 'x' }]);
  });

  test('[O5] the least modulus is two; what cannot be worked out says what was found', () => {
    const two = { kind: 'check digit', weights: [1], modulus: 2, stamps: 'remainder', ten: 'X' } as const;
    expect([checkDigit(two, '12'), checkDigit(two, '13')]).toEqual(['1', '0']);
    expect(() => checkDigit({ ...two, weights: [] }, '12')).toThrow(/found none and 2$/);
    expect(() => checkDigit({ ...two, weights: [3, 1.5] }, '12')).toThrow(/found 3, 1\.5 and 2$/);
  });
});

test('[O5] a number is written as it is stamped: with what stands between its pieces, and nothing before the first', () => {
  const of = pattern([{ ...fixed('Kn'), before: '*' }, { ...running(3), before: ' ' }, check('X')]);
  expect(writeNumber(of, ['Kn', '417', '9'])).toBe('Kn 417-9');
});

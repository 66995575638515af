import { describe, expect, test } from 'vitest';
import { type CheckDigit, checkDigit } from '../../../reasoner/index.ts';

/**
 * The weighting of check digits against numbers printed in public standards. Status M: the numbers are given from memory of the
 * standards' own examples; V: each was recomputed by hand here (sums in the comments).
 */
const isbn10: CheckDigit = { kind: 'check digit', weights: [10, 9, 8, 7, 6, 5, 4, 3, 2], modulus: 11, stamps: 'complement', ten: 'X' };
const gs1: CheckDigit = { kind: 'check digit', weights: [1, 3], modulus: 10, stamps: 'complement', ten: 'X' };
const icao: CheckDigit = { kind: 'check digit', weights: [7, 3, 1], modulus: 10, stamps: 'remainder', ten: 'X' };

describe('[O5] check digits by a stated weighting', () => {
  // 0·10+3·9+0·8+6·7+4·6+0·5+6·4+1·3+5·2 = 130 = 11·11 + 9, and 11 − 9 = 2.
  test('[O5] ISO 2108 (ISBN of ten figures), 0-306-40615-2: M, V', () => {
    expect(checkDigit(isbn10, '030640615')).toBe('2');
  });

  // 0·10+8·9+0·8+4·7+4·6+2·5+9·4+5·3+7·2 = 199 = 18·11 + 1, and 11 − 1 = 10, written X.
  test('[O5] ISO 2108, 0-8044-2957-X: ten has a sign of its own: M, V', () => {
    expect(checkDigit(isbn10, '080442957')).toBe('X');
  });

  // Weights 1 and 3 in turn: 6+6+9+3+0+12+1+15+0+0+2+3 = 57, and 60 − 57 = 3.
  test('[O5] GS1 General Specifications, 6291041500213: M, V', () => {
    expect(checkDigit(gs1, '629104150021')).toBe('3');
  });

  // 7·7+4·3+0·1+8·7+1·3+2·1 = 122, remainder 2; 1·7+2·3+0·1+4·7+1·3+5·1 = 49, remainder 9.
  test('[O5] ICAO Doc 9303, the dates of the specimen: 740812 has 2, 120415 has 9: M, V', () => {
    expect([checkDigit(icao, '740812'), checkDigit(icao, '120415')]).toEqual(['2', '9']);
  });
});

import { describe, expect, test } from 'vitest';
import { product } from '../../../reasoner/plain/product.ts';

describe('one of each list', () => {
  test('[N4] every way, the last list turning quickest; one way of no lists, none where a list is empty', () => {
    expect([...product([['a', 'b'], ['c'], ['d', 'e']])]).toEqual([
      ['a', 'c', 'd'],
      ['a', 'c', 'e'],
      ['b', 'c', 'd'],
      ['b', 'c', 'e'],
    ]);
    expect([...product([])]).toEqual([[]]);
    expect([...product([['a'], []])]).toEqual([]);
  });

  test('[N4] of lists with more ways than memory holds the first are had at once', () => {
    const long = Array.from({ length: 10_000 }, (_, n) => n);
    const ways = product([long, long, long, long]);
    expect(ways.next().value).toEqual([0, 0, 0, 0]);
    expect(ways.next().value).toEqual([0, 0, 0, 1]);
  });
});

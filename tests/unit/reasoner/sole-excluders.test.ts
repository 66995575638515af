import { describe, expect, it } from 'vitest';
import { soleExcluders } from '../../../reasoner/unit/groups.ts';

describe('the entry that alone keeps a part out', () => {
  it('[O2] [O7] is one that every reason against the part holds', () => {
    expect(soleExcluders({ violates: [], violatesTogether: [] })).toEqual([]);
    expect(soleExcluders({ violates: [3], violatesTogether: [] })).toEqual([3]);
    expect(soleExcluders({ violates: [3, 4], violatesTogether: [] })).toEqual([]);
  });

  it('[O2] of two readings of one dimension, of which one says machined and the other not, either', () => {
    expect(soleExcluders({ violates: [], violatesTogether: [[1, 2]] })).toEqual([1, 2]);
    expect(
      soleExcluders({
        violates: [],
        violatesTogether: [
          [1, 2],
          [2, 5],
        ],
      }),
    ).toEqual([2]);
    expect(soleExcluders({ violates: [2], violatesTogether: [[1, 2]] })).toEqual([2]);
    expect(soleExcluders({ violates: [7], violatesTogether: [[1, 2]] })).toEqual([]);
  });
});

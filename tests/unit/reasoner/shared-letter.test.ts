import { expect, test } from 'vitest';
import { saySharedLetter } from '../../../reasoner/plain/shared-letter.ts';

test('[P1] numbers given elsewhere under this counter’s letter are told with file, number, and what to do', () => {
  const end =
    'If it comes from another counter of this shop, both have the letter K, and one number may come to stand for two cases: give one of the counters another letter in the shop’s settings, under This counter.';
  expect(saySharedLetter('case.zip', { first: 'K-2026-0004', many: 1 })).toBe(
    `case.zip: the number K-2026-0004 in it begins with this counter’s letter, but was not given here. ${end}`,
  );
  expect(saySharedLetter('atlas.sqlite', { first: 'K-2026-0004', many: 12 })).toBe(
    `atlas.sqlite: 12 numbers of cases in it, the first K-2026-0004, begin with this counter’s letter, but were not given here. ${end}`,
  );
});

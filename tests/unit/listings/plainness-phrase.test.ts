import { expect, test } from 'vitest';
import { plainnessPhrase } from '../../../reasoner/plain/plainness-phrase.ts';

test('[K1] how plainly a claim fails is said in words: how many reasons, where the first lies, and how far the unit must be opened for it', () => {
  const many = { count: 11, exact: true };
  expect(plainnessPhrase({ restsOn: 'the parts', minutes: 0, reasons: many })).toBe(
    'eleven independent reasons; the plainest lies in the parts and shows without strip-down',
  );
  expect(plainnessPhrase({ restsOn: 'the unit’s own quarrel', minutes: 26, reasons: { count: 2, exact: false } })).toBe(
    'at least two independent reasons; the plainest is that the unit disagrees with itself, and shows after 26 min of strip-down',
  );
  expect(plainnessPhrase({ restsOn: 'an absence or the plate', minutes: 0, reasons: { count: 1, exact: true } })).toBe(
    'one reason: it lies in the plate or in what is missing and shows without strip-down',
  );
});

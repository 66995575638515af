import { expect, test } from 'vitest';
import { mutatedTables } from './mutated-tables.ts';

test('[I1] [I3] [I6] a spreadsheet mutated in its cells, signs and bytes is read or refused with a sentence; nothing is thrown, nothing comes in that no list could hold, and nothing goes out as a formula', () => {
  const so = mutatedTables({ seed: 41, tables: 2_000 });
  expect(so.wrong).toEqual([]);
  // The run has met all of it.
  expect(so.read).toBeGreaterThan(1_000);
  expect(so.refused).toBeGreaterThan(200);
  expect(so.faults).toBeGreaterThan(4_000);
  expect(so.edits).toBeGreaterThan(3_000);
});

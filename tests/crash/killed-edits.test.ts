import { expect, test } from 'vitest';
import { built } from './child.ts';
import { type EditCounts, editDays } from './edit-days.ts';

test('[H4] killed over and over while tables, edits, undoings and editions go in: every change is there whole or not at all', async () => {
  const program = await built('edit-days');
  const counts: EditCounts = { kills: 0, done: 0, unsaid: 0, lost: [] };
  await editDays(program, 1, 24, 8, counts);
  expect(counts.lost).toEqual([]);
  expect(counts.kills).toBeGreaterThan(2);
});

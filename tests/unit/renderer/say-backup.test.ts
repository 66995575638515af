import { expect, test } from 'vitest';
import { sayHolds, sayState } from '../../../renderer/backups/sayBackup.ts';
import { sayBytes } from '../../../renderer/values/figures.ts';

const none = { packs: 0, sheets: 0, cases: 0, photographs: 0, learners: 0, answers: 0 };

test('[P5] what a backup holds is said, and what there is none of is left out', () => {
  expect(sayHolds({ packs: 2, sheets: 3, cases: 3, photographs: 1, learners: 1, answers: 12 })).toBe(
    '3 case files, 1 photograph, 1 learner, 12 drills answered and 2 packs',
  );
  expect(sayHolds({ ...none, answers: 1 })).toBe('1 drill answered');
  expect(sayHolds(none)).toBe('nothing yet');
});

test.each([
  [0, '1 KiB'],
  [1024 ** 2 - 1, '1024 KiB'],
  [1024 ** 2, '1.0 MiB'],
  [2 * 1024 ** 3, '2.0 GiB'],
  [1024 ** 3 - 1, '1024.0 MiB'],
])('[P5] %i bytes are %s', (bytes, said) => {
  expect(sayBytes(bytes)).toBe(said);
});

test('[P5] one that cannot be read says why and nothing of what it holds', () => {
  const state = { kind: 'unreadable', why: 'It is damaged.' } as const;
  expect(sayState({ name: '', at: '', reason: 'asked', bytes: 1, state })).toBe('It cannot be read. It is damaged.');
});

import { expect, test } from 'vitest';
import { recentAnswers } from '../../../renderer/bridge/recentAnswers.ts';

test('[V6] an answer is found again under its question, until so many others were given or looked at since', () => {
  const recent = recentAnswers<number>(2);
  expect(recent.recall('a')).toBeNull();
  recent.keep('a', 1);
  recent.keep('b', 2);
  expect(recent.recall('a')).toBe(1);
  recent.keep('c', 3);
  expect([recent.recall('a'), recent.recall('b'), recent.recall('c')]).toEqual([1, null, 3]);
  recent.keep('a', 4);
  expect([recent.recall('c'), recent.recall('a')]).toEqual([3, 4]);
});

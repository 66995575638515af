import { expect, test } from 'vitest';
import { sayCompared } from '../../../renderer/build/sayBuild.ts';
import { smallWords as words } from './small-vocabulary.ts';

test('[F2] what is compared is said of its parts: two features by their names, one name of two parts with the parts', () => {
  const [a, b] = words.slots.map(({ id }) => `${id}.count`) as [never, never];
  const [first, second] = words.slots;
  expect(sayCompared(words, [a, b])).toBe(`${words.featureName(a)} of ${first?.name} and ${second?.name}`);
  const named = { ...words, featureName: (id: string) => (id === (a as string) ? 'spigot' : 'recess') };
  expect(sayCompared(named as never, [a, b])).toBe('spigot and recess');
  expect(sayCompared(words, [a])).toBe(words.featureName(a));
});

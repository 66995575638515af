import { describe, expect, it } from 'vitest';
import { compileAtlas, readName } from '../../../reasoner/index.ts';
import { distance } from '../../../reasoner/plain/distance.ts';
import { littleAtlas } from './little-atlas.ts';

/** The definition itself, without a table: the last letters are the same, or one is put in, left out or replaced. */
const byDefinition = (a: string, b: string): number => {
  if (a === '' || b === '') return a.length + b.length;
  const [shortA, shortB] = [a.slice(1), b.slice(1)];
  if (a[0] === b[0]) return byDefinition(shortA, shortB);
  return 1 + Math.min(byDefinition(shortA, b), byDefinition(a, shortB), byDefinition(shortA, shortB));
};

describe('how far one text is from another (N6)', () => {
  it('[N6] the fewest letters put in, left out or replaced', () => {
    for (const [a, b, far] of [
      ['', '', 0],
      ['', 'cod', 3],
      ['cod', '', 3],
      ['cod', 'cod', 0],
      ['cod', 'cods', 1],
      ['cod', 'od', 1],
      ['cod', 'rod', 1],
      ['cod', 'doc', 2],
      ['ling 3', 'ling 31', 1],
      ['rotor', 'motors', 2],
    ] as const)
      expect(distance(a, b), `${a} to ${b}`).toBe(far);
  });

  it('[N6] as the definition has it, for every pair of short texts of three letters', () => {
    const texts = ['', 'a', 'b', 'ab', 'ba', 'aab', 'abc', 'cab', 'bca', 'abab', 'cbac', 'aacbb'];
    for (const a of texts) for (const b of texts) expect(distance(a, b), `${a} to ${b}`).toBe(byDefinition(a, b));
  });

  it('[N6] of names that share as many words the nearest by letters stands first', () => {
    const atlas = compileAtlas({
      ...littleAtlas,
      models: [
        ...littleAtlas.models,
        ...['Cod 3', 'Cod 38', 'Cod 7'].map((name) => ({
          ...(littleAtlas.models[0] as (typeof littleAtlas.models)[number]),
          id: name as never,
          name,
        })),
      ],
    });
    expect(readName(atlas, 'Cod 388').nearest.slice(0, 3)).toEqual(['Cod 38', 'Cod 3', 'cod-1']);
  });
});

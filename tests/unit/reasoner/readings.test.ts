import { describe, expect, it } from 'vitest';
import { compileAtlas, type Observation } from '../../../reasoner/index.ts';
import { smallestMeeting } from '../../../reasoner/unit/readings.ts';
import { unitOf } from '../../../reasoner/unit/unit.ts';
import { blades, littleAtlas, measured, sheetOf } from './little-atlas.ts';
import { cut } from './shop-operations.ts';

const shop = compileAtlas({ ...littleAtlas, operations: [cut('open-bore', 'housing.bore', 'larger', 1)] });

describe('what was read of one dimension (O2)', () => {
  // Bored 40.55 to 40.65, worn up to 40.75, or opened from 40.65 on.
  const tells = (atlas: typeof shop, ...sizes: readonly number[]): readonly boolean[] =>
    unitOf(atlas, sheetOf(sizes.map((size) => measured('housing.bore', size)))).slots.flatMap(({ readings }) =>
      readings.map(({ tellsOfWork }) => tellsOfWork),
    );

  it('[O2] [J1] tells of work where some part shows it as made and not as left, or as left and not as made', () => {
    expect(tells(shop, 40.6), 'as made').toEqual([true]);
    expect(tells(shop, 41.5), 'as left').toEqual([true]);
    expect(tells(shop, 40.7), 'the one part that agrees may be either').toEqual([false]);
    expect(tells(shop, 48), 'no part agrees').toEqual([false]);
    expect(tells(shop, 40.7, 40.6), 'one of two does').toEqual([true]);
    expect(tells(compileAtlas(littleAtlas), 40.6), 'nothing can be done to it').toEqual([false]);
  });

  it('[T1] an entry of a feature that is not its slot’s, or of none, is a bug past the door', () => {
    const strange = (change: Record<string, string>) => () =>
      unitOf(shop, sheetOf([{ ...blades(6), id: 'entry', ...change } as unknown as Observation]));
    expect(strange({ slot: 'housing' })).toThrow('observation entry is of wheel.blades, no feature of housing');
    expect(strange({ feature: 'wheel.colour' })).toThrow('observation entry is of wheel.colour, no feature of wheel');
  });
});

describe('the smallest sets of entries that leave no way', () => {
  const smallest = (...sets: readonly (readonly number[])[]): readonly string[] => smallestMeeting(sets).map(String).sort();

  it('[O2] [K1] hold one entry against each way, and no set holds another', () => {
    expect(smallest()).toEqual(['']);
    expect(smallest([4], [])).toEqual([]);
    expect(smallest([10], [9])).toEqual(['9,10']);
    expect(smallest([1, 2], [1])).toEqual(['1']);
    expect(smallest([1, 2], [2, 3])).toEqual(['1,3', '2']);
    expect(smallest([1, 2], [2, 3], [1, 3])).toEqual(['1,2', '1,3', '2,3']);
    expect(smallest([3], [2, 1], [1, 2])).toEqual(['1,3', '2,3']);
  });
});

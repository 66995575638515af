import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { asId, type Feature, type FeatureId } from '../../../reasoner/index.ts';
import { countedTogether } from '../../../renderer/sheet/countedTogether.ts';
import {
  type Counting,
  counted,
  countedAgain,
  countingOf,
  roundBegunAgain,
  roundDone,
  sayRounds,
  standing,
  tally,
  tapped,
  tapTakenBack,
} from '../../../renderer/sheet/counting.ts';
import { demoAtlas } from '../seed/demo-atlas.ts';

const round = (counting: Counting, taps: readonly number[]): Counting => roundDone(taps.reduce(tapped, counting));
const seven = [0, 1, 0, 1, 0, 1, 0, 1, 0, 1, 0, 1, 0, 1];

describe('counting blades by tapping', () => {
  test('[O1] main and splitter blades are counted apart in one go round, and a second round that agrees is the count', () => {
    let counting = round(countingOf(2), seven);
    expect(standing(counting)).toBe('once');
    counting = round(countedAgain(counting), seven);
    expect(standing(counting)).toBe('agreed');
    expect(counted(counting)).toEqual([
      { from: 7, to: 7 },
      { from: 7, to: 7 },
    ]);
    expect(sayRounds(counting, 1)).toBe('counted round twice: 7, 7');
  });

  test('[O1] rounds that differ are no count: all that lies between them remains possible until two in a row agree', () => {
    let counting = round(countedAgain(round(countingOf(1), Array(11).fill(0))), Array(13).fill(0));
    expect(standing(counting)).toBe('differs');
    expect(counted(counting)).toEqual([{ from: 11, to: 13 }]);
    counting = round(countedAgain(counting), Array(11).fill(0));
    expect(standing(counting)).toBe('differs');
    counting = round(countedAgain(counting), Array(11).fill(0));
    expect(standing(counting)).toBe('agreed');
    expect(counted(counting)).toEqual([{ from: 11, to: 11 }]);
    expect(sayRounds(counting, 0)).toBe('counted round 4 times: 11, 13, 11, 11');
  });

  test('[O1] a round with nothing in it is none, and a tap after the round is done counts nothing', () => {
    expect(roundDone(countingOf(1))).toEqual(countingOf(1));
    const done = round(countingOf(1), [0, 0]);
    expect(tapped(done, 0)).toBe(done);
    expect(roundBegunAgain(tapped(countedAgain(done), 0)).taps).toEqual([]);
  });

  test('[O1] whatever is tapped and taken back, the tally is what was tapped', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 3 }),
        fc.array(fc.constantFrom<number | 'back'>(0, 1, 2, 'back'), { maxLength: 80 }),
        (kinds, keys) => {
          let counting = countingOf(kinds);
          const stack: number[] = [];
          for (const key of keys) {
            if (key === 'back') {
              counting = tapTakenBack(counting);
              stack.pop();
            } else {
              counting = tapped(counting, key);
              if (key < kinds) stack.push(key);
            }
          }
          expect(tally(counting)).toEqual(Array.from({ length: kinds }, (_, kind) => stack.filter((one) => one === kind).length));
        },
      ),
      { seed: 20261125, numRuns: 300 },
    );
  });

  test('[A6] what is counted in one go is told by the words of the atlas: the compressor wheel’s blades together, everything else alone', () => {
    const of = (id: string) => {
      const feature = demoAtlas.features.find((one) => one.id === asId<FeatureId>(id)) as Feature;
      return countedTogether(
        feature,
        demoAtlas.features.filter(({ slot }) => slot === feature.slot),
      ).map(({ id: each }) => each);
    };
    expect(of('compressor-wheel-splitter-blades')).toEqual(['compressor-wheel-full-blades', 'compressor-wheel-splitter-blades']);
    expect(of('compressor-wheel-full-blades')).toEqual(['compressor-wheel-full-blades', 'compressor-wheel-splitter-blades']);
    expect(of('turbine-wheel-blades')).toEqual(['turbine-wheel-blades']);
    expect(of('bearing-housing-plate-holes')).toEqual(['bearing-housing-plate-holes']);
  });
});

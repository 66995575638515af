import { describe, expect, test } from 'vitest';
import { demo } from '../seed/demo-atlas.ts';
import { growthOf, mostGrowth, workOf } from './work-of.ts';

const work = await workOf(() => import('../../../reasoner/listing/read-listing.ts'));

/** What is said over and over, in one clause, in clauses and in sentences. */
const said = [
  '57 mm x ',
  '57 mm, ',
  '2 1/4 in. ',
  '57 ',
  '1 ',
  '1/',
  '10 blades ',
  '7+7 blades, ',
  'twin entry ',
  'no wastegate. ',
  '"AB" ',
  '"MERROWBY" cast name ',
  'compressor wheel exducer 57 mm ',
  'compressor ',
  'Petrel 13 ',
  'Merrowby Petrel 13 Cartridge, ',
  'Merrowby ',
  'Merrowby, ',
  'x',
  '9',
  '’ ',
  '“',
  ' ',
  '\n',
  'A/R 18 ',
  '1-',
  '. ',
];
const parts = demo.data.parts.flatMap(({ numbers }) => numbers);

describe('a listing', () => {
  test.each([...said, `${parts[0]} `, `no ${parts[1]}, `].map((piece) => [piece]))(
    '[R6] %j said over and over: twice the letters take at most 2.3 times the work',
    (piece) => {
      const of = (letters: number) => work(({ readListing }) => void readListing(demo, piece.repeat(Math.ceil(letters / piece.length))));
      expect(growthOf(of, 1000)).toBeLessThan(mostGrowth);
    },
  );

  test('[R6] of makers, each far from the name after it, none is asked for again', () => {
    const of = (many: number) =>
      work(({ readListing }) => void readListing(demo, `Merrowby${' '.repeat(many)}x${'Petrel 13 '.repeat(many)}`));
    expect(growthOf(of, 200)).toBeLessThan(mostGrowth);
  });
});

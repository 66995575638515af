import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Chain, type ChainId, type FeatureId, judgeChain, type Known, type SourceId } from '../../../reasoner/index.ts';

const runs = { seed: 20261128, numRuns: 3000 };
const thousandths = (min: number, max: number) => fc.integer({ min, max }).map((n) => n / 1000);

/** Lengths with deviations that need not lie about the nominal, some of no width, some of one size far wider than all others; and measured ones. */
const length: fc.Arbitrary<Known> = fc
  .oneof(
    { weight: 4, arbitrary: fc.tuple(thousandths(100, 60_000), thousandths(-400, 400), thousandths(0, 600)) },
    { weight: 1, arbitrary: fc.tuple(thousandths(100, 60_000), thousandths(-400, 400), fc.constantFrom(0, 0.001, 12)) },
  )
  .map(([nominal, lower, width]): Known => ({ kind: 'measure', nominal, lower, upper: lower + width }));
const measured: fc.Arbitrary<Known> = fc
  .record({ value: thousandths(100, 60_000), u: thousandths(1, 40) })
  .map((taken): Known => ({ kind: 'measured', ...taken }));
const link = fc.record({
  size: fc.oneof({ weight: 5, arbitrary: length }, { weight: 1, arbitrary: measured }),
  times: fc.constantFrom(1, -1, 0.5, -0.5, 2, 1 / 3),
});
const stack = fc.array(link, { minLength: 1, maxLength: 8 });

describe('stacks of lengths', () => {
  test('[F2] what a stack leaves by statistics is never shown wider than its worst case, nor empty', () => {
    let narrowed = 0;
    fc.assert(
      fc.property(stack, (links) => {
        const chain: Chain = {
          id: 'stack' as ChainId,
          name: 'stack',
          leaves: 'gap',
          links: links.map(({ times }, i) => ({ feature: `length ${i}` as FeatureId, times })),
          min: 0,
          max: 1,
          source: 'tests' as SourceId,
        };
        const { numbers } = judgeChain(chain, (feature) => links[Number(feature.slice('length '.length))]?.size);
        if (numbers === null) throw new Error('every length is known');
        const { worst, rss, inflated } = numbers;
        for (const span of [rss, inflated]) {
          expect(span.least).toBeGreaterThanOrEqual(worst.least);
          expect(span.greatest).toBeLessThanOrEqual(worst.greatest);
          expect(span.least).toBeLessThanOrEqual(span.greatest);
        }
        // Made greater, not smaller; and of one length alone statistics say what the worst case says, to the nanometre.
        expect(inflated.least).toBeLessThanOrEqual(rss.least);
        expect(inflated.greatest).toBeGreaterThanOrEqual(rss.greatest);
        expect(inflated.factor).toBeGreaterThanOrEqual(1);
        if (links.length === 1) expect(rss.greatest - rss.least).toBeCloseTo(worst.greatest - worst.least, 6);
        if (links.length === 2 && inflated.greatest === worst.greatest) narrowed += 1;
      }),
      runs,
    );
    // Two lengths are where the inflated range would pass the worst case.
    expect(narrowed).toBeGreaterThan(100);
  });
});

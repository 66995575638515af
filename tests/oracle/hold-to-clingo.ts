import { afterAll, expect, it } from 'vitest';
import { rungs } from '../../reasoner/index.ts';
import { compare, emptyTally } from './agreement.ts';
import { randomCase } from './random-atlas.ts';

const batch = 66;

/**
 * Declares the tests of one run of seeds: not one disagreement, over at least `verdicts` units that got a verdict,
 * with every kind of answer among them (a comparison of empty lists proves nothing).
 */
export const holdToClingo = (first: number, last: number, verdicts: number): void => {
  const tally = emptyTally();
  for (let from = first; from <= last; from += batch) {
    const to = Math.min(last, from + batch - 1);
    it(`[N1–N4] [K1] [S1] [J1] [O5] [O6] seeds ${from} to ${to}: statuses, conflicts, swaps, candidates and doubtful slots as clingo has them`, async () => {
      for (let seed = from; seed <= to; seed++) expect(await compare(randomCase(seed), tally)).toEqual([]);
    });
  }
  it('asked enough of every kind', () => {
    expect(tally.verdicts).toBeGreaterThanOrEqual(verdicts);
    expect(tally.contradicted).toBeGreaterThan(verdicts / 50);
    expect(tally.doubtful).toBeGreaterThan(verdicts / 5);
    expect(tally.plates).toBeGreaterThan(verdicts / 20);
    expect(tally.machined).toBeGreaterThan(verdicts / 5);
    for (const count of Object.values(tally.statuses)) expect(count).toBeGreaterThan(verdicts);
    // All parts of a model without its plate are rare: one half of the seeds may lack one rung, never two.
    expect(rungs.filter((rung) => tally.honest[rung] === undefined).length).toBeLessThan(2);
    for (const status of ['ruled out', 'open'] as const) expect(tally.claims[status]).toBeGreaterThan(verdicts / 10);
    for (const count of Object.values(tally.promises)) expect(count).toBeGreaterThan(verdicts / 50);
    expect(tally.conflicts).toBeGreaterThan(10 * verdicts);
    expect(tally.stopped).toBeLessThan(verdicts / 20);
    expect(tally.swaps.open).toBeGreaterThan(verdicts);
    expect(tally.swaps.stands).toBeGreaterThan(verdicts / 2);
    // That a swap is not enough by itself is rarer than one in a hundred units: one half of the seeds may lack it (tests/unit/why/swap-sets).
  });
  afterAll(() => console.info(`seeds ${first} to ${last}: ${JSON.stringify(tally)}`));
};

import { describe, expect, it } from 'vitest';
import { compileAtlas, entropyOf, planChecks } from '../../../reasoner/index.ts';
import { groundOf } from '../../../reasoner/odds/ground.ts';
import { posteriorOf } from '../../../reasoner/odds/posterior.ts';
import { askable, weigh } from '../../../reasoner/odds/weigh-checks.ts';
import { type OddsCase, randomOddsCase } from '../../oracle/random-odds.ts';
import { bestTree, everyReading } from './best-tree.ts';

/** Units asked about, and how many of their most telling checks are left open: few enough to try every course. */
const [units, mostChecks, mostStates] = [70, 4, 700];
const wide = { depth: 99, atLeast: 0, settled: 0.1, tells: 0.02, again: 0 };

/** The case with its first observations only, every check at least a minute, all but a few checks given up, and no measures: a measure's reading is followed at the middle of its range. */
const smallCase = (seed: number) => {
  const { atlas: made, sheet, assumptions: any }: OddsCase = randomOddsCase(seed);
  const atlas = { ...made, features: made.features.map((feature) => ({ ...feature, minutes: feature.minutes + 1 })) };
  const assumptions = {
    ...any,
    swapped: Math.min(any.swapped, 0.1),
    unlisted: Math.min(any.unlisted, 0.2),
    slip: Math.min(any.slip, 0.02),
  };
  const compiled = compileAtlas(atlas);
  const started = { ...sheet, observations: sheet.observations.slice(0, 1), absent: [], unseen: [] };
  const posterior = (() => {
    try {
      return posteriorOf(groundOf(compiled), started, assumptions);
    } catch {
      return null; // what was seen could never be seen
    }
  })();
  if (posterior === null) return null;
  const telling = askable(posterior)
    .filter(({ feature }) => feature.kind !== 'measure')
    .map((each) => weigh(posterior, each))
    .filter(({ drop }) => drop > wide.tells)
    .sort((a, b) => b.drop - a.drop)
    .slice(0, mostChecks);
  const states = telling.reduce((product, { readings }) => product * (readings.all.length + 1), 1);
  if (telling.length < 2 || states > mostStates || entropyOf(posterior.targets) <= wide.settled) return null;
  const kept = new Set(telling.map(({ feature }) => feature.id));
  const unseen = atlas.features
    .filter(({ id }) => !kept.has(id))
    .map(({ id, slot }) => ({ slot, feature: id, why: 'no instrument' as const }));
  /** No look tells more bits a minute than its readings can carry. */
  const fastest = Math.max(...telling.map(({ feature, readings }) => Math.log2(readings.all.length) / feature.minutes));
  return { seed, compiled, assumptions, sheet: { ...started, unseen }, bits: entropyOf(posterior.targets), fastest };
};

describe('the plan beside the best course there is', () => {
  it(`[Q1] ${units} made-up units: never quicker than the best of all courses nor than the entropy allows, and on average within a twentieth of the best`, () => {
    const ratios: { seed: number; ratio: number }[] = [];
    for (let seed = 1; ratios.length < units; seed += 1) {
      const one = smallCase(seed);
      if (one === null) continue;
      const { compiled, sheet, assumptions, bits, fastest } = one;
      const plan = planChecks(compiled, sheet, assumptions, { ...wide, atLeast: 1e-14 });
      const greedy = everyReading(compiled, sheet, assumptions, wide);
      const best = bestTree(compiled, sheet, assumptions, wide);
      if (greedy.minutes === 0) continue;
      expect({ seed, minutes: plan?.expectedMinutes }).toEqual({ seed, minutes: expect.closeTo(greedy.minutes, 9) });
      expect(greedy.minutes).toBeGreaterThanOrEqual(best - 1e-9);
      // Bits that the course takes away, on average, over the fastest there is.
      expect(greedy.minutes).toBeGreaterThanOrEqual((bits - greedy.bitsLeft) / fastest - 1e-9);
      ratios.push({ seed, ratio: greedy.minutes / best });
    }
    const worst = ratios.reduce((most, each) => (each.ratio > most.ratio ? each : most));
    const mean = ratios.reduce((sum, { ratio }) => sum + ratio, 0) / units;
    const beaten = ratios.filter(({ ratio }) => ratio > 1 + 1e-9).length;
    console.info(
      `plan over best course, ${units} units: mean ${mean.toFixed(4)}, worst ${worst.ratio.toFixed(3)} (seed ${worst.seed}), dearer in ${beaten}`,
    );
    expect(mean).toBeLessThan(1.05);
    expect(worst.ratio).toBeLessThan(1.3);
    // Greedy is not best: a test that never saw it lose would not have looked.
    expect(beaten).toBeGreaterThan(0);
  });
});

import { describe, expect, it } from 'vitest';
import { entropyOf, type Sheet, startingAssumptions } from '../../../reasoner/index.ts';
import { Background } from '../../../reasoner/odds/background.ts';
import { blindOf } from '../../../reasoner/odds/blind.ts';
import { groundOf } from '../../../reasoner/odds/ground.ts';
import type { JointOdds } from '../../../reasoner/odds/joint-odds.ts';
import { likelyOf } from '../../../reasoner/odds/likely.ts';
import { looksOf } from '../../../reasoner/odds/looks.ts';
import { type Posterior, posteriorOf } from '../../../reasoner/odds/posterior.ts';
import { type Weighed, weighAll } from '../../../reasoner/odds/weigh-checks.ts';
import { Dice } from '../../oracle/dice.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const xLog = (x: number): number => (x > 0 ? x * Math.log(x) : 0);

describe('what readings share', () => {
  /** Chances of many sizes, some of them none. */
  const chances = (dice: Dice, count: number): Float64Array =>
    Float64Array.from({ length: count }, () => (dice.often(10) ? 0 : 10 ** -(dice.whole(0, 1200) / 100)));

  it('[Q1] taken between points it is what adding up gives, however often it is asked for', () => {
    const dice = new Dice(11);
    const targets = chances(dice, 300);
    const blind = blindOf({ likely: likelyOf(targets, 0), assumptions: { ...startingAssumptions, slip: 1 } }, null);
    const any = { targets: Int32Array.from({ length: 200 }, (_, i) => i + 50), chances: chances(dice, 200) };
    const background = new Background(blind, any);
    const addedUp = (times: number): number => {
      const all = targets.slice();
      any.targets.forEach((target, i) => {
        all[target] = (all[target] as number) + times * (any.chances[i] as number);
      });
      return all.reduce((sum, each) => sum + xLog(each), 0);
    };
    for (let i = 0; i < 600; i += 1) {
      const times = Math.exp(dice.whole(-900, 1300) / 100);
      expect(background.entropic(times) / addedUp(times)).toBeCloseTo(1, 11);
    }
    expect(background.entropic(0)).toBeCloseTo(addedUp(0), 12);
    expect(background.anySum).toBeCloseTo(
      any.chances.reduce((sum, each) => sum + each, 0),
      12,
    );
  });
});

/** The chance of every reading with every target, added up plainly. */
const plainly = ({ joint, targets, assumptions: { slip } }: Posterior, { feature, slot, readings }: Weighed) => {
  const { from, targets: of, chances, any, weights } = joint[slot.number] as JointOdds;
  const looks = looksOf(feature, slot);
  const rows = Array.from(weights, (weight, part) => {
    const row = new Float64Array(targets.length);
    for (let i = from[part] as number; i < (from[part + 1] as number); i += 1) row[of[i] as number] = chances[i] as number;
    any.targets.forEach((target, i) => {
      row[target] = (row[target] as number) + weight * (any.chances[i] as number);
    });
    return row;
  });
  const { of: facts } = slot.factsOf(feature.id);
  const read = readings.all.map((_, reading) => targets.map((target) => slip * (readings.blind[reading] as number) * target));
  for (const [part, row] of rows.entries()) {
    const plain = part < slot.parts.length ? looks.readings.plain[facts[part] as number] : null;
    for (const [i, reading] of (plain?.readings ?? []).entries())
      add(read[reading] as Float64Array, row, (1 - slip) * (plain?.shares[i] as number));
    if (!plain) for (const [reading, each] of read.entries()) add(each, row, (1 - slip) * (readings.blind[reading] as number));
  }
  return read;
};

const add = (to: Float64Array, row: Float64Array, times: number): void => {
  row.forEach((each, target) => {
    to[target] = (to[target] as number) + times * each;
  });
};

describe('what a look would tell', () => {
  const found = demoPack.sheets.filter(({ kind }) => kind === 'found');
  const untouched: Sheet = { ...(found[0] as Sheet), observations: [], absent: [] };

  it('[Q1] of the demo atlas, whose readings are many: the drop and every reading’s chance are those of plain sums', () => {
    let readings = 0;
    for (const sheet of [untouched, found.find(({ id }) => id.startsWith('s03')) as Sheet]) {
      const posterior = posteriorOf(groundOf(demo), sheet, startingAssumptions, true);
      const bits = entropyOf(posterior.targets);
      for (const weighed of weighAll(posterior).filter(({ again }) => again.length === 0)) {
        const read = plainly(posterior, weighed);
        const left = read.reduce((sum, row) => {
          const chance = row.reduce((total, each) => total + each, 0);
          return sum + (xLog(chance) - row.reduce((total, each) => total + xLog(each), 0)) / Math.LN2;
        }, 0);
        expect(weighed.drop, weighed.feature.id).toBeCloseTo(Math.max(0, bits - left), 9);
        read.forEach((row, reading) => {
          expect(weighed.chances[reading], weighed.feature.id).toBeCloseTo(
            row.reduce((total, each) => total + each, 0),
            10,
          );
        });
        readings += read.length;
      }
    }
    expect(readings).toBeGreaterThan(3000);
  });

  it('[Q1] what is set aside of an atlas with many names moves no drop by more than a thousandth of what is uncertain', () => {
    const kept = { exactly: 0, roughly: 0 };
    for (const sheet of [untouched, ...found]) {
      const exactly = posteriorOf(groundOf(demo), sheet, startingAssumptions, true);
      const weighed = new Map(weighAll(exactly).map((each) => [each.feature.id, each]));
      const roughly = posteriorOf(groundOf(demo), sheet, startingAssumptions);
      const doubt = 1 - Math.max(...exactly.built);
      roughly.targets.forEach((chance, target) => {
        expect(Math.abs(chance - (exactly.targets[target] as number))).toBeLessThanOrEqual(1e-7 * doubt + 1e-9);
      });
      for (const { feature, drop, chances } of weighAll(roughly)) {
        const plain = weighed.get(feature.id) as Weighed;
        expect(Math.abs(drop - plain.drop), `${sheet.id} ${feature.id}`).toBeLessThanOrEqual(exactly.bits / 1000);
        expect(Math.abs(chances.reduce((sum, chance) => sum + chance, 0) - 1)).toBeLessThanOrEqual(exactly.bits * 1e-5 + 1e-9);
        chances.forEach((chance, at) => {
          expect(Math.abs(chance - (plain.chances[at] as number))).toBeLessThanOrEqual(exactly.bits * 1e-5 + 1e-9);
        });
      }
      kept.exactly += exactly.joint.reduce((sum, { targets }) => sum + targets.length, 0);
      kept.roughly += roughly.joint.reduce((sum, { targets }) => sum + targets.length, 0);
    }
    expect(kept.roughly).toBeLessThan(0.5 * kept.exactly);
  });
});

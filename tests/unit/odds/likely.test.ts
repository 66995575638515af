import { describe, expect, it } from 'vitest';
import { entropyOf, type Sheet, startingAssumptions } from '../../../reasoner/index.ts';
import { groundOf } from '../../../reasoner/odds/ground.ts';
import { type Likely, likelyOf } from '../../../reasoner/odds/likely.ts';
import { type Posterior, posteriorOf } from '../../../reasoner/odds/posterior.ts';
import { weighAll } from '../../../reasoner/odds/weigh-checks.ts';
import { Dice } from '../../oracle/dice.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const sum = (list: ArrayLike<number>): number => Array.from(list).reduce((total, each) => total + each, 0);

/** What sharing a column hides: entropy of the targets less that of the columns, bits. */
const hidden = (targets: Float64Array, { chances }: Likely): number => entropyOf(targets) - entropyOf(chances);

describe('the likely names', () => {
  const dice = new Dice(5);
  const cases = Array.from({ length: 60 }, () => {
    const raw = Float64Array.from({ length: dice.whole(1, 80) }, () => (dice.often(15) ? 0 : 10 ** -dice.whole(0, 6)));
    return raw.some((each) => each > 0) ? raw.map((each) => each / sum(raw)) : Float64Array.of(1);
  });

  it('[Q1] as many of the least likely share a column as bring no more than so much uncertainty with them; the next would bring more', () => {
    let shared = 0;
    for (const targets of cases)
      for (const most of [0.001, 0.05, 0.4]) {
        const likely = likelyOf(targets, most);
        const together = Array.from(targets).filter((_, target) => likely.columnOf[target] === likely.rest);
        expect(sum(likely.chances)).toBeCloseTo(1, 12);
        targets.forEach((chance, target) => {
          if (likely.columnOf[target] !== likely.rest) expect(likely.chances[likely.columnOf[target] as number]).toBe(chance);
        });
        expect(hidden(targets, likely)).toBeLessThanOrEqual(most + 1e-12);
        if (likely.rest < 0) continue;
        expect((likely.chances[likely.rest] as number) * likely.within).toBeCloseTo(hidden(targets, likely) * Math.LN2, 10);
        // As likely ones go together, so all of the next are taken at once.
        const next = Math.min(...targets.filter((_, target) => likely.columnOf[target] !== likely.rest));
        const more = [...together, ...targets.filter((chance) => chance === next)].filter((chance) => chance > 0);
        const all = sum(more);
        if (more.length > together.length) expect(all * entropyOf(more.map((chance) => chance / all))).toBeGreaterThan(most - 1e-12);
        shared += together.length;
      }
    expect(shared).toBeGreaterThan(500);
    for (const targets of cases) expect(likelyOf(targets, 0)).toMatchObject({ rest: -1, within: 0, chances: targets });
  });
});

/** The same odds with names that share a column. */
const sharing = (posterior: Posterior, most: number): Posterior => {
  const likely = likelyOf(posterior.targets, most);
  const columns = (targets: Int32Array) => targets.map((target) => likely.columnOf[target] as number);
  return {
    ...posterior,
    likely,
    joint: posterior.joint.map((joint) => {
      const any = new Float64Array(likely.chances.length);
      columns(joint.any.targets).forEach((column, i) => {
        any[column] = (any[column] as number) + (joint.any.chances[i] as number);
      });
      return { ...joint, targets: columns(joint.targets), any: { targets: Int32Array.from(any.keys()), chances: any } };
    }),
  };
};

describe('what a look tells of the likely names', () => {
  it('[Q1] is never more than it tells of all, and less by no more than what they hide; what it leaves is, on average, what is uncertain without it', () => {
    const found = demoPack.sheets.filter(({ kind }) => kind === 'found');
    const untouched: Sheet = { ...(found[0] as Sheet), observations: [], absent: [] };
    let less = 0;
    for (const sheet of [untouched, ...found.slice(0, 6)]) {
      const exactly = posteriorOf(groundOf(demo), sheet, startingAssumptions, true);
      const plain = new Map(weighAll(exactly).map(({ feature, drop }) => [feature.id, drop]));
      const roughly = sharing(exactly, exactly.bits / 10);
      for (const { feature, drop, chances, bits } of weighAll(roughly)) {
        const whole = plain.get(feature.id) as number;
        expect(drop, feature.id).toBeLessThanOrEqual(whole + 1e-9);
        expect(drop, feature.id).toBeGreaterThanOrEqual(whole - hidden(exactly.targets, roughly.likely) - 1e-9);
        expect(sum(bits.map((left, reading) => left * (chances[reading] as number))), feature.id).toBeCloseTo(exactly.bits - drop, 8);
        less = Math.max(less, (whole - drop) / exactly.bits);
      }
    }
    // Something was hidden, and told of.
    expect(less).toBeGreaterThan(0.01);
  });
});

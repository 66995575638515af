import { describe, expect, it } from 'vitest';
import { compileAtlas, entropyOf, type FeatureId, type PartId, type SlotId } from '../../reasoner/index.ts';
import { groundOf } from '../../reasoner/odds/ground.ts';
import { chancesOf, type Posterior, partChances, posteriorOf } from '../../reasoner/odds/posterior.ts';
import { allRight, slipChances } from '../../reasoner/odds/slips.ts';
import { type Weighed, weighAll } from '../../reasoner/odds/weigh-checks.ts';
import { everyWorld, worldsOf } from './every-world.ts';
import { meanings } from './meanings.ts';
import { densityAt, integral, readsBelow } from './quadrature.ts';
import { type OddsCase, randomOddsCase } from './random-odds.ts';

/** Units asked about, and how many choices one may have to be gone through. */
const [units, mostWorlds] = [300, 60_000];
/** Chances and bits may differ by this much. */
const within = 1e-8;

const cases: OddsCase[] = [];
for (let seed = 1; cases.length < units; seed += 1) {
  const each = randomOddsCase(seed);
  if (worldsOf(each.atlas) <= mostWorlds) cases.push(each);
}

const targetsByMeaning = ({ ground, targets }: Posterior): Map<string, number> => {
  return new Map(
    ground.targets.all.map(({ rules }, at) => [
      rules
        .flatMap(({ name }) => meanings(name))
        .sort()
        .join(' | '),
      targets[at] as number,
    ]),
  );
};

const withoutSlips = (ground: Posterior['ground'], sheet: Posterior['sheet'], assumptions: Posterior['assumptions']) => {
  try {
    return chancesOf(ground, sheet, { ...assumptions, slip: 0 });
  } catch {
    return null; // They can never all be right.
  }
};

const apart = <K>(one: ReadonlyMap<K, number>, other: ReadonlyMap<K, number>, what: string): string[] =>
  [...new Set([...one.keys(), ...other.keys()])].flatMap((key) => {
    const [a, b] = [one.get(key) ?? 0, other.get(key) ?? 0];
    return Math.abs(a - b) <= within ? [] : [`${what} ${key}: ${a}, counted ${b}`];
  });

const tally = {
  worlds: 0,
  never: 0,
  targets: 0,
  drops: 0,
  telling: 0,
  most: 0,
  models: 0,
  bits: 0,
  again: 0,
  slipped: 0,
  unsure: 0,
  strangers: 0,
  work: 0,
  rough: 0,
};

/** As a large atlas is weighed: no drop further from the counted one than a thousandth of what is uncertain. */
const roughDrops = (
  ground: Posterior['ground'],
  sheet: Posterior['sheet'],
  assumptions: Posterior['assumptions'],
  counted: NonNullable<ReturnType<typeof everyWorld>>,
  bits: number,
): string[] =>
  weighAll(posteriorOf(ground, sheet, assumptions, false)).flatMap(({ feature, again, drop }) => {
    const plain = (again.length === 0 ? counted.drops : counted.again).get(feature.id) ?? 0;
    tally.rough += Math.abs(drop - plain) > within ? 1 : 0;
    return Math.abs(drop - plain) <= bits / 1000 + within ? [] : [`roughly ${feature.id}: ${drop}, counted ${plain}`];
  });

const compare = ({ atlas, sheet, assumptions }: OddsCase): string[] => {
  const ground = groundOf(compileAtlas(atlas));
  const counted = everyWorld(atlas, sheet, assumptions);
  if (counted === null) {
    tally.never += 1;
    expect(() => posteriorOf(ground, sheet, assumptions)).toThrow(RangeError);
    return [];
  }
  const posterior = posteriorOf(ground, sheet, assumptions);
  const bits = entropyOf(posterior.targets);
  const weighed = weighAll(posterior);
  const dropsOf = (of: (each: Weighed) => boolean) =>
    new Map<FeatureId, number>(weighed.filter(of).map(({ feature, drop }) => [feature.id, drop]));
  const parts = new Map<SlotId, Map<PartId | 'unlisted', number>>(
    ground.atlas.slots.map(({ data: slot, parts: own, number }) => [
      slot.id,
      new Map([...partChances(posterior, number)].map((chance, at) => [own[at]?.id ?? 'unlisted', chance])),
    ]),
  );
  tally.worlds += counted.worlds;
  tally.work += counted.ofWork;
  tally.targets += counted.targets.size;
  tally.drops += counted.drops.size;
  tally.telling += [...counted.drops.values()].filter((drop) => drop > 0.01).length;
  tally.again += [...counted.again.values()].filter((drop) => drop > 0.001).length;
  tally.slipped += [...counted.slips.values()].filter((chance) => chance > 0.1).length;
  tally.unsure += counted.right > 0.01 && counted.right < 0.99 ? 1 : 0;
  tally.strangers += (counted.built.get(null) ?? 0) > 0.01 ? 1 : 0;
  tally.most = Math.max(tally.most, ...counted.drops.values());
  tally.models += [...counted.built.values()].filter((chance) => chance > 0.01).length;
  tally.bits += counted.bits;
  return [
    ...apart(new Map(ground.built.models.map((model, at) => [model, posterior.built[at] as number])), counted.built, 'built as'),
    ...apart(targetsByMeaning(posterior), counted.targets, 'name'),
    ...[...parts].flatMap(([slot, own]) => apart(own, counted.parts.get(slot) ?? new Map(), slot)),
    ...apart(new Map([['bits', bits]]), new Map([['bits', counted.bits]]), ''),
    ...apart(
      dropsOf(({ again }) => again.length === 0),
      counted.drops,
      'drop',
    ),
    ...apart(
      dropsOf(({ again }) => again.length > 0),
      counted.again,
      'read again',
    ),
    ...roughDrops(ground, sheet, assumptions, counted, bits),
    ...apart(
      new Map([['right', allRight(posterior, withoutSlips(ground, sheet, assumptions))]]),
      new Map([['right', counted.right]]),
      'all',
    ),
    ...apart(new Map(slipChances(posterior).map(({ observation, chance }) => [observation, chance])), counted.slips, 'slip'),
    ...weighed.flatMap(({ feature, chances }) =>
      Math.abs(chances.reduce((sum, chance) => sum + chance, 0) - 1) <= within ? [] : [`readings of ${feature.id} do not sum to one`],
    ),
  ];
};

describe('the odds beside every world counted', () => {
  const batch = 60;
  for (let from = 0; from < units; from += batch) {
    it(`[Q1] units ${from + 1} to ${from + batch}: what it was built as, its parts, its honest name and what every look would tell`, () => {
      expect(cases.slice(from, from + batch).flatMap((each) => compare(each).map((line) => `seed ${each.seed}: ${line}`))).toEqual([]);
    });
  }
  it('the quadrature it rests on: exact to the ninth power, and all of a normal error', () => {
    expect(integral((x) => x ** 9 - 3 * x ** 8, 0, 1, 2)).toBeCloseTo(1 / 10 - 1 / 3, 14);
    expect(integral((e) => Math.exp((-e * e) / 2), -10, 10, 0.125)).toBeCloseTo(Math.sqrt(2 * Math.PI), 13);
    // A size between 10 and 11 read with u = 0.5 is below 10.5 half the time, and its density there is P(|e| < 1).
    expect(readsBelow(10.5, 10, 11, 0.5)).toBeCloseTo(0.5, 13);
    expect(densityAt(10.5, 10, 11, 0.5)).toBeCloseTo(0.682689492137086, 13);
  });
  it('asked enough of every kind', () => {
    console.info(`odds: ${JSON.stringify(tally)}`);
    expect(tally.never).toBeGreaterThan(3);
    expect(tally.worlds).toBeGreaterThan(1_000_000);
    expect(tally.telling).toBeGreaterThan(500);
    expect(tally.again).toBeGreaterThan(100);
    expect(tally.slipped).toBeGreaterThan(50);
    expect(tally.unsure).toBeGreaterThan(100);
    expect(tally.strangers).toBeGreaterThan(100);
    expect(tally.work).toBeGreaterThan(5);
    expect(tally.rough).toBeGreaterThan(100);
    expect(tally.targets / units).toBeGreaterThan(3);
  });
});

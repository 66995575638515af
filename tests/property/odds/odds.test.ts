import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  answer,
  type Check,
  checkEffects,
  compileAtlas,
  entropyOf,
  type Observation,
  type Odds,
  oddsOf,
  type Sheet,
} from '../../../reasoner/index.ts';
import { observationOf } from '../../../reasoner/odds/check-effects.ts';
import { groundOf } from '../../../reasoner/odds/ground.ts';
import { type Posterior, posteriorOf } from '../../../reasoner/odds/posterior.ts';
import { askable, weigh } from '../../../reasoner/odds/weigh-checks.ts';
import { stagesFor } from '../../../reasoner/why/strip-down.ts';
import { randomOddsCase } from '../../oracle/random-odds.ts';

/** A made-up unit nothing of which contradicts itself, with slips allowed for, so that whatever was seen could be seen. */
const cases = fc.integer({ min: 1, max: 20_000 }).map((seed) => {
  const { atlas, sheet, assumptions } = randomOddsCase(seed);
  const once = new Map(sheet.observations.map((observation) => [observation.feature, observation]));
  return {
    seed,
    atlas: compileAtlas(atlas),
    sheet: { ...sheet, observations: [...once.values()] } satisfies Sheet,
    assumptions: { ...assumptions, slip: Math.max(0.01, assumptions.slip) },
  };
});
type Case = typeof cases extends fc.Arbitrary<infer T> ? T : never;

const holds = (check: (one: Case) => void, numRuns = 80): void => fc.assert(fc.property(cases, check), { numRuns, seed: 41 });

const oddsFor = ({ atlas, sheet, assumptions }: Case): Odds => {
  const odds = oddsOf(atlas, sheet, assumptions);
  if (odds.kind !== 'odds') throw new Error('the sheet contradicts itself');
  return odds;
};
const posteriorFor = ({ atlas, sheet, assumptions }: Case): Posterior => posteriorOf(groundOf(atlas), sheet, assumptions);
const alike = (one: ArrayLike<number>, other: ArrayLike<number>, digits = 8): void => {
  expect(one.length).toBe(other.length);
  for (let i = 0; i < one.length; i += 1) expect(one[i]).toBeCloseTo(other[i] as number, digits);
};
const sum = (list: readonly { readonly chance: number }[]): number => list.reduce((total, { chance }) => total + chance, 0);

describe('odds', () => {
  it('[Q1] sum to one over names, over what it was built as, and over every slot’s parts, of which the unlisted part is always one', () =>
    holds((one) => {
      const { ifRight, bits } = oddsFor(one);
      if (ifRight === null) return;
      const { names, namesRest, built, builtRest, slots } = ifRight;
      if (names.length > 0) expect(sum(names) + namesRest).toBeCloseTo(1, 8);
      expect(sum(built) + builtRest).toBeCloseTo(1, 8);
      for (const { parts, rest, covered } of slots) {
        expect(sum(parts) + rest).toBeCloseTo(1, 8);
        expect(parts.filter(({ part }) => part === null)).toHaveLength(1);
        if (covered !== null) expect(covered >= 0 && covered <= 1 + 1e-9).toBe(true);
      }
      expect(bits).toBeGreaterThanOrEqual(0);
    }));

  it('[Q1] [O1] what was told changes no chance', () =>
    holds((one) => {
      const told = one.atlas.data.features
        .filter(({ slot }) => !one.sheet.absent.includes(slot))
        .flatMap((feature): Observation[] => {
          const weighed = weigh(posteriorFor(one), {
            feature,
            slot: one.atlas.slots[one.atlas.slotNumber.get(feature.slot) as number] as never,
          });
          const reading = weighed.readings.all[0];
          return reading === undefined
            ? []
            : [{ ...observationOf(weighed, reading), id: `told-${feature.id}` as Observation['id'], sure: { kind: 'told' } }];
        });
      expect(told.length).toBeGreaterThan(0);
      expect(oddsFor({ ...one, sheet: { ...one.sheet, observations: [...told, ...one.sheet.observations] } })).toEqual(oddsFor(one));
    }, 30));

  it('[Q1] [O4] what was noted of a slot that holds nothing changes no chance', () =>
    holds((one) => {
      const slot = one.sheet.observations.find(({ sure }) => sure.kind !== 'told')?.slot;
      if (slot === undefined) return;
      const absent = { ...one.sheet, absent: [...new Set([...one.sheet.absent, slot])] };
      const without = { ...absent, observations: absent.observations.filter((each) => each.slot !== slot) };
      const [noted, not] = [posteriorFor({ ...one, sheet: absent }), posteriorFor({ ...one, sheet: without })];
      alike(noted.built, not.built, 12);
      alike(noted.targets, not.targets, 12);
    }));

  it('[Q1] do not depend on the order of the observations', () =>
    holds((one) => {
      const turned = posteriorFor({ ...one, sheet: { ...one.sheet, observations: one.sheet.observations.toReversed() } });
      const straight = posteriorFor(one);
      alike(turned.built, straight.built, 10);
      alike(turned.targets, straight.targets);
    }));

  it('[Q1] no status depends on them: whatever is taken for granted, a reading leaves the same of the verdict', () =>
    holds((one) => {
      const { atlas, sheet } = one;
      const before = answer(atlas, sheet);
      const first = oddsFor(one).checks[0];
      if (first === undefined) return;
      const seen = [one.assumptions, { stranger: 0.2, swapped: 0.3, unlisted: 0.5, misfit: 0.3, slip: 0.2 }].map((assumptions) => {
        const effects = checkEffects(atlas, sheet, first.feature, assumptions);
        return new Map(
          (effects?.outcomes ?? []).flatMap(({ readings, honest, rulesOut, makesStand, open, claim }) =>
            readings.map((reading) => [JSON.stringify(reading), { honest, rulesOut, makesStand, open, claim }] as const),
          ),
        );
      });
      for (const [reading, effect] of seen[0] as (typeof seen)[number]) {
        const other = seen[1]?.get(reading);
        if (other !== undefined) expect(effect).toEqual(other);
      }
      expect(answer(atlas, sheet)).toEqual(before);
    }, 50));
});

describe('checks', () => {
  it('[Q1] none tells less than nothing, nor more than is uncertain', () =>
    holds((one) => {
      const posterior = posteriorFor(one);
      const bits = entropyOf(posterior.targets);
      for (const each of askable(posterior)) {
        const { drop } = weigh(posterior, each);
        expect(drop).toBeGreaterThanOrEqual(0);
        expect(drop).toBeLessThanOrEqual(bits + 1e-9);
      }
    }));

  it('[Q1] over all its readings a look leaves the odds on average where they were', () =>
    holds((any) => {
      // Looks are foreseen of parts as they are made: one that shows work is set aside when it is made, which no look before it reckons with.
      const one = { ...any, atlas: compileAtlas({ ...any.atlas.data, operations: [] }) };
      const posterior = posteriorFor(one);
      for (const each of askable(posterior)) {
        // So is one that shows how a plate is held on.
        const plate = one.atlas.slots.some(({ data: slot }) => slot.id === each.feature.slot && slot.group === 'plate');
        if (each.feature.kind === 'measure' || (plate && each.feature.kind === 'choice')) continue;
        const weighed = weigh(posterior, each);
        const mean = new Float64Array(posterior.targets.length);
        weighed.readings.all.forEach((reading, at) => {
          const after = posteriorFor({
            ...one,
            sheet: { ...one.sheet, observations: [...one.sheet.observations, observationOf(weighed, reading)] },
          });
          expect(weighed.bits[at]).toBeCloseTo(entropyOf(after.targets), 6);
          after.targets.forEach((chance, target) => {
            mean[target] = (mean[target] as number) + (weighed.chances[at] as number) * chance;
          });
        });
        alike(mean, posterior.targets);
      }
    }, 40));

  it('[Q1] one that could not be seen is asked no more, and changes no chance', () =>
    holds((one) => {
      const odds = oddsFor(one);
      const first = odds.checks[0];
      if (first === undefined) return;
      const refused = [...(one.sheet.unseen ?? []), { slot: first.slot, feature: first.feature, why: 'could not see' as const }];
      const after = oddsFor({ ...one, sheet: { ...one.sheet, unseen: refused } });
      expect(after.checks.map(({ feature }) => feature).sort()).toEqual(
        odds.checks
          .slice(1)
          .map(({ feature }) => feature)
          .sort(),
      );
      expect(after.ifRight).toEqual(odds.ifRight);
    }));

  it('[Q1] what may not be opened is not opened, nor what lies behind it', () => {
    let behind = 0;
    holds((one) => {
      const odds = oddsFor(one);
      const barred = odds.checks.find(({ opening }) => opening.length > 0);
      if (barred === undefined) return;
      const stage = one.atlas.features.get(barred.feature)?.stage as never;
      const refused = [...(one.sheet.unseen ?? []), { slot: barred.slot, feature: barred.feature, why: 'may not be opened' as const }];
      const after = oddsFor({ ...one, sheet: { ...one.sheet, unseen: refused } });
      const needs = (feature: (typeof odds.checks)[number]['feature']) =>
        stagesFor(one.atlas, [one.atlas.features.get(feature)?.stage as never]).has(stage);
      expect(after.checks.map(({ feature }) => feature).sort()).toEqual(
        odds.checks
          .filter(({ feature }) => !needs(feature))
          .map(({ feature }) => feature)
          .sort(),
      );
      behind += odds.checks.filter(({ feature }) => needs(feature)).length - 1;
    });
    expect(behind).toBeGreaterThan(20);
  });

  it('[Q1] the shares of one opening, laid to the checks behind it, together pay for it and no check pays more than all of it', () =>
    holds((one) => {
      const { checks } = oddsFor(one);
      for (const { openingShare, openingMinutes } of checks) expect(openingShare).toBeLessThanOrEqual(openingMinutes + 1e-9);
      // Of a stage with nothing else on the way to it, the checks behind it are those made there.
      const alone = one.atlas.data.stages
        .map(({ id }) => checks.filter(({ opening }) => opening.length === 1 && opening[0] === id))
        .filter((here) => here.length > 0);
      for (const here of alone) {
        const paid = here.reduce((total, { openingShare }) => total + openingShare, 0);
        expect(paid).toBeGreaterThanOrEqual((here[0] as Check).openingMinutes - 1e-9);
        expect(here.every(({ openingMinutes }) => openingMinutes > 0)).toBe(true);
      }
    }));
});

import type { Assumptions, CompiledAtlas, Observation, PlanLimits, Sheet } from '../../../reasoner/index.ts';
import { observationOf } from '../../../reasoner/odds/check-effects.ts';
import { entropyOf } from '../../../reasoner/odds/entropy.ts';
import { groundOf } from '../../../reasoner/odds/ground.ts';
import { orderChecks } from '../../../reasoner/odds/order-checks.ts';
import { posteriorOf } from '../../../reasoner/odds/posterior.ts';
import { askable, type Weighed, weigh } from '../../../reasoner/odds/weigh-checks.ts';

/**
 * The least expected minutes of any course of checks that ends only where `planChecks` would (settled, or no check tells enough), by trying every
 * check after every reading. A course may take checks that by themselves tell too little. Minutes are those of each check and of the stages it
 * opens, counted here anew. Chances come from the reasoner, which tests/oracle/odds.test.ts holds.
 */
export const bestTree = (atlas: CompiledAtlas, sheet: Sheet, assumptions: Assumptions, limits: PlanLimits): number => {
  const known = new Map<string, number>();
  const from = (at: Sheet): number => {
    const key = at.observations
      .map(({ feature, value }) => `${feature}=${JSON.stringify(value)}`)
      .sort()
      .join(';');
    const before = known.get(key);
    if (before !== undefined) return before;
    const { ended, weighed } = stateAt(atlas, at, assumptions, limits);
    let least = ended ? 0 : Number.POSITIVE_INFINITY;
    if (!ended)
      for (const each of weighed) {
        // A check that tells nothing at all can only be left out of a course.
        if (each.drop < 1e-9) continue;
        let minutes = minutesOf(atlas, at, each);
        for (const { chance, next } of readingsOf(at, each)) {
          if (minutes >= least) break;
          minutes += chance * from(next);
        }
        least = Math.min(least, minutes);
      }
    known.set(key, least);
    return least;
  };
  return from(sheet);
};

/** The course that always takes the first of `orderChecks`, every reading followed by itself: its expected minutes, and what it leaves uncertain on average. */
export const everyReading = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  assumptions: Assumptions,
  limits: PlanLimits,
): { minutes: number; bitsLeft: number } => {
  const { ended, bits, weighed } = stateAt(atlas, sheet, assumptions, limits);
  if (ended) return { minutes: 0, bitsLeft: bits };
  const next = orderChecks(atlas, sheet, weighed, bits).find(({ drop }) => drop >= limits.tells);
  const own = weighed.find(({ feature }) => feature.id === next?.feature) as Weighed;
  return readingsOf(sheet, own).reduce(
    (sum, { chance, next: after }) => {
      const rest = everyReading(atlas, after, assumptions, limits);
      return { minutes: sum.minutes + chance * rest.minutes, bitsLeft: sum.bitsLeft + chance * rest.bitsLeft };
    },
    { minutes: minutesOf(atlas, sheet, own), bitsLeft: 0 },
  );
};

const stateAt = (atlas: CompiledAtlas, sheet: Sheet, assumptions: Assumptions, limits: PlanLimits) => {
  const posterior = posteriorOf(groundOf(atlas), sheet, assumptions);
  const bits = entropyOf(posterior.targets);
  if (bits <= limits.settled) return { ended: true, bits, weighed: [] };
  const weighed = askable(posterior).map((each) => weigh(posterior, each));
  return { ended: !weighed.some(({ drop }) => drop >= limits.tells), bits, weighed };
};

const readingsOf = (sheet: Sheet, weighed: Weighed) =>
  weighed.readings.all.flatMap((reading, at) => {
    const chance = weighed.chances[at] as number;
    if (chance < 1e-14) return [];
    const next: Sheet = {
      ...sheet,
      observations: [
        ...sheet.observations,
        { ...observationOf(weighed, reading), id: `after-${sheet.observations.length}` as Observation['id'] },
      ],
    };
    return [{ chance, next }];
  });

/** Minutes of the check and of every stage not yet reached that it needs. */
const minutesOf = (atlas: CompiledAtlas, sheet: Sheet, { feature }: Weighed): number => {
  const reached = new Set<string>();
  const reach = (stage: string): number => {
    if (reached.has(stage)) return 0;
    reached.add(stage);
    const found = atlas.data.stages.find(({ id }) => id === stage);
    return (found?.minutes ?? 0) + (found?.after ?? []).reduce((sum, before) => sum + reach(before), 0);
  };
  for (const { feature: id, sure } of sheet.observations) if (sure.kind !== 'told') reach(atlas.features.get(id)?.stage as string);
  return feature.minutes + reach(feature.stage);
};

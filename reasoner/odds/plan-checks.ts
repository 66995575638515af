import { type Assumptions, checkAssumptions, startingAssumptions } from '../answer/assumptions.ts';
import type { Check, CheckPlan, PlanCheck, PossibleReading } from '../answer/odds.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { asId, type ObservationId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { contradictionsIn } from '../verdict/answer.ts';
import { readingPhrase } from '../words/check-words.ts';
import { readingOf } from './check-effects.ts';
import { groundOf } from './ground.ts';
import { alikeIn, namesOf } from './odds-of.ts';
import { orderChecks } from './order-checks.ts';
import { posteriorOf } from './posterior.ts';
import { type Weighed, weighAll } from './weigh-checks.ts';

export interface PlanLimits {
  /** Checks on one path. */
  readonly depth: number;
  /** A reading less likely than this, from the start, is not followed. */
  readonly atLeast: number;
  /** Settled when no more than this is uncertain, bits. */
  readonly settled: number;
  /** A check must tell this much, bits. */
  readonly tells: number;
  /** Entries read again on one path, at most. */
  readonly again: number;
}

/** To be read on one screen. */
export const shortPlan: PlanLimits = { depth: 4, atLeast: 0.03, settled: 0.1, tells: 0.02, again: 1 };

/**
 * The course of checks that follows the order of `oddsOf` to the end: after each reading the next check is chosen anew. Greedy: not promised to be the quickest course
 * (tests/external/odds holds it against the best one on small cases). Null when the sheet contradicts itself.
 */
export const planChecks = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  assumptions: Assumptions = startingAssumptions,
  limits: PlanLimits = shortPlan,
): CheckPlan | null => (contradictionsIn(atlas, sheet) ? null : planFrom(atlas, sheet, checkAssumptions(assumptions), limits, 0, 1));

const planFrom = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  assumptions: Assumptions,
  limits: PlanLimits,
  depth: number,
  reached: number,
): CheckPlan => {
  atlas.pulse();
  const posterior = posteriorOf(groundOf(atlas), sheet, assumptions);
  const { bits } = posterior;
  const end = (because: 'settled' | 'nothing more tells' | 'far enough'): CheckPlan => ({
    kind: 'end',
    expectedMinutes: 0,
    because,
    bits,
    names: namesOf(posterior).slice(0, 3),
    alike: alikeIn(posterior.targets),
  });
  if (bits <= limits.settled) return end('settled');
  if (depth >= limits.depth) return end('far enough');
  const weighed = weighAll(posterior);
  const check = orderChecks(atlas, sheet, weighed, bits).find(
    ({ drop, again }) => drop >= limits.tells && (again.length === 0 || limits.again > 0),
  );
  if (check === undefined) return end('nothing more tells');
  const after = check.again.length === 0 ? limits : { ...limits, again: limits.again - 1 };
  const own = weighed.find(({ feature }) => feature.id === check.feature) as Weighed;
  const followed = own.readings.all
    .map((reading, at) => ({ reading, chance: own.chances[at] as number }))
    .filter(({ chance }) => chance > 0 && chance * reached >= limits.atLeast)
    .sort((a, b) => b.chance - a.chance);
  const branches = together(
    own,
    followed.map(({ reading, chance }) => {
      const observation = { ...readingOf(sheet, own, reading), id: asId<ObservationId>(`plan-${depth}`) };
      const next: Sheet = { ...sheet, observations: [...sheet.observations, observation] };
      return { readings: [reading], chance, after: planFrom(atlas, next, assumptions, after, depth + 1, reached * chance) };
    }),
  );
  const share = branches.reduce((sum, { chance }) => sum + chance, 0);
  const minutesAfter = branches.reduce((sum, { chance, after }) => sum + chance * after.expectedMinutes, 0);
  return {
    kind: 'check',
    check,
    expectedMinutes: minutesOf(check) + (share > 0 ? minutesAfter / share : 0),
    branches,
    rest: Math.max(0, 1 - share),
  };
};

const minutesOf = (check: Check): number => check.minutes + check.openingMinutes;

interface Branch {
  readonly readings: readonly PossibleReading[];
  readonly chance: number;
  readonly after: CheckPlan;
}

/** Readings after which the same names are left, and nothing more is looked at, are one branch. */
const together = ({ feature }: Weighed, branches: readonly Branch[]): PlanCheck['branches'] => {
  const groups = new Map<string, Branch>();
  branches.forEach((branch, i) => {
    const { after } = branch;
    const key = after.kind === 'end' ? `${after.because}|${after.names.map(({ text }) => text).join('|')}` : String(i);
    const known = groups.get(key);
    const joined = known && { readings: [...known.readings, ...branch.readings], chance: known.chance + branch.chance, after: known.after };
    groups.set(key, joined ?? branch);
  });
  return [...groups.values()].map(({ readings, chance, after }) => ({ text: readingPhrase(feature, readings), chance, after }));
};

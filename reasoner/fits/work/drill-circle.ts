import type { Doing } from '../../atlas/operation.ts';
import type { FeatureId } from '../../ids.ts';
import { chordOf, roomBetweenCircles } from '../bolt-circle.ts';
import { known } from '../known.ts';
import { millimetres, nanometres } from '../limits.ts';
import { comparisonsWith, isWrong, type Job, limitsAt, refuse, type Sizing } from './job.ts';

type Circle = Extract<Doing, { kind: 'drill a circle' }>;

/** A second circle of holes on a flange, to the other part's pattern: it must stay on the land and clear of itself and of the old holes. */
export const drillCircle = (job: Job, does: Circle): Sizing => {
  const features = [does.count, does.diameter, does.bolt];
  if (!features.some((feature) => isWrong(job, feature))) return null;
  const [countThere, diameterThere, boltThere] = features.map((feature) => otherSide(job, feature));
  if (countThere === undefined || diameterThere === undefined || boltThere === undefined) {
    return refuse({ kind: 'nothing to work to', feature: does.diameter });
  }
  const holes = only(known(job.factOf, countThere, 'count'));
  if (holes === null || holes === 0) return refuse({ kind: 'nothing to work to', feature: countThere });
  const bolt = only(known(job.factOf, boltThere, 'choice'));
  if (bolt === null) return refuse({ kind: 'nothing to work to', feature: boltThere });
  const hole = does.holes[bolt];
  if (hole === undefined) return refuse({ kind: 'not offered', feature: does.bolt });
  const target = limitsAt(job, diameterThere);
  if (target === null) return refuse({ kind: 'nothing to work to', feature: diameterThere });
  const diameter = millimetres(Math.round((target.low + target.high) / 2 / 1000) * 1000);
  if (diameter <= 0) return refuse({ kind: 'nothing to work to', feature: diameterThere });

  const missing: FeatureId[] = [];
  const inner = limitsAt(job, does.land.inner);
  const outer = limitsAt(job, does.land.outer);
  if (inner === null) missing.push(does.land.inner);
  else if (nanometres(diameter - does.within - hole - 2 * does.edge) < inner.high)
    return refuse({ kind: 'off the land', feature: does.land.inner });
  if (outer === null) missing.push(does.land.outer);
  else if (nanometres(diameter + does.within + hole + 2 * does.edge) > outer.low)
    return refuse({ kind: 'off the land', feature: does.land.outer });

  const between = holes === 1 ? Number.POSITIVE_INFINITY : chordOf(diameter, holes) - hole;
  if (between < does.edge) return refuse({ kind: 'holes too close', feature: does.count, metal: between, mustLeave: does.edge });
  const old = metalToOldHoles(job, does, { diameter, holes }, hole);
  missing.push(...old.missing);
  if (old.metal < does.edge)
    return refuse({ kind: 'old holes in the way', feature: does.diameter, metal: old.metal, mustLeave: does.edge });

  return {
    kind: 'work',
    work: {
      sizes: [],
      metal: Number.isFinite(old.metal) ? [{ feature: does.diameter, leaves: old.metal, mustLeave: does.edge }] : [],
      changes: [
        { feature: does.count, fact: { kind: 'count', from: holes, to: holes } },
        { feature: does.diameter, fact: { kind: 'measure', nominal: diameter, lower: -does.within, upper: does.within } },
        { feature: does.bolt, fact: { kind: 'choice', anyOf: [bolt] } },
      ],
      allowed: missing.length > 0 ? 'not known' : 'holds',
      missing,
    },
  };
};

/** The feature the other part answers this one with. */
const otherSide = (job: Job, feature: FeatureId): FeatureId | undefined => {
  const [comparison] = comparisonsWith(job, feature);
  return comparison && (comparison.first === feature ? comparison.second : comparison.first);
};

/** The one value a count or choice can have, or null. */
function only(fact: { readonly kind: 'count'; readonly from: number; readonly to: number } | null): number | null;
function only(fact: { readonly kind: 'choice'; readonly anyOf: readonly string[] } | null): string | null;
function only(
  fact:
    | { readonly kind: 'count'; readonly from: number; readonly to: number }
    | { readonly kind: 'choice'; readonly anyOf: readonly string[] }
    | null,
): number | string | null {
  if (fact === null) return null;
  if (fact.kind === 'count') return fact.from === fact.to ? fact.from : null;
  return fact.anyOf.length === 1 ? (fact.anyOf[0] ?? null) : null;
}

/** Metal between the new holes and the old at the best clocking, over all the old circle can be; infinite where there are no old holes. */
const metalToOldHoles = (
  job: Job,
  does: Circle,
  drilled: { readonly diameter: number; readonly holes: number },
  hole: number,
): { readonly metal: number; readonly missing: readonly FeatureId[] } => {
  const count = only(known(job.factOf, does.count, 'count'));
  if (count === 0) return { metal: Number.POSITIVE_INFINITY, missing: [] };
  const bolt = only(known(job.factOf, does.bolt, 'choice'));
  const oldHole = bolt === null ? undefined : does.holes[bolt];
  const limits = limitsAt(job, does.diameter);
  if (count === null || oldHole === undefined || limits === null || limits.low <= 0) {
    const unknown = [
      count === null && does.count,
      oldHole === undefined && does.bolt,
      (limits === null || limits.low <= 0) && does.diameter,
    ];
    return { metal: Number.POSITIVE_INFINITY, missing: unknown.filter((feature): feature is FeatureId => feature !== false) };
  }
  const rooms = [limits.low, limits.high].map((end) => roomBetweenCircles({ diameter: millimetres(end), holes: count }, drilled));
  return { metal: Math.min(...rooms) - (hole + oldHole) / 2 - does.within / 2, missing: [] };
};

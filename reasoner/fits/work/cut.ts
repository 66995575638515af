import type { Fact } from '../../atlas/atlas.ts';
import type { Doing } from '../../atlas/operation.ts';
import type { FeatureId } from '../../ids.ts';
import { millimetres, nanometres } from '../limits.ts';
import { finish, isWrong, type Job, limitsAt, measureOf, refuse, type Sizing, shifted } from './job.ts';
import type { FinishedSize, MetalLeft } from './work.ts';

/** Metal off every dimension of the setting that is wrong, with the walls it eats into followed to the worst case. */
export const cut = (job: Job, does: Extract<Doing, { kind: 'cut' }>): Sizing => {
  const cuts = does.cuts.filter((each) => isWrong(job, each.feature));
  if (cuts.length === 0) return null;
  const sizes: FinishedSize[] = [];
  const taken = new Map<FeatureId, { most: number; mustLeave: number }>();
  const moved = new Map<FeatureId, { least: number; greatest: number }>();
  for (const each of cuts) {
    const size = finish(job, each.feature, each.way, each.holds);
    if ('kind' in size) return refuse(size);
    if (nanometres(size.removes.greatest) > nanometres(each.most)) {
      return refuse({ kind: 'too much', feature: each.feature, removes: size.removes.greatest, most: each.most });
    }
    sizes.push(size);
    for (const wall of each.metal) {
      const before = taken.get(wall.feature) ?? { most: 0, mustLeave: 0 };
      taken.set(wall.feature, { most: before.most + size.removes.greatest / wall.per, mustLeave: Math.max(before.mustLeave, wall.leaves) });
    }
    for (const move of each.moves) {
      const before = moved.get(move.feature) ?? { least: 0, greatest: 0 };
      const ends = [move.times * size.removes.least, move.times * size.removes.greatest];
      moved.set(move.feature, { least: before.least + Math.min(...ends), greatest: before.greatest + Math.max(...ends) });
    }
  }
  const changes = new Map<FeatureId, Fact>();
  const metal: MetalLeft[] = [];
  const missing: FeatureId[] = [];
  for (const [feature, { most, mustLeave }] of taken) {
    const wall = limitsAt(job, feature);
    if (wall === null) {
      missing.push(feature);
      continue;
    }
    const leaves = millimetres(wall.low - nanometres(most));
    metal.push({ feature, leaves, mustLeave });
    changes.set(feature, shifted(wall, -most, 0));
    if (leaves >= mustLeave) continue;
    // The thickest wall would do: it is measured on the part before the cut.
    if (wall.high - nanometres(most) >= nanometres(mustLeave)) missing.push(feature);
    else return refuse({ kind: 'not enough metal', feature, leaves, mustLeave });
  }
  for (const [feature, by] of moved) {
    const limits = limitsAt(job, feature);
    if (limits !== null) changes.set(feature, shifted(limits, by.least, by.greatest));
  }
  for (const size of sizes) changes.set(size.feature, measureOf(size));
  return {
    kind: 'work',
    work: {
      sizes,
      metal,
      changes: [...changes].map(([feature, fact]) => ({ feature, fact })),
      allowed: missing.length > 0 ? 'not known' : 'holds',
      missing,
    },
  };
};

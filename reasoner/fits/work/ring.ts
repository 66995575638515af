import type { Doing } from '../../atlas/operation.ts';
import { nanometres } from '../limits.ts';
import { finish, isWrong, type Job, measureOf, refuse, type Sizing } from './job.ts';

/** A ring in a bore too large, or on a spigot too small. It must have somewhere to stand: twice its wall between the old size and the new. */
export const ring = (job: Job, does: Extract<Doing, { kind: 'ring' }>): Sizing => {
  if (!isWrong(job, does.feature)) return null;
  const size = finish(job, does.feature, does.way, does.holds);
  if ('kind' in size) return refuse(size);
  const wall = size.removes.least / 2;
  if (nanometres(size.removes.least) < 2 * nanometres(does.wall)) {
    return refuse({ kind: 'ring too thin', feature: does.feature, wall, least: does.wall });
  }
  const changes = [{ feature: does.feature, fact: measureOf(size) }];
  return { kind: 'work', work: { sizes: [size], metal: [], changes, allowed: 'holds', missing: [] } };
};

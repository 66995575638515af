import type { CompiledAtlas } from '../compile/compiled.ts';
import type { StageId } from '../ids.ts';
import { stagesFor, stripDownMinutes } from '../why/strip-down.ts';
import type { Check } from './cells.ts';

export interface CheapestSet {
  /** Numbers of the checks, in the order they are best done: by strip-down, then by minutes. */
  readonly checks: readonly number[];
  readonly minutes: number;
}

/** Minutes for these checks together: every strip-down stage they need once, and each look. */
export const minutesFor = (atlas: CompiledAtlas, checks: readonly Check[]): number =>
  stripDownMinutes(
    atlas,
    checks.map(({ feature }) => feature.stage),
  ) + checks.reduce((sum, { feature }) => sum + feature.minutes, 0);

/**
 * The set of checks that separates all these pairs in the fewest minutes, strip-down shared. Exact: for every way of taking the unit apart, the least minutes of looks
 * for every subset of the pairs. Grows as 2^stages × 2^pairs; ten pairs of five subjects over a handful of stages are a few thousand steps.
 * Of sets that take the same minutes the one with fewer checks.
 * @param pairs numbers of pairs, each separated by some check; at most 20
 */
export const cheapestSet = (atlas: CompiledAtlas, checks: readonly Check[], pairs: readonly number[]): CheapestSet => {
  if (pairs.length > 20) throw new RangeError(`the cheapest set is worked out for at most 20 pairs; found ${pairs.length}`);
  const full = 2 ** pairs.length - 1;
  const useful = checks.flatMap((check, number) => {
    const mask = pairs.reduce((sum, pair, i) => (check.separates[pair] === 'holds' ? sum + 2 ** i : sum), 0);
    return mask === 0 ? [] : [{ number, mask, minutes: check.feature.minutes, stage: check.feature.stage }];
  });
  let best: CheapestSet | null = null;
  for (const stages of waysApart(atlas, new Set(useful.map(({ stage }) => stage)))) {
    const strip = stripDownMinutes(atlas, stages);
    if (best !== null && strip >= best.minutes) continue;
    const looks = leastLooks(
      useful.filter(({ stage }) => stages.has(stage)),
      full,
    );
    if (looks === null) continue;
    const set = looks.map((number) => checks[number] as Check);
    // A way apart may be wider than the set it leads to needs.
    const minutes = minutesFor(atlas, set);
    if (best === null || minutes < best.minutes || (minutes === best.minutes && looks.length < best.checks.length)) {
      best = { checks: inOrder(atlas, checks, looks), minutes };
    }
  }
  if (best === null) throw new RangeError('some pair is separated by no check; leave it out beforehand');
  return best;
};

/** As they are done at the bench: what can be seen earlier first. */
export const inOrder = (atlas: CompiledAtlas, checks: readonly Check[], numbers: readonly number[]): readonly number[] => {
  const reach = (number: number) => stripDownMinutes(atlas, [(checks[number] as Check).feature.stage]);
  const look = (number: number) => (checks[number] as Check).feature.minutes;
  return [...numbers].sort((a, b) => reach(a) - reach(b) || look(a) - look(b) || a - b);
};

/** Every set of stages a unit can be at, of those these stages need: each closed under what must come before. */
const waysApart = (atlas: CompiledAtlas, stages: ReadonlySet<StageId>): readonly ReadonlySet<StageId>[] => {
  let ways: ReadonlySet<StageId>[] = [new Set()];
  for (const stage of stages) {
    const reached = stagesFor(atlas, [stage]);
    ways = [...ways, ...ways.map((way) => new Set([...way, ...reached]))];
    ways = [...new Map(ways.map((way) => [[...way].sort().join(), way])).values()];
  }
  return ways.filter(({ size }) => size > 0);
};

/** The looks with the fewest minutes, then the fewest in number, whose pairs together are all of `full`; null when there are none. */
const leastLooks = (
  looks: readonly { readonly number: number; readonly mask: number; readonly minutes: number }[],
  full: number,
): number[] | null => {
  const minutes = new Float64Array(full + 1).fill(Number.POSITIVE_INFINITY);
  const size = new Int32Array(full + 1);
  const last = new Int32Array(full + 1).fill(-1);
  const before = new Int32Array(full + 1);
  minutes[0] = 0;
  // Masks only grow, so each is final once all below it were extended.
  for (let mask = 0; mask < full; mask += 1) {
    const spent = minutes[mask] as number;
    if (spent === Number.POSITIVE_INFINITY) continue;
    looks.forEach((look, i) => {
      const next = mask | look.mask;
      if (next === mask) return;
      const total = spent + look.minutes;
      const more = (size[mask] as number) + 1;
      if (total > (minutes[next] as number) || (total === minutes[next] && more >= (size[next] as number))) return;
      minutes[next] = total;
      size[next] = more;
      last[next] = i;
      before[next] = mask;
    });
  }
  if (minutes[full] === Number.POSITIVE_INFINITY) return null;
  const chosen: number[] = [];
  for (let mask = full; mask > 0; mask = before[mask] as number) chosen.push((looks[last[mask] as number] as { number: number }).number);
  return chosen;
};

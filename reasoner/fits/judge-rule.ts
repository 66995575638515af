import type { Fact } from '../atlas/atlas.ts';
import type { FitRule } from '../atlas/rule.ts';
import type { FeatureId } from '../ids.ts';
import { type Comparison, comparisonsOf, type Difference } from './comparisons.ts';
import type { FitPoint, RuleFinding } from './fit.ts';
import { type FactOf, type KnownOf, known } from './known.ts';
import { judgeSum, limitsOf, neverWithin } from './limits.ts';
import { readThread, type ThreadMeeting, threadsMeet } from './threads.ts';
import { worstOf } from './worst-of.ts';

/** Judges one rule from the facts it reads (F1, F2) and nothing else. A fact of the wrong kind is a bug past the door, and throws. */
export const judgeRule = (rule: FitRule, factOf: FactOf): RuleFinding => {
  const points = comparisonsOf(rule).map((comparison) => judgeComparison(comparison, factOf));
  const verdict = worstOf(points.map((point) => point.verdict));
  const deciding = points.filter((point) => point.verdict === verdict);
  const finding = {
    rule,
    verdict,
    points,
    decidedBy: together(deciding.map((point) => point.features)),
    missing: verdict === 'not known' ? together(deciding.map((point) => point.missing)) : [],
  };
  const numbers = tightest(deciding);
  if (numbers?.asked === undefined) return finding;
  const { asked, found, share } = numbers;
  return found === undefined || share === undefined ? { ...finding, asked } : { ...finding, asked, found, share };
};

const together = (lists: readonly (readonly FeatureId[])[]): readonly FeatureId[] => {
  const [first] = lists;
  return lists.length === 1 && first ? first : [...new Set(lists.flat())];
};

/** Judges one comparison: one point of a finding. */
export const judgeComparison = (comparison: Comparison, factOf: FactOf): FitPoint => {
  switch (comparison.kind) {
    case 'difference':
      return { ...compare(comparison, factOf, 'measure', differs(comparison)), asked: comparison.asked };
    case 'same choice':
      return compare(comparison, factOf, 'choice', alike(Object.is));
    case 'same thread':
      return compare(comparison, factOf, 'choice', screwed);
    case 'same count':
      return compare(comparison, factOf, 'count', counted);
    case 'service':
      return served(comparison, factOf);
  }
};

/** Whether no pair of good parts can pass this comparison: `judgeComparison` says *will not fit*, without its numbers. An atlas is compiled by millions of these. */
export const comparisonFails = (comparison: Comparison, factOf: FactOf): boolean => {
  if (comparison.kind !== 'difference') return judgeComparison(comparison, factOf).verdict === 'will not fit';
  const { first, second, per, asked } = comparison;
  const one = known(factOf, first, 'measure');
  const other = known(factOf, second, 'measure');
  return one !== null && other !== null && neverWithin(limitsOf(one), limitsOf(other), per, asked);
};

type Compared = Omit<FitPoint, 'what' | 'features'>;
type Judge<K extends Fact['kind']> = (first: KnownOf<K>, second: KnownOf<K>) => Compared;

/** Not known unless both sides are. */
const compare = <K extends Fact['kind']>({ what, first, second }: Comparison, factOf: FactOf, kind: K, judge: Judge<K>): FitPoint => {
  const features = [first, second];
  const one = known(factOf, first, kind);
  const other = known(factOf, second, kind);
  if (one !== null && other !== null) return { what, features, ...judge(one, other) };
  const missing = one !== null ? [second] : other !== null ? [first] : features;
  return { what, features, verdict: 'not known', missing };
};

const differs =
  ({ first, second, per, asked }: Difference): Judge<'measure'> =>
  (one, other) => {
    const terms = [
      { limits: limitsOf(one), times: 1 / per },
      { limits: limitsOf(other), times: -1 / per },
    ];
    const judged = judgeSum(terms, asked);
    // Two parts in hand either go together or do not: a straddle is then the instrument's doubt, not a choice of parts (ISO 14253-1).
    const doubtful = judged.verdict === 'after work' && one.kind === 'measured' && other.kind === 'measured';
    return doubtful ? { ...judged, verdict: 'not known', missing: [first, second] } : { ...judged, missing: [] };
  };

/** Good examples of a part bear one of several options; which, is seen on the part in hand. */
const alike =
  (same: (a: string, b: string) => boolean): Judge<'choice'> =>
  (one, other) => {
    const agree = one.anyOf.flatMap((a) => other.anyOf.map((b) => same(a, b)));
    return { verdict: !agree.includes(true) ? 'will not fit' : agree.includes(false) ? 'after work' : 'drops in', missing: [] };
  };

/** Screw threads, given by designation. The hand of a shaft's or nut's thread is a feature of its own, so `LH` in a designation is not compared here. */
const screwed: Judge<'choice'> = (one, other) => {
  const judged = alike((a, b) => sizesDiffer(a, b) === null)(one, other);
  const [a, b] = [one.anyOf[0], other.anyOf[0]];
  if (judged.verdict !== 'will not fit' || one.anyOf.length !== 1 || other.anyOf.length !== 1 || a === undefined || b === undefined)
    return judged;
  const thread = sizesDiffer(a, b);
  return thread ? { ...judged, thread } : judged;
};

/** How two designations differ but for their hand, or null for the same thread. One that cannot be read is the same only as itself. */
const sizesDiffer = (a: string, b: string): ThreadMeeting | null => {
  if (a === b) return null;
  const [one, other] = [readThread(a), readThread(b)];
  if (!one.ok || !other.ok) return { differs: [], nearMiss: false };
  const meeting = threadsMeet({ ...one.value, hand: 'right' }, { ...other.value, hand: 'right' });
  return meeting.differs.length === 0 ? null : meeting;
};

const counted: Judge<'count'> = (one, other) => {
  const apart = one.to < other.from || other.to < one.from;
  const settled = one.from === one.to && other.from === other.to;
  return { verdict: apart ? 'will not fit' : settled ? 'drops in' : 'after work', missing: [] };
};

/** A service not needed is met by anything, and one that is offered meets any need: either alone decides, known or not the other. */
const served = ({ what, first, second }: Comparison, factOf: FactOf): FitPoint => {
  const need = known(factOf, first, 'presence');
  const offer = known(factOf, second, 'presence');
  const features = [first, second];
  if (need?.present === false || offer?.present === true) return { what, verdict: 'drops in', features, missing: [] };
  if (need !== null && offer !== null) return { what, verdict: 'will not fit', features, missing: [] };
  return { what, verdict: 'not known', features, missing: [...(need ? [] : [first]), ...(offer ? [] : [second])] };
};

/** Among points that decide alike, the one with the least room left, so that the number shown is the one to watch. */
const tightest = (points: readonly FitPoint[]): FitPoint | undefined => {
  let answer: FitPoint | undefined;
  for (const point of points) {
    if (point.asked !== undefined && (answer === undefined || room(point) < room(answer))) answer = point;
  }
  return answer;
};

const room = ({ found, asked }: FitPoint): number =>
  found && asked ? Math.min(found.least - asked.least, asked.greatest - found.greatest) : Number.POSITIVE_INFINITY;

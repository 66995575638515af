import type { Fact } from '../atlas/atlas.ts';
import type { FeatureId } from '../ids.ts';
import type { FitPoint, PointKind, RuleFinding, Span } from './fit.ts';
import { judgeSum, limitsOf, type Size } from './limits.ts';
import type { Measured } from './measured.ts';
import type { FitRule } from './rule.ts';
import { readThread, type ThreadMeeting, threadsMeet } from './threads.ts';
import { worstOf } from './worst-of.ts';

/** What is known of a feature: what the atlas says of the part, or what was measured on the one in hand. */
export type Known = Fact | Measured;

/** The facts of the two parts together. A feature belongs to one slot, so it is never on both. Nothing said counts as not known. */
export type FactOf = (feature: FeatureId) => Known | undefined;

/** Judges one rule from the facts it reads (F1, F2) and nothing else. A fact of the wrong kind is a bug past the door, and throws. */
export const judgeRule = (rule: FitRule, factOf: FactOf): RuleFinding => {
  const points = pointsOf(rule, factOf);
  const verdict = worstOf(points.map((point) => point.verdict));
  const deciding = points.filter((point) => point.verdict === verdict);
  const numbers = tightest(deciding);
  return {
    rule,
    verdict,
    points,
    ...(numbers?.found && { found: numbers.found }),
    ...(numbers?.asked && { asked: numbers.asked }),
    ...(numbers?.share !== undefined && { share: numbers.share }),
    decidedBy: [...new Set(deciding.flatMap((point) => point.features))],
    missing: verdict === 'not known' ? [...new Set(deciding.flatMap((point) => point.missing))] : [],
  };
};

const pointsOf = (rule: FitRule, factOf: FactOf): readonly FitPoint[] => {
  switch (rule.kind) {
    case 'pilot':
      return [measured('clearance', factOf, rule.recess, rule.spigot, 1, span(rule))];
    case 'running clearance':
      return [measured('clearance', factOf, rule.outer, rule.inner, 1, span(rule))];
    case 'press fit':
      return [measured('interference', factOf, rule.shaft, rule.bore, 1, span(rule))];
    case 'wheel to contour':
      return rule.pairs.map((pair) =>
        pair.way === 'radial'
          ? measured('radial clearance', factOf, pair.housing, pair.wheel, 2, span(pair))
          : measured('axial clearance', factOf, pair.housing, pair.wheel, 1, span(pair)),
      );
    case 'thread':
      return [
        screwed('thread', factOf, rule.external.size, rule.internal.size),
        chosen('hand of thread', factOf, rule.external.hand, rule.internal.hand),
      ];
    case 'bolt circle':
      return [
        counted('hole count', factOf, rule.a.count, rule.b.count),
        measured('circle diameter', factOf, rule.a.diameter, rule.b.diameter, 1, { least: -rule.within, greatest: rule.within }),
        screwed('bolt', factOf, rule.a.bolt, rule.b.bolt),
      ];
    case 'clamp profile':
      return [chosen('clamp profile', factOf, rule.a, rule.b)];
    case 'services':
      return rule.pairs.map((pair) => served(factOf, pair.needs, pair.offers));
    case 'direction of rotation':
      return [chosen('direction of rotation', factOf, rule.a, rule.b)];
    case 'same':
      return [chosen('agreement', factOf, rule.a, rule.b)];
  }
};

const span = (rule: { readonly min: number; readonly max: number }): Span => ({ least: rule.min, greatest: rule.max });

/** What is known, checked to be of the kind the rule compares. A measured size stands wherever a measure does. */
const known = <K extends Fact['kind']>(factOf: FactOf, feature: FeatureId, kind: K): KnownOf<K> | null => {
  const fact = factOf(feature);
  if (fact === undefined || fact.kind === 'not known') return null;
  if (fact.kind !== kind && !(fact.kind === 'measured' && kind === 'measure')) {
    throw new TypeError(`fit rule: ${feature} is a ${fact.kind} where the rule compares a ${kind}`);
  }
  return fact as KnownOf<K>;
};

type KnownOf<K extends Fact['kind']> = K extends 'measure' ? Size : Extract<Fact, { kind: K }>;
type Compared = Omit<FitPoint, 'what' | 'features'>;

const compare = <K extends Fact['kind']>(
  what: PointKind,
  factOf: FactOf,
  kind: K,
  first: FeatureId,
  second: FeatureId,
  judge: (first: KnownOf<K>, second: KnownOf<K>) => Compared,
): FitPoint => {
  const features = [first, second];
  const one = known(factOf, first, kind);
  const other = known(factOf, second, kind);
  if (one !== null && other !== null) return { what, features, ...judge(one, other) };
  const missing = one !== null ? [second] : other !== null ? [first] : features;
  return { what, features, verdict: 'not known', missing };
};

/** outer − inner, halved for a radial clearance of diameters. */
const measured = (what: PointKind, factOf: FactOf, outer: FeatureId, inner: FeatureId, per: 1 | 2, asked: Span): FitPoint => {
  const point = compare(what, factOf, 'measure', outer, inner, (one, other) => {
    const judged = judgeSum(
      [
        { limits: limitsOf(one), times: 1 / per },
        { limits: limitsOf(other), times: -1 / per },
      ],
      asked,
    );
    // Two parts in hand either go together or do not: a straddle is then the instrument's doubt, not a choice of parts (ISO 14253-1).
    const doubtful = judged.verdict === 'after work' && one.kind === 'measured' && other.kind === 'measured';
    return doubtful ? { ...judged, verdict: 'not known', missing: [outer, inner] } : { ...judged, missing: [] };
  });
  return { ...point, asked };
};

/** Good examples of a part bear one of several options; which, is seen on the part in hand. */
const chosen = (what: PointKind, factOf: FactOf, first: FeatureId, second: FeatureId, alike = Object.is): FitPoint =>
  compare(what, factOf, 'choice', first, second, (one, other) => {
    const agree = one.anyOf.flatMap((a) => other.anyOf.map((b) => alike(a, b)));
    return { verdict: !agree.includes(true) ? 'will not fit' : agree.includes(false) ? 'after work' : 'drops in', missing: [] };
  });

/** Screw threads, given by designation. The hand of a shaft's or nut's thread is a feature of its own, so `LH` in the designation is not compared here. */
const screwed = (what: PointKind, factOf: FactOf, first: FeatureId, second: FeatureId): FitPoint => {
  const point = chosen(what, factOf, first, second, (a, b) => sizesDiffer(a, b) === null);
  if (point.verdict !== 'will not fit') return point;
  const [one, other] = [known(factOf, first, 'choice'), known(factOf, second, 'choice')];
  const thread = one?.anyOf.length === 1 && other?.anyOf.length === 1 && sizesDiffer(one.anyOf[0] as string, other.anyOf[0] as string);
  return thread ? { ...point, thread } : point;
};

/** How two designations differ but for their hand, or null for the same thread. One that cannot be read is the same only as itself. */
const sizesDiffer = (a: string, b: string): ThreadMeeting | null => {
  if (a === b) return null;
  const [one, other] = [readThread(a), readThread(b)];
  if (!one.ok || !other.ok) return { differs: [], nearMiss: false };
  const meeting = threadsMeet({ ...one.value, hand: 'right' }, { ...other.value, hand: 'right' });
  return meeting.differs.length === 0 ? null : meeting;
};

const counted = (what: PointKind, factOf: FactOf, first: FeatureId, second: FeatureId): FitPoint =>
  compare(what, factOf, 'count', first, second, (one, other) => {
    const apart = one.to < other.from || other.to < one.from;
    const settled = one.from === one.to && other.from === other.to;
    return { verdict: apart ? 'will not fit' : settled ? 'drops in' : 'after work', missing: [] };
  });

/** A service not needed is met by anything, and one that is offered meets any need: either alone decides, known or not the other. */
const served = (factOf: FactOf, needs: FeatureId, offers: FeatureId): FitPoint => {
  const need = known(factOf, needs, 'presence');
  const offer = known(factOf, offers, 'presence');
  const features = [needs, offers];
  if (need?.present === false || offer?.present === true) return { what: 'service', verdict: 'drops in', features, missing: [] };
  if (need !== null && offer !== null) return { what: 'service', verdict: 'will not fit', features, missing: [] };
  return { what: 'service', verdict: 'not known', features, missing: features.filter((_, i) => [need, offer][i] === null) };
};

/** Among points that decide alike, the one with the least room left, so that the number shown is the one to watch. */
const tightest = (points: readonly FitPoint[]): FitPoint | undefined => {
  let answer: FitPoint | undefined;
  for (const point of points) {
    if (point.asked === undefined) continue;
    if (answer === undefined || room(point) < room(answer)) answer = point;
  }
  return answer;
};

const room = ({ found, asked }: FitPoint): number =>
  found && asked ? Math.min(found.least - asked.least, asked.greatest - found.greatest) : Number.POSITIVE_INFINITY;

import type { Fact } from '../../atlas/atlas.ts';
import type { Doing, Offer } from '../../atlas/operation.ts';
import type { FeatureId } from '../../ids.ts';
import type { Comparison } from '../comparisons.ts';
import { known } from '../known.ts';
import { millimetres, nanometres } from '../limits.ts';
import { comparisonsWith, isWrong, type Job, limitsAt, refuse, type Sizing, verdictOf } from './job.ts';
import type { Refusal } from './work.ts';

/** A face made anew: whatever of it is wrong is made as the other part has it, if the shop offers that. What is right stays. */
export const remake = (job: Job, does: Extract<Doing, { kind: 'remake' }>): Sizing => {
  if (!does.offers.some((offer) => isWrong(job, offer.feature))) return null;
  const changes: { feature: FeatureId; fact: Fact }[] = [];
  for (const offer of does.offers) {
    for (const comparison of comparisonsWith(job, offer.feature)) {
      if (verdictOf(job, comparison) === 'drops in') continue;
      const fact = made(job, offer, comparison);
      if (fact === null) continue;
      if ('feature' in fact) return refuse(fact);
      changes.push({ feature: offer.feature, fact });
    }
  }
  return { kind: 'work', work: { sizes: [], metal: [], changes, allowed: 'holds', missing: [] } };
};

/** What the offered feature becomes, or why it cannot; null where the other part is unknown and the question stays open. */
const made = (job: Job, offer: Offer, comparison: Comparison): Fact | Refusal | null => {
  const { feature } = offer;
  const other = comparison.first === feature ? comparison.second : comparison.first;
  switch (offer.kind) {
    case 'choice': {
      const wanted = known(job.factOf, other, 'choice');
      if (wanted === null) return null;
      const [option] = wanted.anyOf;
      if (wanted.anyOf.length !== 1 || option === undefined) return { kind: 'nothing to work to', feature: other };
      return offer.anyOf.includes(option) ? { kind: 'choice', anyOf: [option] } : { kind: 'not offered', feature };
    }
    case 'count': {
      const wanted = known(job.factOf, other, 'count');
      if (wanted === null) return null;
      if (wanted.from !== wanted.to) return { kind: 'nothing to work to', feature: other };
      return wanted.from >= offer.from && wanted.from <= offer.to
        ? { kind: 'count', from: wanted.from, to: wanted.from }
        : { kind: 'not offered', feature };
    }
    case 'measure': {
      const wanted = limitsAt(job, other);
      if (wanted === null) return null;
      const middle = millimetres(Math.round((wanted.low + wanted.high) / 2 / 1000) * 1000);
      return nanometres(middle) >= nanometres(offer.from) && nanometres(middle) <= nanometres(offer.to)
        ? { kind: 'measure', nominal: middle, lower: -offer.within, upper: offer.within }
        : { kind: 'not offered', feature };
    }
    case 'presence':
      // A need cannot be made away with; only what is offered can be added.
      return comparison.kind === 'service' && comparison.second === feature
        ? { kind: 'presence', present: true }
        : { kind: 'not offered', feature };
  }
};

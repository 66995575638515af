import type { Joint, Part } from '../../atlas/atlas.ts';
import type { Operation } from '../../atlas/operation.ts';
import type { FeatureId, SlotId } from '../../ids.ts';
import { comparisonsOf } from '../comparisons.ts';
import type { Fit, FitVerdict } from '../fit.ts';
import { type InHand, judgeJoint } from '../judge-joint.ts';
import type { FactOf, Known } from '../known.ts';
import { worstOf } from '../worst-of.ts';
import { cautionsOfOperation } from './cautions.ts';
import { cut } from './cut.ts';
import { drillCircle } from './drill-circle.ts';
import type { Job, Sizing } from './job.ts';
import { remake } from './remake.ts';
import { ring } from './ring.ts';
import type { Work, WorkedFit, WorkPlan } from './work.ts';

/**
 * Judges a joint and looks for work that makes it go together (F2): each operation is sized for what is wrong, and every choice of up to
 * `atMost` of them is tried and the joint judged again with the parts as they would be. Nothing is offered that does not come out right. Two operations
 * that share one correction between them (half off each part) are not looked for.
 */
export const planWork = (
  joint: Joint,
  slots: { readonly a: SlotId; readonly b: SlotId },
  one: Part,
  other: Part,
  operations: readonly Operation[],
  options: { readonly inHand?: InHand; readonly atMost?: number } = {},
): WorkedFit => {
  const { inHand = new Map<FeatureId, Known>(), atMost = 3 } = options;
  const fit = judgeJoint(joint, slots, one, other, inHand);
  const refused: WorkedFit['refused'][number][] = [];
  const works: Work[] = [];
  if (fit.verdict === 'will not fit' || fit.verdict === 'after work') {
    const comparisons = joint.rules.flatMap(comparisonsOf);
    const factOf: FactOf = (feature) => inHand.get(feature) ?? one.facts[feature] ?? other.facts[feature];
    for (const operation of operations) {
      const part = [one, other].find((each) => each.slot === operation.slot);
      if (!part) continue;
      const outcome = size(operation, { part, comparisons, factOf });
      if (outcome === null) continue;
      const { id, slot, hours } = operation;
      if (outcome.kind === 'refused') refused.push({ operation: id, part: part.id, because: outcome.because });
      else works.push({ operation: id, slot, part: part.id, ...outcome.work, hours, cautions: cautionsOfOperation(operation) });
    }
  }
  const plans: WorkPlan[] = [];
  for (const chosen of choices(works, atMost)) {
    const facts = new Map(inHand);
    for (const { feature, fact } of chosen.flatMap((work) => work.changes)) facts.set(feature, fact);
    const after = judgeJoint(joint, slots, one, other, facts);
    if (!better(fit, after)) continue;
    // A plan with a work too many: part of it does as well by itself.
    if (plans.some((plan) => plan.works.every((work) => chosen.includes(work)) && !isWorse(plan.after, after))) continue;
    plans.push({
      works: chosen,
      hours: chosen.reduce((sum, work) => sum + work.hours, 0),
      after,
      allowed: chosen.every((work) => work.allowed === 'holds') ? 'holds' : 'not known',
      missing: [...new Set(chosen.flatMap((work) => work.missing))],
    });
  }
  plans.sort((a, b) => a.hours - b.hours || a.works.length - b.works.length);
  return { fit, verdict: verdictWith(fit.verdict, plans), plans, refused, atMost };
};

const size = (operation: Operation, job: Job): Sizing => {
  const outcome = sizedBy(operation, job);
  if (outcome === null) return null;
  for (const { feature, anyOf } of operation.takes) {
    const fact = job.factOf(feature);
    if (fact?.kind === 'choice' && fact.anyOf.every((option) => anyOf.includes(option))) continue;
    if (fact?.kind === 'choice') return { kind: 'refused', because: { kind: 'not this part', feature } };
    if (outcome.kind === 'refused') return outcome;
    return { kind: 'work', work: { ...outcome.work, allowed: 'not known', missing: [...outcome.work.missing, feature] } };
  }
  return outcome;
};

const sizedBy = (operation: Operation, job: Job): Sizing => {
  switch (operation.does.kind) {
    case 'cut':
      return cut(job, operation.does);
    case 'ring':
      return ring(job, operation.does);
    case 'drill a circle':
      return drillCircle(job, operation.does);
    case 'remake':
      return remake(job, operation.does);
  }
};

/** Every choice of one to `atMost` works that do not change one dimension twice, smaller choices first. */
function* choices(works: readonly Work[], atMost: number): Generator<readonly Work[]> {
  for (let length = 1; length <= Math.min(atMost, works.length); length += 1) yield* choicesOf(works, length, 0, []);
}

function* choicesOf(works: readonly Work[], length: number, from: number, chosen: readonly Work[]): Generator<readonly Work[]> {
  if (chosen.length === length) {
    yield chosen;
    return;
  }
  for (let i = from; i < works.length; i += 1) {
    const work = works[i] as Work;
    const changed = new Set(chosen.flatMap((each) => each.changes.map((change) => change.feature)));
    if (!work.changes.some((change) => changed.has(change.feature))) yield* choicesOf(works, length, i + 1, [...chosen, work]);
  }
}

/** A joint that failed no longer does; one that needed choosing of parts drops in. */
const better = (before: Fit, after: Fit): boolean =>
  before.verdict === 'will not fit' ? after.verdict !== 'will not fit' : after.verdict === 'drops in';

const isWorse = (one: Fit, other: Fit): boolean => one.verdict !== other.verdict && worstOf([one.verdict, other.verdict]) === one.verdict;

const verdictWith = (before: FitVerdict, plans: readonly WorkPlan[]): FitVerdict => {
  if (before !== 'will not fit' || plans.length === 0) return before;
  return plans.some((plan) => plan.allowed === 'holds' && plan.after.verdict !== 'not known') ? 'after work' : 'not known';
};

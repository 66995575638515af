import type { Joint, Part } from '../atlas/atlas.ts';
import type { Operation } from '../atlas/operation.ts';
import type { CompiledAtlas, CompiledJoint } from '../compile/compiled.ts';
import { slotAt } from '../compile/compiled.ts';
import type { Fit, FitVerdict } from '../fits/fit.ts';
import { type InHand, judgeJoint } from '../fits/judge-joint.ts';
import type { Known } from '../fits/known.ts';
import { planWork } from '../fits/work/plan-work.ts';
import type { Work, WorkedFit } from '../fits/work/work.ts';
import type { FeatureId, JointId, SlotId } from '../ids.ts';

/** A joint of the build with both its parts. */
export interface BuildJoint {
  readonly joint: Joint;
  readonly slots: { readonly a: SlotId; readonly b: SlotId };
  readonly a: Part;
  readonly b: Part;
}

/** A work as part of a whole build's: which joint called for it. */
export interface BuildWork extends Work {
  readonly joint: JointId;
}

/** Works that can be done together, with every joint of the build judged afterwards. */
export interface WorkSet {
  readonly works: readonly BuildWork[];
  /** Sizes in hand and sizes made. */
  readonly facts: InHand;
  /** The joints as they then are, in the order given. */
  readonly fits: readonly Fit[];
  readonly hours: number;
  /** Joints that still will not fit, are not known (or hang on a wall that is not), and whose parts must be measured and chosen. */
  readonly failing: number;
  readonly unknown: number;
  readonly choosing: number;
}

/** The joints of the parts at hand, those of slots without a part left out. */
export const jointsAmong = (atlas: CompiledAtlas, partIn: (slot: SlotId) => Part | undefined): BuildJoint[] =>
  atlas.joints.flatMap((each) => {
    const joint = between(atlas, each, partIn);
    return joint === null ? [] : [joint];
  });

export const between = (
  atlas: Pick<CompiledAtlas, 'slots'>,
  joint: CompiledJoint,
  partIn: (slot: SlotId) => Part | undefined,
): BuildJoint | null => {
  const slots = { a: slotAt(atlas, joint.a).data.id, b: slotAt(atlas, joint.b).data.id };
  const [a, b] = [partIn(slots.a), partIn(slots.b)];
  return a === undefined || b === undefined ? null : { joint: joint.data, slots, a, b };
};

/** Remembers joints judged with their works, by what the joint reads of both parts and what the works would need. */
export type Planner = (joint: BuildJoint, facts: InHand) => WorkedFit;

export const plannerFor =
  (operations: readonly Operation[], atMost: number): Planner =>
  ({ joint, slots, a, b }, facts) =>
    planWork(
      joint,
      slots,
      a,
      b,
      operations.filter(({ slot }) => slot === slots.a || slot === slots.b),
      { inHand: facts, atMost },
    );

export interface WorkSetOptions {
  /** No set holds more works than this. */
  readonly most?: number;
  /** The verdicts of the build's chains with these sizes; they count with the joints. */
  readonly chainsWith?: (facts: InHand) => readonly FitVerdict[];
}

/**
 * Every set of works worth having, none of them beaten by another in joints that fail, are not known or need choosing, in hours and in number of works.
 * A work may put another joint right, or wrong: after each the joints are judged again with the sizes as made, and each joint that is
 * not right may be worked at or left. No dimension is worked twice. The set without any work is always among those weighed.
 */
export const workSets = (
  joints: readonly BuildJoint[],
  inHand: InHand,
  plan: Planner,
  { most = Number.POSITIVE_INFINITY, chainsWith = () => [] }: WorkSetOptions = {},
): readonly WorkSet[] => {
  const found: WorkSet[] = [];
  const tried = new Set<string>();
  const visit = (works: readonly BuildWork[], facts: InHand, doubtful: ReadonlySet<JointId>): void => {
    const key = works
      .map(({ operation, part, joint, changes }) => `${joint} ${part} ${operation} ${JSON.stringify(changes)}`)
      .sort()
      .join('|');
    if (tried.has(key)) return;
    tried.add(key);
    // Nothing beats a set that leaves nothing open in fewer hours with fewer works, and works only add to both.
    if (found.some((each) => each.failing + each.unknown + each.choosing === 0 && beats(each, { ...each, ...effort(works) }))) return;
    const fits = joints.map(({ joint, slots, a, b }) => judgeJoint(joint, slots, a, b, facts));
    keep(found, setOf(works, facts, fits, doubtful, chainsWith(facts)));
    const changed = new Set(works.flatMap(({ changes }) => changes.map(({ feature }) => feature)));
    joints.forEach((joint, i) => {
      const { verdict } = fits[i] as Fit;
      if (verdict === 'drops in' || verdict === 'not known') return;
      for (const { works: more, allowed } of plan(joint, facts).plans) {
        if (works.length + more.length > most || more.some(({ changes }) => changes.some(({ feature }) => changed.has(feature)))) continue;
        const made = new Map<FeatureId, Known>(facts);
        for (const { feature, fact } of more.flatMap(({ changes }) => changes)) made.set(feature, fact);
        visit(
          [...works, ...more.map((work) => ({ ...work, joint: joint.joint.id }))],
          made,
          allowed === 'holds' ? doubtful : new Set([...doubtful, joint.joint.id]),
        );
      }
    });
  };
  visit([], inHand, new Set());
  return found.sort(byMerit);
};

const setOf = (
  works: readonly BuildWork[],
  facts: InHand,
  fits: readonly Fit[],
  doubtful: ReadonlySet<JointId>,
  chains: readonly FitVerdict[],
): WorkSet => {
  let [failing, unknown, choosing] = [0, 0, 0];
  const count = (verdict: FitVerdict, inDoubt: boolean): void => {
    if (verdict === 'will not fit') failing += 1;
    else if (verdict === 'not known' || inDoubt) unknown += 1;
    else if (verdict === 'after work') choosing += 1;
  };
  for (const { joint, verdict } of fits) count(verdict, doubtful.has(joint));
  for (const verdict of chains) count(verdict, false);
  return { ...effort(works), facts, fits, failing, unknown, choosing };
};

const effort = (works: readonly BuildWork[]): Pick<WorkSet, 'works' | 'hours'> => ({
  works,
  hours: works.reduce((sum, { hours }) => sum + hours, 0),
});

const measures = (set: WorkSet): readonly number[] => [set.failing, set.unknown, set.choosing, set.hours, set.works.length];

const byMerit = (a: WorkSet, b: WorkSet): number => {
  const [one, other] = [measures(a), measures(b)];
  const at = one.findIndex((value, i) => value !== other[i]);
  return at < 0 ? 0 : (one[at] as number) - (other[at] as number);
};

const beats = (a: WorkSet, b: WorkSet): boolean => {
  const other = measures(b);
  return measures(a).every((value, i) => value <= (other[i] as number));
};

const keep = (found: WorkSet[], set: WorkSet): void => {
  if (found.some((each) => beats(each, set))) return;
  for (let i = found.length - 1; i >= 0; i -= 1) if (beats(set, found[i] as WorkSet)) found.splice(i, 1);
  found.push(set);
};

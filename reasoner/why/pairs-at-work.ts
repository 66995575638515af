import type { Atlas } from '../atlas/atlas.ts';
import type { Operation } from '../atlas/operation.ts';
import type { CompiledAtlas, CompiledJoint, CompiledSlot } from '../compile/compiled.ts';
import { slotAt } from '../compile/compiled.ts';
import { refine } from '../compile/refine.ts';
import { featuresOf } from '../fits/features-of.ts';
import type { InHand } from '../fits/judge-joint.ts';
import { featuresOfOperation } from '../fits/work/features-of-operation.ts';
import type { PairFit } from '../fits/work/pair-fit.ts';
import { planWork } from '../fits/work/plan-work.ts';

/** No more works than this are looked for at one joint, as in a build. */
const atMost = 3;

/** Which end of a joint is a part of the unit that stays; the other, or both, are new. */
export type Stays = 'a' | 'b' | 'neither';

/** Judges parts of two slots, by their numbers, at a joint. */
export type PairJudge = (joint: CompiledJoint, a: number, b: number, stays: Stays) => PairFit;

/**
 * Parts of one class are alike in everything the joints of their slot and the works on it read, so a pair of classes is judged once. What is judged without anything
 * read of the unit is kept with the atlas.
 * @param inHand what was read of the unit's parts; it takes the place of what the atlas says of a part that stays
 */
export const pairJudgeOf = (atlas: CompiledAtlas, inHand: InHand): PairJudge => {
  const grounds: Readonly<Record<Stays, Map<CompiledJoint, Ground>>> = { a: new Map(), b: new Map(), neither: new Map() };
  return (joint, a, b, stays) => {
    let ground = grounds[stays].get(joint);
    if (ground === undefined) {
      ground = groundOf(atlas, joint, inHand, stays);
      grounds[stays].set(joint, ground);
    }
    const { classes, kept } = ground;
    const key = (classes.a.of[a] as number) * classes.b.count + (classes.b.of[b] as number);
    let fit = kept.get(key);
    if (fit === undefined) {
      fit = judge(joint, ground, a, b);
      kept.set(key, fit);
    }
    return fit;
  };
};

interface Ground {
  readonly slots: { readonly a: CompiledSlot; readonly b: CompiledSlot };
  readonly classes: { readonly a: Classes; readonly b: Classes };
  readonly operations: readonly Operation[];
  readonly inHand: InHand;
  readonly kept: Map<number, PairFit>;
}

const groundOf = (atlas: CompiledAtlas, joint: CompiledJoint, inHand: InHand, stays: Stays): Ground => {
  const slots = { a: slotAt(atlas, joint.a), b: slotAt(atlas, joint.b) };
  const operations = (atlas.data.operations ?? []).filter(({ slot }) => slot === slots.a.data.id || slot === slots.b.data.id);
  const read = [...joint.data.rules.flatMap(featuresOf), ...operations.flatMap(featuresOfOperation)];
  const stayed = stays === 'neither' ? null : slots[stays].data.id;
  const facts: InHand = new Map(
    read.flatMap((feature) => {
      const known = atlas.features.get(feature)?.slot === stayed ? inHand.get(feature) : undefined;
      return known === undefined ? [] : [[feature, known] as const];
    }),
  );
  return {
    slots,
    classes: { a: classesOf(atlas, slots.a), b: classesOf(atlas, slots.b) },
    operations,
    inHand: facts,
    kept: facts.size > 0 ? new Map() : keptWith(atlas, joint),
  };
};

/** The class of a part among those of its slot that joints and works tell apart. */
export const classOfPart = (atlas: CompiledAtlas, slot: CompiledSlot, part: number): number => classesOf(atlas, slot).of[part] as number;

const judge = ({ data: joint }: CompiledJoint, { slots, operations, inHand }: Ground, one: number, other: number): PairFit => {
  const [partA, partB] = [slots.a.parts[one], slots.b.parts[other]];
  if (partA === undefined || partB === undefined) throw new RangeError(`no part ${one} or ${other} at joint ${joint.id}`);
  const ends = { a: slots.a.data.id, b: slots.b.data.id };
  const { fit, verdict, plans } = planWork(joint, ends, partA, partB, operations, { inHand, atMost });
  const plan = plans.find(({ allowed, after }) => allowed === 'holds' && after.verdict !== 'not known') ?? null;
  switch (verdict) {
    case 'drops in':
      return { kind: 'drops in' };
    case 'will not fit':
      return { kind: 'will not fit' };
    case 'not known': {
      const missing = [...fit.findings.flatMap((finding) => finding.missing), ...plans.flatMap((each) => each.missing)];
      return { kind: 'not known', missing: [...new Set(missing)] };
    }
    case 'after work':
      // Of a pair that does not go together as it is there is a plan, or it would not be after work.
      return fit.verdict === 'will not fit' && plan !== null ? { kind: 'after work', plan } : { kind: 'measure and choose', plan };
  }
};

type Classes = Pick<ReturnType<typeof refine>, 'of' | 'count'>;

/** What is worked out of an atlas once: the classes of its slots, and pairs of them judged without parts in hand. */
interface Kept {
  readonly classes: Map<CompiledSlot, Classes>;
  readonly pairs: Map<CompiledJoint, Map<number, PairFit>>;
}

const keptOf = new WeakMap<Atlas, Kept>();

const keptFor = ({ data: atlas }: CompiledAtlas): Kept => {
  let kept = keptOf.get(atlas);
  if (kept === undefined) {
    kept = { classes: new Map(), pairs: new Map() };
    keptOf.set(atlas, kept);
  }
  return kept;
};

const keptWith = (atlas: CompiledAtlas, joint: CompiledJoint): Map<number, PairFit> => {
  const { pairs } = keptFor(atlas);
  let kept = pairs.get(joint);
  if (kept === undefined) {
    kept = new Map();
    pairs.set(joint, kept);
  }
  return kept;
};

const classesOf = (atlas: CompiledAtlas, slot: CompiledSlot): Classes => {
  const kept = keptFor(atlas).classes;
  let classes = kept.get(slot);
  if (classes === undefined) {
    const read = new Set([
      ...atlas.data.joints.flatMap(({ rules }) => rules.flatMap(featuresOf)),
      ...(atlas.data.operations ?? []).flatMap(featuresOfOperation),
    ]);
    const tables = [...read]
      .filter((feature) => atlas.features.get(feature)?.slot === slot.data.id)
      .map((feature) => slot.factsOf(feature));
    classes = refine(slot.parts.length, tables);
    kept.set(slot, classes);
  }
  return classes;
};

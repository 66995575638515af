import type { Part, Rates } from '../atlas/atlas.ts';
import type { OperationId } from '../atlas/operation.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import { featuresOf } from '../fits/features-of.ts';
import type { FitVerdict } from '../fits/fit.ts';
import type { InHand } from '../fits/judge-joint.ts';
import { featuresOfOperation } from '../fits/work/features-of-operation.ts';
import type { WorkedFit } from '../fits/work/work.ts';
import { worstOf } from '../fits/worst-of.ts';
import type { FeatureId, JointId, MakerId, PartId, RatesId, SlotId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { inHandOf, partChosen } from '../unit/in-hand.ts';
import { jointSentences, partsWorked, refusalPhrase, workSentence } from './build-words.ts';
import { pricesIn } from './cost.ts';
import { type BuildJoint, between, plannerFor } from './work-sets.ts';

/** What may go into one slot of a build, beside the parts already chosen. */
export interface SlotOptions {
  readonly slot: SlotId;
  /** The joints judged: those whose other part is chosen. With none, everything drops in, and that says nothing yet. */
  readonly joints: readonly JointId[];
  /** Those that drop in first, then those that go on after work by hours, then what is not known; by price and name among themselves. */
  readonly options: readonly SlotOption[];
  /** The rest, those that fail alike together; the reason of most parts first. */
  readonly rest: readonly { readonly because: readonly string[]; readonly parts: readonly PartId[] }[];
}

export interface SlotOption {
  readonly part: PartId;
  readonly maker: MakerId | null;
  readonly verdict: Exclude<FitVerdict, 'will not fit'>;
  /** Null: no rates, or no price for it. */
  readonly price: number | null;
  /** Of the cheapest works at each joint, together. Works at one joint may serve or spoil another; the plan of the build tells. */
  readonly hours: number;
  readonly operations: number;
  readonly joints: readonly {
    readonly joint: JointId;
    readonly verdict: FitVerdict;
    readonly operations: readonly OperationId[];
    readonly sentences: readonly string[];
  }[];
}

/**
 * Judges every part of a slot against its chosen neighbours, with the shop's operations (F2). Parts that the joints cannot tell apart are judged once.
 * What was measured on the part chosen in this very slot speaks for that part alone.
 * @throws when the atlas has no such slot
 */
export const slotOptions = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  slot: SlotId,
  { rates, atMost = 3 }: { readonly rates?: RatesId | Rates; readonly atMost?: number } = {},
): SlotOptions => {
  const number = atlas.slotNumber.get(slot);
  if (number === undefined) throw new Error(`the atlas has no slot ${slot}`);
  const compiled = atlas.slots[number] as CompiledSlot;
  const meeting = atlas.joints.filter(({ a, b }) => a === number || b === number);
  const whole = inHandOf(sheet);
  const others: InHand = new Map([...whole].filter(([feature]) => atlas.features.get(feature)?.slot !== slot));
  const planner = plannerFor(atlas.data.operations ?? [], atMost);
  const read = featuresRead(
    atlas,
    slot,
    meeting.map(({ data: joint }) => joint.id),
  );
  const chosen = sheet.chosen[slot];
  const prices = pricesIn(atlas, rates).of;
  const judged = new Map<string, Judged>();
  const options: SlotOption[] = [];
  const rest = new Map<string, { because: readonly string[]; parts: PartId[] }>();
  for (const part of compiled.parts) {
    atlas.pulse();
    const inHand = part.id === chosen ? whole : others;
    const key = part.id === chosen ? part.id : read.map((feature) => JSON.stringify(part.facts[feature] ?? null)).join();
    let found = judged.get(key);
    if (found === undefined) {
      const joints = meeting.flatMap((each) => {
        const joint = between(atlas, each, (at) => (at === slot ? part : partChosen(atlas, sheet, at)));
        return joint === null ? [] : [{ joint, worked: planner(joint, inHand) }];
      });
      found = { inHand, joints, verdict: worstOf(joints.map(({ worked }) => worked.verdict)) };
      judged.set(key, found);
    }
    if (found.verdict === 'will not fit') {
      const because = reasonsOf(atlas, found, part);
      const group = rest.get(key) ?? { because, parts: [] };
      group.parts.push(part.id);
      rest.set(key, group);
    } else options.push(optionOf(atlas, found, part, found.verdict, prices.get(part.id) ?? null));
  }
  return {
    slot,
    joints: meeting
      .filter(({ a, b }) => partChosen(atlas, sheet, (atlas.slots[a === number ? b : a] as CompiledSlot).data.id) !== undefined)
      .map(({ data: joint }) => joint.id),
    options: options.sort(
      (a, b) =>
        order[a.verdict] - order[b.verdict] ||
        a.hours - b.hours ||
        a.operations - b.operations ||
        (a.price ?? Number.POSITIVE_INFINITY) - (b.price ?? Number.POSITIVE_INFINITY) ||
        0,
    ),
    rest: [...rest.values()].sort((a, b) => b.parts.length - a.parts.length),
  };
};

const order: Readonly<Record<SlotOption['verdict'], number>> = { 'drops in': 0, 'after work': 1, 'not known': 2 };

interface Judged {
  readonly inHand: InHand;
  readonly joints: readonly { readonly joint: BuildJoint; readonly worked: WorkedFit }[];
  readonly verdict: FitVerdict;
}

/** Everything the joints of a slot, and the works that may be done on its parts, read of a part of it. */
const featuresRead = (atlas: CompiledAtlas, slot: SlotId, joints: readonly JointId[]): readonly FeatureId[] => {
  const ofJoints = atlas.joints
    .filter(({ data: joint }) => joints.includes(joint.id))
    .flatMap(({ data: joint }) => joint.rules.flatMap(featuresOf));
  const ofWorks = (atlas.data.operations ?? []).filter((operation) => operation.slot === slot).flatMap(featuresOfOperation);
  return [...new Set([...ofJoints, ...ofWorks])].filter((feature) => atlas.features.get(feature)?.slot === slot);
};

const optionOf = (
  atlas: CompiledAtlas,
  { joints, inHand }: Judged,
  part: Part,
  verdict: SlotOption['verdict'],
  price: number | null,
): SlotOption => {
  const told = joints.map(({ joint, worked }) => {
    const best = worked.fit.verdict === 'drops in' || worked.fit.verdict === 'not known' ? undefined : worked.plans[0];
    const here: BuildJoint = { ...joint, a: joint.slots.a === part.slot ? part : joint.a, b: joint.slots.b === part.slot ? part : joint.b };
    return {
      joint: joint.joint.id,
      verdict: worked.verdict,
      hours: best?.hours ?? 0,
      operations: best?.works.map(({ operation }) => operation) ?? [],
      sentences:
        worked.verdict === 'drops in'
          ? []
          : [
              ...jointSentences(
                atlas,
                worked.fit,
                worked.verdict,
                partsWorked(best?.works ?? [], [here.a, here.b]),
                [here.a, here.b],
                inHand,
              ),
              ...(best?.works ?? []).map((work) =>
                workSentence(
                  atlas,
                  work.part === joint.a.id || work.part === joint.b.id
                    ? { ...work, part: work.slot === part.slot ? part.id : work.part }
                    : work,
                ),
              ),
            ],
    };
  });
  return {
    part: part.id,
    maker: part.maker,
    verdict,
    price,
    hours: told.reduce((sum, { hours }) => sum + hours, 0),
    operations: told.reduce((sum, { operations }) => sum + operations.length, 0),
    joints: told.map(({ hours: _hours, ...each }) => each),
  };
};

/** Why a part will not fit: each joint that fails, with what decides it, and why no operation helps. */
const reasonsOf = (atlas: CompiledAtlas, { joints, inHand }: Judged, part: Part): readonly string[] =>
  joints.flatMap(({ joint, worked }) => {
    if (worked.verdict !== 'will not fit') return [];
    const parts = [joint.slots.a === part.slot ? part : joint.a, joint.slots.b === part.slot ? part : joint.b] as const;
    const [, ...telling] = jointSentences(atlas, worked.fit, worked.verdict, [], parts, inHand);
    const refused = worked.refused.map(({ operation, because }) => {
      const name = atlas.data.operations?.find(({ id }) => id === operation)?.name ?? operation;
      return `${name}: ${refusalPhrase(atlas, because)}.`;
    });
    return [...telling, ...refused];
  });

import type { CompiledAtlas } from '../compile/compiled.ts';
import type { SlotId } from '../ids.ts';
import { list } from './build-words.ts';
import type { ChainPlan, JointPlan, PlannedWork, SlotMark } from './plan.ts';

/** Most pressing first. */
const order: readonly SlotMark[] = ['will not fit', 'not known', 'after work', 'measure and choose', 'drops in'];

/**
 * @param joints those of the slot with both parts chosen
 * @param works all works of the build; what a joint says of its works are places in it
 * @returns null where no joint has both parts, so that there is nothing to mark
 */
export const slotMarkOf = (slot: SlotId, joints: readonly JointPlan[], works: readonly PlannedWork[]): SlotMark | null => {
  if (joints.length === 0) return null;
  const marks = new Set(joints.map(markAt));
  if (works.some((work) => work.slot === slot)) marks.add('after work');
  return order.find((mark) => marks.has(mark)) ?? null;
};

/** What a joint says of a part that is not worked on. */
const markAt = ({ verdict, after }: JointPlan): SlotMark =>
  verdict !== 'after work' ? verdict : after.verdict === 'after work' ? 'measure and choose' : 'drops in';

/** A build that goes together after work, in one sentence for each kind of work: what is done to which part, and which pairs are measured and chosen. */
export const afterWorkSentence = (
  atlas: CompiledAtlas,
  joints: readonly JointPlan[],
  chains: readonly ChainPlan[],
  works: readonly PlannedWork[],
): string => {
  const jointNames = (which: readonly JointPlan[]): string[] =>
    which.map(({ joint }) => atlas.joints.find((each) => each.data.id === joint)?.data.name ?? joint);
  const worked = joints.filter((joint) => joint.verdict === 'after work' && joint.works.length > 0);
  const chosen = [
    ...jointNames(joints.filter((joint) => markAt(joint) === 'measure and choose')),
    ...chains.filter(({ after }) => after.verdict === 'after work').map(({ name }) => name),
  ];
  const slots = atlas.data.slots.filter(({ id }) => works.some(({ slot }) => slot === id)).map(({ name }) => name);
  const operations = works.length === 1 ? 'one operation' : `${works.length} operations`;
  if (works.length === 0) return `It goes together once parts are measured and chosen: ${list(chosen)}.`;
  return [
    `It goes together after ${operations} on the ${list(slots)}: ${list(jointNames(worked))}.`,
    ...(chosen.length === 0 ? [] : [`Parts are then to be measured and chosen: ${list(chosen)}.`]),
  ].join(' ');
};

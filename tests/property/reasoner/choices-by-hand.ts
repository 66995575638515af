import type { Member, PartId, SlotId } from '../../../reasoner/index.ts';
import type { Demand, Question } from '../../oracle/reading.ts';
import { assignments } from './brute-force.ts';

/** Whether some choice meets the members under one of these demands: a name that says only that the unit is one of several has one for each. */
export const someChoiceMeetsAny = (
  question: Question,
  members: readonly Member[],
  demands: readonly Demand[],
  doubtful: readonly SlotId[],
): boolean =>
  demands.some((demand) => {
    // A doubtful slot the name does not care for, or one of an open-ended list, holds the unlisted part and constrains nothing.
    const constrains = (slot: SlotId) =>
      !doubtful.includes(slot) || (demand.allowed.has(slot) && (!demand.open.has(slot) || question.absent.has(slot)));
    const slotOf = new Map(question.observations.map(({ id, slot }) => [id as string, slot]));
    const counts = (member: Member): boolean => {
      switch (member.kind) {
        case 'observation':
          return constrains(slotOf.get(member.observation) as SlotId);
        case 'absent':
          return constrains(member.slot);
        case 'rule':
          return demand.allowed.has(member.slot) && constrains(member.slot);
        case 'joint': {
          const joint = question.joints.find(({ id }) => id === member.joint);
          return joint !== undefined && constrains(joint.a) && constrains(joint.b);
        }
      }
    };
    return someChoiceMeets(question, members.filter(counts), demand);
  });

/**
 * Whether some choice of listed parts meets all these members of a conflict, every choice tried. Only the slots the members
 * speak of are chosen for: any other slot always holds some listed part and breaks nothing.
 */
const someChoiceMeets = (question: Question, members: readonly Member[], { allowed, open }: Demand): boolean => {
  const removed = new Map<SlotId, ((part: PartId) => boolean)[]>();
  const remove = (slot: SlotId, test: (part: PartId) => boolean): void => {
    removed.set(slot, [...(removed.get(slot) ?? []), test]);
  };
  const joints: Question['joints'][number][] = [];
  for (const member of members) {
    switch (member.kind) {
      case 'observation': {
        const seen = question.observations.find((observation) => observation.id === member.observation);
        if (seen === undefined) throw new Error(`no observation ${member.observation} that is not told`);
        remove(seen.slot, (part) => seen.excludes.has(part));
        break;
      }
      case 'absent':
        remove(member.slot, () => true);
        break;
      case 'rule': {
        const parts = allowed.get(member.slot);
        if (parts === undefined) throw new Error(`the name demands nothing of ${member.slot}`);
        const barred = open.get(member.slot);
        remove(member.slot, (part) => !parts.has(part) && barred?.has(part) !== false);
        break;
      }
      case 'joint': {
        const joint = question.joints.find((candidate) => candidate.id === member.joint);
        if (joint === undefined) throw new Error(`no joint ${member.joint}`);
        joints.push(joint);
        for (const slot of [joint.a, joint.b]) removed.set(slot, removed.get(slot) ?? []);
        break;
      }
    }
  }
  const slots = [...removed.keys()];
  const left = slots.map((slot) => (question.parts.get(slot) ?? []).filter((part) => !removed.get(slot)?.some((test) => test(part))));
  for (const values of assignments(left.map((parts) => parts.length))) {
    const at = (slot: SlotId) => left[slots.indexOf(slot)]?.[values[slots.indexOf(slot)] as number];
    if (joints.every((joint) => !joint.fails.some(([p, q]) => p === at(joint.a) && q === at(joint.b)))) return true;
  }
  return false;
};

import type { Conflict, Member, Name } from '../answer/verdict.ts';
import type { JointId, SlotId } from '../ids.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';

/**
 * The conflict graph as data, laid out by us and never by chance: one row for each slot from the compressor side to the
 * turbine side, the entries to its left, the joints that hold it to its neighbours and the name's demands to its right.
 * All lengths are CSS pixels at scale 1. The window and the report on paper are drawn from this one layout; the window takes
 * this file as it is, so it imports nothing but types.
 */
export interface ConflictGraph {
  readonly nodes: readonly GraphNode[];
  readonly edges: readonly GraphEdge[];
  readonly width: number;
  readonly height: number;
}

export type GraphNodeKind = 'slot' | 'observation' | 'absent' | 'joint' | 'rule';

export interface GraphNode {
  readonly id: string;
  readonly kind: GraphNodeKind;
  readonly label: string;
  /** The whole of it in words, for the list beside the graph. */
  readonly words: string;
  /** The slots it belongs to: one, or the two a joint holds together. */
  readonly slots: readonly SlotId[];
  /** Centre. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface GraphEdge {
  readonly id: string;
  readonly source: string;
  readonly target: string;
}

/** What the graph is labelled with. */
export interface GraphWords {
  /** All slots, from the compressor side to the turbine side. */
  readonly slots: readonly { readonly id: SlotId; readonly name: string }[];
  /** The two slots a joint holds together. */
  slotsOf(joint: JointId): readonly SlotId[];
  jointName(joint: JointId): string;
  /** An entry in a few words. */
  entry(observation: Observation): string;
}

/** All slots, so that it always looks the same; or those that some member touches, where room is dear. */
export type GraphRows = 'all' | 'touched';

export const graphColumns = { entries: 89, parts: 248, joints: 326, rules: 498, width: 538 } as const;
const widths: Record<GraphNodeKind, number> = { observation: 174, absent: 174, slot: 114, joint: 15, rule: 76 };
const line = 27;
const rowGap = 9;
/** Room for a joint's name on two lines, and for the eye to tell it from the next. */
const jointGap = 31;

export const slotNode = (slot: SlotId): string => `slot:${slot}`;

/** The node that stands for a member of a conflict. */
export function nodeOf(member: Member): string {
  switch (member.kind) {
    case 'observation':
      return `observation:${member.observation}`;
    case 'absent':
      return `absent:${member.slot}`;
    case 'joint':
      return `joint:${member.joint}`;
    case 'rule':
      return `rule:${member.slot}`;
  }
}

/** Every node a conflict lights: its members and the slots it speaks of. */
export const nodesOf = (conflict: Conflict): ReadonlySet<string> =>
  new Set([...conflict.members.map(nodeOf), ...conflict.slots.map(slotNode)]);

/** The graph of these conflicts: the slots, and the members that occur in any of them. */
export function conflictGraph(
  words: GraphWords,
  sheet: Sheet,
  conflicts: readonly Conflict[],
  name: Name | null,
  rows: GraphRows = 'all',
): ConflictGraph {
  const members = new Map<string, Member>();
  for (const conflict of conflicts) for (const member of conflict.members) members.set(nodeOf(member), member);
  const all = [...members.values()];
  const observations = new Map<string, Observation>(sheet.observations.map((one) => [one.id, one]));
  const slotOf = (member: Member): SlotId | undefined => {
    if (member.kind === 'observation') return observations.get(member.observation)?.slot;
    return member.kind === 'absent' || member.kind === 'rule' ? member.slot : undefined;
  };

  const nodes: GraphNode[] = [];
  const edges: GraphEdge[] = [];
  const rowY = new Map<SlotId, number>();
  const add = (node: Omit<GraphNode, 'width' | 'height'>, height = line - 5) => {
    nodes.push({ ...node, width: widths[node.kind], height });
    if (node.kind !== 'slot') {
      for (const slot of node.slots) edges.push({ id: `${node.id}>${slot}`, source: node.id, target: slotNode(slot) });
    }
  };

  let top = rowGap;
  const touched = new Set(
    all.flatMap((member): readonly (SlotId | undefined)[] => (member.kind === 'joint' ? words.slotsOf(member.joint) : [slotOf(member)])),
  );
  for (const slot of words.slots) {
    if (rows === 'touched' && !touched.has(slot.id)) continue;
    const entries = all.filter((member) => (member.kind === 'observation' || member.kind === 'absent') && slotOf(member) === slot.id);
    const height = Math.max(1, entries.length) * line;
    const y = top + height / 2;
    rowY.set(slot.id, y);
    add({ id: slotNode(slot.id), kind: 'slot', label: slot.name, words: slot.name, slots: [slot.id], x: graphColumns.parts, y });
    entries.forEach((member, index) => {
      const label = entryLabel(words, member, observations);
      add({
        id: nodeOf(member),
        kind: member.kind === 'absent' ? 'absent' : 'observation',
        label,
        words: label,
        slots: [slot.id],
        x: graphColumns.entries,
        y: top + (index + 0.5) * line,
      });
    });
    if (all.some((member) => member.kind === 'rule' && member.slot === slot.id)) {
      add({
        id: `rule:${slot.id}`,
        kind: 'rule',
        label: 'name asks',
        words: `what ${name?.text ?? 'the name'} asks of the ${slot.name}`,
        slots: [slot.id],
        x: graphColumns.rules,
        y,
      });
    }
    top += height + rowGap;
  }

  for (const joint of jointsInOrder(words, all, rowY)) {
    const label = words.jointName(joint.id);
    add(
      { id: `joint:${joint.id}`, kind: 'joint', label, words: `joint: ${label}`, slots: joint.slots, x: graphColumns.joints, y: joint.y },
      widths.joint,
    );
  }
  const lowest = Math.max(0, ...nodes.map((node) => node.y + node.height / 2));
  return { nodes, edges, width: graphColumns.width, height: Math.max(top, lowest + rowGap) };
}

const entryLabel = (words: GraphWords, member: Member, observations: ReadonlyMap<string, Observation>): string => {
  if (member.kind === 'absent') return 'not with the unit';
  if (member.kind !== 'observation') return '';
  const observation = observations.get(member.observation);
  return observation === undefined ? member.observation : words.entry(observation);
};

/** Joints lie half way between their slots, pushed apart where two would fall on one place or on a row's own line. */
function jointsInOrder(words: GraphWords, members: readonly Member[], rowY: ReadonlyMap<SlotId, number>) {
  const spaced: { id: JointId; slots: readonly SlotId[]; y: number }[] = [];
  const placed = members
    .flatMap((member) => (member.kind === 'joint' ? [member.joint] : []))
    .map((id) => {
      const slots = words.slotsOf(id);
      const heights = slots.map((slot) => rowY.get(slot) ?? 0);
      return { id, slots, y: heights.reduce((sum, y) => sum + y, 0) / Math.max(1, heights.length) };
    })
    .sort((a, b) => a.y - b.y || a.id.localeCompare(b.id));
  for (const joint of placed) {
    const above = spaced.at(-1);
    spaced.push(above !== undefined && joint.y - above.y < jointGap ? { ...joint, y: above.y + jointGap } : joint);
  }
  return spaced;
}

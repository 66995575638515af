import type { FitVerdict, JointId, Plan, SlotId } from '../../reasoner/index.ts';
import type { Words } from '../bridge/words.ts';

/** Parts as plates on a ring in the atlas's order, joints as lines between them. Lengths are CSS pixels at scale 1. */
export interface FitGraphData {
  readonly nodes: readonly {
    readonly id: SlotId;
    readonly label: string;
    readonly filled: boolean;
    readonly x: number;
    readonly y: number;
  }[];
  readonly edges: readonly {
    readonly id: JointId;
    /** Its number, on the line and in the list. */
    readonly number: number;
    readonly source: SlotId;
    readonly target: SlotId;
    /** `waits`: a part is not chosen yet. */
    readonly verdict: FitVerdict | 'waits';
    /** How far the line bends towards the middle, so that it passes the plates between its ends. */
    readonly bend: number;
  }[];
  readonly width: number;
  readonly height: number;
}

const width = 560;
const height = 380;
const plate = { width: 122, height: 26 };

export function fitGraph(words: Words, plan: Plan): FitGraphData {
  const slots = words.slots.filter(({ id }) => words.vocabulary.joints.some((joint) => words.slotsOf(joint.id).includes(id)));
  const across = width / 2 - plate.width / 2 - 4;
  const down = height / 2 - plate.height / 2 - 4;
  const nodes = slots.map(({ id, name }, index) => {
    const angle = Math.PI + (2 * Math.PI * index) / Math.max(1, slots.length);
    return {
      id,
      label: name,
      filled: plan.slots.some(({ slot, part }) => slot === id && part !== null),
      x: Math.round(width / 2 + across * Math.cos(angle)),
      y: Math.round(height / 2 + down * Math.sin(angle)),
    };
  });
  const place = (slot: SlotId) => nodes.find(({ id }) => id === slot) ?? { x: 0, y: 0 };
  const edges = words.vocabulary.joints.flatMap(({ id }, index) => {
    const [source, target] = words.slotsOf(id);
    if (source === undefined || target === undefined) return [];
    const judged = plan.joints.find(({ joint }) => joint === id);
    return [
      { id, number: index + 1, source, target, verdict: judged?.verdict ?? ('waits' as const), bend: bendOf(place(source), place(target)) },
    ];
  });
  return { nodes, edges, width, height };
}

interface Point {
  readonly x: number;
  readonly y: number;
}

/** Signed distance of a control point from the middle of the line, towards the middle of the drawing. */
function bendOf(from: Point, to: Point): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const long = Math.hypot(dx, dy) || 1;
  const inward = ((width / 2 - (from.x + to.x) / 2) * -dy + (height / 2 - (from.y + to.y) / 2) * dx) / long;
  return Math.round(inward * 0.45);
}

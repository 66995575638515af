import type { Conflict } from '../answer/verdict.ts';
import { type ConflictGraph, type GraphNode, type GraphNodeKind, nodesOf } from '../why/conflict-graph.ts';

/**
 * The conflict graph as lines, boxes and words, for paper: shape and stroke tell the kinds apart without colour, the first reason is
 * drawn heavier, and every member carries the numbers of the reasons it is part of. Lengths as in the graph.
 */
export interface GraphPicture {
  readonly width: number;
  readonly height: number;
  readonly strokes: readonly Stroke[];
  readonly shapes: readonly Shape[];
}

export interface Stroke {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  readonly dashed: boolean;
  readonly heavy: boolean;
}

export interface Shape {
  readonly kind: GraphNodeKind;
  /** Centre and size. A joint's words stand to the right of its diamond. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly heavy: boolean;
  /** The label on as many lines as it takes; the last ends in … where there was no room for all of it. */
  readonly lines: readonly string[];
  /** `1, 3`: the reasons it is part of; empty for a slot. */
  readonly numbers: string;
}

/** Characters to a line, at two lines at most. */
const room: Record<GraphNodeKind, number> = { slot: 22, observation: 34, absent: 34, joint: 24, rule: 14 };

/** Room for two lines in every box. */
const shapeHeight = 24;

export const graphPicture = (graph: ConflictGraph, conflicts: readonly Conflict[]): GraphPicture => {
  const members = conflicts.map(nodesOf);
  const first = members[0] ?? new Set<string>();
  const byId = new Map(graph.nodes.map((node) => [node.id, node]));
  return {
    width: graph.width,
    height: graph.height,
    strokes: graph.edges.flatMap(({ source, target }): Stroke[] => {
      const [from, to] = [byId.get(source), byId.get(target)];
      if (from === undefined || to === undefined) return [];
      return [{ ...ends(from, to), dashed: from.kind === 'rule', heavy: first.has(source) && first.has(target) }];
    }),
    shapes: graph.nodes.map((node) => ({
      kind: node.kind,
      x: node.x,
      y: node.y,
      width: node.width,
      height: node.kind === 'joint' ? node.height : shapeHeight,
      heavy: first.has(node.id),
      lines: wrapped(node.label, room[node.kind]),
      numbers: node.kind === 'slot' ? '' : numbersOf(node.id, members),
    })),
  };
};

/** An entry meets its slot on the left, joints and demands on the right: no line runs behind a box. */
const ends = (from: GraphNode, to: GraphNode): Pick<Stroke, 'x1' | 'y1' | 'x2' | 'y2'> => {
  switch (from.kind) {
    case 'observation':
    case 'absent':
      return { x1: from.x + from.width / 2, y1: from.y, x2: to.x - to.width / 2, y2: to.y };
    case 'rule':
      return { x1: from.x - from.width / 2, y1: from.y, x2: to.x + to.width / 2, y2: to.y };
    case 'joint':
    case 'slot':
      return { x1: from.x, y1: from.y, x2: to.x + to.width / 2, y2: to.y };
  }
};

const numbersOf = (node: string, members: readonly ReadonlySet<string>[]): string =>
  members.flatMap((nodes, index) => (nodes.has(node) ? [index + 1] : [])).join(', ');

/** A label on two lines at most, broken between words where it can be. */
export const wrapped = (label: string, perLine: number): string[] => {
  if (label.length <= perLine) return [label];
  const space = label.lastIndexOf(' ', perLine);
  const cut = space > perLine / 3 ? space : perLine;
  const rest = label.slice(cut).trim();
  return [label.slice(0, cut), rest.length <= perLine ? rest : `${rest.slice(0, perLine - 1).trimEnd()}…`];
};

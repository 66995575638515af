import type { TreeAnswer } from '../../../../db/answers.ts';
import { asId } from '../../../../reasoner/index.ts';
import { layoutTree } from '../../../../renderer/tree/layoutTree.ts';
import type { LayoutOptions, Overlays, TreeLayout } from '../../../../renderer/tree/treeLayout.ts';
import type { Level } from '../../../../renderer/tree/treeNode.ts';
import { treeNodes } from '../../../../renderer/tree/treeNodes.ts';

/** A family as the trees here are grown from: born in a year, dead in a year, with its parents. */
export interface Grown {
  readonly id: string;
  readonly from: number | null;
  readonly to: number | null;
  readonly parents: readonly string[];
}

/** One maker with these families. */
export const treeOfFamilies = (families: readonly Grown[]): TreeAnswer => ({
  makers: [{ id: asId('maker'), name: 'Maker', tradeNames: [] }],
  families: families.map(({ id, from, to, parents }) => ({
    id: asId(id),
    name: id,
    maker: asId('maker'),
    from,
    to,
    descendsFrom: parents.map((parent) => asId(parent)),
    succeeds: [],
    patternOf: [],
  })),
  generations: [],
  models: [],
  shared: [],
});

const allOn: Overlays = { patterns: true, tradeNames: true, cores: true, housings: true };

export const laidOut = (
  tree: TreeAnswer,
  level: Level = 'families',
  yearWidth: LayoutOptions['yearWidth'] = 11,
  overlays: Overlays = allOn,
): TreeLayout => layoutTree(tree, treeNodes(tree, new Map(), []), { unfolded: { level, byHand: new Map() }, overlays, yearWidth });

/** Numbers from 0 up to 1 from a seed: a linear congruence after Park and Miller (multiplier 48271 modulo 2^31 − 1). */
export const numbersFrom = (seed: number): (() => number) => {
  let state = (seed * 7919 + 1) % 2147483647;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
};

/** A tree in which each new node gets a parent chosen by `parentOf`; children begin within the parent's life or after it, some in the very same year. */
export const grow = (size: number, seed: number, parentOf: (index: number, random: () => number) => number | null): Grown[] => {
  const random = numbersFrom(seed);
  const grown: Grown[] = [];
  for (let index = 0; index < size; index += 1) {
    const parent = parentOf(index, random);
    const from = parent === null ? 1900 + Math.floor(random() * 20) : (grown[parent]?.from ?? 1900) + Math.floor(random() * 14);
    const life = Math.floor(random() * 30);
    grown.push({
      id: `f${String(index).padStart(3, '0')}`,
      from,
      to: random() < 0.15 ? null : from + life,
      parents: parent === null ? [] : [grown[parent]?.id ?? ''],
    });
  }
  return grown;
};

type Segment = readonly [x0: number, y0: number, x1: number, y1: number];

export const segmentsOf = (points: readonly (readonly [number, number])[]): Segment[] =>
  points.slice(1).map((point, index) => [points[index]?.[0] ?? 0, points[index]?.[1] ?? 0, point[0], point[1]]);

/** Where a, b, c turn: positive one way, negative the other, 0 on one line. */
const turn = (ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number =>
  Math.sign((bx - ax) * (cy - ay) - (by - ay) * (cx - ax));

/** Whether two segments cross in a point inside both (the orientation test; M: textbook, e.g. Cormen et al., Introduction to Algorithms, ch. 33). */
export const cross = (a: Segment, b: Segment): boolean =>
  turn(a[0], a[1], a[2], a[3], b[0], b[1]) * turn(a[0], a[1], a[2], a[3], b[2], b[3]) < 0 &&
  turn(b[0], b[1], b[2], b[3], a[0], a[1]) * turn(b[0], b[1], b[2], b[3], a[2], a[3]) < 0;

/** Crossings of a drawing by geometry alone: lines with lines, and lines with the bars of nodes they do not join. */
export const crossingsIn = (layout: Pick<TreeLayout, 'lines' | 'boxes'>): string[] => {
  const found: string[] = [];
  const lines = layout.lines.map((line) => ({ line, segments: segmentsOf(line.points) }));
  lines.forEach(({ line, segments }, index) => {
    for (const other of lines.slice(index + 1)) {
      if (segments.some((one) => other.segments.some((two) => cross(one, two))))
        found.push(`${line.parent} → ${line.child} with ${other.line.parent} → ${other.line.child}`);
    }
    for (const box of layout.boxes) {
      if (box.key === line.parent || box.key === line.child) continue;
      const { x0, x1, y0, y1 } = box;
      const [left, right, top, bottom] = [x0 + 0.01, x1 - 0.01, y0 + 0.01, y1 - 0.01];
      const diagonals: Segment[] = [
        [left, top, right, bottom],
        [left, bottom, right, top],
        // A level or upright line meets one of the two middles too where it misses both diagonals.
        [left, (top + bottom) / 2, right, (top + bottom) / 2],
      ];
      if (segments.some((one) => diagonals.some((two) => cross(one, two)))) found.push(`${line.parent} → ${line.child} over ${box.key}`);
    }
  });
  return found;
};

import { runPath } from './runPath.ts';
import type { Run, Shape } from './shapes.ts';
import type { Connector } from './treeLayout.ts';

export const lineLook = {
  succeeds: { stroke: 'accent', strokeWidth: 2 },
  'descends from': { stroke: 'ink-faint', strokeWidth: 1.25 },
  'pattern of': { stroke: 'open', strokeWidth: 1.25, dash: '5 4' },
} as const;

/** A line from an older node to a younger one. */
export function lineShape(line: Connector): Shape {
  const xs = line.points.map(([x]) => x);
  const ys = line.points.map(([, y]) => y);
  const look = line.time === 'years disagree' ? { stroke: 'out' as const, strokeWidth: 1.5, dash: '2 3' } : lineLook[line.how];
  const run: Run = { points: line.points, radius: 5 };
  return {
    id: `line ${line.how} ${line.parent} ${line.child}`,
    kind: 'path',
    d: runPath(run),
    run,
    reach: { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) },
    ...look,
    ...(line.time === 'not dated' ? { dash: '1 4' } : {}),
    joins: [line.parent, line.child],
  };
}

/** The head of a line, at the younger node. */
export function arrowShape(line: Connector): Shape[] {
  const [before, end] = line.points.slice(-2);
  if (before === undefined || end === undefined) return [];
  const [x, y] = end;
  const [dx, dy] = [Math.sign(x - before[0]), Math.sign(y - before[1])];
  const size = line.how === 'succeeds' ? 5 : 4;
  const corner = (along: number, across: number) => `${x - dx * along - dy * across} ${y - dy * along + dx * across}`;
  return [
    {
      id: `head ${line.how} ${line.parent} ${line.child}`,
      kind: 'path',
      d: `M${x} ${y}L${corner(size, size * 0.7)}L${corner(size, -size * 0.7)}Z`,
      reach: { x0: x - size, x1: x + size, y0: y - size, y1: y + size },
      fill: line.time === 'years disagree' ? 'out' : lineLook[line.how].stroke,
      joins: [line.parent, line.child],
    },
  ];
}

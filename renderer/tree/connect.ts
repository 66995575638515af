import { axisPad, type Box, type Connector, type Point } from './treeLayout.ts';

/**
 * Draws the line just before the younger begins: from the older's rows, or from the end of its life, upright to the younger's row. `nth` sets apart
 * several lines to one node. All of it stays within the year before, so that it meets nothing that begins that year.
 */
export function connect(
  how: Connector['how'],
  parent: Box,
  child: Box,
  nth: number,
  { axisFrom, yearWidth }: { readonly axisFrom: number; readonly yearWidth: number },
): Connector {
  const line = (time: Connector['time'], points: readonly Point[]): Connector => ({
    how,
    parent: parent.key,
    child: child.key,
    time,
    points: points.filter(([x, y], index) => index === 0 || x !== points[index - 1]?.[0] || y !== points[index - 1]?.[1]),
  });
  if (!parent.dated || !child.dated) {
    const lane = axisFrom - axisPad - 8 - 4 * nth;
    return line('not dated', [
      [parent.dated ? parent.x0 : parent.x1, parent.head],
      [lane, parent.head],
      [lane, child.head],
      [child.dated ? child.x0 : child.x1, child.head],
    ]);
  }
  const before = Math.min(Math.min(8, 0.6 * yearWidth) + 3 * nth, 0.9 * yearWidth);
  const x = child.x0 - before;
  if ((parent.node.from ?? 0) > (child.node.from ?? 0)) {
    return line('years disagree', [
      [parent.x0, parent.head],
      [x, parent.head],
      [x, child.head],
      [child.x0, child.head],
    ]);
  }
  const below = child.head > parent.head;
  const edge = below ? parent.y1 : parent.y0;
  if (x <= parent.x0) {
    // Both began in one year: straight from the one to the other, along the edge of whatever began that year too.
    return line('in time', [
      [child.x0, edge],
      [child.x0, below ? child.y0 : child.y1],
    ]);
  }
  if (x <= parent.x1) {
    return line('in time', [
      [x, edge],
      [x, child.head],
      [child.x0, child.head],
    ]);
  }
  return line('in time', [
    [parent.x1, parent.head],
    [x, parent.head],
    [x, child.head],
    [child.x0, child.head],
  ]);
}

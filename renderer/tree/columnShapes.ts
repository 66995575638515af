import { endOfBar } from './barShapes.ts';
import { type Shape, shortened } from './shapes.ts';
import { type SharedColumn, sharedNameWidth, type TreeLayout } from './treeLayout.ts';

/** What is shared: an upright line with a dot in each row that shares it, and its words in a row of their own to the right of all. */
export function columnShapes(layout: TreeLayout, column: SharedColumn, index: number, says: string): Shape[] {
  const { saysAt } = column;
  const ink = column.shared.group === 'core' ? 'stands' : 'ink-soft';
  const [first, last] = [column.dots[0]?.y ?? 0, Math.max(column.dots.at(-1)?.y ?? 0, saysAt)];
  const id = `shared ${column.shared.group} ${column.shared.families.join(' ')} ${index}`;
  const joined = { joins: column.dots.map(({ key }) => key), shares: true };
  const sayX = layout.sharedNamesAt;
  return [
    ...column.dots.map(({ key, y }): Shape => {
      // A name that stands beside its bar stands in the way.
      const box = layout.byKey.get(key);
      const from = Math.min((box === undefined ? layout.axisTo : endOfBar(layout, box)) + 3, column.x);
      return {
        id: `${id} leader ${key}`,
        kind: 'path',
        d: `M${from} ${y}H${column.x}`,
        reach: { x0: from, x1: column.x, y0: y, y1: y },
        stroke: ink,
        dash: '1 4',
        ...joined,
      };
    }),
    {
      id,
      kind: 'path',
      d: `M${column.x} ${first}V${last}M${column.x} ${saysAt}H${sayX - 4}`,
      reach: { x0: column.x, x1: sayX, y0: first, y1: last },
      stroke: ink,
      strokeWidth: 1.25,
      ...joined,
    },
    ...column.dots.map(
      ({ key, y }): Shape =>
        column.shared.group === 'core'
          ? { id: `${id} dot ${key}`, kind: 'dot', x: column.x, y, r: 4, fill: ink, ...joined }
          : { id: `${id} dot ${key}`, kind: 'rect', x: column.x - 3.5, y: y - 3.5, width: 7, height: 7, fill: ink, ...joined },
    ),
    {
      id: `${id} says`,
      kind: 'text',
      x: sayX,
      y: saysAt + 4,
      text: shortened(says, sharedNameWidth - 8, 11.5, 400),
      size: 11.5,
      weight: 400,
      fill: ink,
      halo: 'paper',
    },
  ];
}

import { barShapes, barType, isPattern } from './barShapes.ts';
import { type Shape, shortened } from './shapes.ts';
import { type Box, rowHeight, slotNameWidth, type TreeLayout } from './treeLayout.ts';

/** The ground of a family, behind the lines: its years, and its rows where it is unfolded. */
export function cardShape(box: Box): Shape {
  const pattern = isPattern(box);
  return {
    id: `card ${box.key}`,
    kind: 'rect',
    x: box.x0,
    y: box.y0,
    width: box.x1 - box.x0,
    height: box.y1 - box.y0,
    round: 4,
    fill: 'leaf',
    stroke: box.open ? (pattern ? 'open' : 'line-strong') : 'leaf',
    ...(pattern || !box.dated ? { dash: '4 3' } : {}),
  };
}

/** A node in its own row. */
export function boxShapes(layout: TreeLayout, box: Box): Shape[] {
  switch (box.node.kind) {
    case 'family':
      return barShapes(layout, box, {
        ...barType.family,
        fill: isPattern(box) ? 'open-wash' : 'accent-wash',
        stroke: isPattern(box) ? 'open' : 'accent',
        height: rowHeight.family,
        round: 4,
      });
    case 'generation':
      return barShapes(layout, box, {
        ...barType.generation,
        fill: 'well',
        stroke: 'ink-faint',
        height: rowHeight.generation - 2,
        round: 3,
      });
    case 'model':
      return barShapes(layout, box, {
        ...barType.model,
        fill: 'paper',
        stroke: 'line-strong',
        height: rowHeight.model - 2,
        round: 2,
      });
    case 'slot':
      return slotShapes(box);
    case 'part':
      return partShapes(box);
    case 'maker':
      return [];
  }
}

function slotShapes(box: Box): Shape[] {
  const empty = box.node.children.length === 0;
  return [
    {
      id: `slot ${box.key}`,
      kind: 'text',
      x: box.x0 + slotNameWidth - 8,
      y: box.head + 4,
      text: shortened(box.node.name, slotNameWidth - 12, 11, 400),
      size: 11,
      weight: 400,
      fill: 'ink-soft',
      anchor: 'end',
      halo: 'leaf',
    },
    ...(empty
      ? [
          {
            id: `slot ${box.key} empty`,
            kind: 'text',
            x: box.x0 + slotNameWidth,
            y: box.head + 4,
            text: '–',
            size: 11,
            weight: 400,
            fill: 'ink-faint',
          } as const,
        ]
      : []),
  ];
}

const roleMark = { names: 'ink', option: 'ink-soft', service: 'ink-faint' } as const;

/** A part in its slot's row. A full dot: it names the model; a ring: an option; a faint ring: may be replaced freely. */
function partShapes(box: Box): Shape[] {
  const { key, node } = box;
  const ink = roleMark[node.role ?? 'service'];
  return [
    {
      id: `part ${key}`,
      kind: 'rect',
      x: box.x0,
      y: box.y0 + 1,
      width: box.x1 - box.x0,
      height: box.y1 - box.y0 - 2,
      round: 7,
      fill: 'leaf',
      stroke: 'line',
      node: key,
    },
    { id: `role ${key}`, kind: 'dot', x: box.x0 + 8, y: box.head, r: 2.75, fill: node.role === 'names' ? ink : 'leaf', stroke: ink },
    { id: `name ${key}`, kind: 'text', x: box.x0 + 15, y: box.head + 4, text: node.name, size: 11, weight: 400, fill: 'ink', node: key },
  ];
}

import { type Shape, shortened } from './shapes.ts';
import { type Band, bandTint, type TreeLayout } from './treeLayout.ts';
import { nobody } from './treeNode.ts';

/** The ground of a maker, its trade names with their years, and its families as strokes where it is folded. */
export function bandShapes(layout: TreeLayout, band: Band, index: number): Shape[] {
  const shapes: Shape[] = [];
  if (index % 2 === 1)
    shapes.push({
      id: `band ${band.key}`,
      kind: 'rect',
      x: 0,
      y: band.y0,
      width: layout.width,
      height: band.y1 - band.y0,
      fill: 'well',
      opacity: bandTint,
    });
  band.tradeNames.forEach(({ name, x0, x1 }, place) => {
    const id = `trade ${band.key} ${place}`;
    const y = band.head - 9;
    shapes.push(
      {
        id,
        kind: 'path',
        d: `M${x0 + 1.5} ${y + 4}V${y + 13}H${x1 - 1.5}V${y + 4}`,
        reach: { x0, x1, y0: y, y1: y + 18 },
        stroke: 'line-strong',
      },
      {
        id: `${id} name`,
        kind: 'text',
        x: (x0 + x1) / 2,
        y: y + 12,
        text: shortened(name, x1 - x0 - 14, 11.5, 400),
        size: 11.5,
        weight: 400,
        fill: 'ink-soft',
        anchor: 'middle',
        face: 'title',
        halo: index % 2 === 1 ? 'well' : 'paper',
      },
    );
    // The name changed here: a faint line through the maker's rows says under which name each family was sold.
    if (place > 0)
      shapes.push({
        id: `${id} from`,
        kind: 'path',
        d: `M${x0} ${y + 16}V${band.y1 - 6}`,
        reach: { x0, x1: x0, y0: y, y1: band.y1 },
        stroke: 'line-strong',
        dash: '1 4',
      });
  });
  for (const { key, x0, x1, y } of band.strokes)
    shapes.push({
      id: `stroke ${key}`,
      kind: 'rect',
      x: x0,
      y: y - 1.5,
      width: Math.max(2, x1 - x0),
      height: 3,
      round: 1.5,
      fill: band.key === nobody ? 'open' : 'accent',
      opacity: 0.75,
      node: band.key,
    });
  return shapes;
}

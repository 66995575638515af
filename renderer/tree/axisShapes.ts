import { axisHeight } from './drawing.ts';
import type { Shape } from './shapes.ts';
import { axisPad, gutterWidth, type TreeLayout } from './treeLayout.ts';

const yearsBetween = ({ yearWidth }: TreeLayout): { readonly said: number; readonly ticked: number } =>
  yearWidth >= 34
    ? { said: 1, ticked: 1 }
    : yearWidth >= 15
      ? { said: 5, ticked: 1 }
      : yearWidth >= 5
        ? { said: 10, ticked: 5 }
        : { said: 20, ticked: 10 };

const xOf = (layout: TreeLayout, year: number) => layout.axisFrom + (year - layout.years.first) * layout.yearWidth;

function* yearsBy(layout: TreeLayout, step: number): Generator<number> {
  for (let year = Math.ceil(layout.years.first / step) * step; year <= layout.years.newest; year += step) yield year;
}

/** The years over the drawing. */
export function axisShapes(layout: TreeLayout): Shape[] {
  const { said, ticked } = yearsBetween(layout);
  const shapes: Shape[] = [];
  for (const year of yearsBy(layout, ticked)) {
    const x = xOf(layout, year);
    const isSaid = year % said === 0;
    shapes.push({
      id: `tick ${year}`,
      kind: 'path',
      d: `M${x} ${axisHeight}V${axisHeight - (isSaid ? 7 : 4)}`,
      reach: { x0: x, x1: x, y0: 0, y1: axisHeight },
      stroke: 'line-strong',
    });
    if (isSaid && x + 20 < layout.axisTo)
      shapes.push({
        id: `year ${year}`,
        kind: 'text',
        x,
        y: 16,
        text: String(year),
        size: 12,
        weight: year % 10 === 0 ? 600 : 400,
        fill: year % 10 === 0 ? 'ink' : 'ink-soft',
        anchor: 'middle',
      });
  }
  if (layout.axisFrom > axisPad)
    shapes.push({ id: 'undated', kind: 'text', x: 10, y: 16, text: 'year not known', size: 12, weight: 600, fill: 'ink-soft' });
  return shapes;
}

/** The years through the drawing, and the edge of the gutter for years not known. */
export function gridShapes(layout: TreeLayout): Shape[] {
  const shapes: Shape[] = [];
  for (const year of yearsBy(layout, yearsBetween(layout).said)) {
    const x = xOf(layout, year);
    shapes.push({
      id: `grid ${year}`,
      kind: 'path',
      d: `M${x} 0V${layout.height}`,
      reach: { x0: x, x1: x, y0: 0, y1: layout.height },
      stroke: 'line',
      opacity: 0.75,
    });
  }
  if (layout.axisFrom > axisPad)
    shapes.push({
      id: 'gutter',
      kind: 'path',
      d: `M${gutterWidth} 0V${layout.height}`,
      reach: { x0: gutterWidth, x1: gutterWidth, y0: 0, y1: layout.height },
      stroke: 'line-strong',
      dash: '2 3',
    });
  return shapes;
}

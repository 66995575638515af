import { axisShapes, gridShapes } from './axisShapes.ts';
import { bandShapes } from './bandShapes.ts';
import { boxShapes, cardShape } from './boxShapes.ts';
import { columnShapes } from './columnShapes.ts';
import { axisHeight, type Drawing, type Field, fieldOf, legendHeight, marginWidth } from './drawing.ts';
import { legendSigns, signShapes } from './legendSigns.ts';
import { arrowShape, lineShape } from './lineShapes.ts';
import { marginShapes } from './marginShapes.ts';
import type { Reach, Shape } from './shapes.ts';
import { type Box, type Connector, rowHeight, type SharedColumn, type TreeLayout } from './treeLayout.ts';

/** The tree drawn. What is in the rows of nodes, which are many, is made when they are first looked at, and kept as long as the drawing. */
export function drawTree(layout: TreeLayout, sayShared: (column: SharedColumn) => string): Drawing {
  const signs = legendSigns(layout);
  let end = 4;
  const placed = signs.flatMap(({ sample, text, width }) => {
    const shapes = signShapes(sample, text, end);
    end += width;
    return shapes;
  });
  const axis = axisShapes(layout);
  const margin = layout.bands.flatMap(marginShapes);
  return {
    axis: fieldOf(layout.width, axisHeight, () => axis),
    margin: fieldOf(marginWidth, layout.height, () => margin),
    bands: layout.bands,
    body: bodyOf(layout, sayShared),
    legend: fieldOf(end, legendHeight, () => placed),
    signs: signs.map(({ sample, text, width }) => ({
      ...fieldOf(width - 12, legendHeight, () => signShapes(sample, text, 0)),
      text,
    })),
  };
}

function bodyOf(layout: TreeLayout, sayShared: (column: SharedColumn) => string): Field {
  const isWithin = (line: Connector): boolean => layout.byKey.get(line.child)?.node.kind === 'generation';
  const ground = [
    ...layout.bands.flatMap((band, index) => bandShapes(layout, band, index)),
    ...gridShapes(layout),
    // Lines between families run behind the families they pass; those within one, over its ground.
    ...layout.lines.filter((line) => !isWithin(line)).map(lineShape),
    ...layout.boxes.filter(({ node }) => node.kind === 'family').map(cardShape),
    ...layout.lines.filter(isWithin).map(lineShape),
  ];
  const above = [
    ...layout.lines.flatMap(arrowShape),
    ...layout.columns.flatMap((column, index) => columnShapes(layout, column, index, sayShared(column))),
  ];
  const rows = new Map<Box, readonly Shape[]>();
  const rowOf = (box: Box): readonly Shape[] => {
    const shapes =
      rows.get(box) ?? [box, ...(box.node.kind === 'slot' ? layout.partsIn(box) : [])].flatMap((one) => boxShapes(layout, one));
    rows.set(box, shapes);
    return shapes;
  };
  // A row's shapes stay within half a bar's height of its head, and half a letter's.
  const isNear = ({ head }: Box, { y0, y1 }: Reach) => head + rowHeight.band >= y0 && head - rowHeight.band <= y1;
  return fieldOf(layout.width, layout.height, (part) => [
    ...ground,
    ...layout.boxes.filter((box) => isNear(box, part)).flatMap(rowOf),
    ...above,
  ]);
}

import { axisHeight, type Drawing, legendHeight, marginWidth } from './drawing.ts';
import { marginShapes } from './marginShapes.ts';
import { Piece } from './Piece.tsx';
import { footHeight, type PaperPlan, sheetSize } from './paperPlan.ts';
import { ShapeView } from './ShapeView.tsx';
import type { Tile } from './tiles.ts';
import { rowHeight } from './treeLayout.ts';

/** The drawing for paper, sheet by sheet, each with its years, its makers and what its signs mean. */
export function TreePaper({ drawing, plan, title }: { readonly drawing: Drawing; readonly plan: PaperPlan; readonly title: string }) {
  const { paper, stand, tiles } = plan;
  return (
    <div className={`tree-paper is-${paper.toLowerCase()}-${stand}`} data-paper={paper} data-stand={stand}>
      {tiles.map((tile) => (
        <Sheet key={`${tile.row} ${tile.column}`} drawing={drawing} plan={plan} tile={tile} says={saysOf(tile, tiles, title)} />
      ))}
    </div>
  );
}

/** Of a letter of the text face, at most, on the average of a line and as a share of its size. */
const letterWidth = 0.55;

const saysOf = (tile: Tile, tiles: readonly Tile[], title: string): string =>
  tiles.length === 1
    ? title
    : `${title} · sheet ${tiles.indexOf(tile) + 1} of ${tiles.length}: row ${tile.row + 1}, column ${tile.column + 1}`;

function Sheet({
  drawing,
  plan,
  tile,
  says,
}: {
  readonly drawing: Drawing;
  readonly plan: PaperPlan;
  readonly tile: Tile;
  readonly says: string;
}) {
  const { mm, px } = sheetSize(plan.paper, plan.stand);
  const across = tile.x1 - tile.x0;
  const down = tile.y1 - tile.y0;
  // One sheet alone may be larger; sheets that belong together are all of one scale.
  const alone = plan.tiles.length === 1;
  const width = alone ? Math.max(marginWidth + across, drawing.legend.width) : px.width;
  const height = alone ? axisHeight + down + footHeight : px.height;
  return (
    <section className="tree-sheet" aria-label={says}>
      <svg
        viewBox={`0 0 ${width} ${height}`}
        preserveAspectRatio="xMidYMin meet"
        style={{ width: `${mm.width}mm`, height: `${mm.height}mm` }}
        role="img"
        aria-label={says}
      >
        <Piece field={drawing.axis} at={[marginWidth, 0]} view={[tile.x0, 0, across, axisHeight]} />
        <Piece field={drawing.margin} at={[0, axisHeight]} view={[0, tile.y0, marginWidth, down]} />
        <g transform={`translate(0 ${axisHeight - tile.y0})`}>
          {carriedOver(plan, tile).map((shape) => (
            <ShapeView key={shape.id} shape={shape} state="" />
          ))}
        </g>
        <Piece field={drawing.body} at={[marginWidth, axisHeight]} view={[tile.x0, tile.y0, across, down]} />
        <Piece field={drawing.legend} at={[0, axisHeight + down]} view={[0, 0, drawing.legend.width, legendHeight]} />
        <text
          x={4}
          y={axisHeight + down + legendHeight + 12}
          fontSize={Math.min(11, (width - 8) / (letterWidth * says.length))}
          fill="var(--ink-soft)"
        >
          {says}
        </text>
      </svg>
    </section>
  );
}

/** A maker whose rows go on from the sheet before is named again. */
const carriedOver = ({ layout }: PaperPlan, { y0, y1 }: Tile) =>
  layout.bands
    .filter((band) => band.y0 < y0 && band.y1 > y0 + rowHeight.band && y1 > y0 + rowHeight.band)
    .flatMap((band) => marginShapes({ ...band, head: y0 + rowHeight.band / 2 + 2 }).filter(({ node }) => node !== undefined));

import { axisHeight, type Drawing, legendHeight, marginWidth } from './drawing.ts';
import { Piece } from './Piece.tsx';
import { type Tile, tilesOf } from './tiles.ts';
import type { TreeLayout } from './treeLayout.ts';

export type PaperPlan = 'one page' | 'tiles';

/** Room on A4 lying down inside its margins, in px of the drawing: letters come out at 85 in the hundred of their size in the window. */
const tileSize = { width: 1185, height: 740 };

/** The drawing for paper: whole on one page, standing or lying as its shape asks, or tiles that each carry their years and makers. */
export function TreePaper({
  drawing,
  layout,
  plan,
  title,
}: {
  readonly drawing: Drawing;
  readonly layout: TreeLayout;
  readonly plan: PaperPlan;
  readonly title: string;
}) {
  const whole: Tile = { x0: 0, x1: drawing.body.width, y0: 0, y1: drawing.body.height, row: 0, column: 0 };
  const tiles =
    plan === 'one page' ? [whole] : tilesOf(layout, tileSize.width - marginWidth, tileSize.height - axisHeight - legendHeight - 16);
  const tall = plan === 'one page' && drawing.body.height > drawing.body.width;
  return (
    <div className={`tree-paper ${tall ? 'is-tall' : ''}`} data-plan={plan}>
      {tiles.map((tile) => (
        <Sheet
          key={`${tile.row} ${tile.column}`}
          drawing={drawing}
          tile={tile}
          fixed={plan === 'tiles'}
          says={saysOf(tile, tiles, title)}
        />
      ))}
    </div>
  );
}

const saysOf = (tile: Tile, tiles: readonly Tile[], title: string): string =>
  tiles.length === 1
    ? title
    : `${title} · sheet ${tiles.indexOf(tile) + 1} of ${tiles.length}: row ${tile.row + 1}, column ${tile.column + 1}`;

function Sheet({
  drawing,
  tile,
  fixed,
  says,
}: {
  readonly drawing: Drawing;
  readonly tile: Tile;
  readonly fixed: boolean;
  readonly says: string;
}) {
  const width = fixed ? tileSize.width : marginWidth + (tile.x1 - tile.x0);
  const height = fixed ? tileSize.height : axisHeight + (tile.y1 - tile.y0) + legendHeight + 16;
  const across = tile.x1 - tile.x0;
  const down = tile.y1 - tile.y0;
  return (
    <section className="tree-sheet" aria-label={says}>
      <svg viewBox={`0 0 ${width} ${height}`} preserveAspectRatio="xMidYMin meet" role="img" aria-label={says}>
        <Piece field={drawing.axis} at={[marginWidth, 0]} view={[tile.x0, 0, across, axisHeight]} />
        <Piece field={drawing.margin} at={[0, axisHeight]} view={[0, tile.y0, marginWidth, down]} />
        <Piece field={drawing.body} at={[marginWidth, axisHeight]} view={[tile.x0, tile.y0, across, down]} />
        <Piece field={drawing.legend} at={[0, axisHeight + down]} view={[0, 0, drawing.legend.width, legendHeight]} />
        <text x={4} y={axisHeight + down + legendHeight + 12} fontSize={11} fill="var(--ink-soft)">
          {says}
        </text>
      </svg>
    </section>
  );
}

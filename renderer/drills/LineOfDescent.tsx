import { useMemo } from 'react';
import type { LinePlace } from '../../reasoner/index.ts';
import { latest, useAsk } from '../bridge/useAsk.ts';
import { TroubleNote } from '../look/TroubleNote.tsx';
import { axisHeight, marginWidth } from '../tree/drawing.ts';
import { drawTree } from '../tree/drawTree.ts';
import { Piece } from '../tree/Piece.tsx';
import { askedKeys, layoutOfLine, sayLine } from './lineOfDescent.ts';

/** Wide enough for the pane of an explanation; the drawing is set to whatever room there is. */
const width = 540;

/** The line of descent drawn as the family tree draws it, cut to what it runs through; what was asked stands out. */
export function LineOfDescent({ line }: { readonly line: readonly LinePlace[] }) {
  const asked = useAsk('tree.atlas', {});
  const tree = latest(asked);
  const drawn = useMemo(() => {
    if (tree === null) return null;
    const layout = layoutOfLine(tree, line, width - marginWidth);
    return { layout, drawing: drawTree(layout, () => ''), keys: askedKeys(line) };
  }, [tree, line]);
  if (asked.state === 'trouble') return <TroubleNote lead="The line could not be drawn." trouble={asked.trouble} />;
  if (drawn === null) return null;
  const { layout, drawing, keys } = drawn;
  const { body } = drawing;
  const height = axisHeight + body.height;
  return (
    <figure className="descent-line">
      <svg viewBox={`0 0 ${marginWidth + body.width} ${height}`} role="img" aria-label={`Line of descent: ${sayLine(layout)}`}>
        <Piece field={drawing.axis} at={[marginWidth, 0]} view={[0, 0, body.width, axisHeight]} />
        <Piece field={drawing.margin} at={[0, axisHeight]} view={[0, 0, marginWidth, body.height]} />
        <Piece
          field={body}
          at={[marginWidth, axisHeight]}
          view={[0, 0, body.width, body.height]}
          stateOf={({ node }) => (node !== undefined && keys.has(node) ? 'is-asked' : '')}
        />
      </svg>
      <figcaption className="small soft">
        By maker and year; what was asked is outlined. Full line: succeeds or descends. Dashed: a pattern.
      </figcaption>
    </figure>
  );
}

import type { Field } from './drawing.ts';
import { ShapeView } from './ShapeView.tsx';
import type { Shape } from './shapes.ts';

type Place = readonly [x: number, y: number, width: number, height: number];

/** A field cut to what is seen of it, at its place on the sheet. */
export function Piece({
  field,
  at,
  view,
  stateOf = () => '',
}: {
  readonly field: Field;
  readonly at: readonly [number, number];
  readonly view: Place;
  readonly stateOf?: (shape: Shape) => string;
}) {
  const [x, y, width, height] = view;
  return (
    <svg x={at[0]} y={at[1]} width={width} height={height} viewBox={view.join(' ')} overflow="hidden" aria-hidden="true">
      {field.shapesIn({ x0: x, x1: x + width, y0: y, y1: y + height }).map((shape) => (
        <ShapeView key={shape.id} shape={shape} state={stateOf(shape)} />
      ))}
    </svg>
  );
}

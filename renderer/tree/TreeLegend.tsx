import { type Drawing, everywhere } from './drawing.ts';
import { ShapeView } from './ShapeView.tsx';

/** What the signs of the drawing mean. */
export function TreeLegend({ drawing: { signs } }: { readonly drawing: Drawing }) {
  return (
    <ul className="tree-legend" aria-label="Signs of the drawing">
      {signs.map((sign) => (
        <li key={sign.text}>
          <svg width={sign.width} height={sign.height} role="img" aria-label={sign.text}>
            {sign.shapesIn(everywhere).map((shape) => (
              <ShapeView key={shape.id} shape={shape} state="" />
            ))}
          </svg>
        </li>
      ))}
    </ul>
  );
}

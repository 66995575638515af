import type { FeatureId } from '../../reasoner/index.ts';
import { pathOf, type Scene, type Shape, tidy } from './scene.ts';
import './drawings.css';

/** Height of a drawing's letters on screen, px. */
const letterPixels = 11.5;

/**
 * A scene as SVG. Every shape that stands for a feature carries its id; those of `asked` are brought forward.
 * @param bare without words and figures, for who is to find them out; the description is left out with them
 */
export function SceneView({
  scene,
  asked = null,
  bare = false,
}: {
  readonly scene: Scene;
  readonly asked?: FeatureId | null;
  readonly bare?: boolean;
}) {
  const { x, y, width, height } = scene.box;
  const scale = letterPixels / scene.letter;
  return (
    <svg
      className="scene"
      role="img"
      aria-label={bare ? scene.title : scene.says}
      viewBox={[x, y, width, height].map(tidy).join(' ')}
      width={Math.round(width * scale)}
      height={Math.round(height * scale)}
    >
      {scene.shapes.map((shape, i) =>
        bare && (shape.kind === 'text' || ['dimension', 'arrow'].includes(shape.look)) ? null : (
          // Shapes have no life of their own; their order is the drawing.
          // biome-ignore lint/suspicious/noArrayIndexKey: see above
          <Drawn key={i} shape={shape} letter={scene.letter} asked={asked !== null && shape.feature === asked} />
        ),
      )}
    </svg>
  );
}

function Drawn({ shape, letter, asked }: { readonly shape: Shape; readonly letter: number; readonly asked: boolean }) {
  const common = { className: `is-${shape.look}${asked ? ' is-asked' : ''}`, 'data-feature': shape.feature };
  switch (shape.kind) {
    case 'line':
      return <line {...common} x1={tidy(shape.from[0])} y1={tidy(shape.from[1])} x2={tidy(shape.to[0])} y2={tidy(shape.to[1])} />;
    case 'circle':
      return <circle {...common} cx={tidy(shape.at[0])} cy={tidy(shape.at[1])} r={tidy(shape.radius)} />;
    case 'path':
      return <path {...common} d={pathOf(shape.start, shape.steps, shape.closed)} />;
    case 'text':
      return (
        <text {...common} x={tidy(shape.at[0])} y={tidy(shape.at[1])} textAnchor={shape.anchor} fontSize={tidy(letter)}>
          {shape.text}
        </text>
      );
  }
}

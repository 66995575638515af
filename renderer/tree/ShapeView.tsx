import { memo } from 'react';
import type { Shape } from './shapes.ts';

const inkOf = (ink: string | undefined): string => (ink === undefined ? 'none' : `var(--${ink})`);

/** One shape of a drawing in the window. Colours are the window's own, so that they change with it. */
export const ShapeView = memo(function ShapeView({ shape, state }: { readonly shape: Shape; readonly state: string }) {
  const common = {
    'data-node': shape.node,
    className: state === '' ? undefined : state,
    opacity: shape.opacity,
  };
  switch (shape.kind) {
    case 'rect':
      return (
        <rect
          {...common}
          x={shape.x}
          y={shape.y}
          width={shape.width}
          height={shape.height}
          rx={shape.round}
          fill={inkOf(shape.fill)}
          stroke={inkOf(shape.stroke)}
          strokeWidth={shape.strokeWidth}
          strokeDasharray={shape.dash}
        />
      );
    case 'path':
      return (
        <path
          {...common}
          d={shape.d}
          fill={inkOf(shape.fill)}
          stroke={inkOf(shape.stroke)}
          strokeWidth={shape.strokeWidth}
          strokeDasharray={shape.dash}
          strokeDashoffset={shape.dashFrom}
        />
      );
    case 'dot':
      return <circle {...common} cx={shape.x} cy={shape.y} r={shape.r} fill={inkOf(shape.fill)} stroke={inkOf(shape.stroke)} />;
    case 'text':
      return (
        <text
          {...common}
          x={shape.x}
          y={shape.y}
          fontSize={shape.size}
          fontWeight={shape.weight}
          fontFamily={shape.face === 'title' ? 'var(--title)' : undefined}
          fill={inkOf(shape.fill)}
          textAnchor={shape.anchor}
          stroke={shape.halo === undefined ? undefined : inkOf(shape.halo)}
          strokeWidth={shape.halo === undefined ? undefined : 3}
          paintOrder={shape.halo === undefined ? undefined : 'stroke'}
          strokeLinejoin={shape.halo === undefined ? undefined : 'round'}
          transform={shape.upright ? `rotate(-90 ${shape.x} ${shape.y})` : undefined}
        >
          {shape.text}
        </text>
      );
  }
});

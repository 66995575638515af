import type { GraphPicture, Shape } from '../../reasoner/index.ts';

/** The reasons against a name in strokes and shapes alone, as they are in the PDF. The list above it says the same in words. */
export function ReasonsDrawn({ picture }: { readonly picture: GraphPicture }) {
  return (
    <svg className="reasons-drawn" viewBox={`0 0 ${picture.width} ${picture.height}`} role="img" aria-label="The numbered reasons, drawn">
      {picture.strokes.map(({ x1, y1, x2, y2, dashed, heavy }) => (
        <line
          key={`${x1} ${y1} ${x2} ${y2}`}
          className={classOf('stroke', { 'is-dashed': dashed, 'is-heavy': heavy })}
          x1={x1}
          y1={y1}
          x2={x2}
          y2={y2}
        />
      ))}
      {picture.shapes.map((shape) => (
        <g key={`${shape.kind} ${shape.x} ${shape.y}`}>
          <Outline shape={shape} />
          <Words shape={shape} />
        </g>
      ))}
    </svg>
  );
}

const classOf = (always: string, when: Readonly<Record<string, boolean>>): string =>
  [always, ...Object.keys(when).filter((name) => when[name])].join(' ');

function Outline({ shape: { kind, x, y, width, height, heavy } }: { readonly shape: Shape }) {
  const look = classOf(`shape is-${kind}`, { 'is-heavy': heavy });
  const [left, top, right, bottom] = [x - width / 2, y - height / 2, x + width / 2, y + height / 2];
  const cut = 5;
  switch (kind) {
    case 'slot':
      return <rect className={look} x={left} y={top} width={width} height={height} rx={5} />;
    case 'observation':
    case 'absent':
      return <rect className={look} x={left} y={top} width={width} height={height} />;
    case 'joint':
      return <polygon className={look} points={`${x},${top} ${right},${y} ${x},${bottom} ${left},${y}`} />;
    case 'rule':
      return (
        <polygon
          className={look}
          points={`${left + cut},${top} ${right - cut},${top} ${right},${top + cut} ${right},${bottom - cut} ${right - cut},${bottom} ${left + cut},${bottom} ${left},${bottom - cut} ${left},${top + cut}`}
        />
      );
  }
}

const leading = 10.6;

function Words({ shape: { kind, x, y, width, lines, numbers } }: { readonly shape: Shape }) {
  switch (kind) {
    case 'joint': {
      const said = numbers === '' ? lines : [...lines.slice(0, -1), `${lines.at(-1)} (${numbers})`];
      return <Lines lines={said} x={x + width / 2 + 4} y={y} anchor="start" look="small-words" />;
    }
    case 'rule':
      return (
        <>
          <Lines lines={lines} x={x} y={y - leading / 2} anchor="middle" look="small-words" />
          <Lines lines={[numbers]} x={x} y={y + leading / 2} anchor="middle" look="small-words strong-words" />
        </>
      );
    case 'slot':
      return <Lines lines={lines} x={x} y={y} anchor="middle" look="strong-words" />;
    case 'observation':
    case 'absent': {
      const room = numbers === '' ? 0 : Math.min(60, 10 + numbers.length * 4.8);
      return (
        <>
          <Lines lines={[numbers]} x={x - width / 2 + 5} y={y} anchor="start" look="strong-words" />
          <Lines lines={lines} x={x + room / 2} y={y} anchor="middle" look="" />
        </>
      );
    }
  }
}

interface LinesProps {
  readonly lines: readonly string[];
  readonly x: number;
  /** The middle of all the lines together. */
  readonly y: number;
  readonly anchor: 'start' | 'middle';
  readonly look: string;
}

function Lines({ lines, x, y, anchor, look }: LinesProps) {
  return lines.map((line, i) => (
    <text key={line} className={look} x={x} y={y + (i - (lines.length - 1) / 2) * leading + 3.2} textAnchor={anchor}>
      {line}
    </text>
  ));
}

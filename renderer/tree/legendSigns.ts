import { lineLook } from './lineShapes.ts';
import { type Shape, widthOf } from './shapes.ts';
import type { TreeLayout } from './treeLayout.ts';

/** One sign of the legend: a sample of it, drawn from `x` on, and what it means. */
export interface Sign {
  readonly sample: (x: number) => Shape[];
  readonly text: string;
  readonly width: number;
}

export const signShapes = (sample: Sign['sample'], text: string, x: number): Shape[] => [
  ...sample(x),
  { id: `legend ${text}`, kind: 'text', x: x + 30, y: 17, text, size: 11.5, weight: 400, fill: 'ink-soft' },
];

/** What the signs of this drawing mean; only of those that it holds, but for the commonest. */
export function legendSigns(layout: TreeLayout): Sign[] {
  const signs: Sign[] = [];
  const entry = (sample: Sign['sample'], text: string) => signs.push({ sample, text, width: 30 + widthOf(text, 11.5, 400) + 18 });
  const stroke =
    (id: keyof typeof lineLook) =>
    (at: number): Shape[] => {
      const { stroke: ink, ...rest } = lineLook[id];
      return [
        {
          id: `legend line ${id}`,
          kind: 'path',
          d: `M${at} 13H${at + 19}`,
          reach: { x0: at, x1: at + 24, y0: 9, y1: 17 },
          stroke: ink,
          ...rest,
        },
        {
          id: `legend head ${id}`,
          kind: 'path',
          d: `M${at + 24} 13L${at + 19} 16.5L${at + 19} 9.5Z`,
          reach: { x0: at, x1: at + 24, y0: 9, y1: 17 },
          fill: ink,
        },
      ];
    };
  entry(stroke('succeeds'), 'succeeds');
  entry(stroke('descends from'), 'descends from');
  if (layout.lines.some(({ how }) => how === 'pattern of')) entry(stroke('pattern of'), 'pattern of');
  entry(
    (at) =>
      [0, 1, 2, 3].map((step) => ({
        id: `legend open ${step}`,
        kind: 'rect',
        x: at + step * 6,
        y: 7,
        width: 4,
        height: 12,
        fill: 'accent-wash',
        stroke: 'accent',
        opacity: 0.95 - step * 0.22,
      })),
    'to today, or end not known',
  );
  if (layout.lines.some(({ time }) => time === 'not dated') || layout.boxes.some(({ dated }) => !dated))
    entry(
      (at) => [
        {
          id: 'legend undated bar',
          kind: 'rect',
          x: at,
          y: 7,
          width: 24,
          height: 12,
          round: 3,
          fill: 'accent-wash',
          stroke: 'accent',
          dash: '4 3',
        },
      ],
      'year not known: stands at no year',
    );
  if (layout.lines.some(({ time }) => time === 'years disagree'))
    entry(
      (at) => [
        {
          id: 'legend disagree line',
          kind: 'path',
          d: `M${at} 13H${at + 24}`,
          reach: { x0: at, x1: at + 24, y0: 9, y1: 17 },
          stroke: 'out',
          dash: '2 3',
        },
      ],
      'years disagree: the younger is said to have begun first',
    );
  if (layout.columns.some(({ shared }) => shared.group === 'core'))
    entry((at) => [{ id: 'legend core dot', kind: 'dot', x: at + 12, y: 13, r: 4, fill: 'stands' }], 'shared core parts');
  if (layout.columns.some(({ shared }) => shared.group === 'housing'))
    entry((at) => [{ id: 'legend housing dot', kind: 'rect', x: at + 8, y: 9, width: 7, height: 7, fill: 'ink-soft' }], 'shared housings');
  return signs;
}

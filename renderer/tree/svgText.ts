import { axisHeight, type Drawing, everywhere, legendHeight, marginWidth } from './drawing.ts';
import type { Ink, Shape } from './shapes.ts';

export type Palette = (ink: Ink) => string;
export interface Faces {
  readonly text: string;
  readonly title: string;
}

const foot = 16;

/** The fields of a drawing put together: each with where it stands. */
export function assembled(drawing: Drawing): {
  readonly width: number;
  readonly height: number;
  readonly fields: readonly { readonly shapes: readonly Shape[]; readonly x: number; readonly y: number }[];
} {
  const { axis, margin, body, legend } = drawing;
  return {
    width: Math.max(marginWidth + body.width, legend.width),
    height: axisHeight + body.height + legendHeight + foot,
    fields: [
      { shapes: body.shapesIn(everywhere), x: marginWidth, y: axisHeight },
      { shapes: margin.shapesIn(everywhere), x: 0, y: axisHeight },
      { shapes: axis.shapesIn(everywhere), x: marginWidth, y: 0 },
      { shapes: legend.shapesIn(everywhere), x: 8, y: axisHeight + body.height },
    ],
  };
}

/** The whole drawing as the text of an SVG file that stands on its own: colours written out, no style sheet, no script. */
export function svgText(drawing: Drawing, palette: Palette, faces: Faces, title: string): string {
  const { width, height, fields } = assembled(drawing);
  const shapes = fields.map(
    ({ shapes: own, x, y }) =>
      `<g transform="translate(${x} ${y})">\n${own.map((shape) => shapeText(shape, palette, faces)).join('\n')}\n</g>`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${round(width)}" height="${round(height)}" viewBox="0 0 ${round(width)} ${round(height)}" font-family="${escaped(faces.text)}">
<title>${escaped(title)}</title>
<rect width="100%" height="100%" fill="${palette('paper')}"/>
${shapes.join('\n')}
<text x="12" y="${round(height - 6)}" font-size="11" fill="${palette('ink-soft')}">${escaped(title)}</text>
</svg>
`;
}

const round = (value: number): number => Math.round(value * 100) / 100;
const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

function shapeText(shape: Shape, palette: Palette, faces: Faces): string {
  const of = (ink: Ink | undefined) => (ink === undefined ? 'none' : palette(ink));
  const attributes = (own: Readonly<Record<string, string | number | undefined>>): string =>
    Object.entries({ ...own, opacity: shape.opacity })
      .filter(([, value]) => value !== undefined)
      .map(([name, value]) => ` ${name}="${typeof value === 'number' ? round(value) : escaped(String(value))}"`)
      .join('');
  switch (shape.kind) {
    case 'rect':
      return `<rect${attributes({ x: shape.x, y: shape.y, width: shape.width, height: shape.height, rx: shape.round, fill: of(shape.fill), stroke: of(shape.stroke), 'stroke-width': shape.strokeWidth, 'stroke-dasharray': shape.dash })}/>`;
    case 'path':
      return `<path${attributes({ d: shape.d, fill: of(shape.fill), stroke: of(shape.stroke), 'stroke-width': shape.strokeWidth, 'stroke-dasharray': shape.dash })}/>`;
    case 'dot':
      return `<circle${attributes({ cx: shape.x, cy: shape.y, r: shape.r, fill: of(shape.fill), stroke: of(shape.stroke) })}/>`;
    case 'text': {
      const halo =
        shape.halo === undefined ? {} : { stroke: of(shape.halo), 'stroke-width': 3, 'paint-order': 'stroke', 'stroke-linejoin': 'round' };
      return `<text${attributes({
        x: shape.x,
        y: shape.y,
        'font-size': shape.size,
        'font-weight': shape.weight,
        'font-family': shape.face === 'title' ? faces.title : undefined,
        fill: of(shape.fill),
        'text-anchor': shape.anchor,
        transform: shape.upright ? `rotate(-90 ${round(shape.x)} ${round(shape.y)})` : undefined,
        ...halo,
      })}>${escaped(shape.text)}</text>`;
    }
  }
}

import { reachOf, type Shape, shortened, widthOf } from './shapes.ts';
import { type Box, bandTint, gutterWidth, type TreeLayout } from './treeLayout.ts';

export const isPattern = (box: Box): boolean => box.node.lines.includes('made to the pattern of');

interface BarType {
  readonly size: number;
  readonly weight: number;
}

/** The letters of each kind of bar. */
export const barType = {
  family: { size: 13, weight: 620 },
  generation: { size: 12, weight: 560 },
  model: { size: 11.5, weight: 400 },
} as const satisfies Record<string, BarType>;

interface BarLook extends BarType {
  readonly fill: 'accent-wash' | 'open-wash' | 'well' | 'paper';
  readonly stroke: 'accent' | 'open' | 'ink-faint' | 'line-strong';
  readonly height: number;
  readonly round: number;
}

/** A bar over its years with its name in it, or beside it where the bar is too short. What is open fades out in steps; what is not dated is dashed. */
export function barShapes(layout: TreeLayout, box: Box, look: BarLook): Shape[] {
  const { key, node } = box;
  const pattern = isPattern(box);
  const y = box.head - look.height / 2;
  const fade = box.openEnd ? Math.min(4 * 6, (box.x1 - box.x0) / 2) : 0;
  const solid = box.x1 - fade;
  const dash = pattern || !box.dated ? { dash: '4 3' } : {};
  const shapes: Shape[] = [];
  if (!box.openEnd)
    shapes.push({
      id: `bar ${key}`,
      kind: 'rect',
      x: box.x0 + 0.5,
      y: y + 0.5,
      width: Math.max(2, solid - box.x0 - 1),
      height: look.height - 1,
      round: look.round,
      fill: look.fill,
      stroke: look.stroke,
      node: key,
      ...dash,
    });
  else {
    const [left, right, top, bottom, r] = [box.x0 + 0.5, solid, y + 0.5, y + look.height - 0.5, look.round];
    const reach = { x0: left, x1: box.x1, y0: top, y1: bottom };
    shapes.push(
      {
        id: `bar ${key}`,
        kind: 'path',
        d: `M${right} ${top}H${left + r}Q${left} ${top} ${left} ${top + r}V${bottom - r}Q${left} ${bottom} ${left + r} ${bottom}H${right}`,
        reach,
        fill: look.fill,
        stroke: look.stroke,
        node: key,
        ...dash,
      },
      ...[0, 1, 2, 3].map(
        (step): Shape => ({
          id: `bar ${key} open ${step}`,
          kind: 'rect',
          x: solid + (step * fade) / 4,
          y: top,
          width: fade / 4 - 2,
          height: bottom - top,
          fill: look.fill,
          opacity: 0.85 - step * 0.2,
        }),
      ),
      {
        id: `bar ${key} open edge`,
        kind: 'path',
        d: `M${solid} ${top}H${box.x1 - 2}M${solid} ${bottom}H${box.x1 - 2}`,
        reach,
        stroke: look.stroke,
        dash: '2 3',
        node: key,
      },
    );
  }
  const baseline = box.head + look.size * 0.35;
  const name = nameShape(layout, box, look, baseline);
  shapes.push(...groundOf(layout, box, name), name);
  return [...shapes, ...yearShapes(box, look, solid - box.x0 - 14 - widthOf(node.name, look.size, look.weight), baseline, solid)];
}

/** The name of a bar: in it, or beside it where the bar is too short. */
function nameShape(layout: TreeLayout, box: Box, look: BarType, baseline: number): Extract<Shape, { kind: 'text' }> {
  const { key, node } = box;
  // What is open fades out under its name, which stays legible there.
  const inside = box.x1 - box.x0 - (node.kind === 'family' ? 14 : 10);
  const fits = widthOf(node.name, look.size, look.weight) <= inside;
  const name: Extract<Shape, { kind: 'text' }> = {
    id: `name ${key}`,
    kind: 'text',
    x: fits ? box.x0 + (node.kind === 'family' ? 7 : 5) : box.x1 + 5,
    y: baseline,
    text: box.dated || fits ? node.name : shortened(node.name, gutterWidth - 44, look.size, look.weight),
    size: look.size,
    weight: look.weight,
    fill: 'ink',
    node: key,
    ...(fits ? {} : { halo: 'paper' as const }),
  };
  // Beside a bar that ends where the drawing does there is no room: the name then stands before it.
  const cramped = !fits && box.dated && box.x1 + 5 + widthOf(node.name, look.size, look.weight) > layout.axisTo + 8;
  return cramped ? { ...name, x: box.x0 - 14, anchor: 'end' } : !box.dated && !fits ? { ...name, x: box.x0 + 7 } : name;
}

/** The ground of a name that stands beside its bar: lines go on behind it, and none through it. */
function groundOf(layout: TreeLayout, box: Box, name: Extract<Shape, { kind: 'text' }>): Shape[] {
  if (name.halo === undefined) return [];
  const { x0, x1 } = reachOf(name);
  const band = layout.bands.findIndex((each) => box.head < each.y1);
  const family = familyOf(layout, box);
  const [y, height] = [box.head - 7, 14];
  const piece = (part: string, from: number, to: number, fill: 'paper' | 'well' | 'leaf', opacity?: number): Shape[] =>
    to <= from
      ? []
      : [
          {
            id: `${part} ${box.key}`,
            kind: 'rect',
            x: from,
            y,
            width: to - from,
            height,
            fill,
            ...(opacity === undefined ? {} : { opacity }),
          },
        ];
  const open = (part: string, from: number, to: number): Shape[] => [
    ...piece(`ground ${part}`, from, to, 'paper'),
    ...(band % 2 === 1 ? piece(`tint ${part}`, from, to, 'well', bandTint) : []),
  ];
  const [left, right] = [x0 - 3, x1 + 3];
  if (family === undefined) return open('all', left, right);
  return [
    ...open('before', left, Math.min(right, family.x0)),
    ...piece('ground within', Math.max(left, family.x0), Math.min(right, family.x1), 'leaf'),
    ...open('after', Math.max(left, family.x1), right),
  ];
}

/** The unfolded family a row stands in. */
function familyOf(layout: TreeLayout, box: Box): Box | undefined {
  for (let at = box.node.parent; at !== null; at = layout.byKey.get(at)?.node.parent ?? null) {
    const found = layout.byKey.get(at);
    if (found?.node.kind === 'family') return found;
  }
  return undefined;
}

/** Where a row that is drawn as a bar ends to the right, its name with it. */
export function endOfBar(layout: TreeLayout, box: Box): number {
  const { kind } = box.node;
  if (kind !== 'family' && kind !== 'generation' && kind !== 'model') return box.x1;
  return Math.max(box.x1, reachOf(nameShape(layout, box, barType[kind], 0)).x1);
}

/** The years of a family in its bar, where there is room for them. */
function yearShapes(box: Box, look: BarLook, room: number, baseline: number, solid: number): Shape[] {
  const { node } = box;
  if (node.kind !== 'family' && node.kind !== 'generation') return [];
  const text = !box.dated
    ? node.to === null
      ? ''
      : `until ${node.to}`
    : node.to === null
      ? `from ${node.from}`
      : `${node.from} to ${node.to}`;
  if (text === '' || room < widthOf(text, 11, 400) + 12) return [];
  return [
    {
      id: `years ${box.key}`,
      kind: 'text',
      x: solid - 7,
      y: baseline - 0.5,
      text,
      size: 11,
      weight: 400,
      fill: look.fill === 'paper' ? 'ink-faint' : 'ink-soft',
      anchor: 'end',
      node: box.key,
    },
  ];
}

import type { Connector } from './connect.ts';
import { axisPad, type Band, type Box, gutterWidth, rowHeight, sharedNameWidth, slotNameWidth, type TreeLayout } from './layoutTree.ts';
import { roundedPath, type Shape, shortened, widthOf } from './shapes.ts';
import type { SharedColumn } from './sharedColumns.ts';
import { nobody } from './treeNodes.ts';

/** The drawing in its four fields: the years over it, the makers beside it, the body, and what its signs mean under it. */
export interface Drawing {
  readonly axis: Field;
  readonly margin: Field;
  readonly body: Field;
  readonly legend: Field;
  /** The signs one by one, to be set in as many lines as there is room for. */
  readonly signs: readonly (Field & { readonly text: string })[];
}

export interface Field {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
}

export const marginWidth = 122;
export const axisHeight = 28;
export const legendHeight = 26;

export function drawTree(layout: TreeLayout, sayShared: (column: SharedColumn) => string): Drawing {
  const signs = legendSigns(layout);
  let end = 4;
  const placed = signs.flatMap(({ sample, text, width }) => {
    const shapes = signShapes(sample, text, end);
    end += width;
    return shapes;
  });
  return {
    axis: { width: layout.width, height: axisHeight, shapes: axisShapes(layout) },
    margin: { width: marginWidth, height: layout.height, shapes: layout.bands.flatMap(marginShapes) },
    body: {
      width: layout.width,
      height: layout.height,
      shapes: [
        ...layout.bands.flatMap((band, index) => bandShapes(layout, band, index)),
        ...gridShapes(layout),
        // Lines between families run behind the families they pass; those within one, over its ground.
        ...layout.lines.filter((line) => !isWithin(layout, line)).map(lineShape),
        ...layout.boxes.filter(({ node }) => node.kind === 'family').map(cardShape),
        ...layout.lines.filter((line) => isWithin(layout, line)).map(lineShape),
        ...layout.boxes.flatMap((box) => boxShapes(layout, box)),
        ...layout.lines.flatMap(arrowShape),
        ...columnsShapes(layout, sayShared),
      ],
    },
    legend: { width: end, height: legendHeight, shapes: placed },
    signs: signs.map(({ sample, text, width }) => ({ width: width - 12, height: legendHeight, shapes: signShapes(sample, text, 0), text })),
  };
}

const yearsBetween = ({ yearWidth }: TreeLayout): { readonly said: number; readonly ticked: number } =>
  yearWidth >= 34
    ? { said: 1, ticked: 1 }
    : yearWidth >= 15
      ? { said: 5, ticked: 1 }
      : yearWidth >= 5
        ? { said: 10, ticked: 5 }
        : { said: 20, ticked: 10 };

const xOf = (layout: TreeLayout, year: number) => layout.axisFrom + (year - layout.years.first) * layout.yearWidth;

function* yearsBy(layout: TreeLayout, step: number): Generator<number> {
  for (let year = Math.ceil(layout.years.first / step) * step; year <= layout.years.newest; year += step) yield year;
}

function axisShapes(layout: TreeLayout): Shape[] {
  const { said, ticked } = yearsBetween(layout);
  const shapes: Shape[] = [];
  for (const year of yearsBy(layout, ticked)) {
    const x = xOf(layout, year);
    const isSaid = year % said === 0;
    shapes.push({
      id: `tick ${year}`,
      kind: 'path',
      d: `M${x} ${axisHeight}V${axisHeight - (isSaid ? 7 : 4)}`,
      reach: { x0: x, x1: x, y0: 0, y1: axisHeight },
      stroke: 'line-strong',
    });
    if (isSaid && x + 20 < layout.axisTo)
      shapes.push({
        id: `year ${year}`,
        kind: 'text',
        x,
        y: 16,
        text: String(year),
        size: 12,
        weight: year % 10 === 0 ? 600 : 400,
        fill: year % 10 === 0 ? 'ink' : 'ink-soft',
        anchor: 'middle',
      });
  }
  if (layout.axisFrom > axisPad)
    shapes.push({ id: 'undated', kind: 'text', x: 10, y: 16, text: 'year not known', size: 12, weight: 600, fill: 'ink-soft' });
  return shapes;
}

function gridShapes(layout: TreeLayout): Shape[] {
  const shapes: Shape[] = [];
  for (const year of yearsBy(layout, yearsBetween(layout).said)) {
    const x = xOf(layout, year);
    shapes.push({
      id: `grid ${year}`,
      kind: 'path',
      d: `M${x} 0V${layout.height}`,
      reach: { x0: x, x1: x, y0: 0, y1: layout.height },
      stroke: 'line',
      opacity: 0.75,
    });
  }
  if (layout.axisFrom > axisPad)
    shapes.push({
      id: 'gutter',
      kind: 'path',
      d: `M${gutterWidth} 0V${layout.height}`,
      reach: { x0: gutterWidth, x1: gutterWidth, y0: 0, y1: layout.height },
      stroke: 'line-strong',
      dash: '2 3',
    });
  return shapes;
}

function marginShapes(band: Band): Shape[] {
  const families = band.node.children.length;
  const lines = inLines(band.node.name, marginWidth - 18, 15, 600);
  return [
    ...lines.map(
      (text, index): Shape => ({
        id: `margin ${band.key} ${index}`,
        kind: 'text',
        x: 12,
        y: band.head + 5 + index * 16,
        text,
        size: 15,
        weight: 600,
        fill: 'ink',
        face: 'title',
        node: band.key,
      }),
    ),
    {
      id: `families ${band.key}`,
      kind: 'text',
      x: 12,
      y: band.head + 4 + lines.length * 16,
      text: families === 1 ? '1 family' : `${families} families`,
      size: 11.5,
      weight: 400,
      fill: 'ink-soft',
    },
  ];
}

/** A name in two lines at most, between words. */
function inLines(text: string, width: number, size: number, weight: number): readonly string[] {
  if (widthOf(text, size, weight) <= width) return [text];
  const words = text.split(' ');
  let count = words.length - 1;
  while (count > 1 && widthOf(words.slice(0, count).join(' '), size, weight) > width) count -= 1;
  const [first, second] = [words.slice(0, Math.max(1, count)).join(' '), words.slice(Math.max(1, count)).join(' ')];
  return second === ''
    ? [shortened(first, width, size, weight)]
    : [shortened(first, width, size, weight), shortened(second, width, size, weight)];
}

function bandShapes(layout: TreeLayout, band: Band, index: number): Shape[] {
  const shapes: Shape[] = [];
  if (index % 2 === 1)
    shapes.push({
      id: `band ${band.key}`,
      kind: 'rect',
      x: 0,
      y: band.y0,
      width: layout.width,
      height: band.y1 - band.y0,
      fill: 'well',
      opacity: 0.55,
    });
  band.tradeNames.forEach(({ name, x0, x1 }, place) => {
    const id = `trade ${band.key} ${place}`;
    const y = band.head - 9;
    shapes.push(
      {
        id,
        kind: 'path',
        d: `M${x0 + 1.5} ${y + 4}V${y + 13}H${x1 - 1.5}V${y + 4}`,
        reach: { x0, x1, y0: y, y1: y + 18 },
        stroke: 'line-strong',
      },
      {
        id: `${id} name`,
        kind: 'text',
        x: (x0 + x1) / 2,
        y: y + 12,
        text: shortened(name, x1 - x0 - 14, 11.5, 400),
        size: 11.5,
        weight: 400,
        fill: 'ink-soft',
        anchor: 'middle',
        face: 'title',
        halo: index % 2 === 1 ? 'well' : 'paper',
      },
    );
    // The name changed here: a faint line through the maker's rows says under which name each family was sold.
    if (place > 0)
      shapes.push({
        id: `${id} from`,
        kind: 'path',
        d: `M${x0} ${y + 16}V${band.y1 - 6}`,
        reach: { x0, x1: x0, y0: y, y1: band.y1 },
        stroke: 'line-strong',
        dash: '1 4',
      });
  });
  for (const { key, x0, x1, y } of band.strokes)
    shapes.push({
      id: `stroke ${key}`,
      kind: 'rect',
      x: x0,
      y: y - 1.5,
      width: Math.max(2, x1 - x0),
      height: 3,
      round: 1.5,
      fill: band.key === nobody ? 'open' : 'accent',
      opacity: 0.75,
      node: band.key,
    });
  return shapes;
}

const isWithin = (layout: TreeLayout, line: Connector): boolean => layout.byKey.get(line.child)?.node.kind === 'generation';

const isPattern = (box: Box): boolean => box.node.lines.includes('made to the pattern of');

/** The ground of a family, behind the lines: its years, and its rows where it is unfolded. */
function cardShape(box: Box): Shape {
  const pattern = isPattern(box);
  return {
    id: `card ${box.key}`,
    kind: 'rect',
    x: box.x0,
    y: box.y0,
    width: box.x1 - box.x0,
    height: box.y1 - box.y0,
    round: 4,
    fill: 'leaf',
    stroke: box.open ? (pattern ? 'open' : 'line-strong') : 'leaf',
    ...(pattern || !box.dated ? { dash: '4 3' } : {}),
  };
}

function boxShapes(layout: TreeLayout, box: Box): Shape[] {
  switch (box.node.kind) {
    case 'family':
      return barShapes(layout, box, {
        size: 13,
        weight: 620,
        fill: isPattern(box) ? 'open-wash' : 'accent-wash',
        stroke: isPattern(box) ? 'open' : 'accent',
        text: 'ink',
        height: rowHeight.family,
        round: 4,
      });
    case 'generation':
      return barShapes(layout, box, {
        size: 12,
        weight: 560,
        fill: 'well',
        stroke: 'ink-faint',
        text: 'ink',
        height: rowHeight.generation - 2,
        round: 3,
      });
    case 'model':
      return barShapes(layout, box, {
        size: 11.5,
        weight: 400,
        fill: 'paper',
        stroke: 'line-strong',
        text: 'ink',
        height: rowHeight.model - 2,
        round: 2,
      });
    case 'slot':
      return slotShapes(box);
    case 'part':
      return partShapes(box);
    case 'maker':
      return [];
  }
}

function slotShapes(box: Box): Shape[] {
  const empty = box.node.children.length === 0;
  return [
    {
      id: `slot ${box.key}`,
      kind: 'text',
      x: box.x0 + slotNameWidth - 8,
      y: box.head + 4,
      text: shortened(box.node.name, slotNameWidth - 12, 11, 400),
      size: 11,
      weight: 400,
      fill: 'ink-soft',
      anchor: 'end',
      halo: 'leaf',
    },
    ...(empty
      ? [
          {
            id: `slot ${box.key} empty`,
            kind: 'text',
            x: box.x0 + slotNameWidth,
            y: box.head + 4,
            text: '–',
            size: 11,
            weight: 400,
            fill: 'ink-faint',
          } as const,
        ]
      : []),
  ];
}

const roleMark = { names: 'ink', option: 'ink-soft', service: 'ink-faint' } as const;

/** A part in its slot's row. A full dot: it names the model; a ring: an option; a faint ring: may be replaced freely. */
function partShapes(box: Box): Shape[] {
  const { key, node } = box;
  const ink = roleMark[node.role ?? 'service'];
  return [
    {
      id: `part ${key}`,
      kind: 'rect',
      x: box.x0,
      y: box.y0 + 1,
      width: box.x1 - box.x0,
      height: box.y1 - box.y0 - 2,
      round: 7,
      fill: 'leaf',
      stroke: 'line',
      node: key,
    },
    { id: `role ${key}`, kind: 'dot', x: box.x0 + 8, y: box.head, r: 2.75, fill: node.role === 'names' ? ink : 'leaf', stroke: ink },
    { id: `name ${key}`, kind: 'text', x: box.x0 + 15, y: box.head + 4, text: node.name, size: 11, weight: 400, fill: 'ink', node: key },
  ];
}

interface BarLook {
  readonly size: number;
  readonly weight: number;
  readonly fill: 'accent-wash' | 'open-wash' | 'well' | 'paper';
  readonly stroke: 'accent' | 'open' | 'ink-faint' | 'line-strong';
  readonly text: 'ink';
  readonly height: number;
  readonly round: number;
}

/** A bar over its years with its name in it, or beside it where the bar is too short. What is open fades out in steps; what is not dated is dashed. */
function barShapes(layout: TreeLayout, box: Box, look: BarLook): Shape[] {
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
  // What is open fades out under its name, which stays legible there.
  const inside = box.x1 - box.x0 - (node.kind === 'family' ? 14 : 10);
  const fits = widthOf(node.name, look.size, look.weight) <= inside;
  const baseline = box.head + look.size * 0.35;
  const name: Extract<Shape, { kind: 'text' }> = {
    id: `name ${key}`,
    kind: 'text',
    x: fits ? box.x0 + (node.kind === 'family' ? 7 : 5) : box.x1 + 5,
    y: baseline,
    text: box.dated || fits ? node.name : shortened(node.name, gutterWidth - 44, look.size, look.weight),
    size: look.size,
    weight: look.weight,
    fill: look.text,
    node: key,
    ...(fits ? {} : { halo: 'paper' as const }),
  };
  // Beside a bar that ends where the drawing does there is no room: the name then stands before it.
  const cramped = !fits && box.dated && box.x1 + 5 + widthOf(node.name, look.size, look.weight) > layout.axisTo + 8;
  shapes.push(cramped ? { ...name, x: box.x0 - 14, anchor: 'end' as const } : !box.dated && !fits ? { ...name, x: box.x0 + 7 } : name);
  return [...shapes, ...yearShapes(box, look, solid - box.x0 - 14 - widthOf(node.name, look.size, look.weight), baseline, solid)];
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

const lineLook = {
  succeeds: { stroke: 'accent', strokeWidth: 2 },
  'descends from': { stroke: 'ink-faint', strokeWidth: 1.25 },
  'pattern of': { stroke: 'open', strokeWidth: 1.25, dash: '5 4' },
} as const;

function lineShape(line: Connector): Shape {
  const xs = line.points.map(([x]) => x);
  const ys = line.points.map(([, y]) => y);
  const look = line.time === 'years disagree' ? { stroke: 'out' as const, strokeWidth: 1.5, dash: '2 3' } : lineLook[line.how];
  return {
    id: `line ${line.how} ${line.parent} ${line.child}`,
    kind: 'path',
    d: roundedPath(line.points, 5),
    reach: { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) },
    ...look,
    ...(line.time === 'not dated' ? { dash: '1 4' } : {}),
    joins: [line.parent, line.child],
  };
}

/** The head of a line, at the younger node. */
function arrowShape(line: Connector): Shape[] {
  const [before, end] = line.points.slice(-2);
  if (before === undefined || end === undefined) return [];
  const [x, y] = end;
  const [dx, dy] = [Math.sign(x - before[0]), Math.sign(y - before[1])];
  const size = line.how === 'succeeds' ? 5 : 4;
  const corner = (along: number, across: number) => `${x - dx * along - dy * across} ${y - dy * along + dx * across}`;
  return [
    {
      id: `head ${line.how} ${line.parent} ${line.child}`,
      kind: 'path',
      d: `M${x} ${y}L${corner(size, size * 0.7)}L${corner(size, -size * 0.7)}Z`,
      reach: { x0: x - size, x1: x + size, y0: y - size, y1: y + size },
      fill: line.time === 'years disagree' ? 'out' : lineLook[line.how].stroke,
      joins: [line.parent, line.child],
    },
  ];
}

/** The columns of what is shared, each with its words in a row of its own to the right of all. */
function columnsShapes(layout: TreeLayout, sayShared: (column: SharedColumn) => string): Shape[] {
  const taken: number[] = [];
  const says = layout.columns.map((column) => {
    const rows = column.dots.map(({ y }) => y);
    let y = rows.find((row) => taken.every((other) => Math.abs(other - row) >= 13)) ?? rows.at(-1) ?? 0;
    while (taken.some((other) => Math.abs(other - y) < 13)) y += 13;
    taken.push(y);
    return y;
  });
  return layout.columns.flatMap((column, index) => columnShapes(layout, column, index, sayShared(column), says[index] ?? 0));
}

function columnShapes(layout: TreeLayout, column: SharedColumn, index: number, says: string, saysAt: number): Shape[] {
  const ink = column.shared.group === 'core' ? 'stands' : 'ink-soft';
  const [first, last] = [column.dots[0]?.y ?? 0, Math.max(column.dots.at(-1)?.y ?? 0, saysAt)];
  const id = `shared ${column.shared.group} ${column.shared.families.join(' ')} ${index}`;
  const joined = { joins: column.dots.map(({ key }) => key), shares: true };
  const sayX = layout.sharedNamesAt;
  return [
    ...column.dots.map(({ key, y }): Shape => {
      const from = (layout.byKey.get(key)?.x1 ?? layout.axisTo) + 3;
      return {
        id: `${id} leader ${key}`,
        kind: 'path',
        d: `M${from} ${y}H${column.x}`,
        reach: { x0: from, x1: column.x, y0: y, y1: y },
        stroke: ink,
        dash: '1 4',
        ...joined,
      };
    }),
    {
      id,
      kind: 'path',
      d: `M${column.x} ${first}V${last}M${column.x} ${saysAt}H${sayX - 4}`,
      reach: { x0: column.x, x1: sayX, y0: first, y1: last },
      stroke: ink,
      strokeWidth: 1.25,
      ...joined,
    },
    ...column.dots.map(
      ({ key, y }): Shape =>
        column.shared.group === 'core'
          ? { id: `${id} dot ${key}`, kind: 'dot', x: column.x, y, r: 4, fill: ink, ...joined }
          : { id: `${id} dot ${key}`, kind: 'rect', x: column.x - 3.5, y: y - 3.5, width: 7, height: 7, fill: ink, ...joined },
    ),
    {
      id: `${id} says`,
      kind: 'text',
      x: sayX,
      y: saysAt + 4,
      text: shortened(says, sharedNameWidth - 8, 11.5, 400),
      size: 11.5,
      weight: 400,
      fill: ink,
      halo: 'paper',
    },
  ];
}

interface Sign {
  readonly sample: (x: number) => Shape[];
  readonly text: string;
  readonly width: number;
}

const signShapes = (sample: Sign['sample'], text: string, x: number): Shape[] => [
  ...sample(x),
  { id: `legend ${text}`, kind: 'text', x: x + 30, y: 17, text, size: 11.5, weight: 400, fill: 'ink-soft' },
];

function legendSigns(layout: TreeLayout): Sign[] {
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

import type { Reach, Run, Shape } from './shapes.ts';

type Point = readonly [x: number, y: number];

/** A run as the `d` of a path. */
export const runPath = (run: Run): string => pathOf(run, null);

/** A dashed line further off than this from what is looked at is left out, in px: more than the longest run of dashes and gaps. */
const beyond = 24;

/**
 * A dashed line cut to what is looked at; other shapes as they are. Browsers lay every dash of a line wherever a piece of it is painted, and a
 * line may be as long as the atlas. The dashes lie where they lie on the whole line.
 */
export function cutDashes(shape: Shape, part: Reach): Shape {
  if (shape.kind !== 'path' || shape.run === undefined || shape.dash === undefined) return shape;
  const { reach, run, dash } = shape;
  const near = { x0: part.x0 - beyond, x1: part.x1 + beyond, y0: part.y0 - beyond, y1: part.y1 + beyond };
  if (reach.x0 >= near.x0 && reach.x1 <= near.x1 && reach.y0 >= near.y0 && reach.y1 <= near.y1) return shape;
  const period = dash.split(' ').reduce((sum, length) => sum + Number(length), 0);
  return { ...shape, d: pathOf(run, { near, period }) };
}

/** The length of a rounded corner of radius 1: a quadratic Bézier curve through a right angle, ∫₀¹ 2 √(2t² − 2t + 1) dt = 1 + asinh(1) / √2 (V). */
const cornerLength = 1 + Math.asinh(1) / Math.SQRT2;

function pathOf({ points, radius }: Run, cut: { readonly near: Reach; readonly period: number } | null): string {
  const [first] = points;
  if (first === undefined) return '';
  let d = '';
  /** How much of the whole line lies behind, and whether what was last passed was drawn. */
  let passed = 0;
  let drawn = false;
  const moveTo = (point: Point) => {
    d += `M${n(point[0])} ${n(point[1])}`;
  };
  const straight = (from: Point, to: Point) => {
    const length = distance(from, to);
    const [enter, leave] = cut === null ? [0, length] : within(from, to, cut.near);
    // Dashes begin anew where a path does: it is taken up where they would begin on the whole line.
    const start = drawn && enter === 0 ? 0 : cut === null ? enter : enter + ((cut.period - ((passed + enter) % cut.period)) % cut.period);
    passed += length;
    const isDrawn = start <= leave;
    if (isDrawn) {
      if (!drawn || start > 0) moveTo(towards(from, to, start));
      const end = towards(from, to, leave);
      d += `L${n(end[0])} ${n(end[1])}`;
    }
    drawn = isDrawn && leave === length;
  };
  let from = first;
  for (let i = 1; i < points.length; i += 1) {
    const [before, at, to] = [points[i - 1], points[i], points[i + 1]];
    if (before === undefined || at === undefined) break;
    if (to === undefined) {
      straight(from, at);
      break;
    }
    const r = Math.min(radius, distance(before, at) / 2, distance(at, to) / 2);
    const [enter, leave] = [towards(at, before, r), towards(at, to, r)];
    straight(from, enter);
    if (drawn) d += `Q${n(at[0])} ${n(at[1])} ${n(leave[0])} ${n(leave[1])}`;
    passed += r * cornerLength;
    from = leave;
  }
  return d;
}

/** How far along a level or upright piece the part begins and ends; it ends before it begins where they do not meet. */
function within(from: Point, to: Point, { x0, x1, y0, y1 }: Reach): readonly [enter: number, leave: number] {
  const length = distance(from, to);
  const isLevel = from[1] === to[1];
  const [across, least, most] = isLevel ? [from[1], y0, y1] : [from[0], x0, x1];
  if (across < least || across > most) return [0, -1];
  const [start, end, low, high] = isLevel ? [from[0], to[0], x0, x1] : [from[1], to[1], y0, y1];
  const [nearEnd, farEnd] = end >= start ? [low - start, high - start] : [start - high, start - low];
  return [Math.max(0, nearEnd), Math.min(length, farEnd)];
}

const n = (value: number): number => Math.round(value * 100) / 100;
const distance = (a: Point, b: Point) => Math.hypot(b[0] - a[0], b[1] - a[1]);
const towards = (a: Point, b: Point, by: number): Point => {
  const length = distance(a, b);
  return length === 0 ? a : [a[0] + ((b[0] - a[0]) * by) / length, a[1] + ((b[1] - a[1]) * by) / length];
};

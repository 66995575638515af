import type { Reach, Run, Shape } from './shapes.ts';

type Point = readonly [x: number, y: number];
type Path = Extract<Shape, { kind: 'path' }>;

/** A run as the `d` of a path. */
export const runPath = (run: Run): string => {
  const [first] = run.points;
  return first === undefined ? '' : `M${at(first)}${piecesOf(run).map(drawTo).join('')}`;
};

/** About how long a piece of a dashed line is, in px. */
const pieceLength = 500;

/**
 * A long dashed line in short ones, which lie where its dashes lie; other shapes as they are. Browsers lay every dash of a line whenever they paint a
 * part of it, and a line may be as long as the atlas. Each piece is the same wherever it is looked at from, so that what stays in view is not painted anew.
 */
export function inPieces(shape: Shape, part: Reach): readonly Shape[] {
  if (shape.kind !== 'path' || shape.run === undefined || shape.dash === undefined) return [shape];
  const { reach, run, dash } = shape;
  if (reach.x1 - reach.x0 + reach.y1 - reach.y0 <= 2 * pieceLength) return [shape];
  if (part.x0 <= reach.x0 && part.x1 >= reach.x1 && part.y0 <= reach.y0 && part.y1 >= reach.y1) return [shape];
  const period = dash.split(' ').reduce((sum, length) => sum + Number(length), 0);
  const pieces: Path[] = [];
  let passed = 0;
  piecesOf(run).forEach((piece, index) => {
    const { from, to, length } = piece;
    const cut = (start: number, end: number) => {
      const [a, b] = [along(from, to, start / length), along(from, to, end / length)];
      const own = { x0: Math.min(a[0], b[0]), x1: Math.max(a[0], b[0]), y0: Math.min(a[1], b[1]), y1: Math.max(a[1], b[1]) };
      if (own.x1 < part.x0 || own.x0 > part.x1 || own.y1 < part.y0 || own.y0 > part.y1) return;
      const d = `M${at(a)}${drawTo({ ...piece, to: b })}`;
      pieces.push({ ...shape, id: `${shape.id} ${index} ${start}`, d, reach: own, dashFrom: (passed + start) % period });
    };
    if (piece.by !== null || length <= pieceLength) cut(0, length);
    else {
      // Cut where a dash begins, so that none is drawn in two.
      const lead = (period - (passed % period)) % period;
      const step = period * Math.ceil(pieceLength / period);
      // Only pieces near what is looked at are made: a line may have hundreds.
      const [near, far] = reachAlong(piece, part);
      const first = Math.max(0, Math.floor((near - lead) / step));
      if (lead > 0) cut(0, Math.min(lead, length));
      for (let start = lead + first * step; start < Math.min(length, far); start += step) cut(start, Math.min(start + step, length));
    }
    passed += length;
  });
  return pieces;
}

/** A straight piece of a run, or one round a corner, `by` its tip. */
interface Piece {
  readonly from: Point;
  readonly to: Point;
  readonly by: Point | null;
  readonly length: number;
}

/** The length of a rounded corner of radius 1: a quadratic Bézier curve through a right angle, ∫₀¹ 2 √(2t² − 2t + 1) dt = 1 + asinh(1) / √2 (V). */
const cornerLength = 1 + Math.asinh(1) / Math.SQRT2;

function piecesOf({ points, radius }: Run): readonly Piece[] {
  const pieces: Piece[] = [];
  let from = points[0];
  for (let i = 1; i < points.length; i += 1) {
    const [before, tip, next] = [points[i - 1], points[i], points[i + 1]];
    if (before === undefined || tip === undefined || from === undefined) break;
    if (next === undefined) {
      pieces.push({ from, to: tip, by: null, length: distance(from, tip) });
      break;
    }
    const r = Math.min(radius, distance(before, tip) / 2, distance(tip, next) / 2);
    const [enter, leave] = [towards(tip, before, r), towards(tip, next, r)];
    pieces.push(
      { from, to: enter, by: null, length: distance(from, enter) },
      { from: enter, to: leave, by: tip, length: r * cornerLength },
    );
    from = leave;
  }
  return pieces;
}

/** Between which lengths along a level or upright piece the part lies. */
function reachAlong({ from, to }: Piece, part: Reach): readonly [near: number, far: number] {
  const isLevel = from[1] === to[1];
  const [start, end] = isLevel ? [from[0], to[0]] : [from[1], to[1]];
  const [low, high] = isLevel ? [part.x0, part.x1] : [part.y0, part.y1];
  return end >= start ? [low - start, high - start] : [start - high, start - low];
}

const drawTo = ({ to, by }: Piece): string => (by === null ? `L${at(to)}` : `Q${at(by)} ${at(to)}`);
const at = ([x, y]: Point): string => `${n(x)} ${n(y)}`;
const n = (value: number): number => Math.round(value * 100) / 100;
const distance = (a: Point, b: Point) => Math.hypot(b[0] - a[0], b[1] - a[1]);
const along = (a: Point, b: Point, share: number): Point =>
  Number.isNaN(share) ? a : [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
const towards = (a: Point, b: Point, by: number): Point => along(a, b, by / distance(a, b));

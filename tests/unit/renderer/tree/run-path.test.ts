import { describe, expect, test } from 'vitest';
import { inPieces, runPath } from '../../../../renderer/tree/runPath.ts';
import type { Reach, Run, Shape } from '../../../../renderer/tree/shapes.ts';
import { numbersFrom } from './grown-trees.ts';

type Point = readonly [x: number, y: number];
type Path = Extract<Shape, { kind: 'path' }>;

/** A line in level and upright pieces by turns, as the tree's lines are. */
const wandering = (random: () => number): Run => {
  const points: Point[] = [[random() * 300, random() * 300]];
  for (let i = 0; i < 4; i += 1) {
    const [x, y] = points.at(-1) as Point;
    points.push(i % 2 === 0 ? [random() * 3000, y] : [x, random() * 3000]);
  }
  return { points, radius: 5 };
};

const dashed = (run: Run, dash: string): Path => {
  const [xs, ys] = [run.points.map(([x]) => x), run.points.map(([, y]) => y)];
  const reach = { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
  return { id: 'line', kind: 'path', d: runPath(run), run, reach, dash };
};

/** Where ink lies, a point every tenth of a px: dashes are laid along each subpath from its own beginning (M: SVG 2, “Controlling dashing”). */
const inked = ({ d, dash = '', dashFrom = 0 }: Path): Point[] => {
  const lengths = dash.split(' ').map(Number);
  const period = lengths.reduce((sum, length) => sum + length, 0);
  const points: Point[] = [];
  let [at, passed]: [Point, number] = [[0, 0], dashFrom];
  const line = (to: Point) => {
    const length = Math.hypot(to[0] - at[0], to[1] - at[1]);
    for (let s = Math.ceil(passed * 10) / 10 - passed; s < length; s += 0.1) {
      if ((passed + s) % period <= (lengths[0] ?? 0))
        points.push([at[0] + ((to[0] - at[0]) * s) / length, at[1] + ((to[1] - at[1]) * s) / length]);
    }
    passed += length;
    at = to;
  };
  for (const [, command, numbers = ''] of d.matchAll(/([MLQ])([^MLQ]*)/g)) {
    const [a = 0, b = 0, c = 0, e = 0] = numbers.split(' ').map(Number);
    if (command === 'M') [at, passed] = [[a, b], dashFrom];
    else if (command === 'L') line([a, b]);
    else {
      const [x, y] = at;
      for (let i = 1; i <= 40; i += 1) {
        const t = i / 40;
        line([(1 - t) ** 2 * x + 2 * t * (1 - t) * a + t * t * c, (1 - t) ** 2 * y + 2 * t * (1 - t) * b + t * t * e]);
      }
    }
  }
  return points;
};

const inPart = (points: readonly Point[], { x0, x1, y0, y1 }: Reach): Point[] =>
  points.filter(([x, y]) => x > x0 && x < x1 && y > y0 && y < y1);

/** Points of one drawing that have none of the other within `by` px. */
const alone = (points: readonly Point[], others: readonly Point[], by: number): Point[] => {
  const cells = new Map<string, Point[]>();
  const cell = (v: number) => Math.floor(v);
  for (const point of others) {
    const key = `${cell(point[0])} ${cell(point[1])}`;
    cells.set(key, [...(cells.get(key) ?? []), point]);
  }
  return points.filter(([x, y]) => {
    for (const dx of [-1, 0, 1]) {
      for (const dy of [-1, 0, 1])
        for (const [ox, oy] of cells.get(`${cell(x) + dx} ${cell(y) + dy}`) ?? []) if (Math.hypot(x - ox, y - oy) <= by) return false;
    }
    return true;
  });
};

describe('[V3] a dashed line is drawn where it is looked at', () => {
  test('its dashes lie where they lie on the whole line, round corners too', () => {
    let looked = 0;
    for (let seed = 0; seed < 60; seed += 1) {
      const random = numbersFrom(seed);
      const whole = dashed(wandering(random), ['5 4', '1 4', '2 3'][seed % 3] ?? '');
      const corner = whole.run?.points[1 + (seed % 3)] ?? [0, 0];
      // Looked at where it turns, or anywhere.
      const [x0, y0] =
        seed % 2 === 0 ? [corner[0] - 100 - random() * 100, corner[1] - 100 - random() * 100] : [random() * 2000, random() * 2000];
      const part = { x0, x1: x0 + 400, y0, y1: y0 + 300 };
      const pieces = inPieces(whole, part) as Path[];
      const [all, some] = [inPart(inked(whole), part), inPart(pieces.flatMap(inked), part)];
      expect(alone(all, some, 0.35), `seed ${seed}: not drawn`).toEqual([]);
      expect(alone(some, all, 0.35), `seed ${seed}: drawn where nothing is`).toEqual([]);
      looked += all.length;
    }
    expect(looked).toBeGreaterThan(10_000);
  });

  test('of a long line only pieces near it are made, and they stay the same when the view moves on; a short one stays whole', () => {
    const long = dashed(
      {
        points: [
          [0, 0],
          [40, 0],
          [40, 400_000],
          [80, 400_000],
        ],
        radius: 5,
      },
      '5 4',
    );
    const at = (y0: number) => inPieces(long, { x0: 0, x1: 100, y0, y1: y0 + 1000 }) as Path[];
    const [here, next] = [at(200_000), at(200_400)];
    expect(here.length).toBeGreaterThanOrEqual(2);
    expect(here.length).toBeLessThanOrEqual(4);
    const both = here.filter(({ id }) => next.some((piece) => piece.id === id));
    expect(both.length).toBeGreaterThan(0);
    expect(both.map((piece) => next.find(({ id }) => id === piece.id))).toEqual(both);
    const short = dashed(
      {
        points: [
          [10, 10],
          [40, 10],
          [40, 90],
        ],
        radius: 5,
      },
      '5 4',
    );
    expect(inPieces(short, { x0: 0, x1: 20, y0: 0, y1: 20 })).toEqual([short]);
  });
});

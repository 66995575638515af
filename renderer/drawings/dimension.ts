import type { FeatureId } from '../../reasoner/index.ts';
import { type Pen, widthOf } from './pen.ts';
import type { Size } from './reading.ts';
import type { Look, Point } from './scene.ts';

const lookOf = (known: boolean): Look => (known ? 'dimension' : 'guess');

/** An arrowhead at `at`, pointing along `degrees` (0 to the right, 90 down). */
const arrow = (pen: Pen, at: Point, degrees: number): void => {
  const angle = (degrees * Math.PI) / 180;
  const [length, half] = [pen.letter * 0.75, pen.letter * 0.2];
  const [x, y] = [at[0] - length * Math.cos(angle), at[1] - length * Math.sin(angle)];
  const [dx, dy] = [half * Math.sin(angle), -half * Math.cos(angle)];
  pen.area(at, [{ to: [x + dx, y + dy] }, { to: [x - dx, y - dy] }], 'arrow');
};

/** A length along x, drawn at height `y`, with lines down from the two places it is taken at. */
export const lengthAcross = (
  pen: Pen,
  [from, to]: readonly [number, number],
  y: number,
  start: readonly [number, number],
  text: string,
  known: boolean,
  feature?: FeatureId,
): void => {
  const over = pen.letter * 0.35;
  const way = Math.sign(y - start[0]) || 1;
  for (const [i, x] of [from, to].entries()) pen.line([x, (start[i] ?? y) + way * over], [x, y + way * over], 'dimension');
  pen.line([from, y], [to, y], lookOf(known), feature);
  arrow(pen, [from, y], 180);
  arrow(pen, [to, y], 0);
  const wide = widthOf(text) * pen.letter;
  if (wide < to - from) pen.text([(from + to) / 2, y - pen.letter * 0.3], text, 'middle', feature, known ? 'label' : 'query');
  else pen.text([to + over * 1.5, y + pen.letter * 0.35], text, 'start', feature, known ? 'label' : 'query');
};

/** A circle of this diameter: solid where it is known, dashed with a question mark where not. */
export const ring = (pen: Pen, centre: Point, size: Size, look: Look = 'edge'): void =>
  pen.circle(centre, size.value / 2, size.known ? look : 'guess', size.feature);

/** Words at the right of a drawing. Where they speak of a place on it, a line leads there. */
export interface Label {
  readonly from?: (towards: Point) => Point;
  readonly text: string;
  readonly known: boolean;
  readonly feature?: FeatureId | undefined;
}

/** Words in a column beside the drawing, centred on `at`. */
export const leaders = (pen: Pen, at: Point, labels: readonly Label[]): void => {
  const step = pen.letter * 1.55;
  for (const [i, label] of labels.entries()) {
    const end: Point = [at[0], at[1] + (i - (labels.length - 1) / 2) * step];
    if (label.from !== undefined) pen.line(label.from(end), end, 'dimension');
    pen.text([end[0] + pen.letter * 0.3, end[1] + pen.letter * 0.35], label.text, 'start', label.feature, label.known ? 'label' : 'query');
  }
};

/** The place on a circle nearest to a point outside it. */
export const fromCircle =
  (centre: Point, radius: number) =>
  (towards: Point): Point => {
    const far = Math.hypot(towards[0] - centre[0], towards[1] - centre[1]);
    return far === 0
      ? centre
      : [centre[0] + ((towards[0] - centre[0]) * radius) / far, centre[1] + ((towards[1] - centre[1]) * radius) / far];
  };

/** `⌀ 46.3 mm inducer`. */
export const sayDiameter = (size: Size, what: string): string => `⌀ ${size.said} ${what}`;

/** The two centre lines of a round part, a little past its edge. */
export const centreLines = (pen: Pen, centre: Point, radius: number): void => {
  const far = radius + pen.letter * 0.7;
  pen.line([centre[0] - far, centre[1]], [centre[0] + far, centre[1]], 'axis');
  pen.line([centre[0], centre[1] - far], [centre[0], centre[1] + far], 'axis');
};

/** An arrow around the outside that says which way it turns; degrees as in `onCircle`. */
export const turnArrow = (pen: Pen, centre: Point, radius: number, clockwise: boolean, feature?: FeatureId): void => {
  const point = (degrees: number): Point => {
    const angle = (degrees * Math.PI) / 180;
    return [centre[0] + radius * Math.sin(angle), centre[1] - radius * Math.cos(angle)];
  };
  const [from, to] = clockwise ? [-62, -28] : [-28, -62];
  pen.path(point(from), [{ to: point(to), radius, clockwise }], 'dimension', feature);
  arrow(pen, point(to), clockwise ? to : to + 180);
};

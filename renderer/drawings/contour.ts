import type { DrawingRoles } from '../../reasoner/index.ts';
import { lengthAcross } from './dimension.ts';
import type { Pen } from './pen.ts';
import { type Reading, type Size, sayDegrees } from './reading.ts';
import type { Point, Scene } from './scene.ts';

export type End = 'compressor' | 'turbine';

/** Which of an end's diameters is at the rim and which at the eye. */
const ends = { compressor: { rim: 'exducer', eye: 'inducer' }, turbine: { rim: 'inducer', eye: 'exducer' } } as const;

interface Outline {
  readonly rim: Size;
  readonly eye: Size;
  readonly tip: Size;
}

/**
 * Half of a wheel cut through its axis. Solid and to scale: the diameters at the rim and the eye, the width at the rim, and the turbine wheel's
 * cutback angle. How long a wheel is and how its contour curves between rim and eye the atlas does not say: fine lines.
 */
export const compressorWheelContour = (reading: Reading<DrawingRoles['compressor wheel contour']>): Scene => {
  const own = outlineOf(
    (standIn) => reading.size('inducer', standIn),
    (standIn) => reading.size('exducer', standIn),
    (standIn) => reading.size('tipHeight', standIn),
  );
  return half(reading, { end: 'compressor', what: 'wheel', own, more: '' }, (sheet) => wheelSide(sheet, own, null));
};

export const turbineWheelContour = (reading: Reading<DrawingRoles['turbine wheel contour']>): Scene => {
  const own = outlineOf(
    (standIn) => reading.size('exducer', standIn),
    (standIn) => reading.size('inducer', standIn),
    (standIn) => reading.size('tipHeight', standIn),
  );
  const cut = cutOf(reading);
  return half(reading, { end: 'turbine', what: 'wheel', own, more: `, cutback ${cut.said}` }, (sheet) => wheelSide(sheet, own, cut));
};

/** Half of a housing's contour, as of a wheel that would run in it. */
export const compressorHousingContour = (reading: Reading<DrawingRoles['compressor housing contour']>): Scene => {
  const own = outlineOf(
    (standIn) => reading.size('inducer', standIn),
    (standIn) => reading.size('exducer', standIn),
    (standIn) => reading.size('tipWidth', standIn),
  );
  return half(reading, { end: 'compressor', what: 'housing’s contour', own, more: '' }, (sheet) => housingWall(sheet, own));
};

export const turbineHousingContour = (reading: Reading<DrawingRoles['turbine housing contour']>): Scene => {
  const own = outlineOf(
    (standIn) => reading.size('exducer', standIn),
    (standIn) => reading.size('inducer', standIn),
    (standIn) => reading.size('tipWidth', standIn),
  );
  return half(reading, { end: 'turbine', what: 'housing’s contour', own, more: '' }, (sheet) => housingWall(sheet, own));
};

type AskSize = (standIn: number) => Size;

/** A diameter that is not known stands in its usual proportion to the one that is. */
const outlineOf = (askEye: AskSize, askRim: AskSize, askTip: AskSize): Outline => {
  const eye = askEye(0);
  const rim = askRim(eye.known ? eye.value / 0.8 : 50);
  return { rim, eye: eye.known ? eye : { ...eye, value: rim.value * 0.8 }, tip: askTip(rim.value * 0.1) };
};

/** Where an outline is drawn: a point by how far it lies along the axis and off it, how long a wheel is, and where the paper ends at its front. */
interface Ground {
  readonly pen: Pen;
  readonly at: (along: number, radius: number) => Point;
  readonly length: number;
  readonly front: number;
}

/** What all four have: the axis, the two diameters and the width at the rim. */
const half = (
  reading: Pick<Reading, 'pen' | 'account'>,
  { end, what, own, more }: { readonly end: End; readonly what: string; readonly own: Outline; readonly more: string },
  draw: (ground: Ground) => void,
): Scene => {
  const names = ends[end];
  const way = end === 'compressor' ? -1 : 1;
  const length = own.rim.value * (end === 'compressor' ? 0.46 : 0.42);
  const pen = reading.pen(own.rim.value * 0.8);
  const at = (along: number, radius: number): Point => [way * along, -radius];
  const front = length + pen.letter * 2;
  pen.line(at(-pen.letter, 0), at(front + pen.letter, 0), 'axis');
  draw({ pen, at, length, front });
  halfDiameter(pen, at(-pen.letter * 1.6, 0), own.rim, names.rim, -way);
  halfDiameter(pen, at(front + pen.letter * 0.6, 0), own.eye, names.eye, way);
  const [from, to] = way > 0 ? [0, own.tip.value] : [-own.tip.value, 0];
  const top = pen.top - pen.letter * 1.2;
  const width = `${own.tip.said} ${what === 'wheel' ? 'tip width' : 'contour width'}`;
  lengthAcross(pen, [from, to], top, [-own.rim.value / 2, -own.rim.value / 2], width, own.tip.known, own.tip.feature);
  return pen.scene({
    title: `${end === 'compressor' ? 'Compressor' : 'Turbine'} ${what}`,
    says: `Half of the ${end} ${what}, cut through the axis: ${names.rim} ${own.rim.said}, ${names.eye} ${own.eye.said}, width ${own.tip.said}${more}.`,
    ...reading.account(),
  });
};

interface Cut {
  readonly degrees: number;
  readonly known: boolean;
  readonly said: string;
  readonly feature: Size['feature'];
}

/** The angle if it is known; no cutback by looks is 0°. */
const cutOf = (wheel: Reading<DrawingRoles['turbine wheel contour']>): Cut => {
  const angle = wheel.size('cutbackAngle', 15, 'deg');
  const look = wheel.choice('cutback', ['none']);
  if (!angle.known && look.form === 'none') return { degrees: 0, known: true, said: 'none', feature: look.feature };
  return { degrees: angle.value, known: angle.known, said: angle.known ? sayDegrees(angle.value) : '?', feature: angle.feature };
};

const wheelSide = ({ pen, at, length }: Ground, { rim, eye, tip }: Outline, cut: Cut | null): void => {
  const hub = eye.value * 0.15;
  const [outer, inner] = [rim.value / 2, eye.value / 2];
  const away = cut === null ? 0 : (inner - hub) * Math.tan((cut.degrees * Math.PI) / 180);
  const eyeAt = length - away;
  const shroud = { to: at(eyeAt, inner), by: at(tip.value + (eyeAt - tip.value) * 0.08, inner) };
  pen.area(
    at(0, outer),
    [{ to: at(tip.value, outer) }, shroud, { to: at(length, hub) }, { to: at(0, outer * 0.96), by: at(length * 0.12, hub) }],
    'tint',
  );
  pen.area(
    at(0, outer),
    [{ to: at(0, outer * 0.96) }, { to: at(length, hub), by: at(length * 0.12, hub) }, { to: at(length, 0) }, { to: at(0, 0) }],
    'metal',
  );
  pen.path(at(tip.value, outer), [shroud], 'fine');
  pen.line(at(0, outer), at(tip.value, outer), rim.known && tip.known ? 'edge' : 'guess', tip.feature);
  const look = cut !== null && !cut.known ? 'guess' : cut === null ? 'fine' : 'edge';
  pen.line(at(length, hub), at(eyeAt, inner), look, cut?.feature);
  if (cut !== null && (cut.degrees > 0 || !cut.known)) {
    pen.line(at(length, hub), at(length, inner), 'axis');
    const reach = (inner - hub) * 0.72;
    const turn = (cut.degrees * Math.PI) / 180;
    pen.path(
      at(length, hub + reach),
      [{ to: at(length - reach * Math.sin(turn), hub + reach * Math.cos(turn)), radius: reach, clockwise: false }],
      'dimension',
      cut.feature,
    );
    pen.text([at(length, 0)[0] + pen.letter * 0.4, -(hub + reach * 0.72)], cut.said, 'start', cut.feature, cut.known ? 'label' : 'query');
  }
};

const housingWall = ({ pen, at, length, front }: Ground, { rim, eye, tip }: Outline): void => {
  const [outer, inner] = [rim.value / 2, eye.value / 2];
  const sure = (...sizes: readonly Size[]) => (sizes.every((size) => size.known) ? 'edge' : 'guess');
  pen.line(at(tip.value, outer), at(tip.value, outer + pen.letter * 0.8), sure(rim, tip), tip.feature);
  pen.path(at(tip.value, outer), [{ to: at(length, inner), by: at(tip.value + (length - tip.value) * 0.08, inner) }], 'fine', rim.feature);
  pen.line(at(length, inner), at(front, inner), sure(eye), eye.feature);
};

/** Half of a diameter, from the axis out, as half sections are dimensioned; the words beside it. */
const halfDiameter = (pen: Pen, foot: Point, size: Size, what: string, way: number): void => {
  const head: Point = [foot[0], foot[1] - size.value / 2];
  pen.line(foot, head, size.known ? 'dimension' : 'guess', size.feature);
  const [high, half] = [pen.letter * 0.75, pen.letter * 0.2];
  pen.area(head, [{ to: [head[0] - half, head[1] + high] }, { to: [head[0] + half, head[1] + high] }], 'arrow');
  pen.line([head[0] - way * pen.letter * 1.2, head[1]], [head[0] + way * pen.letter * 0.35, head[1]], 'dimension');
  const x = head[0] + way * pen.letter * 0.5;
  const anchor = way > 0 ? 'start' : 'end';
  const look = size.known ? 'label' : 'query';
  pen.text([x, foot[1] - size.value / 4], `⌀ ${size.said}`, anchor, size.feature, look);
  pen.text([x, foot[1] - size.value / 4 + pen.letter * 1.15], what, anchor, size.feature, look);
};

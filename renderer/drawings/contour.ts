import { lengthAcross } from './dimension.ts';
import type { Pen } from './pen.ts';
import type { Reading, Size } from './reading.ts';
import { sayDegrees } from './reading.ts';
import type { Point, Scene } from './scene.ts';

export type End = 'compressor' | 'turbine';

/** Which of an end's diameters is at the rim and which at the eye. */
const ids = {
  compressor: {
    wheel: { rim: 'compressor-wheel-exducer', eye: 'compressor-wheel-inducer', tip: 'compressor-wheel-tip-height' },
    housing: {
      rim: 'compressor-housing-exducer-contour',
      eye: 'compressor-housing-inducer-contour',
      tip: 'compressor-housing-tip-contour',
    },
    rim: 'exducer',
    eye: 'inducer',
  },
  turbine: {
    wheel: { rim: 'turbine-wheel-inducer', eye: 'turbine-wheel-exducer', tip: 'turbine-wheel-tip-height' },
    housing: { rim: 'turbine-housing-inducer-contour', eye: 'turbine-housing-exducer-contour', tip: 'turbine-housing-tip-contour' },
    rim: 'inducer',
    eye: 'exducer',
  },
} as const;

interface Outline {
  readonly rim: Size;
  readonly eye: Size;
  readonly tip: Size;
}

/**
 * Half of a wheel cut through its axis, in half of the housing's contour; either alone where the other is not given. Solid and to scale: the
 * diameters at the rim and the eye, the width at the rim, and the turbine wheel's cutback angle. How long a wheel is and how its contour curves
 * between rim and eye the atlas does not say: fine lines.
 */
export const contourScene = (end: End, wheel: Reading | null, housing: Reading | null): Scene => {
  const names = ids[end];
  const way = end === 'compressor' ? -1 : 1;
  const first = wheel ?? housing;
  if (first === null) throw new RangeError('a contour is drawn of a wheel, a housing, or both; found neither');
  const own = outlineOf(first, wheel === null ? names.housing : names.wheel);
  const around = wheel !== null && housing !== null ? outlineOf(housing, names.housing) : null;
  const length = own.rim.value * (end === 'compressor' ? 0.46 : 0.42);
  const hub = own.eye.value * 0.15;
  const pen = first.pen(own.rim.value * 0.8);
  const at = (along: number, radius: number): Point => [way * along, -radius];
  const front = length + pen.letter * 2;
  pen.line(at(-pen.letter, 0), at(front + pen.letter, 0), 'axis');
  if (wheel === null) contour(pen, at, own, length, front, null);
  else {
    const cut = end === 'turbine' ? cutOf(wheel) : null;
    const back = wheelSide(pen, at, own, { length, hub, cut });
    if (around !== null) contour(pen, at, around, back, front, own);
  }
  halfDiameter(pen, at(-pen.letter * 1.6, 0), own.rim, names.rim, -way);
  halfDiameter(pen, at(front + pen.letter * 0.6, 0), own.eye, names.eye, way);
  const [from, to] = way > 0 ? [0, own.tip.value] : [-own.tip.value, 0];
  const top = pen.top - pen.letter * 1.2;
  lengthAcross(
    pen,
    [from, to],
    top,
    [-own.rim.value / 2, -own.rim.value / 2],
    `${own.tip.said} ${wheel === null ? 'contour width' : 'tip width'}`,
    own.tip.known,
    own.tip.feature,
  );
  const what = wheel === null ? `${end} housing’s contour` : `${end} wheel${around === null ? '' : ' in its contour'}`;
  const angle = wheel !== null && end === 'turbine' ? `, cutback ${cutOf(wheel).said}` : '';
  const accounts = [wheel, housing].filter((one) => one !== null).map((one) => one.account());
  return pen.scene({
    title: what.charAt(0).toUpperCase() + what.slice(1),
    says: `Half of the ${what}, cut through the axis: ${names.rim} ${own.rim.said}, ${names.eye} ${own.eye.said}, width ${own.tip.said}${angle}.`,
    features: accounts.flatMap((one) => one.features),
    unknown: accounts.flatMap((one) => one.unknown),
    toScale: accounts.some((one) => one.toScale),
  });
};

const outlineOf = (reading: Reading, names: { readonly rim: string; readonly eye: string; readonly tip: string }): Outline => {
  const eye = reading.size(names.eye, 0);
  const rim = reading.size(names.rim, eye.known ? eye.value / 0.8 : 50);
  return { rim, eye: eye.known ? eye : { ...eye, value: rim.value * 0.8 }, tip: reading.size(names.tip, rim.value * 0.1) };
};

interface Cut {
  readonly degrees: number;
  readonly known: boolean;
  readonly said: string;
  readonly feature: Size['feature'];
}

/** The angle if it is known; no cutback by looks is 0°. */
const cutOf = (wheel: Reading): Cut => {
  const angle = wheel.size('turbine-wheel-cutback-angle', 15, 'deg');
  const look = wheel.choice('turbine-wheel-cutback');
  if (!angle.known && look.only === 'none') return { degrees: 0, known: true, said: 'none', feature: look.feature };
  return { degrees: angle.value, known: angle.known, said: angle.known ? sayDegrees(angle.value) : '?', feature: angle.feature };
};

/** Draws the wheel; the answer is how far along the contour its eye begins. */
const wheelSide = (
  pen: Pen,
  at: (along: number, radius: number) => Point,
  { rim, eye, tip }: Outline,
  { length, hub, cut }: { readonly length: number; readonly hub: number; readonly cut: Cut | null },
): number => {
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
  return eyeAt;
};

/** The housing's wall; with the wheel in it also the room between them. */
const contour = (
  pen: Pen,
  at: (along: number, radius: number) => Point,
  { rim, eye, tip }: Outline,
  eyeAt: number,
  front: number,
  wheel: Outline | null,
): void => {
  const [outer, inner] = [rim.value / 2, eye.value / 2];
  const sure = (...sizes: readonly Size[]) => (sizes.every((size) => size.known) ? 'edge' : 'guess');
  pen.line(at(tip.value, outer), at(tip.value, outer + pen.letter * 0.8), sure(rim, tip), tip.feature);
  pen.path(at(tip.value, outer), [{ to: at(eyeAt, inner), by: at(tip.value + (eyeAt - tip.value) * 0.08, inner) }], 'fine', rim.feature);
  pen.line(at(eyeAt, inner), at(front, inner), sure(eye), eye.feature);
  if (wheel === null) return;
  const known = eye.known && wheel.eye.known;
  const gap = known ? `gap ${((eye.value - wheel.eye.value) / 2).toFixed(2)} mm` : 'gap ?';
  const [x, y] = at((eyeAt + front) / 2, inner);
  pen.text([x, y - pen.letter * 0.5], gap, 'middle', eye.feature, known ? 'label' : 'query');
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

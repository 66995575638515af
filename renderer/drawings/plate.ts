import type { DrawingRoles, Feature } from '../../reasoner/index.ts';
import { lengthAcross } from './dimension.ts';
import { widthOf } from './pen.ts';
import type { Marks, Reading } from './reading.ts';
import { onCircle, type Point, type Scene } from './scene.ts';

/** The nameplate: its holes to scale, what stands on it, how it is held. The plate's own outline is for reading only. */
export const plateScene = (reading: Reading<DrawingRoles['nameplate']>): Scene => {
  const holes = reading.count('holes');
  const spacing = reading.size('spacing', 40);
  const rivet = reading.choice('rivet');
  const fixing = reading.choice('fixing');
  const lines = [
    said(reading.marks('tradeName'), 'trade name'),
    said(reading.marks('number'), 'number'),
    yearOf(reading),
    serialOf(reading),
  ];
  const pen = reading.pen(spacing.value * 1.2);
  const wide = spacing.value * 1.22;
  const n = holes.value ?? 2;
  const places: readonly Point[] = Array.from({ length: n }, (_, k) =>
    onCircle([0, 0], spacing.value / 2, 90 + (360 * k) / n + (n > 2 ? 180 / n : 0)),
  );
  const tall = Math.max(wide * 0.62, ...places.map(([, y]) => 2 * (y + pen.letter)));
  pen.box([-wide / 2, -tall / 2], wide, tall, 'metal');
  // Rivets are named by their size: `2.5 mm rivets`.
  const hole = Number(/^(\d+(?:\.\d+)?) mm\b/.exec(rivet.only === null ? '' : rivet.said)?.[1] ?? 3);
  for (const place of places) pen.circle(place, hole / 2, holes.value === null || rivet.only === null ? 'guess' : 'edge', holes.feature);
  for (const [i, line] of lines.entries()) {
    pen.text([0, (i - 1.2) * pen.letter * 1.35], line.text, 'middle', line.feature, line.known ? 'label' : 'query');
  }
  const [first, across] = [places[0], places[Math.floor(n / 2)]];
  if (n === 2 && first !== undefined && across !== undefined) {
    lengthAcross(pen, [across[0], first[0]], tall / 2 + pen.letter * 1.5, [0, 0], spacing.said, spacing.known, spacing.feature);
  } else if (first !== undefined && across !== undefined) {
    pen.line(first, across, 'dimension', spacing.feature);
    pen.text([0, tall / 2 + pen.letter * 1.2], `${spacing.said} across`, 'middle', spacing.feature, spacing.known ? 'label' : 'query');
  }
  const held = `${holes.said} holes, ${rivet.said || 'size ?'}; ${fixing.said || 'fixing ?'}`;
  pen.text([0, pen.bottom + pen.letter * 1.3], held, 'middle', holes.feature);
  return pen.scene({
    title: 'Nameplate',
    says: `Nameplate: ${lines.map((line) => line.text).join('; ')}; ${held}; spacing ${spacing.said}.`,
    ...reading.account(),
  });
};

const said = ({ feature, anyOf }: Marks, what: string) => ({
  feature,
  text: anyOf.length === 0 ? `${what} ?` : anyOf.map((letters) => letters ?? 'no letters').join(' or '),
  known: anyOf.length > 0,
});

const yearOf = (reading: Reading<DrawingRoles['nameplate']>) => {
  const year = reading.count('year');
  return { feature: year.feature, text: `year ${year.said}`, known: year.value !== null };
};

const serialOf = (reading: Reading<DrawingRoles['nameplate']>) => {
  const serial = reading.presence('serial');
  return {
    feature: serial.feature,
    text: serial.present === null ? 'serial number ?' : serial.present ? 'serial number' : 'no serial number',
    known: serial.present !== null,
  };
};

/** Marks as plain boxes, one for each place letters may stand on the part, with everything good examples may bear there. */
export const marksScene = (features: readonly Feature[], reading: Reading<Readonly<Record<string, 'mark'>>>): Scene => {
  const pen = reading.pen(70);
  const { letter } = pen;
  let y = 0;
  const sayings: string[] = [];
  for (const feature of features) {
    const { anyOf } = reading.marks(feature.id);
    pen.text([0, y], feature.name, 'start', feature.id);
    y += letter * 0.6;
    const texts = anyOf.length === 0 ? ['?'] : anyOf.map((letters) => letters ?? 'no letters');
    let x = 0;
    for (const [i, text] of texts.entries()) {
      const wide = letter * Math.max(3, widthOf(text) + 1);
      const blank = anyOf[i] === null;
      pen.box([x, y], wide, letter * 1.7, anyOf.length === 0 ? 'guess' : blank ? 'axis' : 'blade', feature.id);
      pen.text([x + wide / 2, y + letter * 1.2], text, 'middle', feature.id, anyOf.length === 0 ? 'query' : 'label');
      x += wide + letter * 0.8;
    }
    sayings.push(`${feature.name}: ${texts.join(' or ')}`);
    y += letter * 3.4;
  }
  return pen.scene({ title: 'Marks', says: `Marks. ${sayings.join('; ')}.`, ...reading.account(), toScale: false });
};

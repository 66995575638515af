import type { DrawingRoles } from '../../reasoner/index.ts';
import type { End } from './contour.ts';
import { centreLines, fromCircle, type Label, leaders, ring, sayDiameter } from './dimension.ts';
import type { Pen } from './pen.ts';
import type { Choice, Presence, Reading, Size } from './reading.ts';
import { onCircle, type Point, type Scene } from './scene.ts';

const centre: Point = [0, 0];

/** Options of a volute's hand and of an entry that are drawn apart. */
const hands = ['clockwise', 'anticlockwise'] as const;
const entries = ['single', 'twin'] as const;

/** A compressor housing squarely from its inlet, as `housing` draws it; the outlet to scale, with its form. */
export const compressorHousing = (reading: Reading<DrawingRoles['compressor housing']>): Scene => {
  const inlet = reading.size('inlet', 50);
  const hand = reading.choice('voluteHand', hands);
  const ratio = reading.size('areaRatio', 0);
  const pipe = reading.size('outlet', inlet.value * 0.8);
  const form = reading.choice('outletForm', ['bead', 'flange', 'groove']);
  const slot = reading.presence('recirculationSlot');
  const volute = { end: 'compressor', opening: inlet, hand, ratio, wide: pipe.value } as const;
  return housing(reading, volute, (pen, mouth) => compressorParts(pen, mouth, { pipe, form, slot }));
};

/** A turbine housing squarely from its outlet, as `housing` draws it; with entry, wastegate and the edge of its flange. */
export const turbineHousing = (reading: Reading<DrawingRoles['turbine housing']>): Scene => {
  const outlet = reading.size('outlet', 50);
  const hand = reading.choice('voluteHand', hands);
  const ratio = reading.size('areaRatio', 0);
  const entry = reading.choice('entry', entries);
  const wastegate = reading.presence('wastegate');
  const flange = reading.choice('flange');
  const volute = { end: 'turbine', opening: outlet, hand, ratio, wide: outlet.value * 0.45 } as const;
  return housing(reading, volute, (pen, mouth) => turbineParts(pen, mouth, { entry, wastegate, flange }));
};

interface Volute {
  readonly end: End;
  readonly opening: Size;
  /** Seen from the compressor end, whichever housing it is. */
  readonly hand: Choice<(typeof hands)[number]>;
  readonly ratio: Size;
  /** Of its mouth, mm. */
  readonly wide: number;
}

/**
 * A housing squarely from its open end. The openings are to scale; the volute shows its hand and entry only: A/R is a ratio the eye
 * cannot read off an outline, so it stands beside it as a number.
 */
const housing = (
  reading: Pick<Reading, 'pen' | 'account'>,
  { end, opening, hand, ratio, wide }: Volute,
  parts: (pen: Pen, mouth: Mouth) => Labels,
): Scene => {
  const radius = opening.value / 2;
  // The turbine housing is looked at from the other end.
  const clockwise = hand.form !== null && (hand.form === 'clockwise') === (end === 'compressor');
  const pen = reading.pen(opening.value * 1.9);
  spiral(pen, { radius, wide, clockwise, hand });
  centreLines(pen, centre, radius);
  ring(pen, centre, opening);
  const way = clockwise ? 1 : -1;
  const mouth: Point = [way * radius * 1.75, -radius * 1.5 - wide / 2];
  const { above, beside } = parts(pen, { mouth, radius, wide, way });
  pen.text([mouth[0], pen.top - pen.letter * 0.5], above.text, way > 0 ? 'end' : 'start', above.feature, above.known ? 'label' : 'query');
  const labels: readonly Label[] = [
    {
      from: fromCircle(centre, radius),
      text: sayDiameter(opening, end === 'compressor' ? 'inlet' : 'outlet'),
      known: opening.known,
      feature: opening.feature,
    },
    { text: `A/R ${ratio.said}`, known: ratio.known, feature: ratio.feature },
    ...beside,
  ];
  leaders(pen, [pen.right + pen.letter, 0], labels);
  const from = end === 'compressor' ? 'Compressor housing, from the inlet' : 'Turbine housing, from the outlet';
  return pen.scene({
    title: from,
    says: `${from}: ${[above, ...labels].map((label) => label.text).join(', ')}; volute ${hand.form ?? 'hand not known'}.`,
    ...reading.account(),
  });
};

/** Words over the mouth, and those in the column beside. */
interface Labels {
  readonly above: Label;
  readonly beside: readonly Label[];
}

/** Where the volute opens, which way it runs, and how wide its mouth is. */
interface Mouth {
  readonly mouth: Point;
  readonly radius: number;
  readonly wide: number;
  readonly way: number;
}

/** A spiral that widens by even steps to the mouth; fine, as no size stands behind it. */
const spiral = (
  pen: Pen,
  { radius, wide, clockwise, hand }: Pick<Volute, 'wide' | 'hand'> & { readonly radius: number; readonly clockwise: boolean },
): void => {
  const { feature } = hand;
  const look = hand.form === null ? 'guess' : 'fine';
  const way = clockwise ? 1 : -1;
  const far = (share: number) => radius * (1.3 + 0.2 * share) + wide * share;
  const steps = Array.from({ length: 37 }, (_, k) => {
    // Half a turn of fine steps keeps the spiral even; it ends at twelve o'clock, where the mouth begins.
    const share = k / 36;
    return onCircle(centre, far(share), way * (-360 + 360 * share));
  });
  const [start, ...rest] = steps as [Point, ...Point[]];
  pen.path(
    start,
    rest.map((to) => ({ to })),
    look,
    feature,
  );
  const top = -far(1);
  pen.line([0, top], [way * radius * 1.75, top], look, feature);
  pen.line([way * radius * 0.55, top + wide], [way * radius * 1.75, top + wide], look, feature);
};

const sayPresence = (present: boolean | null, what: string): string => (present === null ? `${what} ?` : present ? what : `no ${what}`);

const compressorParts = (
  pen: Pen,
  { mouth, radius, way }: Mouth,
  { pipe, form, slot }: { readonly pipe: Size; readonly form: Choice<'bead' | 'flange' | 'groove'>; readonly slot: Presence },
): Labels => {
  const half = pipe.value / 2;
  const [x, y] = mouth;
  pen.line([x, y - half], [x, y + half], pipe.known ? 'edge' : 'guess', pipe.feature);
  const deep = pen.letter * 0.7;
  switch (form.form) {
    case 'bead':
      for (const s of [-1, 1]) pen.circle([x - way * deep * 0.6, y + s * half], deep * 0.3, 'blade', form.feature);
      break;
    case 'flange':
      pen.box([way > 0 ? x - deep * 0.7 : x, y - half * 1.45], deep * 0.7, half * 2.9, 'blade', form.feature);
      break;
    case 'groove':
      for (const s of [-1, 1]) {
        const edge = y + s * half;
        const notch: Point[] = [
          [x - way * deep * 1.1, edge - s * deep * 0.5],
          [x - way * deep * 0.6, edge],
        ];
        pen.path(
          [x - way * deep * 1.6, edge],
          notch.map((to) => ({ to })),
          'blade',
          form.feature,
        );
      }
      break;
    default:
      pen.query([x - way * deep, y], form.feature);
  }
  if (slot.present !== false)
    for (const r of [1.07, 1.13]) pen.circle(centre, radius * r, slot.present === null ? 'guess' : 'fine', slot.feature);
  return {
    above: {
      text: `${sayDiameter(pipe, 'outlet')}, ${form.said || 'form ?'}`,
      known: pipe.known && form.only !== null,
      feature: pipe.feature,
    },
    beside: [{ text: sayPresence(slot.present, 'recirculation slot'), known: slot.present !== null, feature: slot.feature }],
  };
};

const turbineParts = (
  pen: Pen,
  { mouth, radius, wide, way }: Mouth,
  { entry, wastegate, flange }: { readonly entry: Choice<(typeof entries)[number]>; readonly wastegate: Presence; readonly flange: Choice },
): Labels => {
  const [x, y] = mouth;
  pen.box(
    [way > 0 ? x : x - pen.letter * 0.6, y - wide * 0.75],
    pen.letter * 0.6,
    wide * 1.5,
    flange.only === null ? 'guess' : 'blade',
    flange.feature,
  );
  if (entry.form === 'twin') pen.line([way * radius * 0.5, y], [x, y], 'blade', entry.feature);
  if (entry.form === null) pen.query([x - way * pen.letter, y], entry.feature);
  const gate: Point = [radius * 0.95, radius * 1.2];
  if (wastegate.present !== false) {
    pen.circle(gate, radius * 0.22, wastegate.present === null ? 'guess' : 'blade', wastegate.feature);
    if (wastegate.present === null) pen.query(gate, wastegate.feature);
    else pen.line(gate, [gate[0] - radius * 0.42, gate[1] + radius * 0.1], 'blade', wastegate.feature);
  }
  return {
    above: { text: flange.said || 'inlet flange ?', known: flange.only !== null, feature: flange.feature },
    beside: [
      { text: entry.said || 'entry ?', known: entry.only !== null, feature: entry.feature },
      {
        ...(wastegate.present === true ? { from: fromCircle(gate, radius * 0.22) } : {}),
        text: sayPresence(wastegate.present, 'wastegate'),
        known: wastegate.present !== null,
        feature: wastegate.feature,
      },
    ],
  };
};

/** The inlet flange squarely: its shape and its bolts. No size of it is in the atlas, so it has no scale. */
export const inletFlange = (reading: Reading<DrawingRoles['inlet flange']>): Scene => {
  const flange = reading.choice('flange', ['square', 'oblong', 'wedge', 'round']);
  const entry = reading.choice('entry', entries);
  const pen = reading.pen(60);
  const { feature } = flange;
  const bolts = (places: readonly Point[]) => {
    for (const place of places) pen.circle(place, 3.2, 'fine', feature);
  };
  const corners = (w: number, h: number): Point[] => [
    [-w, -h],
    [w, -h],
    [w, h],
    [-w, h],
  ];
  switch (flange.form) {
    case 'square':
      pen.box([-28, -28], 56, 56, 'blade', feature);
      bolts(corners(21, 21));
      break;
    case 'oblong':
      pen.box([-36, -22], 72, 44, 'blade', feature);
      bolts(corners(29, 15));
      break;
    case 'wedge':
      pen.area([-30, 22], [{ to: [30, 22] }, { to: [9, -28] }, { to: [-9, -28] }], 'blade', feature);
      bolts([
        [-22, 16],
        [22, 16],
        [0, -21],
      ]);
      break;
    case 'round':
      pen.circle(centre, 29, 'blade', feature);
      pen.circle(centre, 25, 'fine', feature);
      break;
    default:
      pen.box([-28, -28], 56, 56, 'guess', feature);
      pen.query([0, 20], feature);
  }
  if (entry.form === 'twin') for (const x of [-12, 1]) pen.box([x, -11], 11, 20, 'blade', entry.feature);
  else if (entry.form === 'single') pen.box([-12, -11], 24, 20, 'blade', entry.feature);
  else {
    pen.box([-12, -11], 24, 20, 'guess', entry.feature);
    pen.query([0, -1], entry.feature);
  }
  const said = flange.said || 'not known';
  const entrySaid = entry.said || 'entry not known';
  pen.text([0, pen.bottom + pen.letter * 1.4], `${said}; ${entrySaid}`, 'middle', feature);
  return pen.scene({
    title: 'Inlet flange',
    says: `Turbine inlet flange: ${said}; ${entrySaid}. Not to scale.`,
    ...reading.account(),
    toScale: false,
  });
};

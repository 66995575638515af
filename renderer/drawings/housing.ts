import type { FeatureId } from '../../reasoner/index.ts';
import type { End } from './contour.ts';
import { centreLines, fromCircle, type Label, leaders, ring, sayDiameter } from './dimension.ts';
import type { Pen } from './pen.ts';
import type { Choice, Reading, Size } from './reading.ts';
import { onCircle, type Point, type Scene } from './scene.ts';

const centre: Point = [0, 0];
type OptionName = (feature: FeatureId, option: string) => string;

/**
 * A housing squarely from its open end. The openings are to scale; the volute shows its hand and entry only: A/R is a ratio the eye
 * cannot read off an outline, so it stands beside it as a number.
 */
export const housingScene = (end: End, reading: Reading, optionName: OptionName): Scene => {
  const id = (name: string) => `${end}-housing-${name}`;
  const opening = reading.size(id(end === 'compressor' ? 'inlet' : 'outlet'), 50);
  const hand = reading.choice(id('volute-hand'));
  const ratio = reading.size(id('area-ratio'), 0);
  const radius = opening.value / 2;
  // Seen from the compressor end; the turbine housing is looked at from the other end.
  const clockwise = hand.only !== null && (hand.only === 'clockwise') === (end === 'compressor');
  const pipe = end === 'compressor' ? reading.size(id('outlet'), opening.value * 0.8) : null;
  const wide = pipe?.value ?? radius * 0.9;
  const pen = reading.pen(opening.value * 1.9);
  volute(pen, radius, wide, clockwise, hand.only !== null, hand.feature);
  centreLines(pen, centre, radius);
  ring(pen, centre, opening);
  const way = clockwise ? 1 : -1;
  const mouth: Point = [way * radius * 1.75, -radius * 1.5 - wide / 2];
  const at = { mouth, radius, wide, way, pipe };
  const { above, beside } =
    end === 'compressor' ? compressorParts(pen, reading, optionName, at) : turbineParts(pen, reading, optionName, at);
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
    says: `${from}: ${[above, ...labels].map((label) => label.text).join(', ')}; volute ${hand.only ?? 'hand not known'}.`,
    ...reading.account(),
  });
};

/** Where the volute opens, which way it runs, and how wide its mouth is. */
interface Mouth {
  readonly mouth: Point;
  readonly radius: number;
  readonly wide: number;
  readonly way: number;
  readonly pipe: Size | null;
}

/** A spiral that widens by even steps to the mouth; fine, as no size stands behind it. */
const volute = (pen: Pen, radius: number, wide: number, clockwise: boolean, known: boolean, feature: FeatureId): void => {
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
    known ? 'fine' : 'guess',
    feature,
  );
  const top = -far(1);
  pen.line([0, top], [way * radius * 1.75, top], known ? 'fine' : 'guess', feature);
  pen.line([way * radius * 0.55, top + wide], [way * radius * 1.75, top + wide], known ? 'fine' : 'guess', feature);
};

const sayChoice = (choice: Choice, what: string, optionName: OptionName): string =>
  choice.anyOf.map((option) => optionName(choice.feature, option)).join(' or ') || `${what} ?`;

const sayPresence = (present: boolean | null, what: string): string => (present === null ? `${what} ?` : present ? what : `no ${what}`);

const compressorParts = (
  pen: Pen,
  reading: Reading,
  optionName: OptionName,
  { mouth, radius, way, pipe }: Mouth,
): { readonly above: Label; readonly beside: readonly Label[] } => {
  const form = reading.choice('compressor-housing-outlet-form');
  const slot = reading.presence('compressor-housing-recirculation-slot');
  const half = (pipe?.value ?? 0) / 2;
  const [x, y] = mouth;
  if (pipe !== null) pen.line([x, y - half], [x, y + half], pipe.known ? 'edge' : 'guess', pipe.feature);
  const deep = pen.letter * 0.7;
  switch (form.only) {
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
      text: `${pipe === null ? '' : `${sayDiameter(pipe, 'outlet')}, `}${sayChoice(form, 'form', optionName)}`,
      known: pipe?.known === true && form.only !== null,
      feature: pipe?.feature ?? form.feature,
    },
    beside: [{ text: sayPresence(slot.present, 'recirculation slot'), known: slot.present !== null, feature: slot.feature }],
  };
};

const turbineParts = (
  pen: Pen,
  reading: Reading,
  optionName: OptionName,
  { mouth, radius, wide, way }: Mouth,
): { readonly above: Label; readonly beside: readonly Label[] } => {
  const entry = reading.choice('turbine-housing-entry');
  const wastegate = reading.presence('turbine-housing-wastegate');
  const flange = reading.choice('turbine-housing-flange');
  const [x, y] = mouth;
  pen.box(
    [way > 0 ? x : x - pen.letter * 0.6, y - wide * 0.75],
    pen.letter * 0.6,
    wide * 1.5,
    flange.only === null ? 'guess' : 'blade',
    flange.feature,
  );
  if (entry.only === 'twin') pen.line([way * radius * 0.5, y], [x, y], 'blade', entry.feature);
  if (entry.only === null) pen.query([x - way * pen.letter, y], entry.feature);
  const gate: Point = [radius * 0.95, radius * 1.2];
  if (wastegate.present !== false) {
    pen.circle(gate, radius * 0.22, wastegate.present === null ? 'guess' : 'blade', wastegate.feature);
    if (wastegate.present === null) pen.query(gate, wastegate.feature);
    else pen.line(gate, [gate[0] - radius * 0.42, gate[1] + radius * 0.1], 'blade', wastegate.feature);
  }
  return {
    above: { text: sayChoice(flange, 'inlet flange', optionName), known: flange.only !== null, feature: flange.feature },
    beside: [
      { text: sayChoice(entry, 'entry', optionName), known: entry.only !== null, feature: entry.feature },
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
export const flangeScene = (reading: Reading, optionName: OptionName): Scene => {
  const flange = reading.choice('turbine-housing-flange');
  const entry = reading.choice('turbine-housing-entry');
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
  switch (flange.only) {
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
  if (entry.only === 'twin') for (const x of [-12, 1]) pen.box([x, -11], 11, 20, 'blade', entry.feature);
  else if (entry.only === 'single') pen.box([-12, -11], 24, 20, 'blade', entry.feature);
  else {
    pen.box([-12, -11], 24, 20, 'guess', entry.feature);
    pen.query([0, -1], entry.feature);
  }
  const said = flange.anyOf.map((option) => optionName(feature, option)).join(' or ') || 'not known';
  const entrySaid = entry.anyOf.map((option) => optionName(entry.feature, option)).join(' or ') || 'entry not known';
  pen.text([0, pen.bottom + pen.letter * 1.4], `${said}; ${entrySaid}`, 'middle', feature);
  return pen.scene({
    title: 'Inlet flange',
    says: `Turbine inlet flange: ${said}; ${entrySaid}. Not to scale.`,
    ...reading.account(),
    toScale: false,
  });
};

import type { DrawingRoles, FeatureId } from '../../reasoner/index.ts';
import { lengthAcross } from './dimension.ts';
import type { Pen } from './pen.ts';
import { acrossOf, type Presence, type Reading, type Size } from './reading.ts';
import type { Look, Scene } from './scene.ts';

/** A length of the shaft with one diameter. Without a length of its own it is drawn broken, at a length that only makes room. */
interface Step {
  readonly name: string;
  readonly diameter: Size | null;
  readonly length: Size | null;
  readonly room: number;
}

/**
 * The shaft on its side, compressor end at the left. Diameters, and the lengths of the stub and between the shoulders, are to scale.
 * The other lengths the atlas does not hold: those steps are broken, as on a shop drawing. Diameters that were counted but never measured
 * stand dashed with a question mark; where along the shaft they lie is not known either.
 */
export const shaftScene = (reading: Reading<DrawingRoles['shaft']>): Scene => {
  const running = reading.size('running', 10);
  const d = running.value;
  const stub = reading.size('stub', d * 0.7);
  const stubLength = reading.size('stubLength', d * 3);
  const bearing = reading.size('bearingLength', d * 3.6);
  const thread = reading.choice('thread');
  const hand = reading.choice('threadHand', ['left', 'right']);
  const races = reading.presence('innerRaces');
  const steps = reading.count('steps');
  // The weld spigot is inside the wheel's head; the other four can be seen on the shaft and are of those that are counted.
  const unmeasured = Math.max(0, (steps.value ?? 4) - 4);
  const unmeasuredStep: Step = { name: '', diameter: null, length: null, room: d * 0.5 };
  const profile: readonly Step[] = [
    { name: 'stub', diameter: stub, length: stubLength, room: 0 },
    ...Array.from({ length: Math.floor(unmeasured / 2) }, () => unmeasuredStep),
    { name: 'flinger', diameter: reading.size('flinger', d * 1.8), length: null, room: d * 0.6 },
    {
      name: races.present === null ? 'journal or raceway' : races.present ? 'raceway' : 'journal',
      diameter: running,
      length: bearing,
      room: 0,
    },
    ...Array.from({ length: Math.ceil(unmeasured / 2) }, () => unmeasuredStep),
    { name: 'seal boss', diameter: reading.size('sealBoss', d * 1.9), length: null, room: d * 0.6 },
    { name: 'weld spigot', diameter: reading.size('weldSpigot', d * 1.3), length: null, room: d * 0.5 },
  ];
  const lengthOf = (step: Step) => step.length?.value ?? step.room;
  const whole = profile.reduce((sum, step) => sum + lengthOf(step), 0);
  const widest = Math.max(...profile.map((step) => step.diameter?.value ?? d));
  const pen = reading.pen(whole * 0.58);
  pen.line([-pen.letter, 0], [whole + pen.letter, 0], 'axis');
  const labels: {
    readonly x: number;
    readonly radius: number;
    readonly text: string;
    readonly known: boolean;
    readonly feature: FeatureId | undefined;
  }[] = [];
  let x = 0;
  for (const step of profile) {
    const long = lengthOf(step);
    const radius = (step.diameter?.value ?? d * 1.15) / 2;
    drawStep(pen, x, long, radius, step, steps.feature);
    if (step.diameter !== null) {
      const { said, known, feature } = step.diameter;
      labels.push({
        x: x + long * (step.length === null ? 0.5 : step.name === 'stub' ? 0.86 : 0.4),
        radius,
        text: `⌀ ${said} ${step.name}`,
        known,
        feature,
      });
    }
    if (step.length !== null) {
      const y = widest / 2 + pen.letter * 1.7;
      lengthAcross(pen, [x, x + long], y, [radius, radius], step.length.said, step.length.known, step.length.feature);
    }
    if (step.name === 'stub') threadOn(pen, x, step, acrossOf(thread), thread.feature);
    if (step.diameter === running) seats(pen, x, long, radius, races);
    x += long;
  }
  labels.forEach((label, i) => {
    const y = -widest / 2 - pen.letter * (0.7 + (labels.length - i - 1) * 1.45);
    pen.line([label.x, -label.radius], [label.x, y - pen.letter * 0.4], 'dimension');
    pen.text([label.x + pen.letter * 0.3, y], label.text, 'start', label.feature, label.known ? 'label' : 'query');
  });
  const threadSaid =
    thread.only === null
      ? 'thread ?'
      : `${thread.said}${hand.form === null ? ', hand ?' : hand.form === 'left' ? ', left-hand' : ', right-hand'}`;
  pen.text([0, -stub.value / 2 - pen.letter * 0.6], threadSaid, 'start', thread.feature, thread.only === null ? 'query' : 'label');
  const racesSaid = races.present === null ? 'inner races not known' : races.present ? 'two pressed inner races' : 'no inner races';
  return pen.scene({
    title: 'Shaft, compressor end at the left',
    says: `Shaft in profile: stepped diameters ${steps.said}, ${racesSaid}; ${labels.map((label) => label.text).join(', ')}; stub length ${stubLength.said}, between the shoulders ${bearing.said}.`,
    ...reading.account(),
  });
};

const drawStep = (pen: Pen, x: number, long: number, radius: number, step: Step, counted: FeatureId | undefined): void => {
  const end = x + long;
  if (step.diameter === null) {
    pen.box([x, -radius], long, 2 * radius, 'guess', counted);
    pen.query([x + long / 2, 0], counted);
    return;
  }
  const look: Look = step.diameter.known ? 'edge' : 'guess';
  const { feature } = step.diameter;
  pen.box([x, -radius], long, 2 * radius, 'metal');
  for (const y of [-radius, radius]) {
    if (step.length !== null) {
      pen.line([x, y], [end, y], step.length.known ? look : 'guess', feature);
      continue;
    }
    const [from, to] = [x + long * 0.38, x + long * 0.62];
    pen.line([x, y], [from, y], look, feature);
    pen.line([to, y], [end, y], look, feature);
    const slant = pen.letter * 0.3;
    for (const at of [from, to]) pen.line([at - slant / 2, y + slant], [at + slant / 2, y - slant], 'fine');
  }
  for (const at of [x, end]) pen.line([at, -radius], [at, radius], look, feature);
  if (!step.diameter.known) pen.query([x + long / 2, 0], feature);
};

/** The threaded end: fine, since how far the thread runs is not known. */
const threadOn = (pen: Pen, x: number, step: Step, across: number | null, feature: FeatureId | undefined): void => {
  const long = (step.length?.value ?? 0) * 0.28;
  const root = ((across ?? step.diameter?.value ?? 0) / 2) * 0.84;
  for (const y of [-root, root]) pen.line([x, y], [x + long, y], across === null ? 'guess' : 'fine', feature);
  pen.line([x + long, -root], [x + long, root], 'fine', feature);
};

/** Where the shaft runs: two places, at the ends of the length between the shoulders. How wide they are is for reading only. */
const seats = (pen: Pen, x: number, long: number, radius: number, races: Presence): void => {
  const wide = long * 0.2;
  for (const from of [x + long * 0.04, x + long * 0.96 - wide]) {
    pen.box([from, -radius], wide, 2 * radius, races.present === null ? 'guess' : 'fine', races.feature);
    if (races.present !== true) continue;
    // A pressed race shows its groove.
    for (const y of [-radius, radius]) {
      pen.path([from + wide * 0.3, y], [{ to: [from + wide * 0.7, y], by: [from + wide / 2, y * 0.72] }], 'blade', races.feature);
    }
  }
  if (races.present === null) pen.query([x + long / 2, 0], races.feature);
};

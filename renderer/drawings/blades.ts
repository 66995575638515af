import type { DrawingRoles } from '../../reasoner/index.ts';
import { centreLines, fromCircle, leaders, ring, sayDiameter, turnArrow } from './dimension.ts';
import { nose, noses } from './nose.ts';
import type { Pen } from './pen.ts';
import type { Choice, Count, Reading, Size } from './reading.ts';
import { onCircle, type Point, type Scene } from './scene.ts';

/** Options of a back and of a way to turn that are drawn apart. */
const backs = ['scalloped'] as const;
const hands = ['clockwise', 'anticlockwise'] as const;

const centre: Point = [0, 0];

/**
 * A compressor wheel from the front: full blades evenly round the rim, splitters evenly between them. The sweep of a blade is for
 * reading only; its end at the rim is where the count puts it.
 */
export const compressorBlades = (reading: Reading<DrawingRoles['compressor blades']>): Scene => {
  const full = reading.count('fullBlades');
  const splitters = reading.count('splitterBlades');
  const asked = reading.size('inducer', 0);
  const rim = reading.size('exducer', asked.known ? asked.value / 0.74 : 50);
  const inducer = asked.known ? asked : { ...asked, value: rim.value * 0.74 };
  const back = reading.choice('back', backs);
  const hand = reading.choice('rotation', hands);
  const form = reading.choice('nose', noses);
  const [outer, inner] = [rim.value / 2, inducer.value / 2];
  const pen = reading.pen(rim.value);
  // Blades of a wheel that turns clockwise lean back the other way.
  const lean = hand.form === 'clockwise' ? -1 : 1;
  centreLines(pen, centre, outer);
  const n = full.value ?? 0;
  rimOf(pen, outer, back.form === 'scalloped' ? n + (splitters.value ?? 0) : 0, rim.known, back, rim.feature);
  ring(pen, centre, inducer);
  const hub = outer * 0.17;
  for (let k = 0; k < n; k += 1) {
    const angle = (360 * k) / n;
    const edge = onCircle(centre, inner, angle - lean * 22);
    pen.path(
      onCircle(centre, hub, angle - lean * 30),
      [{ to: edge }, { to: onCircle(centre, outer, angle), by: onCircle(centre, inner + (outer - inner) * 0.55, angle - lean * 20) }],
      'blade',
      full.feature,
    );
  }
  const places = splitterAngles(n, splitters.value ?? 0);
  for (const angle of places.angles) {
    pen.path(
      onCircle(centre, inner * 0.86, angle - lean * 25),
      [{ to: onCircle(centre, outer, angle), by: onCircle(centre, inner + (outer - inner) * 0.5, angle - lean * 21) }],
      places.certain ? 'blade' : 'guess',
      splitters.feature,
    );
  }
  if (full.value === null) pen.query(onCircle(centre, (hub + inner) / 2, 45), full.feature);
  if (splitters.value === null) pen.query(onCircle(centre, (inner + outer) / 2, 60), splitters.feature);
  nose(pen, centre, hub, form);
  if (hand.form !== null) turnArrow(pen, centre, outer + pen.letter, hand.form === 'clockwise', hand.feature);
  leaders(
    pen,
    [outer + pen.letter * 2.2, 0],
    [
      { from: fromCircle(centre, outer), text: sayDiameter(rim, 'exducer'), known: rim.known, feature: rim.feature },
      { from: fromCircle(centre, inner), text: sayDiameter(inducer, 'inducer'), known: inducer.known, feature: inducer.feature },
      { from: fromCircle(centre, hub * 2), text: sayBlades(full, 'full blades'), known: full.value !== null, feature: full.feature },
      {
        from: fromCircle(centre, (inner + outer) / 2),
        text: sayBlades(splitters, 'splitters'),
        known: splitters.value !== null,
        feature: splitters.feature,
      },
    ],
  );
  return pen.scene({
    title: 'Blades, from the front',
    says: `Compressor wheel from the front: full blades ${full.said}, splitter blades ${splitters.said}, exducer ${rim.said}, inducer ${inducer.said}.`,
    ...reading.account(),
  });
};

/**
 * Where splitters end on the rim, degrees. As many in every passage, evenly; where the count does not go into the passages evenly, which passages
 * hold them is not known, and they are spread around for want of better.
 */
export const splitterAngles = (full: number, splitters: number): { readonly angles: readonly number[]; readonly certain: boolean } => {
  if (splitters === 0) return { angles: [], certain: true };
  if (full === 0 || splitters % full !== 0) {
    return { angles: Array.from({ length: splitters }, (_, k) => (360 * (k + 0.5)) / splitters), certain: false };
  }
  const each = splitters / full;
  return {
    angles: Array.from({ length: splitters }, (_, k) => (360 / full) * (Math.floor(k / each) + ((k % each) + 1) / (each + 1))),
    certain: true,
  };
};

/** A turbine wheel from the outlet. The wheel turns one way, so from this end the hand is the other than from the compressor end. */
export const turbineBlades = (reading: Reading<DrawingRoles['turbine blades']>): Scene => {
  const blades = reading.count('blades');
  const asked = reading.size('exducer', 0);
  const rim = reading.size('inducer', asked.known ? asked.value / 0.87 : 50);
  const exducer = asked.known ? asked : { ...asked, value: rim.value * 0.87 };
  const back = reading.choice('back', backs);
  const hand = reading.choice('rotation', hands);
  const form = reading.choice('hub', noses);
  const [outer, inner] = [rim.value / 2, exducer.value / 2];
  const pen = reading.pen(rim.value);
  const lean = hand.form === 'clockwise' ? 1 : -1;
  centreLines(pen, centre, outer);
  const n = blades.value ?? 0;
  rimOf(pen, outer, back.form === 'scalloped' ? n : 0, rim.known, back, rim.feature);
  ring(pen, centre, exducer);
  const hub = outer * 0.24;
  for (let k = 0; k < n; k += 1) {
    const angle = (360 * k) / n;
    pen.path(
      onCircle(centre, hub, angle - lean * 6),
      [
        { to: onCircle(centre, inner, angle), by: onCircle(centre, (hub + inner) / 2, angle + lean * 13) },
        { to: onCircle(centre, outer, angle) },
      ],
      'blade',
      blades.feature,
    );
  }
  if (blades.value === null) pen.query(onCircle(centre, (hub + inner) / 2, 45), blades.feature);
  nose(pen, centre, hub, form);
  if (hand.form !== null) turnArrow(pen, centre, outer + pen.letter, hand.form !== 'clockwise', hand.feature);
  leaders(
    pen,
    [Math.max(outer, inner) + pen.letter * 2.2, 0],
    [
      { from: fromCircle(centre, outer), text: sayDiameter(rim, 'inducer'), known: rim.known, feature: rim.feature },
      { from: fromCircle(centre, inner), text: sayDiameter(exducer, 'exducer'), known: exducer.known, feature: exducer.feature },
      {
        from: fromCircle(centre, (hub + inner) / 2),
        text: sayBlades(blades, 'blades'),
        known: blades.value !== null,
        feature: blades.feature,
      },
    ],
  );
  return pen.scene({
    title: 'Blades, from the outlet',
    says: `Turbine wheel from the outlet: blades ${blades.said}, inducer ${rim.said}, exducer ${exducer.said}.`,
    ...reading.account(),
  });
};

const sayBlades = (count: Count, what: string): string => `${count.said} ${what}`;

/** The back disc: round, or let in between the blades. How deep it is let in is for reading only. */
const rimOf = (
  pen: Pen,
  radius: number,
  scallops: number,
  known: boolean,
  back: Choice<(typeof backs)[number]>,
  feature: Size['feature'],
): void => {
  pen.circle(centre, radius, known ? 'edge' : 'guess', feature);
  if (back.form !== 'scalloped' || scallops === 0) return;
  const at = (k: number) => onCircle(centre, radius, (360 * k) / scallops);
  const steps = Array.from({ length: scallops }, (_, k) => ({
    to: at(k + 1),
    by: onCircle(centre, radius * 0.78, (360 * (k + 0.5)) / scallops),
  }));
  pen.path(at(0), steps, 'fine', back.feature);
};

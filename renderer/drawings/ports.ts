import type { DrawingRoles } from '../../reasoner/index.ts';
import { centreLines, fromCircle, leaders, ring, sayDiameter } from './dimension.ts';
import type { Pen } from './pen.ts';
import { acrossOf, type Choice, type Count, type Presence, type Reading } from './reading.ts';
import { onCircle, type Point, type Scene } from './scene.ts';

const centre: Point = [0, 0];

/** Options of a drain and of ribs that are drawn apart. */
const drains = ['two-bolt', 'four-bolt', 'spigot'] as const;
const ribPatterns = ['ring', 'fan'] as const;

/** The bearing housing from the compressor end: bore, oil feed at the top, oil drain below, water ports at the sides, ribs. How far the casting reaches is for reading only. */
export const portsScene = (reading: Reading<DrawingRoles['bearing housing ports']>): Scene => {
  const recess = reading.size('recess', 60);
  const bore = reading.size('bearingBore', recess.value * 0.28);
  const feed = reading.choice('oilFeed');
  const drain = reading.choice('oilDrain', drains);
  const water = reading.presence('waterPorts');
  const ribs = reading.count('ribs');
  const pattern = reading.choice('ribPattern', ribPatterns);
  const body = recess.value * 0.36;
  const pen = reading.pen(recess.value * 0.95);
  const { letter } = pen;
  ribsOn(pen, body, recess.value / 2, ribs, pattern);
  pen.circle(centre, body, 'metal');
  centreLines(pen, centre, recess.value / 2);
  ring(pen, centre, recess);
  pen.circle(centre, bore.value / 2, bore.known ? 'edge' : 'guess', bore.feature);

  const thread = acrossOf(feed);
  const half = (thread ?? 12) / 2;
  const top = -body * 1.06;
  pen.box([-half * 1.7, top - letter * 1.1], half * 3.4, letter * 1.1 + body * 0.1, 'metal');
  pen.box([-half, top - letter * 1.1], half * 2, body * 0.62, thread === null ? 'guess' : 'edge', feed.feature);
  if (thread === null) pen.query([0, top - letter * 0.4], feed.feature);

  drainAt(pen, body, drain);
  waterAt(pen, body, water);
  const side: Point = [recess.value / 2 + letter * 2.4, 0];
  leaders(pen, side, [
    {
      from: () => [half, top - letter * 0.5],
      text: `oil feed ${feed.said || '?'}`,
      known: feed.only !== null,
      feature: feed.feature,
    },
    {
      from: fromCircle(centre, recess.value / 2),
      text: sayDiameter(recess, 'backplate recess'),
      known: recess.known,
      feature: recess.feature,
    },
    { from: fromCircle(centre, bore.value / 2), text: sayDiameter(bore, 'bearing bore'), known: bore.known, feature: bore.feature },
    {
      from: () => [body * 0.98, body * 0.1],
      text: water.present === null ? 'water ports ?' : water.present ? 'water ports' : 'no water ports',
      known: water.present !== null,
      feature: water.feature,
    },
    {
      from: () => onCircle(centre, body, 125),
      text: `${ribs.said} ribs${pattern.only === null ? '' : `, ${pattern.only}`}`,
      known: ribs.value !== null,
      feature: ribs.feature,
    },
    {
      from: () => [body * 0.3, body * 1.15],
      text: `oil drain ${drain.anyOf.length === 0 ? '?' : drain.anyOf.map((form) => drainWords[form] ?? form).join(' or ')}`,
      known: drain.only !== null,
      feature: drain.feature,
    },
  ]);
  return pen.scene({
    title: 'Ports, from the compressor end',
    says: `Bearing housing from the compressor end: oil feed ${feed.said || 'not known'}, oil drain ${drain.anyOf.join(' or ') || 'not known'}, ${water.present === null ? 'water ports not known' : water.present ? 'two water ports' : 'no water ports'}, bearing bore ${bore.said}.`,
    ...reading.account(),
  });
};

const drainWords: Readonly<Record<string, string>> = { 'two-bolt': 'two-bolt flange', 'four-bolt': 'four-bolt flange', spigot: 'spigot' };

/** Ribs stand on the casting in the fields between the ports. Their number is counted; where they stand is for reading only. */
const ribsOn = (pen: Pen, body: number, reach: number, ribs: Count, pattern: Choice<(typeof ribPatterns)[number]>): void => {
  const n = ribs.value ?? 0;
  for (let k = 0; k < n; k += 1) {
    const angle = 100 + ((k + 0.5) * 340) / n;
    const far = Math.min(reach * 0.97, body * 1.28);
    if (pattern.form === 'ring') {
      pen.circle(centre, body + ((k + 1) / (n + 1)) * (far - body), 'fine', ribs.feature);
    } else {
      const lean = pattern.form === 'fan' ? 9 : 0;
      pen.line(onCircle(centre, body, angle), onCircle(centre, far, angle + lean), 'blade', ribs.feature);
    }
  }
  if (ribs.value === null) pen.query(onCircle(centre, body * 1.15, 235), ribs.feature);
};

const drainAt = (pen: Pen, body: number, drain: Choice<(typeof drains)[number]>): void => {
  const y = body * 1.02;
  const { letter } = pen;
  const tube = body * 0.22;
  if (drain.form === null) {
    pen.box([-tube * 1.8, y], tube * 3.6, letter * 1.2, 'guess', drain.feature);
    pen.query([0, y + letter * 0.6], drain.feature);
    return;
  }
  if (drain.form === 'spigot') {
    pen.box([-tube, y - letter * 0.2], tube * 2, letter * 1.9, 'blade', drain.feature);
    return;
  }
  pen.box([-tube * 2.4, y], tube * 4.8, letter * 0.8, 'blade', drain.feature);
  pen.box([-tube, y - letter * 0.6], tube * 2, letter * 0.6, 'fine');
  // Seen edge-on, four bolts stand two behind two: the nearer pair is drawn full, the farther beside it.
  const bolts = drain.form === 'four-bolt' ? [-1.95, -1.5, 1.5, 1.95] : [-1.72, 1.72];
  for (const at of bolts) pen.line([at * tube, y - letter * 0.35], [at * tube, y + letter * 1.15], 'axis', drain.feature);
};

const waterAt = (pen: Pen, body: number, water: Presence): void => {
  if (water.present === false) return;
  const radius = body * 0.13;
  for (const way of [-1, 1]) {
    const at: Point = [way * body * 0.8, body * 0.1];
    pen.circle(at, radius, water.present === null ? 'guess' : 'blade', water.feature);
    if (water.present === null) pen.query(at, water.feature);
    else pen.circle(at, radius * 0.6, 'fine', water.feature);
  }
};

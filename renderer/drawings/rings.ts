import type { DrawingRoles } from '../../reasoner/index.ts';
import { centreLines, fromCircle, leaders, lengthAcross, ring, sayDiameter } from './dimension.ts';
import type { Pen } from './pen.ts';
import type { Count, Reading, Size } from './reading.ts';
import { onCircle, type Point, type Scene } from './scene.ts';

const centre: Point = [0, 0];

/** Marks of what is counted round a part: slots of a heat shield, ribs of a backplate. How long they are is for reading only. */
const spokes = (pen: Pen, count: Count, from: number, to: number): void => {
  const n = count.value ?? 0;
  for (let k = 0; k < n; k += 1)
    pen.line(onCircle(centre, from, (360 * k) / n), onCircle(centre, to, (360 * k) / n), 'blade', count.feature);
  if (count.value === null) pen.query(onCircle(centre, (from + to) / 2, 235), count.feature);
};

const labelled = (size: Size, what: string) => ({
  from: fromCircle(centre, size.value / 2),
  text: sayDiameter(size, what),
  known: size.known,
  feature: size.feature,
});

export const heatShieldScene = (reading: Reading<DrawingRoles['heat shield']>): Scene => {
  const seat = reading.size('seat', 60);
  const outside = reading.size('outside', seat.value * 1.07);
  const hole = reading.size('hole', seat.value * 0.37);
  const dish = reading.size('dish', seat.value * 0.1);
  const slots = reading.count('slots');
  const form = reading.choice('form');
  const pen = reading.pen(outside.value);
  centreLines(pen, centre, outside.value / 2);
  for (const size of [outside, seat, hole]) ring(pen, centre, size);
  spokes(pen, slots, hole.value * 0.72, seat.value * 0.4);
  leaders(
    pen,
    [outside.value / 2 + pen.letter * 1.8, 0],
    [
      labelled(outside, 'outside'),
      labelled(seat, 'seat'),
      labelled(hole, 'hub hole'),
      { from: fromCircle(centre, seat.value * 0.4), text: `${slots.said} slots`, known: slots.value !== null, feature: slots.feature },
      { text: `dish ${dish.said} deep`, known: dish.known, feature: dish.feature },
      { text: form.only ?? 'form ?', known: form.only !== null, feature: form.feature },
    ],
  );
  return pen.scene({
    title: 'Heat shield, from the turbine end',
    says: `Heat shield: outside ${outside.said}, seat ${seat.said}, hub hole ${hole.said}, slots ${slots.said}, dish depth ${dish.said}.`,
    ...reading.account(),
  });
};

export const backplateScene = (reading: Reading<DrawingRoles['backplate']>): Scene => {
  const spigot = reading.size('spigot', 70);
  const core = reading.size('coreSpigot', spigot.value * 0.75);
  const seal = reading.size('sealBore', spigot.value * 0.25);
  const ribs = reading.count('ribs');
  const pen = reading.pen(spigot.value);
  centreLines(pen, centre, spigot.value / 2);
  for (const size of [spigot, core, seal]) ring(pen, centre, size);
  spokes(pen, ribs, seal.value * 0.65, core.value * 0.46);
  leaders(
    pen,
    [spigot.value / 2 + pen.letter * 1.8, 0],
    [
      labelled(spigot, 'spigot, compressor housing'),
      labelled(core, 'spigot, bearing housing'),
      labelled(seal, 'seal bore'),
      { from: fromCircle(centre, core.value * 0.42), text: `${ribs.said} ribs`, known: ribs.value !== null, feature: ribs.feature },
    ],
  );
  return pen.scene({
    title: 'Backplate, from the core',
    says: `Backplate: spigot towards the compressor housing ${spigot.said}, towards the bearing housing ${core.said}, seal bore ${seal.said}, ribs ${ribs.said}.`,
    ...reading.account(),
  });
};

/** Bearings on their axis, cut: outside, running bore and length to scale. Two bushes with a gap, or a cartridge with its rows of balls. */
export const bearingScene = (reading: Reading<DrawingRoles['bearing set']>): Scene => {
  const outside = reading.size('outside', 18);
  const bore = reading.size('runningBore', outside.value * 0.6);
  const length = reading.size('length', outside.value * 2.2);
  const kind = reading.choice('kind', ['journal', 'cartridge']);
  const bushes = reading.count('bushes');
  const balls = reading.count('balls');
  const pen = reading.pen(length.value * 0.85);
  const { letter } = pen;
  const [outer, inner, long] = [outside.value / 2, bore.value / 2, length.value];
  pen.line([-letter, 0], [long + letter, 0], 'axis');
  const n = kind.form === 'journal' ? (bushes.value ?? 1) : 1;
  // Bushes share the length; how wide each is the atlas does not say.
  const gap = n > 1 ? long * 0.3 : 0;
  const wide = (long - gap * (n - 1)) / Math.max(1, n);
  for (let k = 0; k < n; k += 1) {
    const x = k * (wide + gap);
    for (const way of [-1, 1]) {
      pen.box([x, way > 0 ? inner : -outer], wide, outer - inner, 'metal', bushes.feature);
      pen.line([x, way * outer], [x + wide, way * outer], outside.known ? 'edge' : 'guess', outside.feature);
      pen.line([x, way * inner], [x + wide, way * inner], bore.known ? 'edge' : 'guess', bore.feature);
      // Only the two outermost faces are a length the atlas gives.
      const ends = [
        { at: x, outermost: k === 0 },
        { at: x + wide, outermost: k === n - 1 },
      ];
      for (const { at, outermost } of ends) {
        const look = !length.known ? 'guess' : outermost ? 'edge' : 'fine';
        pen.line([at, way * inner], [at, way * outer], look, length.feature);
      }
      if (kind.form === 'cartridge')
        for (const at of [long * 0.12, long * 0.88])
          pen.circle([at, (way * (inner + outer)) / 2], (outer - inner) * 0.3, 'fine', balls.feature);
    }
  }
  if (kind.form === null) pen.query([long / 2, 0], kind.feature);
  lengthAcross(pen, [0, long], outer + letter * 1.7, [outer, outer], length.said, length.known, length.feature);
  const inside =
    kind.form === 'journal'
      ? `${bushes.said} bush${bushes.value === 1 ? '' : 'es'}`
      : kind.form === 'cartridge'
        ? `${balls.said} balls`
        : 'kind ?';
  const insideKnown = kind.form === 'journal' ? bushes.value !== null : kind.form === 'cartridge' && balls.value !== null;
  leaders(
    pen,
    [long + letter * 1.8, 0],
    [
      { from: () => [long, -outer], text: sayDiameter(outside, 'outside'), known: outside.known, feature: outside.feature },
      { from: () => [long, -inner], text: sayDiameter(bore, 'running bore'), known: bore.known, feature: bore.feature },
      {
        from: () => [long * 0.9, outer * 0.8],
        text: inside,
        known: insideKnown,
        feature: kind.form === 'journal' ? bushes.feature : balls.feature,
      },
    ],
  );
  return pen.scene({
    title: 'Bearing set, cut through the axis',
    says: `Bearing set, ${kind.anyOf.join(' or ') || 'kind not known'}: outside ${outside.said}, running bore ${bore.said}, length ${length.said}, ${inside}.`,
    ...reading.account(),
  });
};

import type { FeatureId, Joint, PortId, SlotId } from '../../reasoner/index.ts';
import { centreLines, fromCircle, type Label, leaders, lengthAcross, ring, sayDiameter } from './dimension.ts';
import type { Pen } from './pen.ts';
import { acrossOf, type Count, type Reading, type Size } from './reading.ts';
import { onCircle, type Point, type Scene } from './scene.ts';

/** What a face is drawn from. What its joint has no rule for is not fed, and not drawn. */
export type FaceRoles = {
  count: 'count';
  circle: 'measure';
  bolt: 'choice';
  pilot: 'measure';
  joining: 'choice';
  profile: 'choice';
};

/** One side of a joint that is held by bolts on a circle or by a clamp: found in the joint's own rules, so that a new joint needs no code here. */
export interface Face {
  readonly joint: Joint;
  readonly feeds: { readonly [Role in keyof FaceRoles]: FeatureId | undefined };
}

/** The bolted or clamped faces of one slot's parts. @param ports which slot each port is on; @param own features of the slot */
export const facesOf = (
  slot: SlotId,
  joints: readonly Joint[],
  ports: ReadonlyMap<PortId, SlotId>,
  own: ReadonlySet<FeatureId>,
): readonly Face[] =>
  joints.flatMap((joint) => {
    const side = ports.get(joint.a) === slot ? 'a' : ports.get(joint.b) === slot ? 'b' : null;
    const bolts = joint.rules.find((rule) => rule.kind === 'bolt circle');
    if (side === null || bolts === undefined) return [];
    const { count, diameter: circle, bolt } = bolts[side];
    const piloted = joint.rules.find((rule) => rule.kind === 'pilot');
    const pilot = piloted === undefined ? undefined : [piloted.spigot, piloted.recess].find((feature) => own.has(feature));
    const joined = joint.rules.find((rule) => rule.kind === 'same' && rule.what === 'joining');
    const joining = joined?.kind === 'same' ? joined[side] : undefined;
    const profile = joint.rules.find((rule) => rule.kind === 'clamp profile')?.[side];
    return [{ joint, feeds: { joining, circle, pilot, count, bolt, profile } }];
  });

const centre: Point = [0, 0];

/**
 * A joint's face, looked at squarely: pilot, bolt circle with its holes, and the chord from one hole to the next, which is what a caliper
 * can take. Or the seat of a clamp with its rim.
 */
export const faceScene = (joint: Joint, reading: Reading<FaceRoles>): Scene => {
  reading.choice('joining');
  const circle = reading.size('circle', 60);
  const pilot = reading.isFed('pilot') ? reading.size('pilot', circle.value * 0.8) : null;
  const count = reading.count('count');
  const reach = Math.max(circle.value, pilot?.value ?? 0);
  const pen = reading.pen(reach);
  centreLines(pen, centre, reach / 2);
  if (pilot !== null) ring(pen, centre, pilot);
  const labels = [
    ...(pilot === null ? [] : [sized(pilot, 'pilot')]),
    // A rim without a single bolt is held by a clamp.
    ...(count.value === 0 ? clampOn(pen, circle, reading) : boltsOn(pen, count, circle, reading)),
  ];
  leaders(pen, [reach / 2 + pen.letter * 1.8, 0], labels);
  return pen.scene({
    title: `Face: ${joint.name}`,
    says: `Face of the joint ${joint.name}: ${labels.map((label) => label.text).join(', ')}.`,
    ...reading.account(),
  });
};

const sized = (size: Size, what: string): Label => ({
  from: fromCircle(centre, size.value / 2),
  text: sayDiameter(size, what),
  known: size.known,
  feature: size.feature,
});

const clampOn = (pen: Pen, circle: Size, reading: Reading<FaceRoles>): readonly Label[] => {
  ring(pen, centre, circle);
  const seat = sized(circle, 'clamp seat');
  if (!reading.isFed('profile')) return [seat];
  const { feature, only, said } = reading.choice('profile');
  return [seat, { text: said || 'clamp rim ?', known: only !== null, feature }];
};

/** Holes stand evenly, two of them level at the top, so that the chord between these lies flat. */
const boltsOn = (pen: Pen, count: Count, circle: Size, reading: Reading<FaceRoles>): readonly Label[] => {
  const bolt = reading.choice('bolt');
  const n = count.value ?? 0;
  const radius = circle.value / 2;
  pen.circle(centre, radius, circle.known ? 'axis' : 'guess', circle.feature);
  const across = acrossOf(bolt) ?? circle.value * 0.07;
  const places = Array.from({ length: n }, (_, k) => onCircle(centre, radius, (360 * (k + 0.5)) / n));
  for (const place of places) pen.circle(place, across / 2, bolt.only === null ? 'guess' : 'edge', count.feature);
  if (count.value === null) pen.query(onCircle(centre, radius, 45), count.feature);
  const [first, last] = [places[0], places.at(-1)];
  if (n > 2 && first !== undefined && last !== undefined) {
    const chord = Math.hypot(first[0] - last[0], first[1] - last[1]);
    const said = `${circle.known ? reading.say(chord) : '?'} chord`;
    lengthAcross(pen, [last[0], first[0]], pen.top - pen.letter * 0.8, [last[1], first[1]], said, circle.known, circle.feature);
  }
  const lowest = places.filter(([x, y]) => x > 0 && y >= -radius * 0.01).sort((a, b) => a[1] - b[1])[0];
  return [
    sized(circle, 'bolt circle'),
    {
      ...(lowest === undefined ? {} : { from: () => lowest }),
      text: `${count.said} × ${bolt.said || '?'}`,
      known: count.value !== null && bolt.only !== null,
      feature: count.feature,
    },
  ];
};

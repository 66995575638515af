import type { FeatureId, Joint, PortId, SlotId } from '../../reasoner/index.ts';
import { centreLines, fromCircle, type Label, leaders, lengthAcross, ring, sayDiameter } from './dimension.ts';
import type { DrawingWords } from './drawings.ts';
import type { Pen } from './pen.ts';
import { acrossOf, type Reading, type Size } from './reading.ts';
import { onCircle, type Point, type Scene } from './scene.ts';

/** One side of a joint that is held by bolts on a circle or by a clamp: found in the joint's own rules, so that a new joint needs no code here. */
export interface Face {
  readonly joint: Joint;
  readonly count: FeatureId;
  readonly circle: FeatureId;
  readonly bolt: FeatureId;
  readonly pilot: FeatureId | null;
  readonly joining: FeatureId | null;
  readonly profile: FeatureId | null;
}

/** The bolted or clamped faces of one slot's parts. @param ports which slot each port is on */
export const facesOf = (
  slot: SlotId,
  { joints, features }: Pick<DrawingWords, 'joints' | 'features'>,
  ports: ReadonlyMap<PortId, SlotId>,
): readonly Face[] =>
  joints.flatMap((joint) => {
    const side = ports.get(joint.a) === slot ? 'a' : ports.get(joint.b) === slot ? 'b' : null;
    const bolts = joint.rules.find((rule) => rule.kind === 'bolt circle');
    if (side === null || bolts === undefined) return [];
    const { count, diameter, bolt } = bolts[side];
    const pilot = joint.rules.find((rule) => rule.kind === 'pilot');
    const joining = joint.rules.find((rule) => rule.kind === 'same' && rule.what === 'joining');
    const clamp = joint.rules.find((rule) => rule.kind === 'clamp profile');
    const own = (feature: FeatureId) => features.some(({ id, slot: of }) => id === feature && of === slot);
    return [
      {
        joint,
        count,
        circle: diameter,
        bolt,
        pilot: pilot === undefined ? null : ([pilot.spigot, pilot.recess].find(own) ?? null),
        joining: joining?.kind === 'same' ? joining[side] : null,
        profile: clamp?.[side] ?? null,
      },
    ];
  });

const centre: Point = [0, 0];

/**
 * A joint's face, looked at squarely: pilot, bolt circle with its holes, and the chord from one hole to the next, which is what a caliper
 * can take. Or the seat of a clamp with its rim.
 */
export const faceScene = (face: Face, reading: Reading, optionName: OptionName): Scene => {
  const joining = face.joining === null ? null : reading.choice(face.joining);
  const circle = reading.size(face.circle, 60);
  const pilot = face.pilot === null ? null : reading.size(face.pilot, circle.value * 0.8);
  const reach = Math.max(circle.value, pilot?.value ?? 0);
  const pen = reading.pen(reach);
  centreLines(pen, centre, reach / 2);
  if (pilot !== null) ring(pen, centre, pilot);
  const labels = [
    ...(pilot === null ? [] : [sized(pilot, 'pilot')]),
    ...(joining?.only === 'v-band' ? clampOn(pen, face, circle, reading, optionName) : boltsOn(pen, face, circle, reading, optionName)),
  ];
  leaders(pen, [reach / 2 + pen.letter * 1.8, 0], labels);
  return pen.scene({
    title: `Face: ${face.joint.name}`,
    says: `Face of the joint ${face.joint.name}: ${labels.map((label) => label.text).join(', ')}.`,
    ...reading.account(),
  });
};

type OptionName = (feature: FeatureId, option: string) => string;

const sized = (size: Size, what: string): Label => ({
  from: fromCircle(centre, size.value / 2),
  text: sayDiameter(size, what),
  known: size.known,
  feature: size.feature,
});

const clampOn = (pen: Pen, face: Face, circle: Size, reading: Reading, optionName: OptionName): readonly Label[] => {
  ring(pen, centre, circle);
  const seat = sized(circle, 'clamp seat');
  if (face.profile === null) return [seat];
  const { feature, anyOf, only } = reading.choice(face.profile);
  return [
    seat,
    {
      text: anyOf.length === 0 ? 'clamp rim ?' : anyOf.map((option) => optionName(feature, option)).join(' or '),
      known: only !== null,
      feature,
    },
  ];
};

/** Holes stand evenly, two of them level at the top, so that the chord between these lies flat. */
const boltsOn = (pen: Pen, face: Face, circle: Size, reading: Reading, optionName: OptionName): readonly Label[] => {
  const count = reading.count(face.count);
  const bolt = reading.choice(face.bolt);
  const n = count.value ?? 0;
  const radius = circle.value / 2;
  pen.circle(centre, radius, circle.known ? 'axis' : 'guess', circle.feature);
  const across = acrossOf(bolt.only) ?? circle.value * 0.07;
  const places = Array.from({ length: n }, (_, k) => onCircle(centre, radius, (360 * (k + 0.5)) / n));
  for (const place of places) pen.circle(place, across / 2, bolt.only === null ? 'guess' : 'edge', count.feature);
  if (count.value === null) pen.query(onCircle(centre, radius, 45), count.feature);
  const [first, last] = [places[0], places.at(-1)];
  if (n > 2 && first !== undefined && last !== undefined) {
    const chord = Math.hypot(first[0] - last[0], first[1] - last[1]);
    const said = `${circle.known ? reading.say(chord) : '?'} chord`;
    lengthAcross(pen, [last[0], first[0]], pen.top - pen.letter * 0.8, [last[1], first[1]], said, circle.known, circle.feature);
  }
  const size = bolt.anyOf.map((option) => optionName(bolt.feature, option)).join(' or ') || '?';
  const lowest = places.filter(([x, y]) => x > 0 && y >= -radius * 0.01).sort((a, b) => a[1] - b[1])[0];
  return [
    sized(circle, 'bolt circle'),
    {
      ...(lowest === undefined ? {} : { from: () => lowest }),
      text: `${count.said} × ${size}`,
      known: count.value !== null && bolt.only !== null,
      feature: count.feature,
    },
  ];
};

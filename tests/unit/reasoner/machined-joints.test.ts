import { describe, expect, test } from 'vitest';
import { meet, type Pairing, partnersIn } from '../../../reasoner/algebra/pairing.ts';
import { agrees } from '../../../reasoner/atlas/agree.ts';
import { type Atlas, compileAtlas, type Fact, type Feature, type Observation, type Part } from '../../../reasoner/index.ts';
import { beside, groundBeside } from '../../../reasoner/unit/beside.ts';
import { classOf } from '../../../reasoner/unit/groups.ts';
import { type Unit, type UnitSlot, unitOf } from '../../../reasoner/unit/unit.ts';
import { unitWith } from '../../../reasoner/unit/unit-with.ts';
import { choiceExists } from '../../../reasoner/unit/within.ts';
import { choice, chose, feature, littleAtlas, marked, measured, mm, sheetOf } from './little-atlas.ts';
import { cut, remake, ring } from './shop-operations.ts';

const plain = <T>(value: unknown): T => value as T;

const made = (id: string, facts: Record<string, Fact>): Part =>
  plain({ id, slot: id.split('/')[0], name: id.split('/')[1], maker: 'quayside', numbers: [id], facts, source: 'made-up' });
/** Bores of the wheels, and shaft ends to go with them. */
const bores = Array.from({ length: 35 }, (_, i) => `bore-${i}`);
const contour = { wheel: plain<Feature['id']>('wheel.tip'), way: 'radial', min: 0.1, max: 1 } as const;

/**
 * Wheels of 40, 41 and 42.5 mm and housings bored and recessed for one or the other, all of which the shop can bore wider, ring, or turn down. Both the bore and the
 * recess must clear the wheel's tip by 0.1 to 1 mm on the radius. A wheel's bore can be bushed to go on two of the shafts; there are more shaft ends than a word has bits.
 */
const shopAtlas = compileAtlas({
  ...littleAtlas,
  operations: [
    cut('open-bore', 'housing.bore', 'larger', 1.5),
    ring('ring-bore', 'housing.bore', 0.4),
    cut('deepen-recess', 'housing.recess', 'larger', 1),
    cut('turn-tip', 'wheel.tip', 'smaller', 1),
    remake('bush-bore', 'wheel.bore', ['bore-1', 'bore-33']),
  ],
  features: [
    ...littleAtlas.features.map((each) =>
      each.id === plain('wheel.bore') || each.id === plain('shaft.end')
        ? plain<Feature>({ ...each, options: bores.map((id) => ({ id, name: id })) })
        : each,
    ),
    feature('housing.recess', 'measure', { unit: 'mm' }),
  ],
  joints: littleAtlas.joints.map((joint) =>
    joint.id === plain('contour')
      ? {
          ...joint,
          rules: [
            {
              kind: 'wheel to contour',
              pairs: [
                { ...contour, housing: plain<Feature['id']>('housing.bore') },
                { ...contour, housing: plain<Feature['id']>('housing.recess') },
              ],
            },
          ],
        }
      : joint,
  ),
  models: [],
  parts: [
    ...[40, 41, 42.5].flatMap((tip, i) =>
      bores.filter((_, k) => k % 3 === i).map((bore) => made(`wheel/${tip}-${bore}`, { 'wheel.tip': mm(tip), 'wheel.bore': choice(bore) })),
    ),
    // Alike in what they could go together with, and not in what is read of them: this and the wheel of 41 mm with the same bore.
    made('wheel/41.3', { 'wheel.tip': mm(41.3), 'wheel.bore': choice('bore-1') }),
    made('wheel/40-again', { 'wheel.tip': mm(40), 'wheel.bore': choice('bore-2') }),
    made('wheel/silent', { 'wheel.bore': choice('bore-0') }),
    ...bores.map((end) => made(`shaft/${end}`, { 'shaft.end': choice(end) })),
    made('housing/tight', { 'housing.bore': mm(40.6), 'housing.recess': mm(40.8) }),
    made('housing/wide', { 'housing.bore': mm(43.2), 'housing.recess': mm(43) }),
    made('housing/stepped', { 'housing.bore': mm(40.6), 'housing.recess': mm(43) }),
    made('housing/silent', { 'housing.recess': mm(41.8) }),
  ],
} satisfies Atlas);

const unitFor = (observations: readonly Observation[]): Unit => unitOf(shopAtlas, sheetOf(observations));
const slotAt = (unit: Unit, id: string): UnitSlot => unit.slots.find(({ of }) => of.data.id === plain(id)) as UnitSlot;

/** The joints, with what each compares. */
const joints = {
  contour: {
    slots: ['wheel', 'housing'],
    compares: [
      ['wheel.tip', 'housing.bore'],
      ['wheel.tip', 'housing.recess'],
    ],
  },
  stub: { slots: ['wheel', 'shaft'], compares: [['wheel.bore', 'shaft.end']] },
} as const;
type JointName = keyof typeof joints;
const jointNames = Object.keys(joints) as readonly JointName[];
const jointNumber = (id: JointName): number => shopAtlas.joints.find(({ data: joint }) => joint.id === plain(id))?.number ?? Number.NaN;

const fits = (one: Fact, other: Fact): boolean => {
  if (one.kind === 'measure' && other.kind === 'measure') {
    const [tip, bore] = [one, other].map(({ nominal, lower, upper }) => ({ least: nominal + lower, most: nominal + upper }));
    return tip !== undefined && bore !== undefined && bore.most - tip.least >= 0.2 - 1e-9 && bore.least - tip.most <= 2 + 1e-9;
  }
  return one.kind !== 'choice' || other.kind !== 'choice' || one.anyOf.some((option) => other.anyOf.includes(option));
};

/** The ways a part may be found that the readings kept leave. A reading no way agrees with speaks against the part, not for a way. */
const waysLeft = (kept: readonly Observation[], dimension: string, part: number): readonly Fact[] => {
  const known = shopAtlas.features.get(plain(dimension)) as Feature;
  const table = shopAtlas.slots.find((each) => each.data.id === known.slot)?.foundOf(known.id);
  const entry = table?.distinct[table.of[part] as number];
  if (entry === undefined) throw new Error(`no ${dimension} of part ${part}`);
  const ways = [entry.made, ...entry.left.map(({ fact }) => fact)];
  const agreeing = (way: Fact, read: Observation) => agrees(known, way, read) !== 'fails';
  const telling = kept.filter((read) => read.feature === known.id && ways.some((way) => agreeing(way, read)));
  return ways.filter((way) => telling.every((read) => agreeing(way, read)));
};

type Pairs = readonly (readonly [number, number])[];

/** Wheels of each size and the silent one, each with every part of the other slot. */
const pairsAt = (joint: JointName): Pairs => {
  const [wheels, others] = joints[joint].slots.map(
    (id) => shopAtlas.slots.find(({ data: slot }) => slot.id === plain(id))?.parts.length ?? 0,
  );
  return [0, 11, 12, 24, 25, 34, 35, 36, (wheels as number) - 1].flatMap((wheel) =>
    Array.from({ length: others as number }, (_, k) => [wheel, k] as const),
  );
};

/** The pairs that go together, worked out one by one; as text, so that the lists are compared at once. */
const together = (joint: JointName, kept: readonly Observation[]): string =>
  pairsAt(joint)
    .filter(([a, b]) =>
      joints[joint].compares.every(([one, other]) => {
        const ways = waysLeft(kept, other, b);
        return waysLeft(kept, one, a).some((way) => ways.some((each) => fits(way, each)));
      }),
    )
    .join(' ');

/** The same as the unit has it: those that meet in each of these pairings, either way round. */
const meeting = (unit: Unit, joint: JointName, space: Unit['space'], pairings: readonly number[]): string => {
  const [slotA, slotB] = [slotAt(unit, joints[joint].slots[0]), slotAt(unit, joints[joint].slots[1])];
  return pairsAt(joint)
    .filter(([a, b]) => {
      const [classA, classB] = [classOf(slotA, a), classOf(slotB, b)];
      return pairings.every((pairing) => {
        const known = space.pairings[pairing] as Pairing;
        const meets = meet(known, classA, classB);
        if (partnersIn(known, slotB.of.number, classB).includes(classA) !== meets) throw new Error(`${a} meets ${b} one way round only`);
        return meets;
      });
    })
    .join(' ');
};

/** Every set of the observations, as those set aside. */
const setsOf = <T>(all: readonly T[]): readonly (readonly T[])[] =>
  Array.from({ length: 2 ** all.length }, (_, set) => all.filter((_each, i) => ((set >>> i) & 1) === 1));

const boreAsMade = measured('housing.bore', 40.6);
const boreOpened = measured('housing.bore', 41.6);
const boreRinged = measured('housing.bore', 39);
const boreEither = measured('housing.bore', 40.75);
const recess = measured('housing.recess', 43);
const recessDeepened = measured('housing.recess', 43.6);
const tipAsMade = measured('wheel.tip', 41);
const tipTurned = measured('wheel.tip', 40.4);
const bushed = chose('wheel.bore', 'bore-33');
const sheets: Record<string, readonly Observation[]> = {
  'nothing of work': [marked('housing.cast-name', 'QUAYSIDE')],
  'a bore as made': [boreAsMade],
  'a bore that was opened': [boreOpened],
  'a bore and a recess': [boreRinged, recess],
  'a bore either made so or opened to it': [boreEither, recessDeepened],
  'a tip': [tipTurned],
  'a tip and a bore': [tipAsMade, boreAsMade],
  'a tip, a bore and a recess': [recess, tipAsMade, boreOpened],
  'two bores and a tip': [boreAsMade, boreOpened, tipTurned],
  'a wheel’s bore that may have been bushed': [bushed],
  'the same with its tip': [tipTurned, bushed],
  'the same with the housing': [chose('wheel.bore', 'bore-0'), boreOpened, chose('shaft.end', 'bore-1')],
  'what is only told of a bore': [{ ...boreAsMade, sure: { kind: 'told' } }, tipAsMade],
};
const evidenceOf = (observations: readonly Observation[]): readonly Observation[] =>
  observations.filter(({ sure }) => sure.kind !== 'told');

describe('which parts go together when some may have been machined (J1)', () => {
  test.each(Object.entries(sheets))('[J1] [O2] as their readings allow them to have been found: %s', (_, observations) => {
    const unit = unitFor(observations);
    for (const joint of jointNames)
      expect(meeting(unit, joint, unit.space, [jointNumber(joint)]), joint).toBe(together(joint, evidenceOf(observations)));
  });

  test.each(Object.entries(sheets))('[J1] [K1] with any of the readings set aside, as the others allow: %s', (_, observations) => {
    const unit = unitFor(observations);
    const { space, pairings } = unit.loosened();
    for (const aside of setsOf(evidenceOf(observations))) {
      const gone = aside.map(({ id }) => unit.evidence.findIndex((each) => each.kind === 'observation' && each.observation === id));
      const left = evidenceOf(observations).filter((each) => !aside.includes(each));
      for (const joint of jointNames) {
        const counting = pairings.flatMap((each, at) =>
          each.joint === jointNumber(joint) && !each.needs.some((label) => gone.includes(label)) ? [at] : [],
        );
        expect(meeting(unit, joint, space, counting), `${joint}, ${aside.map(({ id }) => id)} aside`).toBe(together(joint, left));
      }
    }
  });

  test.each(Object.entries(sheets))(
    '[J1] [S1] with a part put in, what was read of the one before says no more of what meets: %s',
    (_, observations) => {
      const unit = unitFor(observations);
      for (const slot of ['wheel', 'housing', 'shaft']) {
        const exchanged = new Set([slotAt(unit, slot).of.number]);
        const after = unitWith(unit, new Map([...exchanged].map((number) => [number, [0]])));
        const left = evidenceOf(observations).filter((each) => each.slot !== plain(slot));
        const [within, ground] = [beside(unit, exchanged), groundBeside(unit, exchanged).loosened()];
        for (const joint of jointNames) {
          const [number, goes] = [jointNumber(joint), together(joint, left)];
          expect(meeting(after, joint, after.space, [number]), `${slot} exchanged`).toBe(goes);
          const [one, other] = [slotAt(unit, joints[joint].slots[0]), slotAt(unit, joints[joint].slots[1])];
          const chosen = ([a, b]: Pairs[number]) =>
            unit.slots.map((each) =>
              each === one ? Int32Array.of(classOf(one, a)) : each === other ? Int32Array.of(classOf(other, b)) : null,
            );
          const aside = pairsAt(joint).filter((pair) => choiceExists(within, chosen(pair)));
          expect(aside.join(' '), `${slot} set aside`).toBe(goes);
          const counting = ground.pairings.flatMap((each, at) => (each.joint === number ? [at] : []));
          expect(meeting(unit, joint, ground.space, counting), `${slot} set aside for good`).toBe(goes);
        }
        const now = slotAt(after, slot);
        expect(now, 'nothing was read of the part put in').toMatchObject({ observations: [], readings: [], absent: false, unlisted: null });
        expect(now.groups.flatMap(({ violates, parts }) => (violates.length === 0 ? parts : []))).toEqual([0]);
        const out = now.groups.flatMap(({ violates }) => violates);
        expect(
          out.filter((label) => after.evidence[label] !== undefined),
          'no entry keeps the others out',
        ).toEqual([]);
      }
    },
  );
});

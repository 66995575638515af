import { describe, expect, test } from 'vitest';
import { meetsAny } from '../../../reasoner/algebra/choices.ts';
import {
  type Atlas,
  type CompiledAtlas,
  compileAtlas,
  type Fact,
  type Feature,
  type Observation,
  type Part,
  type Sheet,
} from '../../../reasoner/index.ts';
import { agrees } from '../../../reasoner/unit/agree.ts';
import { beside, classOf, groundBeside, type Unit, type UnitSlot, unitOf } from '../../../reasoner/unit/unit.ts';
import { unitWith } from '../../../reasoner/unit/unit-with.ts';
import { choice, feature, littleAtlas, marked, measured, mm, sheetOf } from './little-atlas.ts';
import { cut, ring } from './shop-operations.ts';

const plain = <T>(value: unknown): T => value as T;

const made = (id: string, facts: Record<string, Fact>): Part =>
  plain({ id, slot: id.split('/')[0], name: id.split('/')[1], maker: 'quayside', numbers: [id], facts, source: 'made-up' });
/** Bores of the wheels, and shaft ends to go with them. */
const bores = Array.from({ length: 35 }, (_, i) => `bore-${i}`);
const contour = { wheel: plain<Feature['id']>('wheel.tip'), way: 'radial', min: 0.1, max: 1 } as const;

/**
 * Wheels of 40, 41 and 42.5 mm and housings bored and recessed for one or the other, all of which the shop can bore wider, ring, or turn down. Both the bore and the
 * recess must clear the wheel's tip by 0.1 to 1 mm on the radius. There are more shaft ends than a word has bits.
 */
const shopAtlas = compileAtlas({
  ...littleAtlas,
  operations: [
    cut('open-bore', 'housing.bore', 'larger', 1.5),
    ring('ring-bore', 'housing.bore', 0.4),
    cut('deepen-recess', 'housing.recess', 'larger', 1),
    cut('turn-tip', 'wheel.tip', 'smaller', 1),
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
    made('wheel/silent', { 'wheel.bore': choice('bore-0') }),
    ...bores.map((end) => made(`shaft/${end}`, { 'shaft.end': choice(end) })),
    made('housing/tight', { 'housing.bore': mm(40.6), 'housing.recess': mm(40.8) }),
    made('housing/wide', { 'housing.bore': mm(43.2), 'housing.recess': mm(43) }),
    made('housing/stepped', { 'housing.bore': mm(40.6), 'housing.recess': mm(43) }),
    made('housing/silent', { 'housing.recess': mm(41.8) }),
  ],
} satisfies Atlas);

const unitFor = (atlas: CompiledAtlas, observations: readonly Observation[], rest: Partial<Sheet> = {}): Unit =>
  unitOf(atlas, sheetOf(observations, rest));
const limits = (fact: Fact): readonly [number, number] =>
  fact.kind === 'measure' ? [fact.nominal + fact.lower, fact.nominal + fact.upper] : [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];

/** Whether two parts go together, worked out from what each may be found as: the readings kept say which of the ways a part is found are left. */
const goTogether = (atlas: CompiledAtlas, kept: readonly Observation[], wheel: number, housing: number): boolean => {
  const waysOf = (slot: 'wheel' | 'housing', part: number, dimension: string): readonly Fact[] => {
    const own = atlas.slots.find((each) => each.slot.id === plain(slot)) as UnitSlot['of'];
    const measure = atlas.features.get(plain(dimension)) as Feature;
    const table = own.foundOf(measure.id);
    const entry = table.distinct[table.of[part] as number] as (typeof table.distinct)[number];
    const ways = [entry.made, ...entry.left.map(({ fact }) => fact)];
    // A reading no way agrees with speaks against the part, not for a way.
    const telling = kept.filter((each) => each.feature === measure.id && ways.some((way) => agrees(measure, way, each) !== 'fails'));
    return ways.filter((way) => telling.every((each) => agrees(measure, way, each) !== 'fails'));
  };
  return ['housing.bore', 'housing.recess'].every((dimension) =>
    waysOf('wheel', wheel, 'wheel.tip').some((tip) =>
      waysOf('housing', housing, dimension).some((bore) => {
        const [[least, most], [from, to]] = [limits(tip), limits(bore)];
        return to - least >= 0.2 - 1e-9 && from - most <= 2 + 1e-9;
      }),
    ),
  );
};

const slotAt = (unit: Unit, id: string): UnitSlot => unit.slots.find(({ of }) => of.slot.id === plain(id)) as UnitSlot;
type Space = Pick<Unit, 'space'>['space'];

/** Whether two parts meet in every pairing of a joint that counts. */
const meet = (
  unit: Unit,
  space: Space,
  pairings: readonly number[],
  [one, other]: readonly [string, string],
  a: number,
  b: number,
): boolean => {
  const [slotA, slotB] = [slotAt(unit, one), slotAt(unit, other)];
  const [classA, classB] = [classOf(slotA, a), classOf(slotB, b)];
  return pairings.every((pairing) => {
    const meets = meetsAny(space, pairing, slotA.of.number, classA, [classB]);
    expect(meetsAny(space, pairing, slotB.of.number, classB, [classA]), 'the other way round').toBe(meets);
    return meets;
  });
};

/** Every set of the observations, as those set aside. */
const setsOf = <T>(all: readonly T[]): readonly (readonly T[])[] =>
  Array.from({ length: 2 ** all.length }, (_, set) => all.filter((_each, i) => ((set >>> i) & 1) === 1));

const jointNumber = (unit: Unit, id: string): number => unit.atlas.joints.find(({ joint }) => joint.id === plain(id))?.number ?? Number.NaN;

const pairs = (unit: Unit, one: string, other: string): readonly (readonly [number, number])[] =>
  [...slotAt(unit, one).of.parts.keys()].flatMap((a) => [...slotAt(unit, other).of.parts.keys()].map((b) => [a, b] as const));

/** One wheel of each size, the last that is silent, and another of the first size, each with every housing. */
const wheelsAndHousings = (unit: Unit): readonly (readonly [number, number])[] => {
  const { parts } = slotAt(unit, 'wheel').of;
  const wheels = [0, 12, 24, 34, parts.length - 1];
  return pairs(unit, 'wheel', 'housing').filter(([wheel]) => wheels.includes(wheel));
};

/** The pairs of wheel and housing that go together, as text: a list is compared at once. */
const listed = (all: readonly (readonly [number, number])[], goes: (a: number, b: number) => boolean): string =>
  all.filter(([a, b]) => goes(a, b)).join(' ');

const boreAsMade = measured('housing.bore', 40.6);
const boreOpened = measured('housing.bore', 41.6);
const boreRinged = measured('housing.bore', 39);
const boreEither = measured('housing.bore', 40.75);
const recess = measured('housing.recess', 43);
const recessDeepened = measured('housing.recess', 43.6);
const tipAsMade = measured('wheel.tip', 41);
const tipTurned = measured('wheel.tip', 40.4);
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
  'what is only told of a bore': [{ ...boreAsMade, sure: { kind: 'told' } }, tipAsMade],
};

describe('[J1] which parts go together when some may have been machined', () => {
  test.each(Object.entries(sheets))('[J1] [O2] as their readings allow them to have been found: %s', (_, observations) => {
    const unit = unitFor(shopAtlas, observations);
    const kept = observations.filter(({ sure }) => sure.kind !== 'told');
    const all = wheelsAndHousings(unit);
    const at = jointNumber(unit, 'contour');
    expect(listed(all, (a, b) => meet(unit, unit.space, [at], ['wheel', 'housing'], a, b))).toBe(
      listed(all, (a, b) => goTogether(shopAtlas, kept, a, b)),
    );
    // A joint at which nothing is machined is as it was.
    const wheels = slotAt(unit, 'wheel').of.parts;
    const shafts = slotAt(unit, 'shaft').of.parts;
    const stub = jointNumber(unit, 'stub');
    expect(listed(pairs(unit, 'wheel', 'shaft'), (a, b) => meet(unit, unit.space, [stub], ['wheel', 'shaft'], a, b))).toBe(
      listed(
        pairs(unit, 'wheel', 'shaft'),
        (a, b) => wheels[a]?.name.endsWith(`-${shafts[b]?.name}`) || (wheels[a]?.name === 'silent' && shafts[b]?.name === 'bore-0'),
      ),
    );
  });

  test.each(Object.entries(sheets))('[J1] [K1] with any of the readings set aside, as the others allow: %s', (_, observations) => {
    const unit = unitFor(shopAtlas, observations);
    const kept = observations.filter(({ sure }) => sure.kind !== 'told');
    const all = wheelsAndHousings(unit);
    const { space, pairings } = unit.loosened();
    const joint = jointNumber(unit, 'contour');
    for (const aside of setsOf(kept)) {
      const gone = new Set(
        unit.evidence.flatMap((each, label) =>
          aside.some(({ id }) => each.kind === 'observation' && each.observation === id) ? [label] : [],
        ),
      );
      const counting = pairings.flatMap((each, at) => (each.joint === joint && !each.needs.some((label) => gone.has(label)) ? [at] : []));
      expect(
        listed(all, (a, b) => meet(unit, space, counting, ['wheel', 'housing'], a, b)),
        `${aside.map(({ id }) => id)} aside`,
      ).toBe(
        listed(all, (a, b) =>
          goTogether(
            shopAtlas,
            kept.filter((each) => !aside.includes(each)),
            a,
            b,
          ),
        ),
      );
    }
  });

  test('[J1] [S1] with a part put in, the readings of what was there say no more of what meets', () => {
    for (const observations of Object.values(sheets)) {
      const unit = unitFor(shopAtlas, observations);
      const all = wheelsAndHousings(unit);
      for (const slot of ['wheel', 'housing', 'shaft']) {
        const number = slotAt(unit, slot).of.number;
        const after = unitWith(unit, new Map([[number, [0]]]));
        expect(slotAt(after, slot), 'nothing was read of it').toMatchObject({
          observations: [],
          readings: [],
          absent: false,
          unlisted: null,
        });
        const kept = slotAt(after, slot).groups.flatMap(({ violates, parts }) => (violates.length === 0 ? parts : []));
        expect(kept, 'the part put in').toEqual([0]);
        const out = slotAt(after, slot).groups.flatMap(({ violates }) => violates);
        expect(
          out.filter((label) => after.evidence[label] !== undefined),
          'no entry keeps the others out',
        ).toEqual([]);
        const left = observations.filter((each) => each.slot !== plain(slot) && each.sure.kind !== 'told');
        const at = jointNumber(unit, 'contour');
        const asRead = listed(all, (a, b) => goTogether(shopAtlas, left, a, b));
        expect(
          listed(all, (a, b) => meet(after, after.space, [at], ['wheel', 'housing'], a, b)),
          `${slot} exchanged`,
        ).toBe(asRead);
        const within = beside(unit, new Set([number]));
        const active = unit
          .loosened()
          .pairings.flatMap((each, place) => (each.joint === at && within.active?.[place] !== 0 ? [place] : []));
        expect(listed(all, (a, b) => meet(unit, within.space, active, ['wheel', 'housing'], a, b))).toBe(asRead);
        const ground = groundBeside(unit, new Set([number]));
        const { space, pairings } = ground.loosened();
        const counting = pairings.flatMap((each, place) => (each.joint === at ? [place] : []));
        expect(listed(all, (a, b) => meet(unit, space, counting, ['wheel', 'housing'], a, b))).toBe(asRead);
      }
    }
  });
});

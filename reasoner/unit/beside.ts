import { spaceOf } from '../algebra/choices.ts';
import { narrowed, type Pairing, rowMeets } from '../algebra/pairing.ts';
import type { Loosened } from './meets.ts';
import type { Unit } from './unit.ts';
import type { Within } from './within.ts';

/** The unit with the observations of some slots set aside, for the question whether a choice exists. */
export const beside = (unit: Unit, slots: ReadonlySet<number>): Within => {
  const { space, pairings } = unit.loosened();
  if (space === unit.space) return unit;
  const gone = labelsOf(unit, slots);
  return { space, active: Uint8Array.from(pairings, ({ needs }) => (needs.some((label) => gone.has(label)) ? 0 : 1)) };
};

/** The same as ground for another unit. */
export const groundBeside = (unit: Unit, slots: ReadonlySet<number>): Pick<Unit, 'space' | 'loosened'> => {
  const { space, pairings } = unit.loosened();
  if (space === unit.space) return unit;
  const gone = labelsOf(unit, slots);
  const left = pairings.flatMap(({ joint, needs }, at) => (needs.some((label) => gone.has(label)) ? [] : [{ joint, needs, at }]));
  // Nothing of what is set aside tells of a joint.
  if (left.length === pairings.length) return unit;
  const counts = unit.slots.map(({ matingCount }) => matingCount);
  const loosened: Loosened = {
    space: spaceOf(
      counts,
      left.map(({ at }) => space.pairings[at] as Pairing),
    ),
    pairings: left.map(({ joint, needs }) => ({ joint, needs })),
  };
  const tight = unit.atlas.joints.map(({ number }) => {
    const ofJoint = left.filter(({ joint }) => joint === number);
    // What readings leave of a joint is part of what it is without them.
    const narrower = ofJoint.filter(({ needs }) => needs.length > 0);
    return (narrower.length > 0 ? narrower : ofJoint).map(({ at }) => space.pairings[at] as Pairing).reduce(inBoth);
  });
  return { space: spaceOf(counts, tight), loosened: () => loosened };
};

const labelsOf = (unit: Unit, slots: ReadonlySet<number>): ReadonlySet<number> => {
  const ids = new Set([...slots].map((slot) => unit.slots[slot]?.of.data.id));
  const slotOf = new Map(unit.sheet.observations.map(({ id, slot }) => [id, slot]));
  return new Set(
    unit.evidence.flatMap((each, label) => (each.kind === 'observation' && ids.has(slotOf.get(each.observation)) ? [label] : [])),
  );
};

/** What meets in both of two pairings of the same slots. */
const inBoth = (one: Pairing, other: Pairing): Pairing =>
  narrowed(one, { group: other.ofA.of }, { group: other.ofB.of }, (rowA, rowB) => rowMeets(other.ofA, rowA, rowB));

import { type Pairing, partnersIn } from '../algebra/pairing.ts';
import type { MachinedAtJoint, MachinedCandidate } from '../answer/verdict.ts';
import type { OperationId } from '../atlas/operation.ts';
import type { FoundTable, WorkedMeeting } from '../compile/as-found.ts';
import type { CompiledJoint } from '../compile/compiled.ts';
import type { AsFound } from '../fits/work/left.ts';
import type { FeatureId, ObservationId, PartId } from '../ids.ts';
import { type Group, partsIn } from '../unit/groups.ts';
import { excludersOf, type FeatureReadings } from '../unit/readings.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';

/** By slot, the live parts that can only be there machined, by what was read of them. */
export const machinedByReading = (unit: Unit): readonly (readonly MachinedCandidate[])[] =>
  unit.slots.map((slot) => {
    const telling = slot.readings.filter(({ tellsOfWork }) => tellsOfWork);
    if (slot.doubtful || telling.length === 0) return [];
    return partsIn(slot)
      .sort((p, q) => p - q)
      .flatMap((part): MachinedCandidate[] => {
        const told = telling.flatMap((read) => {
          const entry = read.table.of[part] as number;
          const [against = [], ...left] = excludersOf(read, entry);
          if (against.length === 0) return [];
          const operations = left.flatMap((excluders, way) =>
            excluders.length === 0 ? [(read.table.distinct[entry] as AsFound).left[way]?.operation as OperationId] : [],
          );
          return [{ observations: against.map((label) => observationAt(unit, label)), operations: [...new Set(operations)] }];
        });
        return told.length === 0 ? [] : [{ part: (slot.of.parts[part] as { id: PartId }).id, told }];
      });
  });

/** Joints at which no two parts that are left go together as they are made, save where a reading already says what was machined. */
export const machinedAtJoints = (unit: Unit): readonly MachinedAtJoint[] =>
  unit.atlas.joints.flatMap((joint) => {
    const [a, b] = [unit.slots[joint.a] as UnitSlot, unit.slots[joint.b] as UnitSlot];
    if (a.doubtful || b.doubtful || a.live.length === 0 || b.live.length === 0) return [];
    const meetings = unit.atlas
      .found()
      .worked.filter((meeting) => meeting.joint === joint.number)
      .map((meeting) => ({ meeting, a: sideOf(a, meeting.a), b: sideOf(b, meeting.b) }));
    if (meetings.length === 0) return [];
    const goes = (madeA: boolean, madeB: boolean): boolean => someGo(unit, joint, meetings, madeA, madeB);
    if (goes(true, true)) return [];
    const [onlyA, onlyB] = [!goes(true, false), !goes(false, true)];
    const worked = [
      ...(onlyB && !onlyA ? [] : [{ slot: a, side: 'a' as const }]),
      ...(onlyA && !onlyB ? [] : [{ slot: b, side: 'b' as const }]),
    ];
    return [
      {
        joint: joint.data.id,
        slots: worked.map(({ slot }) => slot.of.data.id),
        operations: [...new Set(worked.flatMap(({ side }) => operationsThatHelp(unit, joint, meetings, side)))],
      },
    ];
  });

interface Side {
  readonly table: FoundTable;
  readonly readings: FeatureReadings | null;
}

interface Compared {
  readonly meeting: WorkedMeeting;
  readonly a: Side;
  readonly b: Side;
}

const sideOf = (slot: UnitSlot, feature: FeatureId): Side => ({
  table: slot.of.foundOf(feature),
  readings: slot.readings.find((read) => read.feature.id === feature) ?? null,
});

const observationAt = (unit: Unit, label: number): ObservationId => {
  const evidence = unit.evidence[label];
  if (evidence?.kind !== 'observation') throw new Error(`label ${label} is no observation`);
  return evidence.observation;
};

/** The ways a part may be found: as made where its readings allow that, else whatever they allow; or (`asMade` false) all they allow. */
const waysOf = ({ table, readings }: Side, part: number, asMade: boolean): readonly number[] => {
  const entry = table.of[part] as number;
  const ways = readings === null ? [...(table.distinct[entry] as AsFound).left.keys()].map((way) => way + 1) : [];
  const allowed =
    readings === null ? [0, ...ways] : excludersOf(readings, entry).flatMap((labels, way) => (labels.length === 0 ? [way] : []));
  return asMade && allowed.includes(0) ? [0] : allowed;
};

const holds = ({ meeting, a, b }: Compared, partA: number, partB: number, madeA: boolean, madeB: boolean): boolean =>
  waysOf(a, partA, madeA).some((wayA) =>
    waysOf(b, partB, madeB).some((wayB) => !meeting.failsAs(a.table.of[partA] as number, wayA, b.table.of[partB] as number, wayB)),
  );

type Pair = readonly [number, number];

/** Every two parts that are left and go together at a joint, machined or not. */
function* pairsLeft(unit: Unit, joint: CompiledJoint): Generator<Pair> {
  const [a, b] = [unit.slots[joint.a] as UnitSlot, unit.slots[joint.b] as UnitSlot];
  const partsOf = new Map<number, number[]>();
  for (const group of b.live) {
    const { mating, parts } = b.groups[group] as Group;
    const known = partsOf.get(mating);
    if (known) known.push(...parts);
    else partsOf.set(mating, [...parts]);
  }
  for (const group of a.live) {
    const { mating, parts } = a.groups[group] as Group;
    const across = partnersIn(unit.space.pairings[joint.number] as Pairing, joint.a, mating).flatMap((other) => partsOf.get(other) ?? []);
    for (const partA of parts) for (const partB of across) yield [partA, partB];
  }
}

/** Whether any two of them go together with one side as made, or both. */
const someGo = (unit: Unit, joint: CompiledJoint, compared: readonly Compared[], madeA: boolean, madeB: boolean): boolean => {
  for (const [partA, partB] of pairsLeft(unit, joint)) {
    if (compared.every((each) => holds(each, partA, partB, madeA, madeB))) return true;
  }
  return false;
};

/** Operations on one side that make a comparison hold which fails as both parts are made. */
const operationsThatHelp = (unit: Unit, joint: CompiledJoint, compared: readonly Compared[], side: 'a' | 'b'): readonly OperationId[] => {
  const found = new Set<OperationId>();
  for (const [partA, partB] of pairsLeft(unit, joint)) {
    for (const each of compared) {
      if (holds(each, partA, partB, true, true)) continue;
      const [entryA, entryB] = [each.a.table.of[partA] as number, each.b.table.of[partB] as number];
      for (const wayA of waysOf(each.a, partA, false)) {
        for (const wayB of waysOf(each.b, partB, false)) {
          if (each.meeting.failsAs(entryA, wayA, entryB, wayB)) continue;
          const [table, entry, way] = side === 'a' ? [each.a.table, entryA, wayA] : [each.b.table, entryB, wayB];
          if (way > 0) found.add((table.distinct[entry] as AsFound).left[way - 1]?.operation as OperationId);
        }
      }
    }
  }
  return [...found];
};

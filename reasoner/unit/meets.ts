import { type ChoiceSpace, spaceOf } from '../algebra/choices.ts';
import { eachAsked, type Grouped, narrowed, type Pairing, regrouped } from '../algebra/pairing.ts';
import type { FoundJoints, FoundTable, WorkedMeeting } from '../compile/as-found.ts';
import type { CompiledAtlas, CompiledJoint, CompiledSlot } from '../compile/compiled.ts';
import { refine } from '../compile/refine.ts';
import { keptFor } from '../plain/kept-for.ts';
import { LastFew } from '../plain/last-few.ts';
import { excludersOf, type FeatureReadings } from './readings.ts';
import { type Excluders, Tellings, untold } from './tellings.ts';

/**
 * How the slots of one unit meet (J1). Parts of the atlas meet as they are made or as any operation could have left them; what was read of a dimension
 * says which. So a reading can keep two parts from meeting that without it might: it is then part of the reason.
 */
export interface Meets {
  /** By slot: the unit's own mating class of each part, and how many there are. */
  readonly classes: readonly { readonly of: Int32Array; readonly count: number }[];
  /** With every reading kept; pairings are numbered as the joints. */
  readonly space: ChoiceSpace;
  /** With any readings set aside. */
  readonly loosened: () => Loosened;
}

export interface Loosened {
  readonly space: ChoiceSpace;
  /** For each pairing its joint, and the readings it rests on beside: it counts where all of them do. What any leaves of a joint is part of what the one without readings does. */
  readonly pairings: readonly { readonly joint: number; readonly needs: readonly number[] }[];
}

/** A comparison in which some reading tells of work, with what was read of it at either end. */
interface Told {
  readonly meeting: WorkedMeeting;
  readonly a: Side;
  readonly b: Side;
  readonly tellings: Tellings;
}

interface Side {
  readonly table: FoundTable;
  readonly excluders: Excluders;
  /** By place in the table, whether some reading excludes one way and not another; where none does on either side, parts meet as they did. */
  readonly told: Uint8Array;
  /** Whether any does. */
  readonly tells: boolean;
}

/** So many ways units meet are kept: as it is, and as it was before the last entry that tells of work. */
const mostKept = 2;

const lastOf = keptFor(
  (_: FoundJoints) =>
    new LastFew<readonly FeatureReadings[], Meets>(mostKept, (a, b) => a.length === b.length && a.every((each, i) => each === b[i])),
);

/**
 * Of units of which the same is told of work it is made once: most entries tell of none.
 * @param readings by slot
 */
export const meetsOf = (atlas: CompiledAtlas, readings: readonly (readonly FeatureReadings[])[]): Meets => {
  const telling = readings.map((slot) => slot.filter(({ tellsOfWork }) => tellsOfWork));
  return lastOf(atlas.found()).of(telling.flat(), () => meetsAsTold(atlas, telling));
};

const meetsAsTold = (atlas: CompiledAtlas, readings: readonly (readonly FeatureReadings[])[]): Meets => {
  const found = atlas.found();
  const told = found.worked.flatMap((meeting) => toldAt(atlas, meeting, readings));
  if (told.length === 0) {
    const pairings = atlas.joints.map(({ number }) => ({ joint: number, needs: [] }));
    return {
      classes: found.slots,
      space: found.space,
      loosened: () => ({ space: found.space, pairings }),
    };
  }
  const classes = found.slots.map((own, slot): Meets['classes'][number] => {
    const sides = told.flatMap(({ meeting, a, b }) => {
      const joint = jointOf(atlas, meeting);
      return joint.a === slot ? [{ own: a, across: b }] : joint.b === slot ? [{ own: b, across: a }] : [];
    });
    if (sides.length === 0) return own;
    // Told apart further by what parts may be found as: all of them where something is told of the other side, else those of which something is told.
    const further = [...new Set(sides.map(({ own: { table } }) => table))].map((table) => {
      const ofTable = sides.filter((side) => side.own.table === table);
      return ofTable.some(({ across }) => across.tells)
        ? table
        : { ...table, of: kindsOf(table.of, (ofTable[0] as (typeof ofTable)[number]).own) };
    });
    return refine(own.of.length, [{ of: own.of, distinct: { length: own.count } }, ...further]);
  });
  const counts = classes.map(({ count }) => count);
  const own = atlas.joints.map((joint) =>
    ownJoint(
      joint,
      found,
      classes,
      told.filter(({ meeting }) => meeting.joint === joint.number),
    ),
  );
  const tightly = own.map(tight);
  let loosened: Loosened | undefined;
  return {
    classes,
    space: spaceOf(counts, tightly, {
      space: found.space,
      of: classes.map((each, slot) => {
        const before = found.slots[slot] as FoundJoints['slots'][number];
        return each.of === before.of ? null : exampleOf(each).map((part) => before.of[part] as number);
      }),
      changed: [
        ...new Set(
          told.flatMap(({ meeting }) => {
            const { a, b } = jointOf(atlas, meeting);
            return [a, b];
          }),
        ),
      ],
    }),
    loosened: () => {
      if (loosened === undefined) {
        const all = own.flatMap((joint, number) => loose(joint, tightly[number] as Pairing));
        loosened = {
          space: spaceOf(
            counts,
            all.map(({ pairing }) => pairing),
          ),
          pairings: all.map(({ joint, needs }) => ({ joint, needs })),
        };
      }
      return loosened;
    },
  };
};

const jointOf = (atlas: CompiledAtlas, { joint }: WorkedMeeting): CompiledJoint => atlas.joints[joint] as CompiledJoint;

/** @param readings by slot, those that tell of work */
const toldAt = (atlas: CompiledAtlas, meeting: WorkedMeeting, readings: readonly (readonly FeatureReadings[])[]): Told[] => {
  const joint = jointOf(atlas, meeting);
  const [ofA, ofB] = [
    readings[joint.a]?.find(({ feature }) => feature.id === meeting.a),
    readings[joint.b]?.find(({ feature }) => feature.id === meeting.b),
  ];
  if (ofA === undefined && ofB === undefined) return [];
  const sideOf = (slot: number, feature: typeof meeting.a, read: FeatureReadings | undefined): Side => {
    const table = (atlas.slots[slot] as CompiledSlot).foundOf(feature);
    const excluders = table.distinct.map(({ left }, entry) =>
      read !== undefined ? excludersOf(read, entry) : Array.from({ length: 1 + left.length }, () => []),
    );
    const told = Uint8Array.from(excluders, (ways) => (ways.some((labels) => labels.length > 0) ? 1 : 0));
    return { table, excluders, told, tells: told.includes(1) };
  };
  const [a, b] = [sideOf(joint.a, meeting.a, ofA), sideOf(joint.b, meeting.b, ofB)];
  return [{ meeting, a, b, tellings: new Tellings(meeting, a.excluders, b.excluders) }];
};

/** One joint of the unit, in the unit's own classes. */
interface OwnJoint {
  readonly joint: number;
  /** What the parts do with no reading kept. */
  readonly plain: Pairing;
  readonly told: readonly OwnTold[];
}

/** What a comparison tells, and by which places in its tables the classes of slot a and of slot b have to be asked. */
interface OwnTold {
  readonly tellings: Tellings;
  readonly groups: readonly [a: Grouped, b: Grouped];
}

const ownJoint = (joint: CompiledJoint, found: FoundJoints, classes: Meets['classes'], told: readonly Told[]): OwnJoint => {
  const [slotA, slotB] = [found.slots[joint.a], found.slots[joint.b]] as [FoundJoints['slots'][number], FoundJoints['slots'][number]];
  const [ownA, ownB] = [classes[joint.a], classes[joint.b]] as [Meets['classes'][number], Meets['classes'][number]];
  const [partsA, partsB] = [exampleOf(ownA), exampleOf(ownB)];
  const pairing = found.space.pairings[joint.number] as Pairing;
  const unchanged = ownA.of === slotA.of && ownB.of === slotB.of;
  const placeIn = ({ of }: { readonly of: Int32Array }, parts: Int32Array): Int32Array => parts.map((part) => of[part] as number);
  return {
    joint: joint.number,
    plain: unchanged ? pairing : regrouped(pairing, placeIn(slotA, partsA), placeIn(slotB, partsB)),
    told: told.map((each): OwnTold => {
      const [a, b] = [placeIn(each.a.table, partsA), placeIn(each.b.table, partsB)];
      return { tellings: each.tellings, groups: [groupedBy(each.a, a, each.b), groupedBy(each.b, b, each.a)] };
    }),
  };
};

/** The joint with every reading kept. */
const tight = ({ plain, told }: OwnJoint): Pairing =>
  told.reduce(
    (pairing, { tellings, groups }) => narrowed(pairing, ...groups, (entryA, entryB) => tellings.of(entryA, entryB) === untold),
    plain,
  );

/** The joint with no reading kept, then what each set of readings leaves of it. @param tightly what all of them do */
const loose = ({ joint, plain, told }: OwnJoint, tightly: Pairing): { pairing: Pairing; joint: number; needs: readonly number[] }[] => {
  const all = new Map<string, readonly number[]>();
  const taking = told.map(({ tellings, groups }) => {
    const seen = new Set<number>();
    // Only what meets at all can be taken.
    eachAsked(plain, ...groups, (entryA, entryB) => {
      seen.add(tellings.of(entryA, entryB));
    });
    for (const needs of [...seen].flatMap((each) => tellings.sets(each))) all.set(needs.join(), needs);
    return { tellings, groups, seen };
  });
  // Of one comparison and one set of readings that is what all do.
  const only = told.length === 1 && all.size === 1;
  return [
    { pairing: plain, joint, needs: [] },
    ...[...all].map(([key, needs]) => ({
      pairing: only
        ? tightly
        : taking.reduce((pairing, { tellings, groups, seen }) => {
            const takes = new Set([...seen].filter((each) => tellings.sets(each).some((set) => set.join() === key)));
            return takes.size === 0 ? pairing : narrowed(pairing, ...groups, (entryA, entryB) => !takes.has(tellings.of(entryA, entryB)));
          }, plain),
      joint,
      needs,
    })),
  ];
};

/** Places in a table, one of those of which nothing is told in the stead of all of them. */
const kindsOf = (entries: Int32Array, { told }: Side): Int32Array => {
  const untold = told.indexOf(0);
  return entries.map((entry) => (told[entry] === 1 ? entry : untold));
};

/** Classes by what they may be found as, of which those have to be asked about of which something is told. @param entries their places in the side's table */
const groupedBy = (side: Side, entries: Int32Array, across: Side): Grouped => ({
  group: across.tells ? entries : kindsOf(entries, side),
  asks: Uint8Array.from(entries, (entry) => side.told[entry] as number),
});

const exampleOf = ({ of, count }: Meets['classes'][number]): Int32Array => {
  const parts = new Int32Array(count).fill(-1);
  of.forEach((group, part) => {
    if (parts[group] === -1) parts[group] = part;
  });
  return parts;
};

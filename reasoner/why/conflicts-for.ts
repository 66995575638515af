import { findChoice } from '../algebra/choices.ts';
import { disjointConflicts, enoughToGiveUp } from '../algebra/disjoint-conflicts.ts';
import { dualize } from '../algebra/dualize.ts';
import { bySizeThenLabels, defaultLimit, type Enumeration } from '../algebra/enumeration.ts';
import { meet, type Pairing } from '../algebra/pairing.ts';
import { remembering } from '../algebra/remembering.ts';
import type { Independent, Member } from '../answer/verdict.ts';
import type { CompiledJoint } from '../compile/compiled.ts';
import { type NameRule, notBarred } from '../compile/name-rule.ts';
import { allowedIn, constrainsNothing } from '../names/status.ts';
import { entryOfMember } from '../plain/entry-of-member.ts';
import type { Group, Unit, UnitSlot } from '../unit/unit.ts';
import { independentReasons } from './independent-reasons.ts';

/** The members of every conflict about one name, by label: the unit's evidence, the joints, the name's demands. */
export const membersOf = (unit: Unit, rule: NameRule): Member[] => [
  ...unit.evidence,
  ...unit.atlas.joints.map(({ data: joint }) => ({ kind: 'joint', joint: joint.id }) as const),
  ...unit.atlas.slots.map(({ data: slot }) => ({ kind: 'rule', name: rule.name.id, slot: slot.id }) as const),
];

/** How much is looked for. Counted, so that one sheet has one answer on every machine. */
export interface Effort {
  /** No more conflicts of one name than this. */
  readonly conflicts: number;
  /** Questions asked and waiting to be asked (`Bounds`) when the enumeration stops. */
  readonly questions: number;
}

/** What is spent on a name, and on the unit itself, unless more is asked for: half a second of a processor at worst on the demo atlas, the unit and its claim together. */
export const usualEffort: Effort = { conflicts: defaultLimit, questions: 6000 };

/** Questions to see whether a count of independent reasons is the most there can be, where not all conflicts are known. */
const proofQuestions = 1000;

export interface FoundConflicts extends Enumeration {
  readonly independent: Independent;
}

/**
 * The minimal sets of observations, joints and demands that cannot all hold (K1), as labels of `membersOf`, smallest first. Slots the name demands a
 * part of, and slots that are not doubtful, hold a listed part; a doubtful slot the name does not care for constrains nothing. First come conflicts that
 * share no entry, so that they are among those found however soon the enumeration stops; `complete` says whether there are no others.
 */
export const conflictsFor = (unit: Unit, rule: NameRule, effort: Effort = usualEffort): FoundConflicts => {
  const { labels, consistent: keeps } = questionOf(unit, rule);
  const { pulse } = unit.atlas;
  const consistent = (kept: Uint8Array): boolean => {
    pulse();
    return keeps(kept);
  };
  const members = membersOf(unit, rule);
  const memberAt = (label: number): Member => members[labels[label] as number] as Member;
  const entries = new Map<string, number>();
  const entryNumber = (label: number): number => {
    const entry = entryOfMember(memberAt(label));
    if (entry === null) return -1;
    if (!entries.has(entry)) entries.set(entry, entries.size);
    return entries.get(entry) as number;
  };
  const entryAt = labels.map((_, label) => entryNumber(label));
  const apart = disjointConflicts(entryAt, tellingFirst(labels.map((_, label) => memberAt(label))), consistent);
  const { conflicts, complete } = dualize(
    labels.length,
    consistent,
    { ...effort, found: (done) => pulse({ what: 'reasons', done, of: null }) },
    apart,
  );
  return {
    found: conflicts.map((set) => set.map((at) => labels[at] as number)).sort(bySizeThenLabels),
    complete,
    independent: complete
      ? independentReasons(
          conflicts.map((set) => ({ members: set.map(memberAt) })),
          undefined,
          pulse,
        )
      : { count: apart.length, exact: enoughToGiveUp(entryAt, apart.length, apart, consistent, proofQuestions) },
  };
};

/** Labels in the order a conflict should rather hold them: of two conflicts of one set of observations the one told by the name's demands alone, and what is missing only where nothing else tells. */
const tellingFirst = (members: readonly Member[]): number[] => {
  const kinds: readonly Member['kind'][] = ['rule', 'joint', 'observation', 'absent'];
  return kinds.flatMap((kind) => members.flatMap((member, label) => (member.kind === kind ? [label] : [])));
};

/** Parts of a slot alike in what they violate: they may be chosen when none of these is kept. */
interface Excused {
  /** Indices of the question's labels. */
  readonly unless: readonly number[];
  /** Sets of them, of each of which one must not be kept. */
  readonly unlessAll: readonly (readonly number[])[];
  readonly classes: Int32Array;
}

interface Question {
  /** Labels that could matter, ascending; the question numbers them anew. */
  readonly labels: readonly number[];
  readonly consistent: (kept: Uint8Array) => boolean;
}

/** Of a name that is one of several, labels can be kept together when they can for one of the several (N4). */
const questionOf = (unit: Unit, rule: NameRule): Question => {
  if (rule.anyOf === null) return questionOfOne(unit, rule);
  const questions = rule.anyOf.map((one) => questionOf(unit, one));
  const labels = [...new Set(questions.flatMap((question) => question.labels))].sort((a, b) => a - b);
  const numberOf = new Map(labels.map((label, i) => [label, i]));
  const own = questions.map((question) => ({
    question,
    at: question.labels.map((label) => numberOf.get(label) as number),
    kept: new Uint8Array(question.labels.length),
  }));
  return {
    labels,
    consistent: (kept) =>
      own.some(({ question, at, kept: part }) => {
        for (let i = 0; i < at.length; i += 1) part[i] = kept[at[i] as number] as number;
        return question.consistent(part);
      }),
  };
};

const questionOfOne = (unit: Unit, rule: NameRule): Question => {
  const { atlas, evidence } = unit;
  const { space, pairings } = unit.loosened();
  const demandLabel = (slot: number): number => evidence.length + atlas.joints.length + slot;
  const included = unit.slots.map((slot) => holdsListed(slot, rule));
  const kinds = unit.slots.map((slot, i) => (included[i] ? kindsOf(slot, notBarred(slot.of, rule), demandLabel(i)) : []));
  // A plate whose number is not listed fits everything and violates nothing but what the name asks of the plate (O5).
  const plate = unit.slots.findIndex((slot, i) => slot.unlisted !== null && included[i] === true);
  // A pairing counts where its joint is kept, and every reading it rests on.
  const asked = pairings.flatMap(({ joint, needs }, pairing) => {
    const { a, b } = atlas.joints[joint] as CompiledJoint;
    return included[a] && included[b] ? [{ pairing, needs: [evidence.length + joint, ...needs] }] : [];
  });
  const labels = [
    ...new Set([
      ...(plate < 0 ? [] : [demandLabel(plate)]),
      ...kinds.flatMap((own) => own.flatMap(({ violates, violatesTogether }) => [...violates, ...violatesTogether.flat()])),
      ...asked.flatMap(({ needs }) => needs),
    ]),
  ].sort((a, b) => a - b);
  const numberOf = new Map(labels.map((label, i) => [label, i]));
  const numbered = (own: readonly number[]): number[] => own.map((label) => numberOf.get(label) as number);
  const excused = kinds.map((own): Excused[] =>
    own.map(({ violates, violatesTogether, matings }) => ({
      unless: numbered(violates),
      unlessAll: violatesTogether.map(numbered),
      classes: Int32Array.from(matings),
    })),
  );
  const needed = asked.map(({ pairing, needs }) => ({ pairing, labels: numbered(needs) }));
  const plateAsked = plate < 0 ? -1 : (numberOf.get(demandLabel(plate)) as number);
  const active = new Uint8Array(space.pairings.length);
  const joined = excused.map(joining);
  const search = (kept: Uint8Array): readonly number[] | null => {
    for (const { pairing, labels: all } of needed) active[pairing] = allKept(all, kept) ? 1 : 0;
    const open = excused.map((own, slot) => {
      if (!included[slot] || (slot === plate && kept[plateAsked] === 0)) return null;
      return own.map(({ unless, unlessAll }) => !anyKept(unless, kept) && !unlessAll.some((together) => allKept(together, kept)));
    });
    const choice = findChoice(space, { classes: open.map((own, slot) => (own === null ? null : (joined[slot] as Joined)(own))), active });
    if (choice === null) return null;
    // Of what together rules a part out, and of what a joint rests on, one that is not kept is enough.
    const oneGiven = (all: readonly number[]): number => all.find((label) => kept[label] === 0) as number;
    const given = open.flatMap((own, slot) => {
      const kind = excused[slot]?.find(({ classes }, i) => own?.[i] && classes.includes(choice[slot] as number));
      return kind === undefined ? [] : [...kind.unless, ...kind.unlessAll.map(oneGiven)];
    });
    for (const { pairing, labels: all } of needed) {
      if (active[pairing] === 1) continue;
      const { a, b } = space.pairings[pairing] as Pairing;
      const [one, other] = [choice[a] as number, choice[b] as number];
      if (one >= 0 && other >= 0 && !meet(space.pairings[pairing] as Pairing, one, other)) given.push(oneGiven(all));
    }
    if (plate >= 0 && kept[plateAsked] === 0) given.push(plateAsked);
    return given;
  };
  return { labels, consistent: remembering(labels.length, search) };
};

type Joined = (open: readonly boolean[]) => Int32Array;

/** So many sets of kinds of one slot are kept put together. */
const mostJoined = 64;

/** The classes of several kinds of parts of one slot, by which kinds they are; one that is of several stands there several times. */
const joining = (kinds: readonly Excused[]): Joined => {
  const known = new Map<string, Int32Array>();
  return (open) => {
    const key = String.fromCharCode(...open.map(Number));
    let all = known.get(key);
    if (all === undefined) {
      const among = kinds.filter((_, kind) => open[kind]);
      all = new Int32Array(among.reduce((sum, { classes }) => sum + classes.length, 0));
      let at = 0;
      for (const { classes } of among) {
        all.set(classes, at);
        at += classes.length;
      }
      if (known.size >= mostJoined) known.clear();
      known.set(key, all);
    }
    return all;
  };
};

/** Whether the slot is to hold a listed part: one that is not doubtful, or that the name asks something of. */
export const holdsListed = (slot: UnitSlot, rule: NameRule): boolean =>
  (!slot.doubtful || (rule.demands[slot.of.number] ?? null) !== null) && !constrainsNothing(slot, rule);

const anyKept = (labels: readonly number[], kept: Uint8Array): boolean => {
  for (let i = 0; i < labels.length; i += 1) if (kept[labels[i] as number] === 1) return true;
  return false;
};

const allKept = (labels: readonly number[], kept: Uint8Array): boolean => {
  for (let i = 0; i < labels.length; i += 1) if (kept[labels[i] as number] === 0) return false;
  return true;
};

/** The parts of a slot by what they violate, the name's demand among it; those that violate least first. */
const kindsOf = (slot: UnitSlot, demand: ReadonlySet<number> | null, demandLabel: number): Kind[] => {
  const kinds = new Map<string, Kind & { readonly matings: Set<number> }>();
  // Groups share what they violate, so that it is written out once.
  const written = new Map<readonly unknown[], string>();
  const text = (all: readonly (number | readonly number[])[], between: string): string => {
    const known = written.get(all) ?? all.join(between);
    written.set(all, known);
    return known;
  };
  const add = ({ violates, violatesTogether, mating }: Group, allowed: boolean): void => {
    const key = `${text(violates, ',')}|${text(violatesTogether, '|')}|${allowed}`;
    let kind = kinds.get(key);
    if (kind === undefined) {
      kind = { violates: allowed ? violates : [...violates, demandLabel], violatesTogether, matings: new Set() };
      kinds.set(key, kind);
    }
    kind.matings.add(mating);
  };
  const counts = demand === null ? null : allowedIn(slot, demand);
  slot.groups.forEach((group, number) => {
    const allowed = counts === null ? group.parts.length : (counts.get(number) ?? 0);
    if (allowed > 0) add(group, true);
    if (allowed < group.parts.length) add(group, false);
  });
  return [...kinds.values()].sort((p, q) => weightOf(p) - weightOf(q));
};

interface Kind {
  readonly violates: readonly number[];
  readonly violatesTogether: readonly (readonly number[])[];
  readonly matings: ReadonlySet<number>;
}

const weightOf = ({ violates, violatesTogether }: Kind): number => violates.length + violatesTogether.length;

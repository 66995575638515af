import { disjointConflicts, enoughToGiveUp } from '../algebra/disjoint-conflicts.ts';
import { dualize } from '../algebra/dualize.ts';
import { bySizeThenLabels, defaultLimit, type Enumeration } from '../algebra/enumeration.ts';
import type { Independent, Member } from '../answer/verdict.ts';
import type { NameRule } from '../compile/name-rule.ts';
import { entryOfMember } from '../plain/entry-of-member.ts';
import type { Unit } from '../unit/unit.ts';
import { independentReasons } from './independent-reasons.ts';
import { questionOf } from './question-of.ts';

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

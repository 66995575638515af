import type { CompiledAtlas } from '../compile/compiled.ts';
import type { FamilyId, FeatureId, ModelId, SlotId, StageId } from '../ids.ts';
import { cautionsOfLooks } from '../words/cautions.ts';
import { buildKey, type KeyEffort, type KeyNode, usualEffort } from './build-key.ts';
import { cautionOfKeys, keySentences, sayAnswer } from './key-words.ts';
import { lowerBound } from './lower-bound.ts';
import { goOn } from './problem.ts';
import { type KeyAsked, problemOf } from './problem-of.ts';

/** An identification key, numbered to be read from the wall. */
export interface Key {
  readonly kind: 'key';
  readonly edition: string;
  readonly asked: KeyAsked;
  readonly labels: readonly { readonly id: ModelId | FamilyId; readonly name: string }[];
  /** Numbered from 1 in the order they stand; each is led to from one before it, the first aside. */
  readonly places: readonly KeyPlace[];
  /** Minutes to an end, over all units with the odds asked for. */
  readonly expected: number;
  /** Minutes of the longest way. */
  readonly longest: number;
  /** Whether no key takes fewer expected minutes. Where that is not known, none takes fewer than `atLeast`. */
  readonly optimal: boolean;
  readonly atLeast: number;
  /** Labels that end together, each set once. */
  readonly together: readonly (readonly number[])[];
  /** What was made and how good it is, in words; and what it takes for granted. */
  readonly words: readonly string[];
  readonly cautions: readonly string[];
}

export interface KeyPlace {
  readonly number: number;
  readonly feature: FeatureId;
  /** Strip-down stages gone through here for the first time on the way. */
  readonly goOn: readonly StageId[];
  /** Of the strip-down and the look. */
  readonly minutes: number;
  readonly ways: readonly KeyWay[];
}

export interface KeyWay {
  readonly answer: string;
  readonly leads:
    | { readonly kind: 'place'; readonly number: number }
    /** `ifOwn`: parts on the way here that are changed in minutes, housings and plate, in the atlas's order: the end holds if they are the unit's own. */
    | { readonly kind: 'end'; readonly labels: readonly number[]; readonly ifOwn: readonly SlotId[] };
}

/** The key to what was asked for; null when no model of the atlas is among it. */
export const keyOf = (atlas: CompiledAtlas, asked: KeyAsked, effort: KeyEffort = usualEffort): Key | null => {
  const { problem, labels, features } = problemOf(atlas, asked);
  if (problem.subjects.length === 0) return null;
  const built = buildKey(problem, effort);
  const bound = lowerBound(problem);
  const root = withoutRepeats(built.root);
  const { places, longest } = numbered(root, (check) => {
    const { stage } = problem.checks[check] as (typeof problem.checks)[number];
    return { stage, feature: features[check] as (typeof features)[number] };
  });
  const together = [
    ...new Map(
      places
        .flatMap(({ node }) => node.ways)
        .concat(
          root.kind === 'end' ? [{ to: root, share: 1, outcome: { answer: { kind: 'one of', values: [] }, kinds: [], shares: [] } }] : [],
        )
        .flatMap(({ to }) =>
          to.kind === 'end' && to.labels.length > 1 ? [[[...to.labels].sort((a, b) => a - b).join(), to.labels] as const] : [],
        ),
    ).values(),
  ];
  const ifOwn = changedOnTheWay(
    atlas,
    places.map(({ node, leads }) => ({ slot: (features[node.check] as (typeof features)[number]).slot, leads })),
  );
  const stages = atlas.data.stages;
  const atLeast = built.optimal ? built.expected : Math.min(bound.minutes, built.expected);
  return {
    kind: 'key',
    edition: atlas.data.edition,
    asked,
    labels,
    places: places.map(({ number, node, reached, leads }, at): KeyPlace => {
      const check = problem.checks[node.check] as (typeof problem.checks)[number];
      const feature = features[node.check] as (typeof features)[number];
      const now = goOn(problem, reached, check.stage).reached;
      return {
        number,
        feature: feature.id,
        goOn: stages.flatMap((stage, at) => (now & ~reached & (1 << at) && stage.minutes > 0 ? [stage.id] : [])),
        minutes: node.minutes,
        ways: node.ways.map(({ outcome }, i) => ({
          answer: sayAnswer(atlas, feature, outcome.answer),
          leads: leads[i]?.kind === 'end' ? { ...leads[i], ifOwn: ifOwn[at] ?? [] } : (leads[i] as Leads & { readonly kind: 'place' }),
        })),
      };
    }),
    expected: built.expected,
    longest,
    optimal: built.optimal,
    atLeast,
    together,
    words: keySentences({
      asked,
      labels: labels.length,
      ends: together.length,
      expected: built.expected,
      longest,
      optimal: built.optimal,
      atLeast,
    }),
    cautions: [cautionOfKeys, ...cautionsOfLooks],
  };

  /** Places in the order they are first come to, depth first, so that a way mostly leads to the next number. */
  function numbered(root: KeyNode, of: (check: number) => { readonly stage: number }) {
    type Check = KeyNode & { kind: 'check' };
    const numbers = new Map<Check, number>();
    const order: { node: Check; reached: number }[] = [];
    const minutesTo = new Map<Check, number>();
    const visit = (node: KeyNode, reached: number): void => {
      if (node.kind === 'end' || numbers.has(node)) return;
      numbers.set(node, order.push({ node, reached }));
      const { reached: now } = goOn(problem, reached, of(node.check).stage);
      for (const { to } of node.ways) visit(to, now);
    };
    visit(root, 0);
    const far = (node: KeyNode): number => {
      if (node.kind === 'end') return 0;
      const known = minutesTo.get(node);
      if (known !== undefined) return known;
      const most = node.minutes + Math.max(...node.ways.map(({ to }) => far(to)));
      minutesTo.set(node, most);
      return most;
    };
    return {
      longest: far(root),
      places: order.map(({ node, reached }, i) => ({
        number: i + 1,
        node,
        reached,
        leads: node.ways.map(
          ({ to }): Leads =>
            to.kind === 'end' ? { kind: 'end', labels: to.labels } : { kind: 'place', number: numbers.get(to) as number },
        ),
      })),
    };
  }
};

type Leads = { readonly kind: 'place'; readonly number: number } | { readonly kind: 'end'; readonly labels: readonly number[] };

/** Of each place: the slots looked at up to it, on any way, whose part says nothing of the rest of the unit once somebody has changed it, which takes minutes. */
const changedOnTheWay = (
  { data: { slots } }: CompiledAtlas,
  places: readonly { readonly slot: SlotId; readonly leads: readonly Leads[] }[],
): readonly (readonly SlotId[])[] => {
  const quick = new Set(slots.flatMap(({ id, group }) => (group === 'core' ? [] : [id])));
  const looked = places.map(({ slot }) => new Set(quick.has(slot) ? [slot] : []));
  // A place may be led to from a later one, so until nothing is added.
  for (let added = true; added; ) {
    added = false;
    places.forEach(({ leads }, at) => {
      for (const lead of leads) {
        const there = lead.kind === 'place' ? looked[lead.number - 1] : undefined;
        for (const slot of there === undefined ? [] : (looked[at] as Set<SlotId>)) {
          if (there?.has(slot)) continue;
          there?.add(slot);
          added = true;
        }
      }
    });
  }
  return looked.map((set) => slots.flatMap(({ id }) => (set.has(id) ? [id] : [])));
};

/** Places that read the same, answer for answer, become one: ways to them that left other odds behind do not show on paper. */
const withoutRepeats = (root: KeyNode): KeyNode => {
  const made = new Map<KeyNode, { readonly node: KeyNode; readonly number: number }>();
  const byText = new Map<string, { readonly node: KeyNode; readonly number: number }>();
  const once = (node: KeyNode): { readonly node: KeyNode; readonly number: number } => {
    const before = made.get(node);
    if (before !== undefined) return before;
    const below = node.kind === 'end' ? [] : node.ways.map(({ to }) => once(to));
    const text =
      node.kind === 'end'
        ? [...node.labels].sort((a, b) => a - b).join()
        : `${node.check} ${node.minutes} ${node.ways.map(({ outcome }, i) => `${JSON.stringify(outcome.answer)} ${below[i]?.number}`).join()}`;
    const same = byText.get(`${node.kind} ${text}`) ?? {
      node: node.kind === 'end' ? node : { ...node, ways: node.ways.map((way, i) => ({ ...way, to: below[i]?.node ?? way.to })) },
      number: byText.size,
    };
    byText.set(`${node.kind} ${text}`, same);
    made.set(node, same);
    return same;
  };
  return once(root).node;
};

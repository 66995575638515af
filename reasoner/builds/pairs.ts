import type { Part } from '../atlas/atlas.ts';
import { type CompiledAtlas, type CompiledJoint, slotAt } from '../compile/compiled.ts';
import { featuresOf } from '../fits/features-of.ts';
import type { FitVerdict } from '../fits/fit.ts';
import type { InHand } from '../fits/judge-joint.ts';
import { featuresOfOperation, featuresThatCall } from '../fits/work/features-of-operation.ts';
import { changedBy } from '../fits/work/left.ts';
import type { FeatureId } from '../ids.ts';
import { keptFor } from '../plain/kept-for.ts';
import { alikeBy } from './alike-by.ts';
import type { BuildConstraints } from './completion.ts';
import { between, type Planner } from './work-sets.ts';

/** A joint between two parts as far as it can be told without the rest of the build: whether any build can have it, and the hours and works it takes at least. */
export interface Pair {
  readonly holds: boolean;
  readonly hours: number;
  readonly works: number;
}
const free: Pair = { holds: true, hours: 0, works: 0 };
const never: Pair = { holds: false, hours: 0, works: 0 };

/** What may be left open at a joint. */
export type MayLeave = NonNullable<BuildConstraints['mayLeave']>;

const accepts = (mayLeave: MayLeave, verdict: FitVerdict): boolean => {
  switch (verdict) {
    case 'drops in':
      return true;
    case 'after work':
      return mayLeave !== 'nothing';
    case 'not known':
      return mayLeave === 'unknowns';
    case 'will not fit':
      return false;
  }
};

/** So many pairs of one edition are remembered; then it is begun anew. */
const most = 200_000;
/** More than there are parts in a slot. */
const wide = 2 ** 24;

/** The number of a part of one side of a joint, the same for those of which all that the joint and works at it ask is known alike. */
type Side = (part: Part) => number;

/** Pairs judged before, of an edition: with nothing in hand they are the same for every sheet that asks the same of them. */
interface Book {
  readonly local: readonly boolean[];
  readonly sides: readonly { readonly a: Side; readonly b: Side }[];
  /** By what is asked of a pair, for each joint: by the numbers of both parts. */
  readonly asked: Map<string, readonly Map<number, Pair>[]>;
  pairs: number;
}
const books = new WeakMap<CompiledAtlas, Book>();

const bookOf = (atlas: CompiledAtlas): Book => {
  const known = books.get(atlas);
  if (known !== undefined && known.pairs <= most) return known;
  const book: Book = {
    local: known?.local ?? atlas.joints.map((joint) => isLocal(atlas, joint)),
    sides: atlas.joints.map((joint) => ({
      a: keptFor(alikeBy(askedOf(atlas, joint, joint.a))),
      b: keptFor(alikeBy(askedOf(atlas, joint, joint.b))),
    })),
    asked: new Map(),
    pairs: 0,
  };
  books.set(atlas, book);
  return book;
};

/** Every feature of one side that the joint, or a work at it, reads or changes. */
const askedOf = (atlas: CompiledAtlas, { data: joint, a, b }: CompiledJoint, side: number): readonly FeatureId[] => {
  const slots = [a, b].map((slot) => slotAt(atlas, slot).data.id);
  const operations = (atlas.data.operations ?? []).filter(({ slot }) => slots.includes(slot));
  const all = new Set([...joint.rules.flatMap(featuresOf), ...operations.flatMap(featuresOfOperation)]);
  return [...all].filter((feature) => atlas.features.get(feature)?.slot === slotAt(atlas, side).data.id);
};

/** The pairs of one search. */
export class Pairs {
  readonly #atlas: CompiledAtlas;
  readonly #inHand: InHand;
  readonly #plan: Planner;
  readonly #atMost: number;
  readonly #mayLeave: MayLeave;
  readonly #book: Book;
  readonly #rows: readonly Map<number, Pair>[];

  /** @param atMost works in one plan, of which `plan` looks for no more */
  constructor(atlas: CompiledAtlas, inHand: InHand, plan: Planner, atMost: number, mayLeave: MayLeave) {
    this.#atlas = atlas;
    this.#inHand = inHand;
    this.#plan = plan;
    this.#atMost = atMost;
    this.#mayLeave = mayLeave;
    this.#book = bookOf(atlas);
    const key = `${mayLeave} ${atMost}`;
    this.#rows = (inHand.size === 0 ? this.#book.asked.get(key) : undefined) ?? atlas.joints.map(() => new Map());
    if (inHand.size === 0) this.#book.asked.set(key, this.#rows);
  }

  /** What this part of a joint's slot comes to with any part of the other. */
  with(joint: CompiledJoint, slot: number, part: Part): (other: Part) => Pair {
    // What another joint's works may put right or wrong cannot be told from two parts alone.
    if (!this.#book.local[joint.number]) return () => free;
    const { a, b } = this.#book.sides[joint.number] as Book['sides'][number];
    const row = this.#rows[joint.number] as Map<number, Pair>;
    const first = joint.a === slot;
    const own = (first ? a : b)(part);
    return (other) => {
      const key = first ? own * wide + b(other) : a(other) * wide + own;
      let pair = row.get(key);
      if (pair === undefined) {
        pair = first ? this.#judge(joint, part, other) : this.#judge(joint, other, part);
        row.set(key, pair);
        this.#book.pairs += 1;
      }
      return pair;
    };
  }

  #judge(joint: CompiledJoint, a: Part, b: Part): Pair {
    const slotA = slotAt(this.#atlas, joint.a).data.id;
    const built = between(this.#atlas, joint, (slot) => (slot === slotA ? a : b));
    if (built === null) return free;
    const { fit, plans } = this.#plan(built, this.#inHand);
    if (accepts(this.#mayLeave, fit.verdict)) return free;
    const ways = plans.filter(
      ({ after, allowed, works }) =>
        works.length <= this.#atMost && accepts(this.#mayLeave, allowed === 'holds' ? after.verdict : 'not known'),
    );
    if (ways.length === 0) return never;
    return { holds: true, hours: Math.min(...ways.map(({ hours }) => hours)), works: Math.min(...ways.map(({ works }) => works.length)) };
  }
}

/**
 * Whether what a joint's works come to can be told from its two parts alone: no operation called for elsewhere changes what it reads, and none of its own
 * wears a dimension some other joint's work also needs.
 */
const isLocal = (atlas: CompiledAtlas, { data: joint }: CompiledJoint): boolean => {
  const readBy = (rules: typeof joint.rules): ReadonlySet<FeatureId> => new Set(rules.flatMap(featuresOf));
  const own = readBy(joint.rules);
  const elsewhere = new Set(atlas.joints.filter((each) => each.data.id !== joint.id).flatMap((each) => [...readBy(each.data.rules)]));
  const operations = atlas.data.operations ?? [];
  const calledElsewhere = operations.filter((operation) => featuresThatCall(operation).some((feature) => elsewhere.has(feature)));
  const touched = new Set(calledElsewhere.flatMap(({ does }) => changedBy(does)));
  const ownWorks = operations.filter((operation) => featuresThatCall(operation).some((feature) => own.has(feature)));
  return (
    ![...own].some((feature) => touched.has(feature)) && !ownWorks.flatMap(featuresOfOperation).some((feature) => touched.has(feature))
  );
};

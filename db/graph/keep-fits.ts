import type { Atlas, Fact, FeatureId, Fit, FitRule, Joint, JointId, Part, SlotId } from '../../reasoner/index.ts';
import type { Reader, Statement } from '../driver/driver.ts';
import { insertRows } from '../driver/statements.ts';
import { groupBy } from '../plain/group-by.ts';
import * as t from '../schema.ts';

/** The fit engine, handed in: db/ knows SQL and files, and judges nothing itself. */
export interface FitEngine {
  /** Another one whenever `judge` says anything else of some pair than before: what was kept by another edition is judged anew. */
  readonly edition: string;
  judge(joint: Joint, slots: { readonly a: SlotId; readonly b: SlotId }, one: Part, other: Part): Fit;
  /** For each of the parts `as` the places of those among `bs` of which `judge` would not say that they will not fit. */
  partnersOf(
    joint: Joint,
    slots: { readonly a: SlotId; readonly b: SlotId },
    slotOf: (feature: FeatureId) => SlotId,
    as: readonly Part[],
    bs: readonly Part[],
  ): (a: number) => readonly number[];
  /** Every feature a rule reads. */
  featuresOf(rule: FitRule): readonly FeatureId[];
}

/** What keeping the fits came to: pairs of classes judged now, and pairs that stand as they were judged before. */
export interface KeptFits {
  readonly judged: number;
  readonly kept: number;
}

/** The classes of parts that mate alike as they are kept, and what each joint was judged by. Read beforehand, for `fitStatements`. */
export interface HeldFits {
  readonly judged: ReadonlyMap<JointId, string>;
  readonly classes: readonly HeldClass[];
}

interface HeldClass {
  readonly n: number;
  readonly joint: JointId;
  readonly side: 'a' | 'b';
  readonly facts: string;
  /** Ids, as JSON. */
  readonly parts: string;
}

export const readHeldFits = async (reader: Reader): Promise<HeldFits> => ({
  judged: new Map(
    (await reader.all<{ joint: JointId; rules: string }>('select joint, rules from judged_joints')).map(({ joint, rules }) => [
      joint,
      rules,
    ]),
  ),
  classes: await reader.all<HeldClass>('select n, joint, side, facts, parts from matings'),
});

/**
 * What brings the fits kept from what they are to those of another atlas, each joint judged once for each pair of different readings, and only for
 * pairs that were not judged before: a dimension that changes gives its part another reading, and with it other fits; a joint whose rules or
 * whose judge changes is judged as a whole. They come last in the batch that changes the atlas, or alone, and need nothing that is read between.
 * @param held as it stands before the batch
 * @param after the atlas as the batch leaves it
 * @param tell told what it came to, once the last statement was asked for
 */
export function* fitStatements(
  held: HeldFits,
  after: Atlas,
  engine: FitEngine,
  tell: (kept: KeptFits) => void = () => undefined,
): Generator<Statement> {
  const slotOfPort = new Map(after.ports.map((port) => [port.id, port.slot]));
  const slotOfFeature = new Map(after.features.map((feature) => [feature.id, feature.slot]));
  const slotOf = (feature: FeatureId): SlotId => slotOfFeature.get(feature) as SlotId;
  const partsIn = groupBy(after.parts, (part) => part.slot);
  const classesOf = groupBy(held.classes, ({ joint, side }) => `${joint} ${side}`);
  let next = held.classes.reduce((most, { n }) => Math.max(most, n), 0) + 1;
  let [judged, kept] = [0, 0];

  const there = new Set(after.joints.map(({ id }) => id));
  for (const joint of held.judged.keys()) if (!there.has(joint)) yield* forget(joint);
  for (const joint of after.joints) {
    const slots = { a: slotOfPort.get(joint.a) as SlotId, b: slotOfPort.get(joint.b) as SlotId };
    const features = [...new Set(joint.rules.flatMap((rule) => engine.featuresOf(rule)))];
    const by = judgedBy(engine, slots, joint);
    const stands = held.judged.get(joint.id) === by;
    if (!stands) {
      yield* forget(joint.id);
      yield { sql: 'insert into judged_joints (joint, rules) values (?, ?)', params: [joint.id, by] };
    }
    const [a, b] = (['a', 'b'] as const).map((side) => {
      const read = features.filter((feature) => slotOf(feature) === slots[side]);
      const before = stands ? (classesOf.get(`${joint.id} ${side}`) ?? []) : [];
      const classes = classesAfter(before, read, partsIn.get(slots[side]) ?? [], () => next++);
      return { side, ...classes };
    }) as [Side, Side];
    for (const side of [a, b]) yield* classStatements(joint.id, side);

    const rows: (typeof t.fits.$inferInsert)[] = [];
    const [freshB, keptA] = [b.classes.filter(({ fresh }) => fresh), a.classes.filter(({ fresh }) => !fresh)];
    // Every new class against all across, and then those that stand against what is new across.
    for (const [as, bs] of [[a.classes.filter(({ fresh }) => fresh), b.classes] as const, [keptA, freshB] as const]) {
      judged += as.length * bs.length;
      if (as.length === 0 || bs.length === 0) continue;
      const partners = engine.partnersOf(joint, slots, slotOf, as.map(anyOf), bs.map(anyOf));
      for (const [i, one] of as.entries()) {
        for (const other of partners(i).map((j) => bs[j] as Class)) {
          const { verdict, findings } = engine.judge(joint, slots, anyOf(one), anyOf(other));
          if (verdict !== 'will not fit') rows.push(fitRow(one.n, other.n, { verdict, findings }));
        }
        if (rows.length >= 500) yield* insertRows(t.fits, rows.splice(0));
      }
    }
    yield* insertRows(t.fits, rows);
    kept += keptA.length * (b.classes.length - freshB.length);
  }
  yield {
    sql: `insert into meta (key, value) values ('fits', ?) on conflict (key) do update set value = excluded.value`,
    params: [engine.edition],
  };
  tell({ judged, kept });
}

/** Whether the fits kept are those of the atlas as it is, by this engine: a change of the atlas that does not make them ends them (migration 11). */
export const fitsAreKept = async (reader: Reader, engine: Pick<FitEngine, 'edition'> | undefined): Promise<boolean> => {
  if (engine === undefined) return false;
  const [row] = await reader.all<{ value: string }>("select value from meta where key = 'fits'");
  return row?.value === engine.edition;
};

/** What a joint is judged by: while it stands, so does what was judged. */
export const judgedBy = ({ edition }: FitEngine, slots: { readonly a: SlotId; readonly b: SlotId }, { rules }: Joint): string =>
  JSON.stringify({ engine: edition, slots, rules });

/** What a joint reads of a part, by these features: parts of which it reads the same are one class. */
export const readingOf = (part: Pick<Part, 'facts'>, read: readonly FeatureId[]): string =>
  JSON.stringify(read.map((feature): Fact => part.facts[feature] ?? { kind: 'not known' }));

export const fitRow = (a: number, b: number, { verdict, findings }: Pick<Fit, 'verdict' | 'findings'>): typeof t.fits.$inferInsert => ({
  ...{ a, b, verdict: verdict as KeptVerdict },
  findings: findings.map(withoutRule),
});
type KeptVerdict = (typeof t.fits.$inferInsert)['verdict'];

/** A rule stands in its joint already, in the same place. */
const withoutRule = ({ rule: _rule, ...finding }: Fit['findings'][number]): KeptFinding => finding;
export type KeptFinding = Omit<Fit['findings'][number], 'rule'>;

/** Parts that read alike to a joint. */
interface Class {
  readonly n: number;
  readonly fresh: boolean;
  readonly facts: string;
  readonly of: readonly Part[];
  /** The ids of its parts as they were kept; null of a new class. */
  readonly before: string | null;
}

interface Side {
  readonly side: 'a' | 'b';
  readonly classes: readonly Class[];
  /** Numbers of classes nobody is of any more. */
  readonly gone: readonly number[];
}

const anyOf = ({ of }: Class): Part => of[0] as Part;
const idsOf = ({ of }: Class): string => JSON.stringify(of.map(({ id }) => id));

const classesAfter = (
  before: readonly HeldClass[],
  read: readonly FeatureId[],
  parts: readonly Part[],
  nextNumber: () => number,
): Omit<Side, 'side'> => {
  const groups = groupBy(parts, (part) => readingOf(part, read));
  const known = new Map(before.map((held) => [held.facts, held]));
  return {
    classes: [...groups].map(([facts, of]): Class => {
      const held = known.get(facts);
      return { n: held?.n ?? nextNumber(), fresh: held === undefined, facts, of, before: held?.parts ?? null };
    }),
    gone: before.filter(({ facts }) => !groups.has(facts)).map(({ n }) => n),
  };
};

function* classStatements(joint: JointId, { side, classes, gone }: Side): Generator<Statement> {
  // Its mates and fits go with a class.
  if (gone.length > 0) yield { sql: 'delete from matings where n in (select value from json_each(?))', params: [JSON.stringify(gone)] };
  const changed = classes.filter((one) => one.before !== null && one.before !== idsOf(one));
  if (changed.length > 0) {
    yield {
      sql: 'delete from mates where mating in (select value from json_each(?))',
      params: [JSON.stringify(changed.map(({ n }) => n))],
    };
  }
  for (const one of changed) yield { sql: 'update matings set parts = ? where n = ?', params: [idsOf(one), one.n] };
  const fresh = classes.filter((one) => one.fresh);
  yield* insertRows(
    t.matings,
    fresh.map((one) => ({ n: one.n, joint, side, facts: one.facts, parts: idsOf(one) })),
  );
  yield* insertRows(
    t.mates,
    [...changed, ...fresh].flatMap(({ n, of }) => of.map(({ id }) => ({ part: id, mating: n }))),
  );
}

function* forget(joint: JointId): Generator<Statement> {
  yield { sql: 'delete from matings where joint = ?', params: [joint] };
  yield { sql: 'delete from judged_joints where joint = ?', params: [joint] };
}

import type { Fact, FeatureId, Fit, Joint, JointId, Part, PartId, SlotId } from '../../reasoner/index.ts';
import type { Reader, Statement } from '../driver/driver.ts';
import { insertRows } from '../driver/statements.ts';
import * as t from '../schema.ts';
import { type FitEngine, fitRow, judgedBy, readingOf } from './keep-fits.ts';

type Side = 'a' | 'b';

/** A joint as it reads the parts of a slot. */
interface JointRead {
  readonly joint: Joint;
  readonly slots: { readonly a: SlotId; readonly b: SlotId };
  readonly side: Side;
  /** What is read of the parts on this side, and of those across. */
  readonly own: readonly FeatureId[];
  readonly across: readonly FeatureId[];
}

/**
 * What `fitStatements` would make of the fits kept, where nothing but one part changed, in the slot and place it had: read are the class it leaves and the one it joins,
 * and, for a reading nobody had, those across the joint. Null where what is kept is not of the atlas as it was.
 */
export const fitsOfChanged = async (reader: Reader, was: Part, is: Part, engine: FitEngine): Promise<readonly Statement[] | null> => {
  const kept = await readKept(reader);
  if (kept.fits !== engine.edition) return null;
  const slotOfFeature = new Map(kept.features);
  const slotOf = (feature: FeatureId): SlotId => slotOfFeature.get(feature) as SlotId;
  const joints = await jointsAt(reader, is.slot, slotOf, kept, engine);
  if (joints === null) return null;
  let { next } = kept;
  const statements: Statement[] = [];
  for (const read of joints) {
    const [before, after] = [readingOf(was, read.own), readingOf(is, read.own)];
    if (before === after) continue;
    const left = await classOf(reader, read, before);
    if (left === null || !left.parts.includes(was.id)) return null;
    statements.push(...leaves(left, was.id));
    const joined = await classOf(reader, read, after);
    if (joined !== null) statements.push(...joins(joined, await inOrder(reader, [...joined.parts, is.id]), is.id));
    else {
      const n = next;
      next += 1;
      statements.push(...(await begins(reader, read, slotOf, { n, part: is, facts: after }, engine)));
    }
  }
  statements.push({
    sql: `insert into meta (key, value) values ('fits', ?) on conflict (key) do update set value = excluded.value`,
    params: [engine.edition],
  });
  return statements;
};

/** What is read of the fits kept and of whose they are, whatever part changed. */
interface Kept {
  /** The edition of the engine they were judged by; null where they are not those of the atlas. */
  readonly fits: string | null;
  readonly features: readonly (readonly [FeatureId, SlotId])[];
  readonly ports: readonly (readonly [string, SlotId])[];
  /** What each joint was judged by. */
  readonly judged: readonly (readonly [JointId, string])[];
  /** The number of the next class. */
  readonly next: number;
}

/** In one statement: most of what a small one costs is that it goes over to SQLite's thread and back. */
const readKept = async (reader: Reader): Promise<Kept> => {
  const [row] = await reader.all<{ kept: string }>(`select json_object(
    'fits', (select value from meta where key = 'fits'),
    'features', (select json_group_array(json_array(id, slot)) from features),
    'ports', (select json_group_array(json_array(id, slot)) from ports),
    'judged', (select json_group_array(json_array(joint, rules)) from judged_joints),
    'next', (select coalesce(max(n), 0) + 1 from matings)) as kept`);
  return JSON.parse((row as { kept: string }).kept) as Kept;
};

/** The joints of a slot, by side; null where some joint was judged otherwise than it would be now. */
const jointsAt = async (
  reader: Reader,
  slot: SlotId,
  slotOf: (feature: FeatureId) => SlotId,
  kept: Kept,
  engine: FitEngine,
): Promise<readonly JointRead[] | null> => {
  const joints = await reader.orm.select().from(t.joints);
  const [slotOfPort, judged] = [new Map<string, SlotId>(kept.ports), new Map(kept.judged)];
  const found: JointRead[] = [];
  for (const joint of joints as readonly Joint[]) {
    const slots = { a: slotOfPort.get(joint.a) as SlotId, b: slotOfPort.get(joint.b) as SlotId };
    if (judged.get(joint.id) !== judgedBy(engine, slots, joint)) return null;
    const features = [...new Set(joint.rules.flatMap((rule) => engine.featuresOf(rule)))];
    const readOn = (side: Side) => features.filter((feature) => slotOf(feature) === slots[side]);
    for (const side of ['a', 'b'] as const)
      if (slots[side] === slot) found.push({ joint, slots, side, own: readOn(side), across: readOn(side === 'a' ? 'b' : 'a') });
  }
  return judged.size === joints.length ? found : null;
};

interface HeldClass {
  readonly n: number;
  readonly parts: readonly PartId[];
}

const classOf = async (reader: Reader, { joint, side }: JointRead, facts: string): Promise<HeldClass | null> => {
  const [row] = await reader.all<{ n: number; parts: string }>('select n, parts from matings where joint = ? and side = ? and facts = ?', [
    joint.id,
    side,
    facts,
  ]);
  return row === undefined ? null : { n: row.n, parts: JSON.parse(row.parts) as PartId[] };
};

const leaves = ({ n, parts }: HeldClass, part: PartId): readonly Statement[] => {
  const staying = parts.filter((id) => id !== part);
  // Its mates and fits go with a class.
  if (staying.length === 0) return [{ sql: 'delete from matings where n = ?', params: [n] }];
  return [
    { sql: 'delete from mates where part = ? and mating = ?', params: [part, n] },
    { sql: 'update matings set parts = ? where n = ?', params: [JSON.stringify(staying), n] },
  ];
};

const joins = ({ n }: HeldClass, parts: readonly PartId[], part: PartId): readonly Statement[] => [
  { sql: 'update matings set parts = ? where n = ?', params: [JSON.stringify(parts), n] },
  ...insertRows(t.mates, [{ part, mating: n }]),
];

/** As the atlas has them. */
const inOrder = async (reader: Reader, ids: readonly PartId[]): Promise<readonly PartId[]> =>
  (
    await reader.all<{ id: PartId }>('select id from parts where id in (select value from json_each(?)) order by pack, position', [
      JSON.stringify(ids),
    ])
  ).map(({ id }) => id);

/** A class of one part, with its fits: held against one part of every class across, of which no more is read than the joint does. */
const begins = async (
  reader: Reader,
  { joint, slots, side, across }: JointRead,
  slotOf: (feature: FeatureId) => SlotId,
  { n, part, facts }: { readonly n: number; readonly part: Part; readonly facts: string },
  engine: FitEngine,
): Promise<readonly Statement[]> => {
  const opposite = side === 'a' ? 'b' : 'a';
  const [packed] = await reader.all<{ classes: string }>(
    'select json_group_array(json_array(n, json(facts))) as classes from matings where joint = ? and side = ?',
    [joint.id, opposite],
  );
  const others = (JSON.parse(packed?.classes ?? '[]') as [number, Fact[]][]).map(([number, read]) => ({
    n: number,
    part: { ...part, slot: slots[opposite], facts: Object.fromEntries(across.map((feature, at) => [feature, read[at]])) as Part['facts'] },
  }));
  const rows: (typeof t.fits.$inferInsert)[] = [];
  const keep = (a: number, b: number, { verdict, findings }: Fit): void => {
    if (verdict !== 'will not fit') rows.push(fitRow(a, b, { verdict, findings }));
  };
  const parts = others.map((other) => other.part);
  if (side === 'a') {
    for (const at of engine.partnersOf(joint, slots, slotOf, [part], parts)(0)) {
      const other = others[at] as (typeof others)[number];
      keep(n, other.n, engine.judge(joint, slots, part, other.part));
    }
  } else {
    const partners = engine.partnersOf(joint, slots, slotOf, parts, [part]);
    for (const [at, other] of others.entries()) if (partners(at).length > 0) keep(other.n, n, engine.judge(joint, slots, other.part, part));
  }
  return [
    ...insertRows(t.matings, [{ n, joint: joint.id, side, facts, parts: JSON.stringify([part.id]) }]),
    ...insertRows(t.mates, [{ part: part.id, mating: n }]),
    ...insertRows(t.fits, rows),
  ];
};

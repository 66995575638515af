import { eq, inArray } from 'drizzle-orm';
import type { Atlas, Fact, FeatureId, Fit, FitRule, Joint, JointId, Part, SlotId } from '../../reasoner/index.ts';
import type { Connection } from '../driver/connection.ts';
import type { Reader } from '../driver/driver.ts';
import { insertAll } from '../driver/insert-all.ts';
import { groupBy } from '../plain/group-by.ts';
import * as t from '../schema.ts';
import { editionOf, readAtlas } from './read-atlas.ts';

/** The fit engine, handed in: db/ knows SQL and files, and judges nothing itself. */
export interface FitEngine {
  /** Another one whenever `judge` says anything else of some pair than before: what was kept by another edition is judged anew. */
  readonly edition: string;
  judge(joint: Joint, slots: { readonly a: SlotId; readonly b: SlotId }, one: Part, other: Part): Fit;
  /** Every feature a rule reads. */
  featuresOf(rule: FitRule): readonly FeatureId[];
}

/** What keeping the fits came to, for the log and for tests. */
export interface KeptFits {
  readonly judged: number;
  readonly kept: number;
}

/**
 * Brings the fits of the atlas up to date: every joint judged once for each pair of different readings, and only for pairs that were not judged before.
 * A dimension that changes gives its part another reading, and with it other fits; a joint whose rules or whose judge changes is judged as a whole. Run it in a transaction that may write.
 */
export const keepFits = async (connection: Connection, engine: FitEngine): Promise<KeptFits> => {
  const atlas = await readAtlas(connection);
  const numbers = new Map((await connection.all<{ id: string; n: number }>('select id, n from parts')).map(({ id, n }) => [id, n]));
  const slotOfPort = new Map(atlas.ports.map((port) => [port.id, port.slot]));
  const slotOfFeature = new Map(atlas.features.map((feature) => [feature.id, feature.slot]));
  const partsIn = groupBy(atlas.parts, (part) => part.slot);
  await dropJointsNoLongerThere(connection, atlas);
  let [judged, kept] = [0, 0];
  for (const joint of atlas.joints) {
    const slots = { a: slotOfPort.get(joint.a) as SlotId, b: slotOfPort.get(joint.b) as SlotId };
    const read = [...new Set(joint.rules.flatMap((rule) => engine.featuresOf(rule)))];
    await forgetIfOtherRules(connection, joint, engine.edition);
    const side = async (name: 'a' | 'b'): Promise<Side> => {
      const features = read.filter((feature) => slotOfFeature.get(feature) === slots[name]);
      return await matingsOf(connection, joint.id, name, features, partsIn.get(slots[name]) ?? []);
    };
    const [a, b] = [await side('a'), await side('b')];
    const rows: (typeof t.fits.$inferInsert)[] = [];
    for (const one of a.readings) {
      for (const other of b.readings) {
        if (!one.fresh && !other.fresh) {
          kept += 1;
          continue;
        }
        judged += 1;
        const { verdict, findings } = engine.judge(joint, slots, one.part, other.part);
        if (verdict !== 'will not fit') rows.push({ a: one.n, b: other.n, verdict, findings: findings.map(withoutRule) });
      }
    }
    await insertAll(connection, t.fits, rows);
    await connection.orm.delete(t.mates).where(eq(t.mates.joint, joint.id));
    await insertAll(
      connection,
      t.mates,
      [...a.readings, ...b.readings].flatMap(({ n, of }) =>
        of.map((part) => ({ joint: joint.id, part: numbers.get(part.id) as number, mating: n })),
      ),
    );
  }
  await connection.run("insert into meta (key, value) values ('fits', ?) on conflict (key) do update set value = excluded.value", [
    await keptAs(connection, engine.edition),
  ]);
  return { judged, kept };
};

/** Whether the fits kept are those of the atlas as it is, by this engine; without one there is nothing to hold them to. */
export const fitsAreKept = async (connection: Reader, engine: Pick<FitEngine, 'edition'> | undefined): Promise<boolean> => {
  if (engine === undefined) return false;
  const [row] = await connection.all<{ value: string }>("select value from meta where key = 'fits'");
  return row !== undefined && row.value === (await keptAs(connection, engine.edition));
};

const keptAs = async (connection: Reader, engine: string): Promise<string> => JSON.stringify([engine, await editionOf(connection)]);

/** To be said whenever the atlas changes: the fits kept are of the atlas before. */
export const fitsAreOld = async (connection: Connection): Promise<void> => {
  await connection.run("delete from meta where key = 'fits'");
};

/** A rule stands in its joint already, in the same place. */
const withoutRule = ({ rule: _rule, ...finding }: Fit['findings'][number]): KeptFinding => finding;
export type KeptFinding = Omit<Fit['findings'][number], 'rule'>;

interface Reading {
  readonly n: number;
  readonly fresh: boolean;
  readonly part: Part;
  readonly of: readonly Part[];
}

interface Side {
  readonly readings: readonly Reading[];
}

/** Parts by what the joint reads of them; readings nobody has any more are dropped, new ones get a number. */
const matingsOf = async (
  connection: Connection,
  joint: JointId,
  side: 'a' | 'b',
  features: readonly FeatureId[],
  parts: readonly Part[],
): Promise<Side> => {
  const groups = groupBy(parts, (part) => JSON.stringify(features.map((feature): Fact => part.facts[feature] ?? { kind: 'not known' })));
  const held = new Map(
    (await connection.all<{ n: number; facts: string }>('select n, facts from matings where joint = ? and side = ?', [joint, side])).map(
      ({ n, facts }) => [facts, n],
    ),
  );
  const gone = [...held].filter(([facts]) => !groups.has(facts)).map(([, n]) => n);
  for (let start = 0; start < gone.length; start += 500)
    await connection.orm.delete(t.matings).where(inArray(t.matings.n, gone.slice(start, start + 500)));
  const [{ next } = { next: 1 }] = await connection.all<{ next: number }>('select coalesce(max(n), 0) + 1 as next from matings');
  let n = next;
  const readings: Reading[] = [];
  const rows: (typeof t.matings.$inferInsert)[] = [];
  for (const [facts, of] of groups) {
    const known = held.get(facts);
    if (known === undefined) rows.push({ n, joint, side, facts });
    readings.push({ n: known ?? n++, fresh: known === undefined, part: of[0] as Part, of });
  }
  await insertAll(connection, t.matings, rows);
  return { readings };
};

const forgetIfOtherRules = async (connection: Connection, { id, rules }: Joint, engine: string): Promise<void> => {
  const text = JSON.stringify({ engine, rules });
  const [known] = await connection.all<{ rules: string }>('select rules from judged_joints where joint = ?', [id]);
  if (known?.rules === text) return;
  await connection.run('delete from matings where joint = ?', [id]);
  await connection.run('insert into judged_joints (joint, rules) values (?, ?) on conflict (joint) do update set rules = excluded.rules', [
    id,
    text,
  ]);
};

const dropJointsNoLongerThere = async (connection: Connection, atlas: Atlas): Promise<void> => {
  const there = new Set<string>(atlas.joints.map(({ id }) => id));
  for (const { joint } of await connection.all<{ joint: string }>('select joint from judged_joints')) {
    if (there.has(joint)) continue;
    await connection.run('delete from matings where joint = ?', [joint]);
    await connection.run('delete from judged_joints where joint = ?', [joint]);
  }
};

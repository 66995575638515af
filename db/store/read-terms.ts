import { ne } from 'drizzle-orm';
import type { Atlas, Feature, FeatureId, Slot } from '../../reasoner/index.ts';
import type { Connection } from '../driver/connection.ts';
import * as t from '../schema.ts';
import { groupBy } from './read-atlas.ts';

export interface Terms {
  readonly lists: Required<
    Pick<
      Atlas,
      'sources' | 'stages' | 'slots' | 'ports' | 'features' | 'joints' | 'metals' | 'operations' | 'chains' | 'warmth' | 'instruments'
    >
  >;
  readonly slots: readonly Slot[];
  /** By the number that facts refer to them by; `rank` is the place in the list. */
  readonly featureIds: ReadonlyMap<number, { readonly id: FeatureId; readonly rank: number }>;
}

/** The words the atlas speaks in, each once however many packs hold it, in the order of the first pack (by id) that does. */
export const readTerms = async (connection: Connection, without: string | null = null): Promise<Terms> => {
  const { orm } = connection;
  const held = await orm
    .select()
    .from(t.packTerms)
    .where(without === null ? undefined : ne(t.packTerms.pack, without))
    .orderBy(t.packTerms.pack, t.packTerms.kind, t.packTerms.position);
  const orderOf = (kind: t.TermKind) => [...new Set(held.filter((row) => row.kind === kind).map((row) => row.id))];
  const inOrder = <Row extends { readonly id: string }, Out>(kind: t.TermKind, rows: readonly Row[], shape: (row: Row) => Out): Out[] => {
    const byId = new Map<string, Row>(rows.map((row) => [row.id, row]));
    return orderOf(kind).flatMap((id) => {
      const row = byId.get(id);
      return row === undefined ? [] : [shape(row)];
    });
  };

  const after = groupBy(await orm.select().from(t.stageAfter).orderBy(t.stageAfter.stage, t.stageAfter.position), (row) => row.stage);
  const featureRows = await orm.select().from(t.features);
  const slots = inOrder('slot', await orm.select().from(t.slots), ({ id, name, group, stage, swapMinutes, alsoCalled }) => ({
    id,
    name,
    ...(alsoCalled === null ? {} : { alsoCalled }),
    group,
    stage,
    swapMinutes,
  }));
  const features = inOrder('feature', featureRows, featureOf);
  const rank = new Map(features.map(({ id }, index) => [id, index]));
  return {
    slots,
    featureIds: new Map(
      featureRows.flatMap(({ n, id }) => {
        const at = rank.get(id);
        return at === undefined ? [] : [[n, { id, rank: at }] as const];
      }),
    ),
    lists: {
      sources: inOrder('source', await orm.select().from(t.sources), ({ id, title, kind }) => ({ id, title, kind })),
      stages: inOrder('stage', await orm.select().from(t.stages), ({ id, name, minutes }) => ({
        id,
        name,
        minutes,
        after: (after.get(id) ?? []).map((row) => row.after),
      })),
      slots,
      ports: inOrder('port', await orm.select().from(t.ports), ({ id, slot, name }) => ({ id, slot, name })),
      features,
      joints: inOrder('joint', await orm.select().from(t.joints), ({ id, name, a, b, rules, source }) => ({
        id,
        name,
        a,
        b,
        rules,
        source,
      })),
      metals: inOrder('metal', await orm.select().from(t.metals), ({ id, name, expansion, disc, source }) => ({
        id,
        name,
        expansion,
        ...(disc === null ? {} : { disc }),
        source,
      })),
      operations: inOrder(
        'operation',
        await orm.select().from(t.operations),
        ({ id, name, slot, does, takes, hours, turning, cautions, source }) => ({
          id,
          name,
          slot,
          does,
          takes,
          hours,
          turning,
          cautions,
          source,
        }),
      ),
      chains: inOrder('chain', await orm.select().from(t.chains), ({ id, name, leaves, links, min, max, source }) => ({
        id,
        name,
        leaves,
        links,
        min,
        max,
        source,
      })),
      instruments: inOrder('instrument', await orm.select().from(t.instruments), ({ alsoCalled, ...rest }) => ({
        ...rest,
        ...(alsoCalled === null ? {} : { alsoCalled }),
      })),
      warmth: inOrder('warmth', await orm.select().from(t.warmth), ({ id, joint, sides, source }) => ({ id, joint, sides, source })),
    },
  };
};

export const featureOf = (row: typeof t.features.$inferSelect): Feature => ({
  id: row.id,
  slot: row.slot,
  name: row.name,
  ...(row.alsoCalled === null ? {} : { alsoCalled: row.alsoCalled }),
  kind: row.kind,
  ...(row.unit === null ? {} : { unit: row.unit }),
  ...(row.options === null ? {} : { options: row.options }),
  ...(row.says === null ? {} : { says: row.says }),
  stage: row.stage,
  minutes: row.minutes,
  ...(row.instrument === null ? {} : { instrument: row.instrument }),
  ...(row.resolution === null ? {} : { resolution: row.resolution }),
  ...(row.wearBelow === null || row.wearAbove === null ? {} : { wear: { below: row.wearBelow, above: row.wearAbove } }),
  ...(row.plausibleFrom === null || row.plausibleTo === null ? {} : { plausible: { from: row.plausibleFrom, to: row.plausibleTo } }),
  ...(row.port === null ? {} : { port: row.port }),
  ...(row.remarks === null ? {} : { remarks: row.remarks }),
});

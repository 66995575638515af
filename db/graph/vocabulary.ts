import type { Vocabulary } from '../answers.ts';
import { readLists } from '../atlas/read-lists.ts';
import type { Reader } from '../driver/driver.ts';
import { groupBy } from '../plain/group-by.ts';
import * as t from '../schema.ts';
import { editionOf } from './read-atlas.ts';

/** Everything the window must know before anything is entered. */
export const vocabularyOf = async (reader: Reader): Promise<Vocabulary> => {
  const { orm } = reader;
  const { lists } = await readLists(reader, { view: { of: 'all' }, sharedOnly: true });
  const packs = await orm
    .select({ id: t.packs.id, title: t.packs.title, edition: t.packs.edition, invented: t.packs.invented })
    .from(t.packs)
    .orderBy(t.packs.id);
  const withParts = new Set(
    (await reader.all<{ id: string }>('select id from packs k where exists (select 1 from parts where pack = k.id)')).map(({ id }) => id),
  );
  const makers = await orm.select().from(t.makers).orderBy(t.makers.pack, t.makers.position);
  const tradeNames = groupBy(await orm.select().from(t.tradeNames).orderBy(t.tradeNames.maker, t.tradeNames.position), (row) => row.maker);
  const families = await orm
    .select({ id: t.families.id, name: t.families.name, maker: t.families.maker })
    .from(t.families)
    .orderBy(t.families.pack, t.families.position);
  const models = await orm
    .select({ id: t.models.id, name: t.models.name, family: t.models.family })
    .from(t.models)
    .orderBy(t.models.pack, t.models.position);
  return {
    edition: await editionOf(reader),
    packs: packs.map((pack) => ({ ...pack, parts: withParts.has(pack.id) })),
    counts: { makers: makers.length, families: families.length, models: models.length, parts: await orm.$count(t.parts) },
    ...lists,
    makers: makers.map(({ id, name, plateRule, source }) => ({
      id,
      name,
      tradeNames: (tradeNames.get(id) ?? []).map(({ name, from, to }) => ({ name, from, to })),
      plateRule,
      source,
    })),
    families,
    models,
  };
};

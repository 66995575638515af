import type { FamilyId, ModelId, PartId, SlotId } from '../../reasoner/index.ts';
import type { TreeAnswer, TreeParts, TreeShared } from '../answers.ts';
import type { Reader } from '../driver/driver.ts';
import { groupBy } from '../plain/group-by.ts';
import * as t from '../schema.ts';
import { sittingsOfModels } from './may-sit.ts';
import { noSuchNode, refsOf } from './node-refs.ts';

/** Makers, families, generations and models as the tree shows them, each list in the order of the atlas. */
export const treeOf = async (reader: Reader): Promise<TreeAnswer> => {
  const { orm } = reader;
  const makers = await orm.select({ id: t.makers.id, name: t.makers.name }).from(t.makers).orderBy(t.makers.pack, t.makers.position);
  const names = groupBy(await orm.select().from(t.tradeNames).orderBy(t.tradeNames.maker, t.tradeNames.position), (row) => row.maker);
  const families = await orm.select().from(t.families).orderBy(t.families.pack, t.families.position);
  const edges = groupBy(await orm.select().from(t.familyEdges).orderBy(t.familyEdges.from, t.familyEdges.position), (row) => row.from);
  const generations = await orm.select().from(t.generations).orderBy(t.generations.pack, t.generations.position);
  const models = await orm.select().from(t.models).orderBy(t.models.pack, t.models.position);
  const modelIds = new Map(models.map(({ n, id }) => [n, id]));
  return {
    makers: makers.map(({ id, name }) => ({
      id,
      name,
      tradeNames: (names.get(id) ?? []).map((period) => ({ name: period.name, from: period.from, to: period.to })),
    })),
    families: families.map(({ id, name, maker, from, to }) => {
      const lines = (kind: t.FamilyEdgeKind) => (edges.get(id) ?? []).filter((edge) => edge.kind === kind).map((edge) => edge.to);
      return {
        id,
        name,
        maker,
        from,
        to,
        descendsFrom: lines('descends from'),
        succeeds: lines('succeeds'),
        patternOf: lines('pattern of'),
      };
    }),
    generations: generations.map(({ id, name, family, from, to, succeeds }) => ({ id, name, family, from, to, succeeds })),
    models: models.map(({ id, name, family, generation, patternOf, from, to }) => ({
      id,
      name,
      family,
      generation,
      patternOf: patternOf === null ? null : (modelIds.get(patternOf) ?? null),
      from,
      to,
    })),
    shared: await sharedParts(reader),
  };
};

/** Parts listed by several families, those of one group and the same families together; the most widely shared first. */
const sharedParts = async (reader: Reader): Promise<TreeShared[]> => {
  // Service parts are left out: that they are shared says nothing of where a unit comes from (A3).
  const rows = await reader.all<{ part: PartId; slot: SlotId; part_group: TreeShared['group']; model: ModelId; family: FamilyId }>(
    `with listed as (select s.part, m.n as model, m.family from sits s join models m on m.n = s.model where s.role <> 'service'),
       wide as (select part from listed group by part having count(distinct family) > 1)
     select p.id as part, p.slot, l.part_group, m.id as model, m.family
     from wide w join parts p on p.n = w.part join slots l on l.id = p.slot and l.part_group in ('core', 'housing')
     join listed on listed.part = w.part join models m on m.n = listed.model join families f on f.id = m.family
     order by l.part_group, f.pack, f.position, m.pack, m.position, p.pack, p.position`,
  );
  const byPart = groupBy(rows, (row) => row.part);
  const once = <T>(all: readonly T[]): T[] => [...new Set(all)];
  const sets = groupBy([...byPart.values()], (of) => `${of[0]?.part_group} ${once(of.map(({ family }) => family)).join(' ')}`);
  return [...sets.values()]
    .map((parts) => {
      const of = parts.flat();
      const [first] = of;
      if (first === undefined) throw new Error('a shared part without a row');
      return {
        group: first.part_group,
        families: once(of.map(({ family }) => family)),
        models: once(of.map(({ model }) => model)),
        slots: once(of.map(({ slot }) => slot)),
        parts: once(of.map(({ part }) => part)),
      };
    })
    .sort((a, b) => (a.group < b.group ? -1 : a.group > b.group ? 1 : 0) || b.families.length - a.families.length);
};

/** What may sit in these models, slot by slot, superseding parts included. Throws `not-found` for a model the atlas does not have. */
export const partsOfModels = async (reader: Reader, models: readonly ModelId[]): Promise<TreeParts[]> => {
  const known = await refsOf(reader, 'model', models);
  for (const id of models) if (!known.has(id)) noSuchNode('model', id);
  const byModel = groupBy(await sittingsOfModels(reader, models), (sitting) => sitting.model);
  return models.map((model) => ({
    model,
    slots: [...groupBy(byModel.get(model) ?? [], (sitting) => sitting.slot)].map(([slot, sittings]) => ({
      slot,
      parts: sittings.map(({ part, partName, role }) => ({ id: part, name: partName, role })),
    })),
  }));
};

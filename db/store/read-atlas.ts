import { ne } from 'drizzle-orm';
import type { Atlas, Fact, FeatureId, Model, Part, PartId, SourceId } from '../../reasoner/index.ts';
import type { Connection } from '../driver/connection.ts';
import * as t from '../schema.ts';
import { readTerms } from './read-terms.ts';

/** How many facts are read at once: one big read would hold up everything else in the process. */
const factsAtOnce = 20_000;

/**
 * The whole atlas, or the atlas without one pack, as the reasoner wants it. Everything stands in the order of its pack,
 * packs by id; a model's parts by slot, then as the parts stand. Run it in a transaction where others may write. `page` is how many facts
 * are read at once.
 */
export const readAtlas = async (connection: Connection, without: string | null = null, page = factsAtOnce): Promise<Atlas> => {
  const { orm } = connection;
  const terms = await readTerms(connection, without);
  const inPack = (
    pack:
      | typeof t.parts.pack
      | typeof t.models.pack
      | typeof t.makers.pack
      | typeof t.families.pack
      | typeof t.generations.pack
      | typeof t.rates.pack,
  ) => (without === null ? undefined : ne(pack, without));

  const makers = await orm.select().from(t.makers).where(inPack(t.makers.pack)).orderBy(t.makers.pack, t.makers.position);
  const tradeNames = groupBy(await orm.select().from(t.tradeNames).orderBy(t.tradeNames.maker, t.tradeNames.position), (row) => row.maker);
  const families = await orm.select().from(t.families).where(inPack(t.families.pack)).orderBy(t.families.pack, t.families.position);
  const edges = groupBy(await orm.select().from(t.familyEdges).orderBy(t.familyEdges.from, t.familyEdges.position), (row) => row.from);
  const generations = await orm
    .select()
    .from(t.generations)
    .where(inPack(t.generations.pack))
    .orderBy(t.generations.pack, t.generations.position);
  const models = await orm.select().from(t.models).where(inPack(t.models.pack)).orderBy(t.models.pack, t.models.position);
  const parts = await orm.select().from(t.parts).where(inPack(t.parts.pack)).orderBy(t.parts.pack, t.parts.position);

  // References lead into the pack left out, too.
  const partOf = new Map(
    (await orm.select({ n: t.parts.n, id: t.parts.id, slot: t.parts.slot }).from(t.parts).orderBy(t.parts.pack, t.parts.position)).map(
      ({ n, id, slot }, rank) => [n, { id, slot, rank }],
    ),
  );
  const modelIds = new Map((await orm.select({ n: t.models.n, id: t.models.id }).from(t.models)).map(({ n, id }) => [n, id]));
  const numbers = groupBy(await orm.select().from(t.numbers).orderBy(t.numbers.part, t.numbers.position), (row) => row.part);
  const facts = await readFacts(connection, terms.featureIds, page);
  const openLists = groupBy(await orm.select().from(t.openLists).orderBy(t.openLists.model, t.openLists.position), (row) => row.model);
  const slotRank = new Map(terms.slots.map(({ id }, rank) => [id, rank]));
  const sits = groupBy(
    await orm
      .select()
      .from(t.sits)
      .where(without === null ? undefined : ne(t.sits.pack, without)),
    (row) => row.model,
  );

  const rates = await orm.select().from(t.rates).where(inPack(t.rates.pack)).orderBy(t.rates.pack, t.rates.position);
  const prices = groupBy(await orm.select().from(t.prices).orderBy(t.prices.rates, t.prices.position), (row) => row.rates);

  return {
    edition: await editionOf(connection, without),
    ...terms.lists,
    rates: rates.map(({ id, name, money, hour, source }) => ({
      id,
      name,
      money,
      hour,
      parts: (prices.get(id) ?? []).flatMap(({ part, price }) => {
        const found = partOf.get(part);
        return found === undefined ? [] : [{ part: found.id, price }];
      }),
      source,
    })),
    makers: makers.map(({ id, name, plateRule, grammar, numbering, source }) => ({
      id,
      name,
      tradeNames: (tradeNames.get(id) ?? []).map(({ name, from, to }) => ({ name, from, to })),
      plateRule,
      grammar,
      ...(numbering === null ? {} : { numbering }),
      source,
    })),
    families: families.map(({ id, name, maker, from, to, about, source }) => {
      const to_ = (kind: t.FamilyEdgeKind) => (edges.get(id) ?? []).filter((edge) => edge.kind === kind).map((edge) => edge.to);
      return {
        id,
        name,
        maker,
        from,
        to,
        descendsFrom: to_('descends from'),
        succeeds: to_('succeeds'),
        patternOf: to_('pattern of'),
        about,
        source,
      };
    }),
    generations: generations.map(({ id, family, name, from, to, succeeds, source }) => ({ id, family, name, from, to, succeeds, source })),
    models: models.map(({ n, id, name, family, generation, patternOf, from, to, source }): Model => {
      const allowed = (sits.get(n) ?? []).flatMap(({ part, role }) => {
        const found = partOf.get(part);
        return found === undefined ? [] : [{ slot: found.slot, part: found.id, role, rank: found.rank }];
      });
      const open = openLists.get(n);
      allowed.sort((a, b) => (slotRank.get(a.slot) ?? 0) - (slotRank.get(b.slot) ?? 0) || a.rank - b.rank);
      return {
        id,
        name,
        family,
        generation,
        patternOf: patternOf === null ? null : (modelIds.get(patternOf) ?? null),
        from,
        to,
        allowed: allowed.map(({ slot, part, role }) => ({ slot, part, role })),
        ...(open === undefined ? {} : { openEnded: open.map(({ slot }) => slot) }),
        source,
      };
    }),
    parts: parts.map((row): Part => {
      const id = (n: number | null): PartId | undefined => (n === null ? undefined : partOf.get(n)?.id);
      const [patternOf, supersedes] = [id(row.patternOf), id(row.supersedes)];
      return {
        id: row.id,
        slot: row.slot,
        name: row.name,
        maker: row.maker,
        numbers: (numbers.get(row.n) ?? []).map(({ number }) => number),
        ...(patternOf === undefined ? {} : { patternOf }),
        ...(supersedes === undefined ? {} : { supersedes }),
        ...(facts.get(row.n) ?? { facts: {} }),
        source: row.source,
      };
    }),
  };
};

/** Which state of the data the atlas is in: every pack with its edition. */
export const editionOf = async (connection: Connection, without: string | null = null): Promise<string> => {
  const rows = await connection.orm
    .select()
    .from(t.packs)
    .where(without === null ? undefined : ne(t.packs.id, without))
    .orderBy(t.packs.id);
  return rows.map(({ id, edition }) => `${id} ${edition}`).join(' + ');
};

type PartFacts = { facts: Record<FeatureId, Fact>; factSources?: Record<FeatureId, SourceId> };
export type FactRow = typeof t.facts.$inferSelect;
/** A row as SQLite has it. By far the most rows of an atlas are facts, and drizzle would take twice as long over them. */
type BareFact = Omit<FactRow, 'anyOf' | 'blank' | 'present'> & {
  readonly any_of: string | null;
  readonly blank: number | null;
  readonly present: number | null;
};

const readFacts = async (
  connection: Connection,
  featureIds: ReadonlyMap<number, { readonly id: FeatureId; readonly rank: number }>,
  page: number,
): Promise<Map<number, PartFacts>> => {
  const byPart = new Map<number, PartFacts>();
  let ofPart: BareFact[] = [];
  const take = (): void => {
    const [first] = ofPart;
    if (first !== undefined) byPart.set(first.part, factsOf(ofPart, featureIds));
    ofPart = [];
  };
  for await (const rows of pagesOfFacts(connection, page)) {
    for (const row of rows) {
      if (ofPart[0] !== undefined && ofPart[0].part !== row.part) take();
      ofPart.push(row);
    }
  }
  take();
  return byPart;
};

/** Every fact, part by part, a page at a time. */
async function* pagesOfFacts(connection: Connection, page: number): AsyncGenerator<readonly BareFact[]> {
  let last = { part: -1, feature: -1 };
  let rows: BareFact[];
  do {
    rows = await connection.all<BareFact>('select * from facts where (part, feature) > (?, ?) order by part, feature limit ?', [
      last.part,
      last.feature,
      page,
    ]);
    yield rows;
    last = rows.at(-1) ?? last;
  } while (rows.length === page);
}

/** The facts of one part in the order of its features. */
const factsOf = (
  rows: readonly BareFact[],
  featureIds: ReadonlyMap<number, { readonly id: FeatureId; readonly rank: number }>,
): PartFacts => {
  const ranked = rows.flatMap((row) => {
    const feature = featureIds.get(row.feature);
    return feature === undefined ? [] : [{ row, ...feature }];
  });
  ranked.sort((a, b) => a.rank - b.rank);
  const of: PartFacts = { facts: {} };
  for (const { row, id } of ranked) {
    const { any_of, blank, present, ...rest } = row;
    of.facts[id] = factOf({
      ...rest,
      anyOf: any_of === null ? null : (JSON.parse(any_of) as string[]),
      blank: blank === null ? null : blank === 1,
      present: present === null ? null : present === 1,
    });
    if (row.source !== null) of.factSources = { ...of.factSources, [id]: row.source };
  }
  return of;
};

/** A row of `facts` as the fact it holds. The table's own checks promise the columns each kind needs. */
export const factOf = (row: FactRow): Fact => {
  const { kind, nominal, lower, upper, code, anyOf, blank, present } = row;
  switch (kind) {
    case 'count':
      return { kind, from: whole(lower), to: whole(upper) };
    case 'measure':
      return { kind, nominal: whole(nominal), lower: whole(lower), upper: whole(upper), ...(code === null ? {} : { code }) };
    case 'choice':
      return { kind, anyOf: whole(anyOf) };
    case 'presence':
      return { kind, present: whole(present) };
    case 'mark':
      return { kind, anyOf: whole(anyOf), blank: whole(blank) };
    case 'not known':
      return { kind };
  }
};

const whole = <T>(value: T | null): T => {
  if (value === null) throw new Error('a fact lacks a column its kind needs');
  return value;
};

export const groupBy = <T, K>(rows: readonly T[], keyOf: (row: T) => K): Map<K, T[]> => {
  const groups = new Map<K, T[]>();
  for (const row of rows) {
    const key = keyOf(row);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return groups;
};

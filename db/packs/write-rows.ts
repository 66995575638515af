import type { Fact, FeatureId } from '../../reasoner/index.ts';
import type { Connection } from '../driver/connection.ts';
import { insertAll } from '../driver/insert-all.ts';
import * as t from '../schema.ts';
import { sampleRow } from '../sheets/rows.ts';
import { termsOf } from '../store/search-terms.ts';
import type { LoadStep } from './load.ts';
import type { Pack } from './pack.ts';
import type { Kept } from './remove-rows.ts';

/** Writes every row of a pack. Terms that another pack holds already are only noted as held by this one too. */
export const writeRows = async (connection: Connection, pack: Pack, kept: Kept, step: (at: LoadStep) => void): Promise<void> => {
  const id = pack.head.id;
  step('terms');
  const features = await writeTerms(connection, pack, kept.features);
  step('names');
  const positions = <T>(entries: readonly T[]) => entries.map((entry, position) => ({ ...entry, pack: id, position }));
  await insertAll(connection, t.makers, positions(pack.makers));
  await insertAll(
    connection,
    t.tradeNames,
    pack.makers.flatMap((maker) => maker.tradeNames.map((name, position) => ({ maker: maker.id, position, ...name }))),
  );
  await insertAll(connection, t.families, positions(pack.families));
  await insertAll(
    connection,
    t.familyEdges,
    pack.families.flatMap((family) => {
      const edges = (kind: t.FamilyEdgeKind, to: typeof family.succeeds) =>
        to.map((other, position) => ({ kind, from: family.id, to: other, position }));
      return [
        ...edges('descends from', family.descendsFrom),
        ...edges('succeeds', family.succeeds),
        ...edges('pattern of', family.patternOf),
      ];
    }),
  );
  await insertAll(connection, t.generations, positions(pack.generations));

  step('parts');
  const models = await numbered(connection, 'models', pack.models, kept.models);
  await insertAll(
    connection,
    t.models,
    positions(pack.models).map((model) => ({
      ...model,
      n: models.of(model.id),
      patternOf: model.patternOf === null ? null : models.of(model.patternOf),
    })),
  );
  await insertAll(
    connection,
    t.openLists,
    pack.models.flatMap(({ id: model, openEnded = [] }) =>
      openEnded.map((slot, position) => ({ model: models.of(model), slot, position })),
    ),
  );
  const parts = await numbered(connection, 'parts', pack.parts, kept.parts);
  await insertAll(
    connection,
    t.parts,
    positions(pack.parts).map((part) => ({
      ...part,
      n: parts.of(part.id),
      patternOf: part.patternOf === undefined ? null : parts.of(part.patternOf),
      supersedes: part.supersedes === undefined ? null : parts.of(part.supersedes),
    })),
  );
  await insertAll(
    connection,
    t.numbers,
    pack.parts.flatMap((part) => part.numbers.map((number, position) => ({ part: parts.of(part.id), position, number }))),
  );
  await insertAll(
    connection,
    t.sits,
    pack.allowed.map(({ model, part, role }) => ({ model: models.of(model), part: parts.of(part), role, pack: id })),
  );

  await insertAll(connection, t.rates, positions(pack.rates));
  await insertAll(
    connection,
    t.prices,
    pack.rates.flatMap((rates) =>
      rates.parts.map(({ part, price }, position) => ({ rates: rates.id, position, part: parts.of(part), price })),
    ),
  );

  step('facts');
  // Part by part, so that a large pack's facts need not all stand in memory as rows at once.
  for (let start = 0; start < pack.parts.length; start += 1000) {
    const rows = pack.parts.slice(start, start + 1000).flatMap((part) =>
      (Object.entries(part.facts) as [FeatureId, Fact][]).map(([feature, fact]) => ({
        part: parts.of(part.id),
        feature: features.of(feature),
        ...factColumns(fact),
        source: part.factSources?.[feature] ?? null,
      })),
    );
    await insertAll(connection, t.facts, rows);
  }

  step('sheets');
  await insertAll(
    connection,
    t.sheets,
    pack.sheets.map((sheet, position) => sampleRow(sheet, id, position)),
  );
  step('search');
  await insertAll(connection, t.searchTerms, termsOf(pack));
};

interface Numbers {
  of(id: string): number;
}

/** A number for each entry: the one it had in the edition before, or the next free one. Other packs' entries are found too. */
const numbered = async (
  connection: Connection,
  table: 'parts' | 'models' | 'features',
  entries: readonly { readonly id: string }[],
  kept: ReadonlyMap<string, number>,
): Promise<Numbers> => {
  const others = await connection.all<{ id: string; n: number }>(`select id, n from ${table}`);
  const numbers = new Map<string, number>(others.map(({ id, n }) => [id, n]));
  let next = [...numbers.values(), ...kept.values()].reduce((most, n) => Math.max(most, n), 0) + 1;
  for (const { id } of entries) if (!numbers.has(id)) numbers.set(id, kept.get(id) ?? next++);
  return {
    of: (id) => {
      const n = numbers.get(id);
      if (n === undefined) throw new Error(`"${id}" has no number in ${table}`);
      return n;
    },
  };
};

const writeTerms = async (connection: Connection, pack: Pack, kept: ReadonlyMap<string, number>): Promise<Numbers> => {
  const held = new Set(
    (await connection.all<{ kind: string; id: string }>('select distinct kind, id from pack_terms')).map(({ kind, id }) => `${kind} ${id}`),
  );
  const fresh = <T extends { readonly id: string }>(kind: t.TermKind, entries: readonly T[]) =>
    entries.filter(({ id }) => !held.has(`${kind} ${id}`));
  await insertAll(connection, t.sources, fresh('source', pack.sources));
  const stages = fresh('stage', pack.stages);
  await insertAll(connection, t.stages, stages);
  await insertAll(
    connection,
    t.stageAfter,
    stages.flatMap(({ id, after }) => after.map((other, position) => ({ stage: id, after: other, position }))),
  );
  await insertAll(connection, t.slots, fresh('slot', pack.slots));
  await insertAll(connection, t.ports, fresh('port', pack.ports));
  const features = await numbered(connection, 'features', pack.features, kept);
  await insertAll(
    connection,
    t.features,
    fresh('feature', pack.features).map((feature) => ({
      ...feature,
      n: features.of(feature.id),
      wearBelow: feature.wear?.below ?? null,
      wearAbove: feature.wear?.above ?? null,
      plausibleFrom: feature.plausible?.from ?? null,
      plausibleTo: feature.plausible?.to ?? null,
    })),
  );
  await insertAll(connection, t.joints, fresh('joint', pack.joints));
  await insertAll(connection, t.metals, fresh('metal', pack.metals));
  await insertAll(connection, t.operations, fresh('operation', pack.operations));
  await insertAll(connection, t.chains, fresh('chain', pack.chains));
  await insertAll(connection, t.warmth, fresh('warmth', pack.warmth));
  await insertAll(connection, t.instruments, fresh('instrument', pack.instruments));
  const holding = (kind: t.TermKind, entries: readonly { readonly id: string }[]) =>
    entries.map(({ id }, position) => ({ pack: pack.head.id, kind, id, position }));
  await insertAll(connection, t.packTerms, [
    ...holding('source', pack.sources),
    ...holding('stage', pack.stages),
    ...holding('slot', pack.slots),
    ...holding('port', pack.ports),
    ...holding('feature', pack.features),
    ...holding('joint', pack.joints),
    ...holding('metal', pack.metals),
    ...holding('operation', pack.operations),
    ...holding('chain', pack.chains),
    ...holding('warmth', pack.warmth),
    ...holding('instrument', pack.instruments),
  ]);
  return features;
};

type FactColumns = Omit<typeof t.facts.$inferInsert, 'part' | 'feature' | 'source'>;

const factColumns = (fact: Fact): FactColumns => {
  switch (fact.kind) {
    case 'count':
      return { kind: fact.kind, lower: fact.from, upper: fact.to };
    case 'measure':
      return { kind: fact.kind, nominal: fact.nominal, lower: fact.lower, upper: fact.upper, code: fact.code ?? null };
    case 'choice':
      return { kind: fact.kind, anyOf: fact.anyOf };
    case 'presence':
      return { kind: fact.kind, present: fact.present };
    case 'mark':
      return { kind: fact.kind, anyOf: fact.anyOf, blank: fact.blank };
    case 'not known':
      return { kind: fact.kind };
  }
};

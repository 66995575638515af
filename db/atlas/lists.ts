import { z } from 'zod';
import type {
  Chain,
  Fact,
  Family,
  Feature,
  FeatureId,
  Generation,
  Instrument,
  Joint,
  Maker,
  Metal,
  Model,
  Operation,
  Part,
  Port,
  Rates,
  Slot,
  SlotDrawing,
  Source,
  SourceId,
  Stage,
  TradeTerm,
  Warmth,
} from '../../reasoner/index.ts';
import * as t from '../schema.ts';
import { factColumns, factOf, plainFact } from './facts.ts';
import { gatherFacts } from './gather-facts.ts';
import { child, type Disagreement, keyedBy, type List, list, type Values } from './list.ts';
import { entrySchemas as schemas } from './schemas.ts';

/** A model as a pack writes it: which parts may sit in it stands in a table of its own. */
export type PackModel = Omit<Model, 'allowed'>;

const every = (field: string): readonly string[] => [field, '*'];
const toSource = { at: ['source'], to: 'source' } as const;
const optional = <K extends string, V>(key: K, value: V | null | undefined): { [k in K]?: V } =>
  (value === null || value === undefined ? {} : { [key]: value }) as { [k in K]?: V };

/** Each id of such a field once. */
const once =
  <E>(field: keyof E & string, what: string) =>
  (_found: unknown, entry: E, path: readonly PropertyKey[]): readonly Disagreement[] => {
    const ids = entry[field] as readonly string[];
    const place = path.at(-1) as number;
    return ids.indexOf(ids[place] as string) === place ? [] : [[`${JSON.stringify(ids[place])} twice`, `every ${what} once`]];
  };

const ofFamily = (found: Values | undefined, { family }: { readonly family: string }): readonly Disagreement[] =>
  found === undefined || found.family === family ? [] : [[`a generation of ${found.family}`, `a generation of ${family}`]];

/**
 * The lists of the atlas, in the order a pack's files are read, written and hashed: each is the file `<name>.json` of a pack, a table, and a
 * field of the atlas. What is not said of one is as with most: see `list`. README.md says how to add one.
 */
export const lists = {
  sources: list<Source>()({ one: 'source', shared: true, table: t.sources, schema: schemas.source }),
  stages: list<Stage>()({
    one: 'stage',
    shared: true,
    table: t.stages,
    schema: schemas.stage,
    children: [
      child<Stage>()({
        table: t.stageAfter,
        of: 'stage',
        rows: ({ after }) => after.map((other, position) => ({ after: other, position })),
        read: (rows) => ({ after: rows.map(({ after }) => after) }),
      }),
    ],
    references: [{ at: every('after'), to: 'stage' }],
    lines: [{ field: 'after', next: ({ after }) => after }],
  }),
  slots: list<Slot>()({ one: 'slot', shared: true, table: t.slots, schema: schemas.slot, references: [{ at: ['stage'], to: 'stage' }] }),
  ports: list<Port>()({ one: 'port', shared: true, table: t.ports, schema: schemas.port, references: [{ at: ['slot'], to: 'slot' }] }),
  features: list<Feature>()({
    one: 'feature',
    shared: true,
    table: t.features,
    numbered: 'features',
    schema: schemas.feature,
    toRow: ({ wear, plausible }) => ({
      wearBelow: wear?.below ?? null,
      wearAbove: wear?.above ?? null,
      plausibleFrom: plausible?.from ?? null,
      plausibleTo: plausible?.to ?? null,
    }),
    toEntry: ({ wearBelow, wearAbove, plausibleFrom, plausibleTo }) => ({
      ...(wearBelow === null || wearAbove === null ? {} : { wear: { below: wearBelow, above: wearAbove } }),
      ...(plausibleFrom === null || plausibleTo === null ? {} : { plausible: { from: plausibleFrom, to: plausibleTo } }),
    }),
    references: [
      { at: ['slot'], to: 'slot' },
      { at: ['stage'], to: 'stage' },
      {
        at: ['port'],
        to: 'port',
        agrees: (port, { slot }) => (port === undefined || port.slot === slot ? [] : [[`a port of ${port.slot}`, `a port of ${slot}`]]),
      },
      { at: ['remarks', '*', 'source'], to: 'source' },
    ],
    keyed: [keyedBy<Feature>('options', 'id')],
  }),
  joints: list<Joint>()({
    one: 'joint',
    shared: true,
    table: t.joints,
    schema: schemas.joint,
    references: [toSource, { at: ['a'], to: 'port' }, { at: ['b'], to: 'port' }],
  }),
  makers: list<Maker>()({
    one: 'maker',
    table: t.makers,
    schema: schemas.maker,
    children: [
      child<Maker>()({
        table: t.tradeNames,
        of: 'maker',
        rows: ({ tradeNames }) => tradeNames.map((name, position) => ({ position, ...name })),
        read: (rows) => ({ tradeNames: rows.map(({ name, from, to }) => ({ name, from, to })) }),
      }),
    ],
    references: [toSource],
    keyed: [keyedBy<Maker>('numbering', 'id')],
  }),
  families: list<Family>()({
    one: 'family',
    table: t.families,
    schema: schemas.family,
    children: [
      child<Family>()({
        table: t.familyEdges,
        of: 'from',
        rows: ({ descendsFrom, succeeds, patternOf }) => {
          const edges = (kind: t.FamilyEdgeKind, to: Family['succeeds']) => to.map((other, position) => ({ kind, to: other, position }));
          return [...edges('descends from', descendsFrom), ...edges('succeeds', succeeds), ...edges('pattern of', patternOf)];
        },
        read: (rows) => {
          const along = (kind: t.FamilyEdgeKind) => rows.filter((edge) => edge.kind === kind).map(({ to }) => to);
          return { descendsFrom: along('descends from'), succeeds: along('succeeds'), patternOf: along('pattern of') };
        },
      }),
    ],
    references: [
      { at: ['maker'], to: 'maker' },
      ...(['descendsFrom', 'succeeds', 'patternOf'] as const).map((field) => ({
        at: every(field),
        to: 'family',
        agrees: once<Family>(field, 'family'),
      })),
      toSource,
    ],
    lines: [
      { field: 'descendsFrom', next: ({ descendsFrom, succeeds }) => [...descendsFrom, ...succeeds] },
      { field: 'patternOf', next: ({ patternOf }) => patternOf },
    ],
  }),
  generations: list<Generation>()({
    one: 'generation',
    table: t.generations,
    schema: schemas.generation,
    references: [{ at: ['family'], to: 'family' }, { at: ['succeeds'], to: 'generation', agrees: ofFamily }, toSource],
    lines: [{ field: 'succeeds', next: ({ succeeds }) => (succeeds === null ? [] : [succeeds]) }],
  }),
  models: list<PackModel>()({
    one: 'model',
    table: t.models,
    numbered: 'models',
    schema: schemas.model,
    toRow: ({ patternOf }, numbers) => ({ patternOf: patternOf === null ? null : numbers.of('models', patternOf) }),
    toEntry: ({ patternOf }, ids) => ({ patternOf: patternOf === null ? null : (ids.models.get(patternOf) ?? null) }),
    children: [
      child<PackModel>()({
        table: t.openLists,
        of: 'model',
        rows: ({ openEnded = [] }) => openEnded.map((slot, position) => ({ slot, position })),
        read: (rows) => (rows.length === 0 ? {} : { openEnded: rows.map(({ slot }) => slot) }),
      }),
    ],
    references: [
      { at: ['family'], to: 'family' },
      { at: ['generation'], to: 'generation', agrees: ofFamily },
      { at: ['patternOf'], to: 'model' },
      {
        at: every('openEnded'),
        to: 'slot',
        agrees: (slot, model, path) => [
          ...(slot?.group === 'plate' ? [[`the ${slot.name}`, 'a slot of the core or a housing'] as const] : []),
          ...once<PackModel>('openEnded', 'slot')(slot, model, path),
        ],
      },
      toSource,
    ],
    lines: [{ field: 'patternOf', next: ({ patternOf }) => (patternOf === null ? [] : [patternOf]) }],
  }),
  metals: list<Metal>()({
    one: 'metal',
    shared: true,
    optional: true,
    table: t.metals,
    schema: schemas.metal,
    references: [toSource],
  }),
  operations: list<Operation>()({
    one: 'operation',
    shared: true,
    optional: true,
    table: t.operations,
    schema: schemas.operation,
    references: [toSource, { at: ['slot'], to: 'slot' }],
  }),
  chains: list<Chain>()({
    one: 'chain',
    shared: true,
    optional: true,
    table: t.chains,
    schema: schemas.chain,
    references: [toSource],
  }),
  warmth: list<Warmth>()({
    one: 'warmth',
    shared: true,
    optional: true,
    table: t.warmth,
    schema: schemas.warmth,
    references: [toSource, { at: ['joint'], to: 'joint' }],
  }),
  rates: list<Rates>()({
    one: 'rates',
    optional: true,
    table: t.rates,
    schema: schemas.rates,
    children: [
      child<Rates>()({
        table: t.prices,
        of: 'rates',
        rows: ({ parts }, numbers) => parts.map(({ part, price }, position) => ({ position, part: numbers.of('parts', part), price })),
        read: (rows, ids) => ({
          parts: rows.flatMap(({ part, price }) => {
            const id = ids.parts.get(part);
            return id === undefined ? [] : [{ part: id, price }];
          }),
        }),
        line: { field: 'parts', keyOf: ({ part }, ids) => ids.parts.get(part) },
      }),
    ],
    references: [toSource],
    keyed: [keyedBy<Rates>('parts', 'part')],
  }),
  instruments: list<Instrument>()({
    one: 'instrument',
    shared: true,
    optional: true,
    table: t.instruments,
    schema: schemas.instrument,
    references: [toSource],
  }),
  drawings: list<SlotDrawing>()({
    one: 'drawing',
    shared: true,
    optional: true,
    table: t.drawings,
    schema: schemas.drawing,
    references: [{ at: ['slot'], to: 'slot' }],
  }),
  terms: list<TradeTerm>()({
    one: 'term',
    shared: true,
    optional: true,
    table: t.terms,
    schema: schemas.term,
    references: [
      { at: ['drawn', 'feature'], to: 'feature' },
      { at: every('near'), to: 'term' },
    ],
  }),
} as const;

export type ListName = keyof typeof lists;
export const listNames = Object.keys(lists) as readonly ListName[];
type EntryOf<L> = L extends List<infer E, string> ? E : never;
export type Entry<N extends ListName> = EntryOf<(typeof lists)[N]>;
/** Entries by the name of their list. */
export type Entries = { readonly [N in ListName]: readonly Entry<N>[] };

/** The lists one by one, for what is done with each alike. */
export const everyList = Object.entries(lists).map(([name, each]) => ({ name, ...each })) as unknown as readonly (List & {
  readonly name: ListName;
})[];

/** Parts are a list too. They come in two tables of their own, since they are many: parts.csv, and facts.csv for what is known of each. */
export const partList = list<Part>()({
  one: 'part',
  table: t.parts,
  numbered: 'parts',
  schema: z.strictObject({
    id: z.custom<Part['id']>(),
    slot: z.custom<Part['slot']>(),
    name: z.string(),
    maker: z.custom<NonNullable<Part['maker']>>().nullable(),
    numbers: z.array(z.string()),
    patternOf: z.custom<Part['id']>().exactOptional(),
    supersedes: z.custom<Part['id']>().exactOptional(),
    facts: z.custom<Part['facts']>(),
    factSources: z.custom<NonNullable<Part['factSources']>>().exactOptional(),
    source: z.custom<SourceId>(),
  }),
  toRow: ({ patternOf, supersedes }, numbers) => ({
    patternOf: patternOf === undefined ? null : numbers.of('parts', patternOf),
    supersedes: supersedes === undefined ? null : numbers.of('parts', supersedes),
  }),
  toEntry: ({ patternOf, supersedes }, ids) => ({
    ...optional('patternOf', patternOf === null ? null : ids.parts.get(patternOf)),
    ...optional('supersedes', supersedes === null ? null : ids.parts.get(supersedes)),
  }),
  children: [
    child<Part>()({
      table: t.numbers,
      of: 'part',
      rows: ({ numbers }) => numbers.map((number, position) => ({ position, number })),
      read: (rows) => ({ numbers: rows.map(({ number }) => number) }),
    }),
    child<Part>()({
      table: t.facts,
      of: 'part',
      rows: ({ facts, factSources }, numbers) =>
        (Object.entries(facts) as [FeatureId, Fact][]).map(([feature, fact]) => ({
          feature: numbers.of('features', feature),
          ...factColumns(fact),
          source: factSources?.[feature] ?? null,
        })),
      read: (rows, ids) => {
        const known = rows.flatMap((row) => {
          const feature = ids.features.get(row.feature);
          return feature === undefined ? [] : [{ row, ...feature }];
        });
        known.sort((a, b) => a.rank - b.rank);
        const facts: Record<FeatureId, Fact> = {};
        const factSources: Record<FeatureId, SourceId> = {};
        for (const { id, row } of known) {
          facts[id] = factOf(row);
          if (row.source !== null) factSources[id] = row.source;
        }
        return { facts, ...(Object.keys(factSources).length === 0 ? {} : { factSources }) };
      },
      gather: gatherFacts,
    }),
  ],
  keyed: [
    {
      fields: ['facts', 'factSources'],
      ordered: false,
      linesOf: ({ facts, factSources }) =>
        (Object.entries(facts) as [FeatureId, Fact][]).map(([feature, fact]) => {
          const source = factSources?.[feature];
          return [feature, { ...plainFact(fact), ...(source === undefined ? {} : { source }) }];
        }),
      from: (lines) => {
        const facts: Record<string, Fact> = {};
        const factSources: Record<string, SourceId> = {};
        for (const [feature, is] of lines) {
          const { source, ...fact } = is as Fact & { readonly source?: SourceId };
          facts[feature] = fact;
          if (source !== undefined) factSources[feature] = source;
        }
        return { facts, ...(Object.keys(factSources).length === 0 ? {} : { factSources }) };
      },
    },
  ],
});

/** Every list of a pack that is said entry by entry: those above, and last the parts. */
export const listsAndParts = [...everyList, { name: 'parts' as const, ...(partList as unknown as List) }];

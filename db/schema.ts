import {
  type AnySQLiteColumn,
  blob,
  foreignKey,
  index,
  integer,
  primaryKey,
  real,
  sqliteTable,
  text,
  uniqueIndex,
} from 'drizzle-orm/sqlite-core';
import type {
  CaseVerdict,
  Chain,
  ChainId,
  DrawingId,
  DrillLevel,
  FamilyId,
  Feature,
  FeatureId,
  FeatureKind,
  Fit,
  FitRule,
  FitVerdict,
  GenerationId,
  Grammar,
  Instrument,
  InstrumentId,
  JointId,
  MakerId,
  Metal,
  MetalId,
  ModelId,
  NumberPattern,
  ObservationId,
  Operation,
  OperationId,
  PartId,
  PortId,
  RatesId,
  Response,
  Role,
  Seen,
  SheetId,
  Slot,
  SlotDrawing,
  SlotId,
  Source,
  SourceId,
  StageId,
  Status,
  Subject,
  TermId,
  TopicId,
  TradeTerm,
  Warmth,
  WarmthId,
} from '../reasoner/index.ts';
import type { ShopWord } from '../reasoner/plain/shop-word.ts';
import type { StockCondition } from '../reasoner/plain/stock-condition.ts';
import type { CarriedRecord, CarriedSeen } from './edits/seen.ts';
import type { MappedWord } from './packs/mapped-word.ts';
import type { PhotoId, PhotoType, UnitNumber } from './shop/case.ts';
import type { Card, Course, CourseId, LearnerId } from './shop/learning.ts';
import type { SampleId } from './shop/samples.ts';
import type { FileId, SettingKey, ShopSettings } from './shop/settings.ts';
import type { StockLineId } from './shop/stock.ts';
import type { PublicKey } from './signing/keyring.ts';
import type { Matching } from './tables/column-use.ts';

/**
 * The tables as drizzle sees them. The migrations make them; a test holds every column here equal to the column there,
 * because SQLite would read a misspelt one in double quotes as a string.
 */
const id = <T extends string>(name: string) => text(name).$type<T>();

export const meta = sqliteTable('meta', { key: text().primaryKey(), value: text().notNull() });

export const packs = sqliteTable('packs', {
  id: text().primaryKey(),
  title: text().notNull(),
  edition: text().notNull(),
  invented: integer({ mode: 'boolean' }).notNull(),
  note: text().notNull(),
  /** SHA-256 of the pack's canonical text. */
  hash: text().notNull(),
  /** The version of what is reasoned over of it (`packs/content.ts`); null where it was loaded before this was kept. */
  content: text(),
  /** Ids of the packs it leans on. */
  leansOn: text('leans_on', { mode: 'json' }).$type<readonly string[]>(),
  /** What of its words stands under an id of the atlas; null where it is as it was brought. */
  mapped: text({ mode: 'json' }).$type<readonly MappedWord[]>(),
  /** An SPDX identifier, or words. */
  licence: text(),
  /** Who answers for it. */
  by: text('answered_by'),
  /** The public key it was signed with; null where it came unsigned, as `signature` is then. */
  signer: text().$type<PublicKey>(),
  /** The text of its signature.json. */
  signature: text(),
  /** ISO time. */
  loadedAt: text('loaded_at').notNull(),
  /** Whether it is the one of the shop's own entries. */
  own: integer({ mode: 'boolean' }).notNull().default(false),
});

/** Cells where the shop says otherwise than a pack, which holds the entry: what either says, as JSON; null for nothing. The tables of the atlas hold the shop's word. */
export const ownWords = sqliteTable(
  'own_words',
  {
    pack: text()
      .notNull()
      .references(() => packs.id),
    cell: text().notNull(),
    own: text(),
    said: text(),
  },
  (t) => [primaryKey({ columns: [t.pack, t.cell] })],
);

/** Every change of the atlas, one after the other; `db/changes` says what they are. */
export const journal = sqliteTable(
  'journal',
  {
    n: integer().primaryKey(),
    /** The version of the entry: the hash of the one before and of the effect. */
    id: text().notNull(),
    /** The entry before, or the empty text. */
    parent: text().notNull(),
    /** ISO time. */
    at: text().notNull(),
    kind: text().notNull(),
    /** Whose word it changes: `pack small`. */
    origin: text().notNull(),
    who: text(),
    why: text(),
    /** Where it came from, in words. */
    source: text(),
    /** How many cells it changes. */
    cells: integer().notNull(),
    /** The first of the entries that are one change with it; null for that one, and for one that is alone. */
    together: integer(),
    /** The first entry of the change that it undoes. */
    undoes: integer(),
  },
  (t) => [uniqueIndex('journal_id').on(t.id), uniqueIndex('journal_parent').on(t.parent), index('journal_by_undoes').on(t.undoes)],
);

/** What each entry changed, in pieces in order. */
export const journalEffects = sqliteTable(
  'journal_effects',
  {
    entry: integer()
      .notNull()
      .references(() => journal.n),
    piece: integer().notNull(),
    body: blob({ mode: 'buffer' }).notNull(),
  },
  (t) => [primaryKey({ columns: [t.entry, t.piece] })],
);

/** What of the shop's own went from one id to another with a change (`entry`, the first of its entries): `edits/carry`. */
export const journalCarried = sqliteTable(
  'journal_carried',
  {
    entry: integer()
      .notNull()
      .references(() => journal.n),
    turn: integer().notNull(),
    list: text().notNull(),
    from: text('from_id').notNull(),
    to: text('to_id').notNull(),
    moved: text({ mode: 'json' }).$type<CarriedRecord['moved']>().notNull(),
    there: text({ mode: 'json' }).$type<CarriedRecord['there']>().notNull(),
    seen: text({ mode: 'json' }).$type<CarriedSeen>().notNull(),
  },
  (t) => [primaryKey({ columns: [t.entry, t.turn] })],
);

/** Which packs hold an entry of a list they share; `kind` is what the list calls one. */
export const packTerms = sqliteTable(
  'pack_terms',
  {
    pack: text()
      .notNull()
      .references(() => packs.id),
    kind: text().notNull(),
    id: text().notNull(),
    position: integer().notNull(),
  },
  (t) => [primaryKey({ columns: [t.pack, t.kind, t.id] }), index('pack_terms_by_id').on(t.kind, t.id)],
);

export const sources = sqliteTable('sources', {
  id: id<SourceId>('id').primaryKey(),
  title: text().notNull(),
  kind: text().$type<Source['kind']>().notNull(),
});

export const stages = sqliteTable('stages', {
  id: id<StageId>('id').primaryKey(),
  name: text().notNull(),
  minutes: real().notNull(),
});

export const stageAfter = sqliteTable(
  'stage_after',
  {
    stage: id<StageId>('stage')
      .notNull()
      .references(() => stages.id, { onDelete: 'cascade' }),
    after: id<StageId>('after')
      .notNull()
      .references(() => stages.id),
    position: integer().notNull(),
  },
  (t) => [primaryKey({ columns: [t.stage, t.after] }), index('stage_after_by_after').on(t.after)],
);

export const slots = sqliteTable('slots', {
  id: id<SlotId>('id').primaryKey(),
  name: text().notNull(),
  group: text('part_group').$type<Slot['group']>().notNull(),
  stage: id<StageId>('stage')
    .notNull()
    .references(() => stages.id),
  swapMinutes: real('swap_minutes').notNull(),
  alsoCalled: text('also_called', { mode: 'json' }).$type<readonly string[]>(),
});

export const ports = sqliteTable('ports', {
  id: id<PortId>('id').primaryKey(),
  slot: id<SlotId>('slot')
    .notNull()
    .references(() => slots.id),
  name: text().notNull(),
});

export const features = sqliteTable(
  'features',
  {
    n: integer().primaryKey(),
    id: id<FeatureId>('id').notNull(),
    slot: id<SlotId>('slot')
      .notNull()
      .references(() => slots.id),
    name: text().notNull(),
    kind: text().$type<FeatureKind>().notNull(),
    unit: text(),
    options: text({ mode: 'json' }).$type<NonNullable<Feature['options']>>(),
    stage: id<StageId>('stage')
      .notNull()
      .references(() => stages.id),
    minutes: real().notNull(),
    instrument: text(),
    resolution: real(),
    wearBelow: real('wear_below'),
    wearAbove: real('wear_above'),
    port: id<PortId>('port').references(() => ports.id),
    remarks: text({ mode: 'json' }).$type<NonNullable<Feature['remarks']>>(),
    alsoCalled: text('also_called', { mode: 'json' }).$type<readonly string[]>(),
    says: text().$type<NonNullable<Feature['says']>>(),
    plausibleFrom: real('plausible_from'),
    plausibleTo: real('plausible_to'),
  },
  (t) => [uniqueIndex('features_id').on(t.id), index('features_by_slot').on(t.slot)],
);

export const joints = sqliteTable('joints', {
  id: id<JointId>('id').primaryKey(),
  name: text().notNull(),
  a: id<PortId>('a')
    .notNull()
    .references(() => ports.id),
  b: id<PortId>('b')
    .notNull()
    .references(() => ports.id),
  rules: text({ mode: 'json' }).$type<readonly FitRule[]>().notNull(),
  source: id<SourceId>('source')
    .notNull()
    .references(() => sources.id),
});

export const makers = sqliteTable('makers', {
  id: id<MakerId>('id').primaryKey(),
  pack: text()
    .notNull()
    .references(() => packs.id),
  position: integer().notNull(),
  name: text().notNull(),
  plateRule: integer('plate_rule', { mode: 'boolean' }).notNull(),
  grammar: text({ mode: 'json' }).$type<Grammar>(),
  source: id<SourceId>('source')
    .notNull()
    .references(() => sources.id),
  numbering: text({ mode: 'json' }).$type<readonly NumberPattern[]>(),
});

export const tradeNames = sqliteTable(
  'trade_names',
  {
    maker: id<MakerId>('maker')
      .notNull()
      .references(() => makers.id, { onDelete: 'cascade' }),
    position: integer().notNull(),
    name: text().notNull(),
    from: integer('from_year').notNull(),
    to: integer('to_year'),
  },
  (t) => [primaryKey({ columns: [t.maker, t.position] })],
);

export const families = sqliteTable(
  'families',
  {
    id: id<FamilyId>('id').primaryKey(),
    pack: text()
      .notNull()
      .references(() => packs.id),
    position: integer().notNull(),
    name: text().notNull(),
    maker: id<MakerId>('maker').references(() => makers.id),
    from: integer('from_year'),
    to: integer('to_year'),
    about: text().notNull(),
    source: id<SourceId>('source')
      .notNull()
      .references(() => sources.id),
  },
  (t) => [index('families_by_maker').on(t.maker)],
);

export const familyEdgeKinds = ['descends from', 'succeeds', 'pattern of'] as const;
export type FamilyEdgeKind = (typeof familyEdgeKinds)[number];

export const familyEdges = sqliteTable(
  'family_edges',
  {
    kind: text({ enum: familyEdgeKinds }).notNull(),
    from: id<FamilyId>('from_family')
      .notNull()
      .references(() => families.id, { onDelete: 'cascade' }),
    to: id<FamilyId>('to_family')
      .notNull()
      .references(() => families.id),
    position: integer().notNull(),
  },
  (t) => [primaryKey({ columns: [t.kind, t.from, t.to] }), index('family_edges_by_to').on(t.to, t.kind)],
);

export const generations = sqliteTable(
  'generations',
  {
    id: id<GenerationId>('id').primaryKey(),
    pack: text()
      .notNull()
      .references(() => packs.id),
    position: integer().notNull(),
    family: id<FamilyId>('family')
      .notNull()
      .references(() => families.id),
    name: text().notNull(),
    from: integer('from_year'),
    to: integer('to_year'),
    succeeds: id<GenerationId>('succeeds').references((): AnySQLiteColumn => generations.id),
    source: id<SourceId>('source')
      .notNull()
      .references(() => sources.id),
  },
  (t) => [index('generations_by_family').on(t.family), index('generations_by_succeeds').on(t.succeeds)],
);

export const models = sqliteTable(
  'models',
  {
    n: integer().primaryKey(),
    id: id<ModelId>('id').notNull(),
    pack: text()
      .notNull()
      .references(() => packs.id),
    position: integer().notNull(),
    name: text().notNull(),
    family: id<FamilyId>('family')
      .notNull()
      .references(() => families.id),
    generation: id<GenerationId>('generation').references(() => generations.id),
    patternOf: integer('pattern_of').references((): AnySQLiteColumn => models.n),
    from: integer('from_year'),
    to: integer('to_year'),
    source: id<SourceId>('source')
      .notNull()
      .references(() => sources.id),
  },
  (t) => [
    uniqueIndex('models_id').on(t.id),
    index('models_by_family').on(t.family),
    index('models_by_pattern_of').on(t.patternOf),
    index('models_by_pack').on(t.pack),
  ],
);

export const parts = sqliteTable(
  'parts',
  {
    n: integer().primaryKey(),
    id: id<PartId>('id').notNull(),
    pack: text()
      .notNull()
      .references(() => packs.id),
    position: integer().notNull(),
    slot: id<SlotId>('slot')
      .notNull()
      .references(() => slots.id),
    name: text().notNull(),
    maker: id<MakerId>('maker').references(() => makers.id),
    patternOf: integer('pattern_of').references((): AnySQLiteColumn => parts.n),
    supersedes: integer().references((): AnySQLiteColumn => parts.n),
    source: id<SourceId>('source')
      .notNull()
      .references(() => sources.id),
  },
  (t) => [
    uniqueIndex('parts_id').on(t.id),
    index('parts_by_slot').on(t.slot),
    index('parts_by_maker').on(t.maker),
    index('parts_by_pattern_of').on(t.patternOf),
    index('parts_by_supersedes').on(t.supersedes),
    index('parts_by_pack').on(t.pack),
  ],
);

export const numbers = sqliteTable(
  'numbers',
  {
    part: integer()
      .notNull()
      .references(() => parts.n, { onDelete: 'cascade' }),
    position: integer().notNull(),
    number: text().notNull(),
  },
  (t) => [primaryKey({ columns: [t.part, t.position] })],
);

export const facts = sqliteTable(
  'facts',
  {
    part: integer()
      .notNull()
      .references(() => parts.n, { onDelete: 'cascade' }),
    feature: integer()
      .notNull()
      .references(() => features.n),
    kind: text().$type<FeatureKind | 'not known'>().notNull(),
    nominal: real(),
    /** Lower deviation of a measure; smallest of a count. */
    lower: real(),
    /** Upper deviation of a measure; greatest of a count. */
    upper: real(),
    code: text(),
    anyOf: text('any_of', { mode: 'json' }).$type<readonly string[]>(),
    blank: integer({ mode: 'boolean' }),
    present: integer({ mode: 'boolean' }),
    /** Null: the part's. */
    source: id<SourceId>('source').references(() => sources.id),
  },
  (t) => [primaryKey({ columns: [t.part, t.feature] }), index('facts_by_feature').on(t.feature)],
);

export const sits = sqliteTable(
  'sits',
  {
    model: integer()
      .notNull()
      .references(() => models.n),
    part: integer()
      .notNull()
      .references(() => parts.n),
    role: text().$type<Role>().notNull(),
    pack: text()
      .notNull()
      .references(() => packs.id),
  },
  (t) => [primaryKey({ columns: [t.model, t.part] }), index('sits_by_part').on(t.part), index('sits_by_pack').on(t.pack)],
);

export const openLists = sqliteTable(
  'open_lists',
  {
    model: integer()
      .notNull()
      .references(() => models.n, { onDelete: 'cascade' }),
    slot: id<SlotId>('slot')
      .notNull()
      .references(() => slots.id),
    position: integer().notNull(),
  },
  (t) => [primaryKey({ columns: [t.model, t.slot] }), index('open_lists_by_slot').on(t.slot)],
);

export const sheets = sqliteTable(
  'sheets',
  {
    id: id<SheetId>('id').notNull(),
    origin: text({ enum: ['own', 'sample'] }).notNull(),
    pack: text().references(() => packs.id),
    /** Of a sample its place in its pack; of an own sheet in which turn it was saved last, which the store gives where it is 0. */
    position: integer().notNull(),
    title: text().notNull(),
    kind: text({ enum: ['found', 'planned'] }).notNull(),
    claimed: text(),
    observations: integer().notNull(),
    /** The sheet as JSON. */
    body: text().notNull(),
    /** ISO time. */
    savedAt: text('saved_at'),
  },
  (t) => [primaryKey({ columns: [t.id, t.origin] }), index('sheets_by_pack').on(t.pack)],
);

export const searchTerms = sqliteTable(
  'search_terms',
  {
    n: integer().primaryKey(),
    pack: text()
      .notNull()
      .references(() => packs.id),
    nodeKind: text('node_kind', { enum: ['maker', 'family', 'generation', 'model', 'part'] }).notNull(),
    nodeId: text('node_id').notNull(),
    field: text({ enum: ['name', 'trade name', 'number'] }).notNull(),
    term: text().notNull(),
    compact: text().notNull(),
  },
  (t) => [
    index('search_terms_by_compact').on(t.compact),
    index('search_terms_by_node').on(t.nodeKind, t.nodeId),
    index('search_terms_by_pack').on(t.pack),
  ],
);

export const instruments = sqliteTable('instruments', {
  id: id<InstrumentId>('id').primaryKey(),
  name: text().notNull(),
  alsoCalled: text('also_called', { mode: 'json' }).$type<readonly string[]>(),
  unit: text().$type<Instrument['unit']>().notNull(),
  resolution: real().notNull(),
  u: real().notNull(),
  basis: text().notNull(),
  source: id<SourceId>('source')
    .notNull()
    .references(() => sources.id),
});

export const metals = sqliteTable('metals', {
  id: id<MetalId>('id').primaryKey(),
  name: text().notNull(),
  /** Millionths per K. */
  expansion: real().notNull(),
  disc: text({ mode: 'json' }).$type<NonNullable<Metal['disc']>>(),
  source: id<SourceId>('source')
    .notNull()
    .references(() => sources.id),
});

export const operations = sqliteTable('operations', {
  id: id<OperationId>('id').primaryKey(),
  name: text().notNull(),
  slot: id<SlotId>('slot')
    .notNull()
    .references(() => slots.id),
  does: text({ mode: 'json' }).$type<Operation['does']>().notNull(),
  takes: text({ mode: 'json' }).$type<Operation['takes']>().notNull(),
  hours: real().notNull(),
  turning: integer({ mode: 'boolean' }).notNull(),
  cautions: text({ mode: 'json' }).$type<readonly string[]>().notNull(),
  source: id<SourceId>('source')
    .notNull()
    .references(() => sources.id),
});

export const chains = sqliteTable('chains', {
  id: id<ChainId>('id').primaryKey(),
  name: text().notNull(),
  leaves: text().$type<Chain['leaves']>().notNull(),
  links: text({ mode: 'json' }).$type<Chain['links']>().notNull(),
  min: real().notNull(),
  max: real().notNull(),
  source: id<SourceId>('source')
    .notNull()
    .references(() => sources.id),
});

export const drawings = sqliteTable('drawings', {
  id: id<DrawingId>('id').primaryKey(),
  slot: id<SlotId>('slot')
    .notNull()
    .references(() => slots.id),
  drawing: text().$type<SlotDrawing['drawing']>().notNull(),
  feeds: text({ mode: 'json' }).$type<SlotDrawing['feeds']>().notNull(),
});

export const terms = sqliteTable('terms', {
  id: id<TermId>('id').primaryKey(),
  name: text().notNull(),
  alsoCalled: text('also_called', { mode: 'json' }).$type<readonly string[]>(),
  short: text().notNull(),
  more: text().notNull(),
  drawn: text({ mode: 'json' }).$type<NonNullable<TradeTerm['drawn']>>(),
  near: text({ mode: 'json' }).$type<readonly TermId[]>(),
  everyday: integer({ mode: 'boolean' }).$type<true>(),
});

export const warmth = sqliteTable('warmth', {
  id: id<WarmthId>('id').primaryKey(),
  joint: id<JointId>('joint')
    .notNull()
    .references(() => joints.id),
  sides: text({ mode: 'json' }).$type<Warmth['sides']>().notNull(),
  source: id<SourceId>('source')
    .notNull()
    .references(() => sources.id),
});

export const rates = sqliteTable('rates', {
  id: id<RatesId>('id').primaryKey(),
  pack: text()
    .notNull()
    .references(() => packs.id),
  position: integer().notNull(),
  name: text().notNull(),
  money: text().notNull(),
  hour: real().notNull(),
  source: id<SourceId>('source')
    .notNull()
    .references(() => sources.id),
});

export const prices = sqliteTable(
  'prices',
  {
    rates: id<RatesId>('rates')
      .notNull()
      .references(() => rates.id, { onDelete: 'cascade' }),
    position: integer().notNull(),
    part: integer()
      .notNull()
      .references(() => parts.n),
    price: real().notNull(),
  },
  (t) => [primaryKey({ columns: [t.rates, t.position] }), index('prices_by_part').on(t.part)],
);

/** What a joint reads of a part, shared by all parts that read alike. */
export const matings = sqliteTable(
  'matings',
  {
    n: integer().primaryKey(),
    joint: id<JointId>('joint').notNull(),
    side: text({ enum: ['a', 'b'] }).notNull(),
    /** The facts, in the order of the joint's features, as JSON. */
    facts: text().notNull(),
    /** Ids of its parts, in the order of the atlas, as JSON. */
    parts: text().notNull(),
  },
  (t) => [uniqueIndex('matings_by_facts').on(t.joint, t.side, t.facts)],
);

export const mates = sqliteTable(
  'mates',
  {
    part: id<PartId>('part').notNull(),
    mating: integer()
      .notNull()
      .references(() => matings.n, { onDelete: 'cascade' }),
  },
  (t) => [primaryKey({ columns: [t.part, t.mating] }), index('mates_by_mating').on(t.mating)],
);

export const fits = sqliteTable(
  'fits',
  {
    a: integer()
      .notNull()
      .references(() => matings.n, { onDelete: 'cascade' }),
    b: integer()
      .notNull()
      .references(() => matings.n, { onDelete: 'cascade' }),
    verdict: text().$type<Exclude<FitVerdict, 'will not fit'>>().notNull(),
    /** In the order of the joint's rules, which are not said again. */
    findings: text({ mode: 'json' }).$type<readonly Omit<Fit['findings'][number], 'rule'>[]>().notNull(),
  },
  (t) => [primaryKey({ columns: [t.a, t.b] }), index('fits_by_b').on(t.b)],
);

export const judgedJoints = sqliteTable('judged_joints', {
  joint: id<JointId>('joint').primaryKey(),
  rules: text().notNull(),
});

/** The last number given under a letter in a year. */
export const caseCounts = sqliteTable(
  'case_counts',
  {
    /** Empty: before counters had letters. */
    letter: text().notNull(),
    year: integer().notNull(),
    last: integer().notNull(),
  },
  (t) => [primaryKey({ columns: [t.letter, t.year] })],
);

export const cases = sqliteTable(
  'cases',
  {
    sheet: id<SheetId>('sheet').primaryKey(),
    year: integer().notNull(),
    number: integer().notNull(),
    /** `YYYY-MM-DD`. */
    openedOn: text('opened_on').notNull(),
    /** Of the counter it was opened at; empty of one from before counters had letters. */
    letter: text().notNull().default(''),
  },
  (t) => [
    foreignKey({ columns: [t.letter, t.year], foreignColumns: [caseCounts.letter, caseCounts.year] }),
    uniqueIndex('cases_by_number').on(t.letter, t.year, t.number),
  ],
);

export const caseDetails = sqliteTable(
  'case_details',
  {
    sheet: id<SheetId>('sheet')
      .notNull()
      .references(() => cases.sheet, { onDelete: 'cascade' }),
    n: integer().notNull(),
    /** ISO time. */
    at: text().notNull(),
    customer: text().notNull(),
    lookedBy: text('looked_by').notNull(),
    notes: text().notNull(),
    /** Who wrote it; empty where nobody said. */
    who: text().notNull().default(''),
  },
  (t) => [primaryKey({ columns: [t.sheet, t.n] })],
);

export const caseEntries = sqliteTable(
  'case_entries',
  {
    sheet: id<SheetId>('sheet')
      .notNull()
      .references(() => cases.sheet, { onDelete: 'cascade' }),
    n: integer().notNull(),
    /** ISO time. */
    at: text().notNull(),
    who: text().notNull(),
    edition: text().notNull(),
    /** The sheet as JSON. */
    body: text().notNull(),
    verdict: text({ mode: 'json' }).$type<CaseVerdict>().notNull(),
    claimStatus: text('claim_status').$type<Status>(),
  },
  (t) => [primaryKey({ columns: [t.sheet, t.n] })],
);

/** What was said of a unit beside its verdict; a row without words takes back the one before. */
export const caseWords = sqliteTable(
  'case_words',
  {
    sheet: id<SheetId>('sheet')
      .notNull()
      .references(() => cases.sheet, { onDelete: 'cascade' }),
    n: integer().notNull(),
    /** ISO time. */
    at: text().notNull(),
    who: text().notNull(),
    by: text('decided_by').$type<ShopWord['by']>(),
    person: text(),
    /** `YYYY-MM-DD`. */
    day: text(),
    decision: text(),
    ground: text(),
  },
  (t) => [primaryKey({ columns: [t.sheet, t.n] })],
);

/** What is stamped on the unit of a case. */
export const unitNumbers = sqliteTable(
  'unit_numbers',
  {
    sheet: id<SheetId>('sheet')
      .notNull()
      .references(() => cases.sheet, { onDelete: 'cascade' }),
    n: integer().notNull(),
    says: text().$type<UnitNumber['says']>().notNull(),
    /** As it is stamped. */
    text: text().notNull(),
    /** What it is compared by (O4); null where it was saved before it was asked for. */
    key: text(),
  },
  (t) => [primaryKey({ columns: [t.sheet, t.n] }), index('unit_numbers_by_key').on(t.key)],
);

/** The numbers a case had in other shops, the last one it came from last. */
export const caseOrigins = sqliteTable(
  'case_origins',
  {
    sheet: id<SheetId>('sheet')
      .notNull()
      .references(() => cases.sheet, { onDelete: 'cascade' }),
    n: integer().notNull(),
    number: text().notNull(),
    /** When it was taken in, ISO time, and by whom. */
    at: text().notNull(),
    who: text().notNull(),
  },
  (t) => [primaryKey({ columns: [t.sheet, t.n] }), index('case_origins_by_number').on(t.number)],
);

/** Where somebody left a case as it was told, though a newer atlas would say otherwise. */
export const casesLeft = sqliteTable(
  'cases_left',
  {
    sheet: id<SheetId>('sheet')
      .notNull()
      .references(() => cases.sheet, { onDelete: 'cascade' }),
    n: integer().notNull(),
    at: text().notNull(),
    who: text().notNull(),
    reason: text().notNull(),
    /** The entry that was told. */
    entry: integer().notNull(),
    /** The version of what would have been said in its place. */
    otherwise: text().notNull(),
  },
  (t) => [primaryKey({ columns: [t.sheet, t.n] })],
);

export const photos = sqliteTable('photos', {
  id: id<PhotoId>('id').primaryKey(),
  type: text().$type<PhotoType>().notNull(),
  width: integer().notNull(),
  height: integer().notNull(),
  size: integer().notNull(),
  bytes: blob({ mode: 'buffer' }).notNull(),
  thumbnailType: text('thumbnail_type').$type<PhotoType>().notNull(),
  thumbnail: blob({ mode: 'buffer' }).notNull(),
});

export const casePhotos = sqliteTable(
  'case_photos',
  {
    sheet: id<SheetId>('sheet')
      .notNull()
      .references(() => cases.sheet, { onDelete: 'cascade' }),
    photo: id<PhotoId>('photo')
      .notNull()
      .references(() => photos.id),
    /** ISO time. */
    addedAt: text('added_at').notNull(),
    caption: text().notNull(),
    aboutSlot: id<SlotId>('about_slot'),
    aboutObservation: id<ObservationId>('about_observation'),
    /** In turn, of its case; the store gives it where it is 0. */
    n: integer().notNull().default(0),
  },
  (t) => [primaryKey({ columns: [t.sheet, t.photo] }), index('case_photos_by_photo').on(t.photo)],
);

export const courses = sqliteTable('courses', {
  id: id<CourseId>('id').primaryKey(),
  name: text().notNull(),
  families: text({ mode: 'json' }).$type<NonNullable<Course['families']>>(),
  kinds: text({ mode: 'json' }).$type<NonNullable<Course['kinds']>>(),
  newPerDay: integer('new_per_day').notNull(),
});

export const learners = sqliteTable('learners', {
  id: id<LearnerId>('id').primaryKey(),
  name: text().notNull(),
  course: id<CourseId>('course').references(() => courses.id, { onDelete: 'set null' }),
  /** ISO time. */
  since: text().notNull(),
  /** In turn; the store gives it where it is 0. */
  n: integer().notNull().default(0),
  level: text().$type<DrillLevel>().notNull().default('measured'),
});

export const drillCards = sqliteTable(
  'drill_cards',
  {
    learner: id<LearnerId>('learner')
      .notNull()
      .references(() => learners.id, { onDelete: 'cascade' }),
    topic: id<TopicId>('topic').notNull(),
    /** ISO time. */
    due: text().notNull(),
    card: text({ mode: 'json' }).$type<Card>().notNull(),
  },
  (t) => [primaryKey({ columns: [t.learner, t.topic] }), index('drill_cards_by_due').on(t.learner, t.due)],
);

export const drillAnswers = sqliteTable(
  'drill_answers',
  {
    learner: id<LearnerId>('learner')
      .notNull()
      .references(() => learners.id, { onDelete: 'cascade' }),
    n: integer().notNull(),
    topic: id<TopicId>('topic').notNull(),
    seed: integer().notNull(),
    edition: text().notNull(),
    first: integer({ mode: 'boolean' }).notNull(),
    response: text({ mode: 'json' }).$type<Response>().notNull(),
    correct: integer({ mode: 'boolean' }).notNull(),
    asked: text({ mode: 'json' }).$type<Subject>(),
    answered: text({ mode: 'json' }).$type<Subject>(),
    /** ISO time. */
    at: text().notNull(),
  },
  (t) => [primaryKey({ columns: [t.learner, t.n] })],
);

/** Whom the shop trusts, and whom it did. */
export const keyring = sqliteTable('keyring', {
  key: text().$type<PublicKey>().primaryKey(),
  name: text().notNull(),
  /** ISO time. */
  since: text().notNull(),
  who: text().notNull(),
  /** ISO time; null while it is trusted. */
  withdrawnAt: text('withdrawn_at'),
  withdrawnWho: text('withdrawn_who'),
  /** When the row was last written: ISO time. */
  at: text().notNull(),
});
export const shopSettings = sqliteTable('shop_settings', {
  key: text().$type<SettingKey>().primaryKey(),
  value: text({ mode: 'json' }).$type<NonNullable<ShopSettings[SettingKey]>>().notNull(),
  /** ISO time. */
  at: text().notNull(),
  who: text().notNull(),
});

/** What the shop keeps of files, once each. */
export const keptFiles = sqliteTable('kept_files', {
  id: id<FileId>('id').primaryKey(),
  type: text().notNull(),
  size: integer().notNull(),
  bytes: blob({ mode: 'buffer' }).notNull(),
});

/** Papers beside a source or a part. The file may be lost in a damaged atlas, and the part may be taken out with its pack. */
export const documents = sqliteTable(
  'documents',
  {
    about: text().$type<'source' | 'part'>().notNull(),
    of: text().notNull(),
    file: id<FileId>('file').notNull(),
    /** In turn, of what it is about. */
    n: integer().notNull(),
    name: text().notNull(),
    title: text().notNull(),
    /** ISO time. */
    at: text().notNull(),
    who: text().notNull(),
  },
  (t) => [primaryKey({ columns: [t.about, t.of, t.file] }), index('documents_by_file').on(t.file)],
);

/** Every state a line of stock had; the last holds. */
export const stock = sqliteTable(
  'stock',
  {
    line: id<StockLineId>('line').notNull(),
    n: integer().notNull(),
    /** ISO time. */
    at: text().notNull(),
    who: text().notNull(),
    /** The line was taken off the list. */
    gone: integer({ mode: 'boolean' }).notNull(),
    part: id<PartId>('part'),
    words: text().notNull(),
    number: text().notNull(),
    many: integer().notNull(),
    condition: text().$type<StockCondition>().notNull(),
    price: real(),
    money: text(),
    place: text().notNull(),
    note: text().notNull(),
  },
  (t) => [primaryKey({ columns: [t.line, t.n] }), index('stock_by_part').on(t.part)],
);

/** Every price the shop ever asked for a part; the last holds, and null takes it off the list. */
export const shopPrices = sqliteTable(
  'shop_prices',
  {
    part: id<PartId>('part').notNull(),
    n: integer().notNull(),
    /** ISO time. */
    at: text().notNull(),
    who: text().notNull(),
    price: real(),
    money: text(),
    note: text().notNull(),
  },
  (t) => [primaryKey({ columns: [t.part, t.n] })],
);

/** How the shop's own tables are matched, for next time. */
export const tableTemplates = sqliteTable('table_templates', {
  name: text().primaryKey(),
  headings: text({ mode: 'json' }).$type<readonly string[]>().notNull(),
  matching: text({ mode: 'json' }).$type<Matching>().notNull(),
  /** ISO time. */
  savedAt: text('saved_at').notNull(),
});

/** What was seen and measured, in cases, of parts of the atlas. */
export const samples = sqliteTable(
  'samples',
  {
    id: id<SampleId>('id').primaryKey(),
    part: id<PartId>('part').notNull(),
    slot: id<SlotId>('slot').notNull(),
    feature: id<FeatureId>('feature').notNull(),
    value: text({ mode: 'json' }).$type<Seen>().notNull(),
    u: real(),
    how: text().notNull(),
    sheet: id<SheetId>('from_sheet').notNull(),
    entry: id<ObservationId>('entry').notNull(),
    number: text('case_number').notNull(),
    /** ISO time. */
    keptAt: text('kept_at').notNull(),
    who: text().notNull(),
    /** Who took it out; null while it stands. */
    outBy: text('out_by'),
    /** When the row was last written: ISO time. */
    at: text().notNull(),
  },
  (t) => [index('samples_by_part').on(t.part), index('samples_by_sheet').on(t.sheet, t.slot)],
);

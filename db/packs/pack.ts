import type {
  Atlas,
  Chain,
  Family,
  Feature,
  Generation,
  Instrument,
  Joint,
  Maker,
  Metal,
  Model,
  ModelId,
  Operation,
  Part,
  PartId,
  Port,
  Rates,
  Role,
  Seen,
  Sheet,
  Slip,
  Slot,
  SlotId,
  Source,
  Stage,
  Sure,
  Warmth,
} from '../../reasoner/index.ts';

/** One atlas pack, read and checked. FORMAT.md says how it is written. */
export interface Pack {
  readonly head: PackHead;
  readonly sources: readonly Source[];
  readonly stages: readonly Stage[];
  readonly slots: readonly Slot[];
  readonly ports: readonly Port[];
  readonly features: readonly Feature[];
  readonly joints: readonly Joint[];
  readonly makers: readonly Maker[];
  readonly families: readonly Family[];
  readonly generations: readonly Generation[];
  readonly models: readonly PackModel[];
  readonly parts: readonly Part[];
  /** May also speak of models and parts of packs loaded before. */
  readonly allowed: readonly Allowance[];
  readonly sheets: readonly Sheet[];
  readonly metals: readonly Metal[];
  readonly operations: readonly Operation[];
  readonly chains: readonly Chain[];
  readonly warmth: readonly Warmth[];
  readonly instruments: readonly Instrument[];
  readonly rates: readonly Rates[];
}

export interface PackHead {
  readonly format: 'kinplate atlas pack';
  readonly version: 1;
  readonly id: string;
  readonly title: string;
  /** ISO date, with `.2`, `.3` … for further editions of one day. */
  readonly edition: string;
  /** Whether everything in it is made up. */
  readonly invented: boolean;
  readonly note: string;
}

export type PackModel = Omit<Model, 'allowed'>;

export interface Allowance {
  readonly model: ModelId;
  readonly slot: SlotId;
  readonly part: PartId;
  readonly role: Role;
}

/** What stands in the atlas beside a pack: its references may lead there. */
export const emptyAtlas: Atlas = {
  edition: '',
  sources: [],
  stages: [],
  slots: [],
  ports: [],
  features: [],
  joints: [],
  makers: [],
  families: [],
  generations: [],
  models: [],
  parts: [],
  operations: [],
  chains: [],
  rates: [],
  metals: [],
  warmth: [],
  instruments: [],
};

/** Deviations of an ISO 286 code such as `H7` or `p6`, for a nominal size in mm; or why there are none. */
export type ExpandCode = (nominal: number, code: string) => { readonly lower: number; readonly upper: number } | { readonly error: string };

/** What is wrong with the name of a listed model as its maker's grammar reads it (A4), or null. */
export type FaultOfName = (maker: Maker, name: string) => { readonly found: string; readonly expected: string } | null;

/** What is to be said of an entry's figures (O7); `slipOf` of the reasoner. */
export type SlipOf = (feature: Feature, value: Seen, sure: Sure) => Slip;

/** What this room asks the reasoner by, since it knows none of it itself. */
export interface Asked {
  /** Expands ISO 286 codes; without it every code is a fault. */
  readonly expandCode?: ExpandCode;
  /** Reads the names of listed models; without it no name is held against its maker's grammar. */
  readonly faultOfName?: FaultOfName;
  /** Looks for slips in the entries of sheets that come in; without it none are looked for. */
  readonly slipOf?: SlipOf;
}

/** The files of a pack, in the order they are read, written and hashed. */
export const jsonFiles = [
  'sources.json',
  'stages.json',
  'slots.json',
  'ports.json',
  'features.json',
  'joints.json',
  'makers.json',
  'families.json',
  'generations.json',
  'models.json',
  'metals.json',
  'operations.json',
  'chains.json',
  'warmth.json',
  'rates.json',
  'instruments.json',
] as const;
export type JsonFile = (typeof jsonFiles)[number];

/** Files a pack need not have; left out where they would say nothing. */
export const optionalFiles: ReadonlySet<JsonFile> = new Set<JsonFile>([
  'metals.json',
  'operations.json',
  'chains.json',
  'warmth.json',
  'rates.json',
  'instruments.json',
]);

export const csvColumns = {
  'parts.csv': ['id', 'slot', 'name', 'maker', 'numbers', 'pattern_of', 'supersedes', 'source'],
  'facts.csv': ['part', 'feature', 'value', 'lower', 'upper', 'code', 'source'],
  'allowed.csv': ['model', 'slot', 'part', 'role'],
} as const;
export type CsvFile = keyof typeof csvColumns;
export type CsvRow<F extends CsvFile> = { readonly [Column in (typeof csvColumns)[F][number]]: string };

/** Editions of one pack in time: negative when `a` is the older. */
export const compareEditions = (a: string, b: string): number => {
  const [dayA = '', countA = '1'] = a.split('.');
  const [dayB = '', countB = '1'] = b.split('.');
  return dayA === dayB ? Number(countA) - Number(countB) : dayA < dayB ? -1 : 1;
};

import type { Atlas, Model, ModelId, Part, PartId, Role, Sheet, SlotId } from '../../reasoner/index.ts';
import type { MappedWord } from '../packs/mapped-word.ts';
import type { Named } from './list.ts';
import { type Entries, everyList, type ListName, listsAndParts } from './lists.ts';

/** One atlas pack, read and checked. FORMAT.md says how it is written. */
export interface Pack extends Entries {
  readonly head: PackHead;
  readonly parts: readonly Part[];
  /** May also speak of models and parts of packs loaded before. */
  readonly allowed: readonly Allowance[];
  readonly sheets: readonly Sheet[];
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
  /** On what terms it may be passed on: an SPDX identifier, or words. */
  readonly licence?: string;
  /** Who answers for what it says. */
  readonly by?: string;
  /** Ids of the packs whose entries this one speaks of: it cannot be in an atlas without them. */
  readonly leansOn?: readonly string[];
  /** What of its words, as it was brought, stands here under an id of the atlas (P16): the text is no longer the one that was brought. */
  readonly mapped?: readonly MappedWord[];
}

export interface Allowance {
  readonly model: ModelId;
  readonly slot: SlotId;
  readonly part: PartId;
  readonly role: Role;
}

/** Every list with nothing in it. */
function emptyLists(): { readonly [N in ListName]: readonly never[] } {
  return Object.fromEntries(everyList.map(({ name }) => [name, []])) as unknown as { readonly [N in ListName]: readonly never[] };
}

/** What stands in the atlas beside a pack: its references may lead there. */
export const emptyAtlas: Atlas = { edition: '', ...emptyLists(), parts: [] };

/** The file a list stands in. */
export const fileOf = <N extends ListName | 'parts'>(name: N) =>
  (name === 'parts' ? 'parts.csv' : `${name}.json`) as N extends 'parts' ? 'parts.csv' : `${N}.json`;

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

/** The entries of one of its lists, by its name; none where there is no list of that name. */
export const entriesIn = (pack: Pack, list: string): readonly Named[] => (isList(list) ? pack[list] : []);

const names = new Set<string>(listsAndParts.map(({ name }) => name));
const isList = (name: string): name is ListName | 'parts' => names.has(name);

/** A model of a pack as the atlas has it: with the parts that may sit in it. */
export const withAllowed = (
  { id, name, family, generation, patternOf, from, to, ...rest }: Pack['models'][number],
  allowed: Model['allowed'],
): Model => ({ id, name, family, generation, patternOf, from, to, allowed, ...rest });

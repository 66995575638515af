import type { Atlas } from '../../reasoner/index.ts';
import { sameValue } from '../../reasoner/plain/same-value.ts';
import type { Keyed, Named, Values } from '../atlas/list.ts';
import { listsAndParts } from '../atlas/lists.ts';
import type { Allowance } from '../atlas/pack.ts';
import type { Edit } from '../edits/seen.ts';
import { entriesOf } from './id-places.ts';
import { carried, carriedEntries, movedAllowances } from './rename-edits.ts';

/** The lists of which two entries may turn out to be one. */
export const mergedLists = ['makers', 'families', 'generations', 'models', 'parts', 'sources', 'instruments', 'terms'] as const;
export type MergedList = (typeof mergedLists)[number];

/** What the two say otherwise, and somebody must decide. */
export interface Difference {
  /** What `choices` calls it: `name`, `facts/blade-count`, `allowed/<model>`, `rates/<rates>`. */
  readonly key: string;
  /** A field of the two; of a fact, a number pattern and the like the line of it; of `allowed` the other side; of `rates` whose they are. */
  readonly field: string;
  readonly line: string | null;
  readonly kept: unknown;
  readonly other: unknown;
}

export type Choices = Readonly<Record<string, 'kept' | 'other'>>;

export interface Merge {
  /** With the word of the one that is kept wherever nothing else is chosen. */
  readonly edits: readonly Edit[];
  readonly differences: readonly Difference[];
}

/** Fields that are as many as there are: what either says is said. */
const together: ReadonlySet<string> = new Set([
  ...['numbers', 'alsoCalled', 'tradeNames', 'openEnded', 'near'],
  ...['descendsFrom', 'succeeds', 'patternOf'].map((field) => `families ${field}`),
]);

const saysNothing = (value: unknown): boolean =>
  value === undefined || value === null || value === '' || (Array.isArray(value) && value.length === 0);

/**
 * The edits that make two entries one: what only one of them says is said of it, numbers and other names of both; whatever referred to `from` refers to `into`, and what the shop keeps of it goes there.
 * What is known stands before what is said not to be known, without a question. A fact that comes over keeps its source.
 * @param from goes; @param into stays, and its source with it
 * @throws where the list has not both, or the two are parts of different slots: both are to be asked before
 */
export const mergeEdits = (atlas: Atlas, list: MergedList, from: string, into: string, choices: Choices = {}): Merge => {
  const [going, staying] = [from, into].map((id) => entriesOf(atlas, list).find((entry) => entry.id === id));
  if (going === undefined || staying === undefined || from === into) throw new Error(`${list} has not both "${from}" and "${into}"`);
  if (going.slot !== staying.slot && list === 'parts') throw new Error(`"${from}" and "${into}" are parts of different slots`);
  const differences: Difference[] = [];
  const decide: Decide = (field, line, kept, other) => {
    const key = line === null ? field : `${field}/${line}`;
    differences.push({ key, field, line, kept, other });
    return Object.hasOwn(choices, key) && choices[key] === 'other' ? other : kept;
  };
  const both = [staying, going].map((entry) => ({ ...carried(atlas, list, entry, list, from, into), id: into })) as [Entry, Entry];
  const put = withoutItself(list, merged(list, ...both, decide));
  const others = carriedEntries(atlas, list, from, into, [from, into]).map((edit) => onePrice(atlas, edit, from, decide));
  return { edits: [...sittingOf(atlas, list, from, into, decide), { list, put }, ...others, { list, drop: from, into }], differences };
};

type Entry = Named & Values;
type Decide = (field: string, line: string | null, kept: unknown, other: unknown) => unknown;

const merged = (list: MergedList, kept: Entry, other: Entry, decide: Decide): Entry => {
  const { fields, keyed } = listsAndParts.find(({ name }) => name === list) as (typeof listsAndParts)[number];
  const inLines = new Set(keyed.flatMap((one) => one.fields));
  const said = fields.flatMap(({ name }): readonly (readonly [string, unknown])[] => {
    if (inLines.has(name)) return [];
    const [a, b] = [kept[name], other[name]];
    if (together.has(name) || together.has(`${list} ${name}`)) {
      const all = withAll(a as readonly unknown[] | undefined, b as readonly unknown[] | undefined);
      return all === undefined ? [] : [[name, all]];
    }
    if (saysNothing(b) || sameValue(a, b) || name === 'source') return a === undefined ? [] : [[name, a]];
    return [[name, saysNothing(a) ? b : decide(name, null, a, b)]];
  });
  const lines = keyed.map((one) => linesOf(one, kept, other, decide));
  return Object.assign({}, ...said.map(([name, value]) => ({ [name]: value })), ...lines) as Entry;
};

const withAll = (a: readonly unknown[] | undefined, b: readonly unknown[] | undefined): readonly unknown[] | undefined =>
  a === undefined || b === undefined ? (a ?? b) : [...a, ...b.filter((each) => !a.some((one) => sameValue(one, each)))];

const linesOf = ({ fields, linesOf: of, from }: Keyed<Entry>, kept: Entry, other: Entry, decide: Decide): Values => {
  const lines = new Map<string, Values>(of(kept).map(([key, is]) => [key, is as Values]));
  // A fact that comes over from a part with another source has a source of its own.
  const sourced = fields.includes('factSources') && other.source !== kept.source ? { source: other.source } : {};
  for (const [key, said] of of(other)) {
    const is = { ...sourced, ...(said as Values) };
    const { source: _has, ...has } = lines.get(key) ?? {};
    const { source: _comes, ...comes } = is as Values;
    if (!lines.has(key) || (has.kind === 'not known' && comes.kind !== 'not known')) lines.set(key, is);
    else if (comes.kind !== 'not known' && !sameValue(has, comes) && decide(fields[0], key, has, comes) === comes) lines.set(key, is);
  }
  if (lines.size === 0) return Object.fromEntries(fields.flatMap((field) => (kept[field] === undefined ? [] : [[field, kept[field]]])));
  return from([...lines]);
};

/** What one of the two said of the other it cannot say of itself: that it came after it, is a pattern of it, is near it. */
const withoutItself = (list: MergedList, entry: Entry): Entry => {
  const is: Record<string, unknown> = { ...entry };
  for (const field of ['supersedes', 'patternOf', 'succeeds', 'descendsFrom', 'near']) {
    const said = is[field];
    if (Array.isArray(said)) {
      const rest = said.filter((id) => id !== entry.id);
      if (rest.length > 0 || list === 'families') is[field] = rest;
      else delete is[field];
    } else if (said === entry.id && list === 'parts') delete is[field];
    else if (said === entry.id) is[field] = null;
  }
  return is as Entry;
};

/** What may sit where, of both: a model lists a part once, in one role. */
const sittingOf = (atlas: Atlas, list: MergedList, from: string, into: string, decide: Decide): readonly Edit[] =>
  movedAllowances(atlas, list, from, into).flatMap(({ was, is }): readonly Edit[] => {
    const gone: Edit = { disallow: { model: was.model, part: was.part } };
    const there = atlas.models.find(({ id }) => id === is.model)?.allowed.find(({ part }) => part === is.part);
    if (there === undefined) return [gone, { allow: is }];
    if (there.role === is.role) return [gone];
    const role = decide('allowed', list === 'parts' ? is.model : is.part, there.role, is.role) as Allowance['role'];
    return role === there.role ? [gone] : [gone, { allow: { ...is, role } }];
  });

/** A shop has one price for a part. */
const onePrice = (atlas: Atlas, edit: Edit, from: string, decide: Decide): Edit => {
  if (!('put' in edit) || edit.list !== 'rates') return edit;
  const before = atlas.rates?.find(({ id }) => id === edit.put.id)?.parts ?? [];
  const lines = edit.put.parts as (typeof before)[number][];
  const into = lines[before.findIndex(({ part }) => part === from)]?.part;
  const [other, kept] = [before.find(({ part }) => part === from), before.find(({ part }) => part === into)];
  if (other === undefined || kept === undefined) return edit;
  const price = other.price === kept.price ? kept.price : decide('rates', edit.put.id as string, kept.price, other.price);
  const parts = lines.flatMap((line, at) => (before[at]?.part === from ? [] : [line.part === into ? { ...line, price } : line]));
  return { list: 'rates', put: { ...edit.put, parts } };
};

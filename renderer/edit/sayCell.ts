import type { AlteredSeen } from '../../db/answers.ts';
import type { Fact, Feature, FeatureId, Role, SlotId } from '../../reasoner/index.ts';
import type { Words } from '../bridge/words.ts';
import { asId } from '../route/asId.ts';
import { withSign } from '../values/figures.ts';
import { roleWords } from '../values/roleWords.ts';
import { sayFact } from '../values/sayFact.ts';
import { fieldWords } from './fieldWords.ts';
import type { Path } from './json.ts';

type Said = AlteredSeen['before'];
/** What an entry of a list is called. */
export type NameOf = (list: string, id: string) => string;

/** What a field, or a line of one, is called: `Facts: inducer diameter`. */
export const cellName = (words: Words, { list, field, line }: Pick<AlteredSeen, 'list' | 'field' | 'line'>): string => {
  if (field === null) return 'in the atlas';
  if (list === 'allowed') return 'may sit there';
  if (field === 'facts' && line !== null) return words.featureName(asId<FeatureId>(line));
  const { label } = fieldWords(list, [field]);
  return line === null ? label : `${label}: ${line}`;
};

/** What a cell says, in short. */
export const sayCell = (
  words: Words,
  of: Pick<AlteredSeen, 'list' | 'field' | 'line'> & { readonly leadsTo?: string | null },
  said: Said,
  nameOf: NameOf = (list, id) => (list === 'sources' ? words.sourceTitle(asId(id)) : id),
): string => {
  if (said === null) return of.field === null ? 'no' : 'nothing';
  if (of.field === 'facts' && of.line !== null) {
    const { source, ...fact } = said as unknown as Fact & { readonly source?: string };
    const text = sayFact(words.feature(asId<FeatureId>(of.line)), fact as Fact, words.unit);
    return source === undefined ? text : `${text}, by ${nameOf('sources', source)}`;
  }
  if (of.list === 'allowed') return roleWords[(said as { readonly role: Role }).role];
  if (of.field === null) return 'yes';
  const { leadsTo } = of;
  const within = { words, list: of.list, path: [of.field, ...(of.line === null ? [] : ['*'])] };
  const only = of.line !== null && isThing(said) ? Object.values(said) : [];
  if (only.length === 1) return sayPlain(only[0], within);
  return sayPlain(leadsTo === undefined || leadsTo === null ? said : namesOf(said, (id) => nameOf(leadsTo, id)), within);
};

/** What is said where ids are all that is said, by name. */
const namesOf = (said: Said, nameOf: (id: string) => string): unknown =>
  typeof said === 'string' ? nameOf(said) : Array.isArray(said) ? said.map((one) => (typeof one === 'string' ? nameOf(one) : one)) : said;

/** The entries that what a cell says is told by, each with its list: those `sayCell` asks the names of. */
export const spokenOf = (
  of: Pick<AlteredSeen, 'field' | 'line'> & { readonly leadsTo?: string | null },
  said: Said,
): readonly { readonly list: string; readonly id: string }[] => {
  const { leadsTo } = of;
  if (leadsTo !== undefined && leadsTo !== null)
    return [said].flat().flatMap((id) => (typeof id === 'string' ? [{ list: leadsTo, id }] : []));
  const source = of.field === 'facts' && of.line !== null && said !== null ? (said as { readonly source?: string }).source : undefined;
  return source === undefined ? [] : [{ list: 'sources', id: source }];
};

type Thing = Readonly<Record<string, unknown>>;
const isThing = (said: unknown): said is Thing => typeof said === 'object' && said !== null && !Array.isArray(said);
const alike = (one: unknown, other: unknown): boolean => JSON.stringify(one) === JSON.stringify(other);

/** Of things in a list and fields of a thing, those the other does not say just so; all of what is neither, or is only in another order. */
export const saysApart = (said: unknown, other: unknown): unknown => {
  if (Array.isArray(said) && Array.isArray(other)) {
    if (![...said, ...other].some(isThing)) return said;
    const apart = said.filter((one) => !other.some((each) => alike(one, each)));
    return apart.length === 0 && said.length === other.length ? said : apart;
  }
  if (!isThing(said) || !isThing(other)) return said;
  const fields = Object.entries(said).filter(([key, value]) => !alike(value, other[key]));
  return Object.fromEntries(fields.map(([key, value]) => [key, saysApart(value, other[key])]));
};

interface Within {
  readonly words: Words;
  readonly list: string;
  /** The way to what is said, so that its fields are called as the form calls them. */
  readonly path: Path;
  /** Those of the feature a thing is said of. */
  readonly options?: Feature['options'];
}

/** What has fields of its own: what kind of thing it is, then each field as the form calls it. What has a name needs no id. */
const sayFields = (said: object, within: Within): string => {
  const { words, list, path } = within;
  const of = 'feature' in said ? words.feature(asId<FeatureId>(String(said.feature)))?.options : within.options;
  const options = of === undefined ? {} : { options: of };
  const fields = Object.entries(said).filter(([key, value]) => value !== undefined && !(key === 'id' && 'name' in said));
  const text = (key: string, value: unknown) => {
    const to = [...path, key];
    if (key === 'kind') return String(value);
    const is = sayPlain(value, { words, list, path: to, ...(key === 'feature' ? {} : options) });
    return typeof value === 'object' && value !== null && !Array.isArray(value)
      ? `${fieldWords(list, to).label} (${is})`
      : `${fieldWords(list, to).label}: ${is}`;
  };
  return [...fields.filter(([key]) => key === 'kind'), ...fields.filter(([key]) => key !== 'kind')]
    .map(([key, value]) => text(key, value))
    .join(', ');
};

const sayPlain = (said: unknown, within: Within): string => {
  if (said === true) return 'yes';
  if (said === false) return 'no';
  if (said === null) return 'not known';
  if (Array.isArray(said)) {
    const all = said.map((one) => sayPlain(one, { ...within, path: [...within.path, '*'] }));
    return all.length === 0 ? 'none' : all.join(said.some((one) => typeof one === 'object') ? '; ' : ', ');
  }
  if (typeof said === 'object') return sayFields(said, within);
  if (said === '') return 'nothing';
  if (typeof said === 'string' && said.trim() === '') return 'a space';
  return typeof said === 'number' ? withSign(String(said)) : (nameIn(within, String(said)) ?? String(said));
};

/** What of the vocabulary has this id, options of the feature that is spoken of first; null where nothing has. */
const nameIn = (
  {
    words: {
      vocabulary: { ports },
      feature,
      slot,
    },
    options,
  }: Within,
  id: string,
): string | null =>
  options?.find((one) => one.id === id)?.name ??
  feature(asId<FeatureId>(id))?.name ??
  slot(asId<SlotId>(id))?.name ??
  ports.find((port) => port.id === id)?.name ??
  null;

import type { AlteredSeen } from '../../db/answers.ts';
import type { Fact, FeatureId, Role } from '../../reasoner/index.ts';
import type { Words } from '../bridge/words.ts';
import { asId } from '../route/asId.ts';
import { roleWords } from '../values/roleWords.ts';
import { sayFact } from '../values/sayFact.ts';
import { fieldWords } from './fieldWords.ts';

type Said = AlteredSeen['before'];
/** What an entry of a list is called. */
export type NameOf = (list: string, id: string) => string;

/** What a field, or a line of one, is called: `Facts: inducer diameter`. */
export const cellName = (words: Words, { list, field, line }: Pick<AlteredSeen, 'list' | 'field' | 'line'>): string => {
  if (field === null) return 'the entry itself';
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
  if (said === null) return of.field === null ? 'not there' : 'nothing';
  if (of.field === 'facts' && of.line !== null) {
    const { source, ...fact } = said as unknown as Fact & { readonly source?: string };
    const text = sayFact(words.feature(asId<FeatureId>(of.line)), fact as Fact, words.unit);
    return source === undefined ? text : `${text}, by ${nameOf('sources', source)}`;
  }
  if (of.list === 'allowed') return roleWords[(said as { readonly role: Role }).role];
  if (of.field === null) return 'there';
  const { leadsTo } = of;
  return sayPlain(leadsTo === undefined || leadsTo === null ? said : namesOf(said, (id) => nameOf(leadsTo, id)), words);
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

const sayPlain = (said: unknown, words: Words): string => {
  if (said === true) return 'yes';
  if (said === false) return 'no';
  if (said === null) return 'not known';
  if (Array.isArray(said)) return said.length === 0 ? 'none' : said.map((one) => sayPlain(one, words)).join(', ');
  if (typeof said === 'object')
    return Object.entries(said)
      .map(([key, value]) => `${key} ${sayPlain(value, words)}`)
      .join(' ');
  return String(said);
};

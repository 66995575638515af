import type { AlteredSeen } from '../../db/answers.ts';
import type { Fact, FeatureId, Role } from '../../reasoner/index.ts';
import type { Words } from '../bridge/words.ts';
import { asId } from '../route/asId.ts';
import { roleWords } from '../values/roleWords.ts';
import { sayFact } from '../values/sayFact.ts';
import { fieldWords } from './fieldWords.ts';

type Said = AlteredSeen['before'];

/** What a field, or a line of one, is called: `Facts: inducer diameter`. */
export const cellName = (words: Words, { list, field, line }: Pick<AlteredSeen, 'list' | 'field' | 'line'>): string => {
  if (field === null) return 'the entry itself';
  if (list === 'allowed') return 'may sit there';
  if (field === 'facts' && line !== null) return words.featureName(asId<FeatureId>(line));
  const { label } = fieldWords(list, [field]);
  return line === null ? label : `${label}: ${line}`;
};

/** What a cell says, in short. */
export const sayCell = (words: Words, of: Pick<AlteredSeen, 'list' | 'field' | 'line'>, said: Said): string => {
  if (said === null) return of.field === null ? 'not there' : 'nothing';
  if (of.field === 'facts' && of.line !== null) {
    const { source, ...fact } = said as unknown as Fact & { readonly source?: string };
    const text = sayFact(words.feature(asId<FeatureId>(of.line)), fact as Fact);
    return source === undefined ? text : `${text}, by ${words.sourceTitle(asId(source))}`;
  }
  if (of.list === 'allowed') return roleWords[(said as { readonly role: Role }).role];
  return of.field === null ? 'there' : sayPlain(said, words);
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

import type { EditFault } from '../../db/answers.ts';
import type { FeatureId } from '../../reasoner/index.ts';
import { capital } from '../../reasoner/plain/text.ts';
import type { Words } from '../bridge/words.ts';
import { asId } from '../route/asId.ts';
import { fieldWords, listWords } from './fieldWords.ts';

/** The way in a fault’s text, as steps: `numbering[0].pieces[2].text`. Of a fact the second step is the feature, dots and all. */
export const pathOf = (field: string): readonly (string | number)[] => {
  if (field.startsWith('facts.')) return ['facts', field.slice('facts.'.length)];
  return [...field.matchAll(/([^.[\]]+)|\[(\d+)\]/g)].map(([, name, place]) => (place === undefined ? (name as string) : Number(place)));
};

/** What is wrong with a field, beside it. What nobody has given yet is not called wrong. */
export const sayFault = ({ found, expected }: Pick<EditFault, 'found' | 'expected'>): string =>
  found === '""' || found === 'nothing' || found === '[]' ? 'This is still to be given.' : `Found ${found}, expected ${expected}.`;

/** The same where it stands by itself: with what the field is called, and in which line of a list it is. */
export const sayFaultOf = (words: Words, fault: EditFault): string => {
  if (fault.edit === null || fault.field === null) return fault.sentence;
  const path = pathOf(fault.field);
  const [first, second] = path;
  if (first === 'facts' && typeof second === 'string') return `${words.featureName(asId<FeatureId>(second))}: ${sayFault(fault)}`;
  return `${placeIn(fault.list, path)}: ${sayFault(fault)}`;
};

/**
 * The same of an entry nobody edits, which rests on what is: with what it is called.
 * @param entry what it is called; of where a part may sit, `model, part`
 * @param gone what the entry is called that would be taken out and that it refers to; empty where that is not it
 */
export const sayFaultElsewhere = (fault: EditFault, entry: string, gone: string): string => {
  if (fault.list === 'allowed' && gone !== '') return `“${gone}” may still sit in ${entry.split(', ')[0]}: take it out there first.`;
  const of = `${capital(listWords[fault.list]?.one ?? fault.list)} “${entry}”`;
  const at = fault.field === null || fault.list === 'allowed' ? '' : `, ${placeIn(fault.list, pathOf(fault.field))}`;
  return gone === '' ? `${of}${at}: ${sayFault(fault)}` : `${of}${at} still refers to “${gone}”.`;
};

/** Where in an entry: `Trade name 2, From`. */
const placeIn = (list: string, path: readonly (string | number)[]): string => {
  // A line says by itself which list it is of, and by its place which line.
  const labels = path.flatMap((step, at) => {
    const { label } = fieldWords(list, path.slice(0, at + 1));
    return typeof step === 'number' ? [`${label} ${step + 1}`] : typeof path[at + 1] === 'number' ? [] : [label];
  });
  // The first says where to look, the last what is wrong.
  const place = labels.length <= 3 ? labels : [labels[0], ...labels.slice(-2)];
  return place.join(', ');
};

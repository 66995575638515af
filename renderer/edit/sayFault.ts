import type { EditFault } from '../../db/answers.ts';
import type { FeatureId } from '../../reasoner/index.ts';
import type { Words } from '../bridge/words.ts';
import { asId } from '../route/asId.ts';
import { fieldWords } from './fieldWords.ts';

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
  const labels = path.flatMap((step, at) => {
    const label = fieldWords(fault.list, path.slice(0, at + 1)).label;
    return typeof step === 'number' ? [String(step + 1)] : [label];
  });
  // The first says where to look, the last what is wrong.
  const place = labels.length <= 2 ? labels.join(' ') : `${labels[0]}, ${labels.slice(-3).join(' ')}`;
  return `${place}: ${sayFault(fault)}`;
};

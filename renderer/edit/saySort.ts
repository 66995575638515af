import { uncapital } from '../../reasoner/plain/text.ts';
import { fieldWords, listWords } from './fieldWords.ts';

const sorts: Readonly<Record<string, string>> = {
  allowed: 'parts that may sit in models',
  pack: 'what the pack says of itself',
  'parts.facts': 'what is known of parts',
  sheets: 'sample sheets',
};

/** What a line of a change counts: `parts`, `what is known of parts`, `makers, traded as`. */
export const saySort = (of: string): string => {
  const [list = of, field] = of.split('.');
  const said = sorts[of] ?? uncapital(listWords[list]?.name ?? list);
  return sorts[of] !== undefined || field === undefined ? said : `${said}, ${uncapital(fieldWords(list, [field]).label)}`;
};

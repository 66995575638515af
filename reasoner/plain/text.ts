/** `a`, `a and b`, `a, b and c`; `or` where it is one of them. */
export const list = (items: readonly string[], word: 'and' | 'or' = 'and'): string =>
  items.length <= 1 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} ${word} ${items.at(-1)}`;

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const uncapital = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** `a heat shield`, `an Osterhal`. */
export const withArticle = (text: string): string => `${/^[aeiou]/i.test(text) ? 'an' : 'a'} ${text}`;

const small = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

/** Up to so many are said in words; of two in one sentence both are, or neither. */
export const wordsUpTo = 12;

/** A whole number as it is said: in words up to twelve. */
export const numberInWords = (count: number): string => small[count] ?? String(count);

/** What one of several is called. */
export const singular = (plural: string): string => (plural.endsWith('s') ? plural.slice(0, -1) : plural);

/** What closes a subject before its verb: a comma, where it has one within. */
export const closing = (subject: string): string => (subject.includes(', ') ? ',' : '');

/** `1 row`, `2 rows`. */
export const counted = (count: number, one: string, several = `${one}s`): string => `${count} ${count === 1 ? one : several}`;

/**
 * What is wrong with the quotes of a table, by the code the reader of tables (papaparse) gives it: what was found and what was expected.
 * How quotes are to stand is said by RFC 4180 §2.
 */
export const quotingFault = (code: string): readonly [found: string, expected: string] =>
  code === 'MissingQuotes'
    ? ['a quote that is opened and not closed', 'a quote at both ends of the cell']
    : ['something beside a closing quote', 'a quote at both ends of the cell, and each within it written twice'];

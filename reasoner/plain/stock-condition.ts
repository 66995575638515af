/** What state a part on the shelf is in, best first. The shop's own words. */
export const stockConditions = [
  'new',
  'used, good as it is',
  'used, to be worked on',
  'whole core, to be rebuilt',
  'good for its pieces only',
  'not looked at yet',
] as const;
export type StockCondition = (typeof stockConditions)[number];

/** Those that may go into a build as they lie there. */
export const readyConditions: readonly StockCondition[] = ['new', 'used, good as it is'];

/** So many of one part in one condition, as a line of the stock list has them. */
export interface Lying {
  readonly many: number;
  readonly condition: StockCondition;
}

/** How many may go into a build as they lie there: what is in stock. */
export const readyOf = (lines: readonly Lying[]): number =>
  lines.reduce((sum, { many, condition }) => (readyConditions.includes(condition) ? sum + many : sum), 0);

/** What else lies there, by condition, best first: `1 used, to be worked on; 3 not looked at yet`; null where nothing does. */
const otherwise = (lines: readonly Lying[]): string | null => {
  const said = stockConditions.flatMap((condition) => {
    if (readyConditions.includes(condition)) return [];
    const many = lines.reduce((sum, line) => (line.condition === condition ? sum + line.many : sum), 0);
    return many === 0 ? [] : [`${many} ${condition}`];
  });
  return said.length === 0 ? null : said.join('; ');
};

/** ` (and 1 used, to be worked on)`; nothing where all that lies there may go in. */
const beside = (ready: number, lines: readonly Lying[]): string => {
  const rest = otherwise(lines);
  return rest === null ? '' : ` (${ready > 0 ? 'and ' : ''}${rest})`;
};

/**
 * For a column of figures: `2`, `2 (and 1 used, to be worked on)`, `0 (1 not looked at yet)`.
 * @param none what is said of none that is ready
 */
export const sayInStock = (lines: readonly Lying[], none = '0'): string => {
  const ready = readyOf(lines);
  return `${ready > 0 ? ready : none}${beside(ready, lines)}`;
};

/** For a line of text: `2 in stock (and 1 used, to be worked on)`; null where nothing lies. */
export const inStockPhrase = (lines: readonly Lying[]): string | null => {
  const ready = readyOf(lines);
  const more = beside(ready, lines);
  return ready === 0 && more === '' ? null : `${ready > 0 ? ready : 'none ready'} in stock${more}`;
};

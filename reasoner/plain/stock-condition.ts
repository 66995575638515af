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

/** For a column of figures: `2`, `2 (and 1 used, to be worked on)`, `0 (1 not looked at yet)`. */
export const sayInStock = (lines: readonly Lying[]): string => {
  const [ready, rest] = [readyOf(lines), otherwise(lines)];
  if (rest === null) return String(ready);
  return `${ready} (${ready > 0 ? 'and ' : ''}${rest})`;
};

/** For a line of text: `2 in stock (and 1 used, to be worked on)`; null where nothing lies. */
export const inStockPhrase = (lines: readonly Lying[]): string | null => {
  const [ready, rest] = [readyOf(lines), otherwise(lines)];
  if (ready === 0 && rest === null) return null;
  const more = rest === null ? '' : ` (${ready > 0 ? 'and ' : ''}${rest})`;
  return `${ready > 0 ? ready : 'none ready'} in stock${more}`;
};

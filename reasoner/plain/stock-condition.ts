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

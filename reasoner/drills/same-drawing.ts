import type { Facts } from './drill.ts';

/** As much of one side as the other shows, so that two drawings differ in what differs and not in what was looked at. */
export const sameDrawing = (facts: Facts, beside: Facts): Facts =>
  Object.fromEntries(Object.entries(facts).filter(([feature]) => feature in beside)) as Facts;

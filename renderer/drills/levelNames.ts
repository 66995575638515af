import type { DrillLevel } from '../../reasoner/index.ts';

/** What each level is called. */
export const levelNames: Readonly<Record<DrillLevel, string>> = {
  'by eye': 'beginner, by eye',
  measured: 'with instruments',
};

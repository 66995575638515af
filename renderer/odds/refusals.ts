import type { Check, Feature, Unseen } from '../../reasoner/index.ts';

/** The reasons a suggested check can be refused for, those that make sense for it: what needs no opening is not kept from by a seal. */
export const refusalsOf = (check: Check, feature: Feature | undefined): readonly Unseen['why'][] => [
  'could not see',
  ...(check.openingMinutes > 0 ? (['may not be opened'] as const) : []),
  ...(feature?.kind === 'measure' || feature?.instrument !== undefined ? (['no instrument'] as const) : []),
];

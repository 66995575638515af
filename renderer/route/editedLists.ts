/** The lists of the atlas that can be edited in the window, in the order they are shown: what a shop meets, then the vocabulary. */
export const editedLists = [
  'parts',
  'models',
  'families',
  'generations',
  'makers',
  'sources',
  'rates',
  'slots',
  'ports',
  'features',
  'joints',
  'stages',
  'instruments',
  'metals',
  'operations',
  'chains',
  'warmth',
  'drawings',
  'terms',
] as const;

export type EditedList = (typeof editedLists)[number];

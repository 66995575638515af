import type { DrillKind } from '../../reasoner/index.ts';

/** What each kind of drill is called. */
export const kindNames: Readonly<Record<DrillKind, string>> = {
  looks: 'name it from its looks',
  swapped: 'which slot gives it away',
  name: 'which name the parts can carry',
  check: 'what to check next',
  descent: 'order of descent',
  grammar: 'a name or none',
};

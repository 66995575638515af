import type { Stage } from '../../../reasoner/index.ts';
import type { Plain } from '../pack/draft.ts';

/** The strip-down, as the shop does it. Housings come off in either order; minutes are those of the stage alone. */
export const stages: readonly Plain<Stage>[] = [
  { id: 'as-received', name: 'as received', minutes: 0, after: [] },
  { id: 'borescope', name: 'borescope', minutes: 8, after: ['as-received'] },
  { id: 'compressor-housing-off', name: 'compressor housing off', minutes: 12, after: ['as-received'] },
  { id: 'turbine-housing-off', name: 'turbine housing off', minutes: 26, after: ['as-received'] },
  { id: 'core-stripped', name: 'core stripped', minutes: 44, after: ['compressor-housing-off', 'turbine-housing-off'] },
  { id: 'cut-or-sectioned', name: 'cut or sectioned', minutes: 95, after: ['core-stripped'] },
];

import type { Slot } from '../../../reasoner/index.ts';
import type { Plain } from '../pack/draft.ts';
import { otherWords } from './other-words.ts';

/** The ten slots. `swapMinutes` counts from the stage at which the part can be exchanged; a rotor part includes its balance. */
const plain: readonly Plain<Slot>[] = [
  { id: 'compressor-housing', name: 'compressor housing', group: 'housing', stage: 'compressor-housing-off', swapMinutes: 9 },
  { id: 'compressor-wheel', name: 'compressor wheel', group: 'core', stage: 'compressor-housing-off', swapMinutes: 48 },
  { id: 'backplate', name: 'backplate', group: 'core', stage: 'core-stripped', swapMinutes: 11 },
  { id: 'bearing-housing', name: 'bearing housing', group: 'core', stage: 'core-stripped', swapMinutes: 21 },
  { id: 'bearing-set', name: 'bearing set', group: 'core', stage: 'core-stripped', swapMinutes: 16 },
  { id: 'shaft', name: 'shaft', group: 'core', stage: 'core-stripped', swapMinutes: 53 },
  { id: 'turbine-wheel', name: 'turbine wheel', group: 'core', stage: 'core-stripped', swapMinutes: 86 },
  { id: 'heat-shield', name: 'heat shield', group: 'core', stage: 'turbine-housing-off', swapMinutes: 7 },
  { id: 'turbine-housing', name: 'turbine housing', group: 'housing', stage: 'turbine-housing-off', swapMinutes: 14 },
  { id: 'nameplate', name: 'nameplate', group: 'plate', stage: 'as-received', swapMinutes: 6 },
];

export const slots: readonly Plain<Slot>[] = plain.map(({ id, name, ...rest }) => ({ id, name, ...otherWords(id), ...rest }));

import type { Source } from '../../../reasoner/index.ts';
import type { Plain } from '../pack/draft.ts';

/** Where the facts of the demo pack come from. All of it is invented, the parts lists and the measuring book included. */
export const sources: readonly Plain<Source>[] = [
  { id: 'merrowby-list', title: 'Merrowby parts list, ninth issue (invented)', kind: 'invented' },
  { id: 'tarnwick-list', title: 'Tarnwick Turbine Company stock list (invented)', kind: 'invented' },
  { id: 'veldmark-list', title: 'Veldmark trim tables (invented)', kind: 'invented' },
  { id: 'osterhal-list', title: 'Osterhal Diesel spares book, three volumes (invented)', kind: 'invented' },
  { id: 'saltmarsh-book', title: 'Saltmarsh Rotor & Fuel, measuring book (invented)', kind: 'measured in the shop' },
];

import { type KeyGroup, keys } from '../look/keys.ts';
import type { Screen } from '../route/route.ts';

type Group = keyof typeof keys;

/** What each screen is called in help, and which keys it listens to besides those of every screen: the most used first. */
const screens: Readonly<Record<Screen['screen'], { readonly name: string; readonly keys: readonly Group[] }>> = {
  unit: { name: 'Unit', keys: ['unit', 'counting', 'listing', 'guided', 'boxes'] },
  build: { name: 'Build', keys: ['build', 'boxes'] },
  report: { name: 'Report', keys: [] },
  sheets: { name: 'Sheets', keys: ['lists'] },
  case: { name: 'Case file', keys: ['boxes'] },
  listings: { name: 'Many listings', keys: [] },
  retold: { name: 'Cases judged once more', keys: [] },
  backups: { name: 'Backups', keys: [] },
  settings: { name: 'The shop', keys: [] },
  stock: { name: 'Stock', keys: ['lists', 'boxes'] },
  prices: { name: 'Prices', keys: ['lists', 'boxes'] },
  packs: { name: 'Packs', keys: ['boxes'] },
  history: { name: 'History', keys: [] },
  table: { name: 'Bring a spreadsheet', keys: ['table', 'boxes'] },
  drills: { name: 'Drills', keys: ['drills'] },
  apart: { name: 'Tell apart', keys: ['boxes'] },
  glossary: { name: 'Glossary', keys: ['lists'] },
  tree: { name: 'Tree', keys: ['tree', 'boxes'] },
  edit: { name: 'Edit the atlas', keys: ['forms', 'lists', 'boxes'] },
  key: { name: 'Key', keys: ['boxes'] },
  atlas: { name: 'Atlas', keys: ['lists'] },
  unknown: { name: 'No such screen', keys: [] },
};

export const helpName = ({ screen }: Screen): string => screens[screen].name;

/** The keys of a screen: its own first, those of every screen last. */
export const keysOf = ({ screen }: Screen): readonly KeyGroup[] =>
  [...screens[screen].keys, 'everywhere' as const].map((group) => keys[group]);

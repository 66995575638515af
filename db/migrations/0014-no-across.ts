import type { Migration } from './migration.ts';

/** Nobody asks for the fits of both sides at once: SQLite would go through all of them. */
export const noAcross: Migration = {
  number: 14,
  name: 'no view of fits from both sides',
  sql: `
drop view across;
`,
};

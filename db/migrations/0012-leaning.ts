import type { Migration } from './migration.ts';

/** Which packs a pack leans on (A8); null for one that stands by itself. */
export const leaning: Migration = {
  number: 12,
  name: 'leaning',
  sql: `
alter table packs add column leans_on text check (leans_on is null or json_valid(leans_on));
`,
};

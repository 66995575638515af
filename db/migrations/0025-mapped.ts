import type { Migration } from './migration.ts';

/** What of a pack's words stands under an id of the atlas (P16); null for a pack that stands as it was brought. */
export const mapped: Migration = {
  number: 25,
  name: 'mapped',
  sql: `
alter table packs add column mapped text check (mapped is null or json_valid(mapped));
`,
};

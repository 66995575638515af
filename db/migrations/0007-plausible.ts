import type { Migration } from './migration.ts';

/** What a reading of a feature may be without being asked about (O7). Null where nobody has said. */
export const plausible: Migration = {
  number: 7,
  name: 'plausible sizes',
  sql: `
alter table features add column plausible_from real check (plausible_from is null or kind in ('measure', 'count'));
alter table features add column plausible_to real check ((plausible_from is null) = (plausible_to is null) and (plausible_to is null or plausible_from < plausible_to));
`,
};
